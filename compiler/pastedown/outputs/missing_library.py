"""What an output says when it needs a library that is not installed, or a font with more letters."""


class MissingLibrary(Exception):
    """An output cannot be made here. The text says which one, what to install, and what serves instead."""


class FilesWanting(dict[str, bytes]):
    """Files that were made and are not all they should be; `wanting` says what they lack, in a sentence."""

    wanting: str = ""


def files_wanting(files: dict[str, bytes], wanting: str) -> dict[str, bytes]:
    """The files, with the sentence where there is one."""
    if not wanting:
        return files
    made = FilesWanting(files)
    made.wanting = wanting
    return made
