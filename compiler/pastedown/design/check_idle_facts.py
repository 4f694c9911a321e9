"""Checks an album for facts that nothing reads and that are called almost like one with a meaning of its own."""

from __future__ import annotations

from pastedown.design import infer_path
from pastedown.design.inference import Inference
from pastedown.design.kind import KIND_OF_ALBUM_FACT
from pastedown.design.recipe import ComponentOf
from pastedown.diagnostic import warning
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.tree.statement import Fact

# What belongs to one join, step or fold, and means nothing as a fact of the whole.
_OF_ONE_STEP = ("tip", "caution")


def check_idle_advice(inference: Inference, component: ComponentOf) -> None:
    """Tell of `caution = "..."` in the braces of an album or a component, which no step would show. To be called when
    everything else was checked."""
    for name in _OF_ONE_STEP:
        for placed in component.body.by_name.get(name, ()):
            statement = placed.statement
            if isinstance(statement, Fact) and not statement.path.trailers and name not in inference.read:
                inference.tell(
                    warning(
                        "idle-fact",
                        statement.path.span,
                        f"Nothing reads {name}; it is no part of a step here.",
                        reason=f"A {name} is printed with one join, close, fold or step, and this names none.",
                        way_out=f"Write the name of what it belongs to before it, as in mount.{name} = ...",
                    )
                )


def check_idle_facts(inference: Inference, album: ComponentOf) -> None:
    """Tell of `titel = "..."`. To be called when everything else was checked: `read` has to be whole by then."""
    view = inference.view_of(album)
    for name, placed in album.body.by_name.items():
        statement = placed[0].statement
        if name in inference.read or name in KIND_OF_ALBUM_FACT:
            continue
        if not isinstance(statement, Fact) or statement.path.trailers:
            continue
        meant = nearest_name(name, KIND_OF_ALBUM_FACT)
        if meant is None:
            continue
        if infer_path.kind_in_view(inference, view, name, statement.path.span) != KIND_OF_ALBUM_FACT[meant]:
            continue
        inference.tell(
            warning(
                "idle-fact",
                statement.path.span,
                f"Nothing reads {name}; {meant} is what an album has.",
                reason="A fact of any name may be stated, so a slip in a name with a meaning would go unseen.",
                way_out=f"Did you mean `{meant}`?",
            )
        )
