"""A fold made in place, over an edge of what the piece already lies on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.setting_names import CREASE_SETTINGS
from pastedown.design.slips import follows_nothing, not_a_panel
from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import single
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import follow, line_at
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.make_join import Named
from pastedown.geometry.value import FaceValue, LineValue, PanelValue
from pastedown.tree.expression import Path
from pastedown.tree.statement import Fold

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


def make_crease(instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> model.Crease:
    """The crease with everything worked out. Raises Fault at its first fault."""
    fold = entry.statement
    assert isinstance(fold, Fold)
    if fold.kind != "in_place":
        raise Fault(
            error(
                "fold-kind",
                fold.kind_span,
                f"Outside a run a fold is made in place, not {fold.kind}.",
                way_out=f"Write fold {name}: in_place, on: ..., over: ...; mountains and valleys stand in a run.",
            )
        )
    named = Named(instance, name, index, entry, scope)
    on, over = _path(named, "on"), _path(named, "over")
    value = single(follow(*on), on[0].span)
    if isinstance(value, PanelValue):
        value = FaceValue(value.piece, value.axis, value.name, "face")
    if not isinstance(value, FaceValue):
        raise Fault(not_a_panel(on[0], describe(value)))
    return model.Crease(
        path=named.path,
        part=instance.path,
        component=instance.component.name,
        name=name,
        on=model.Side(on[0].span.text, ((value.piece.path, value.panel, value.side),)),
        over=line_at(*over).words,
        tip=named.text("tip"),
        caution=named.text("caution"),
        after=named.paths("after"),
        before=named.paths("before"),
        span=named.span,
        follows=_followed(named),
    )


def _followed(named: Named) -> tuple[str, str] | None:
    """What turns where the crease turns. Raises Fault where that is neither a fold nor a panel that bends."""
    setting = named.setting("follows")
    if setting is None:
        return None
    expression, scope = setting
    value = single(follow(expression, scope), expression.span) if isinstance(expression, Path) else None
    if isinstance(value, LineValue) and value.fold:
        return value.piece.path, value.fold
    if isinstance(value, PanelValue) and value.piece.panel(value).bends:
        return value.piece.path, value.name
    raise Fault(follows_nothing(expression, describe(value) if value is not None else "something else"))


def _path(named: Named, label: str) -> tuple[Path, Scope]:
    setting = named.setting(label)
    if setting is None and any(given.label not in CREASE_SETTINGS for given in named.settings):
        raise Spoilt  # a setting was misspelt, and that has been told
    if setting is not None and named.instance.work.is_spoilt(setting[0].span):
        raise Spoilt
    if setting is None or not isinstance(setting[0], Path):
        raise Fault(
            error(
                "missing-argument",
                named.span,
                f"A fold in place says what it lies on and over which edge; {label} is missing.",
                way_out="Add on: and the panel that it lies on."
                if label == "on"
                else "Add over: and the edge that it is bent over.",
            )
        )
    return setting[0], setting[1]
