"""Joins that can slide: one alignment each way says where a thing lies, one alone leaves it free along the other
way."""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.model import Model


def look(model: Model) -> Iterator[Diagnostic]:
    """Each kind of join once; nothing where a statement that could not be read may have been the alignment."""
    if not model.read_whole:
        return
    told: set[tuple[str, str]] = set()
    for join in model.joins:
        if join.closes or (join.component, join.name) in told:
            continue
        missing = sorted({"height", "width"} - {alignment.axis for alignment in join.alignments})
        if not missing:
            continue
        told.add((join.component, join.name))
        middle = f"mid_{missing[0]}"
        yield error(
            "join-slides",
            join.span,
            f"{join.path} can slide along the {' and the '.join(missing)}: nothing says where it lies that way.",
            reason="What is not aligned is set by eye, and no two come out alike.",
            way_out=f"Add an align for the {missing[0]}, as in "
            f"align {join.what.path}.{middle} to {join.to.path}.{middle}.",
        )
