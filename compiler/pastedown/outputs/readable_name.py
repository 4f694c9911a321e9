"""Names of the recipe, as they are read aloud at the table."""

from pastedown.outputs.safe_text import plain


def readable(name: str) -> str:
    """The name without the recipe's marks: "rise[2]" is read "rise 2", "fore_edge" is read "fore edge"."""
    return plain(name.replace("_", " ").replace("[", " ").replace("]", ""))
