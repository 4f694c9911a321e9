"""The ruler of a design: a fact of the album, seen by every part it makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance

_SHOWS = {show.value: show for show in Show}


def ruler_of(instance: Instance) -> Ruler:
    """The ruler that the design's album states, or inches to 1/16 where it states none."""
    root = instance.work.root or instance
    if (root, "ruler") in root.work.busy:
        return INCH_RULER  # wanted by a message about what the ruler itself hangs on
    try:
        stated = root.fact_or_none("ruler")
        ruler = stated if isinstance(stated, Ruler) else INCH_RULER
        show = _show(root)
    except Fault as fault:
        root.work.tell(fault.diagnostic)
        return INCH_RULER
    except Spoilt:
        return INCH_RULER
    return evolve(ruler, show=show) if show is not None else ruler


def states_ruler(instance: Instance) -> bool:
    """Whether the design's album says what the maker's ruler is; only then can anything be held against its marks."""
    root = instance.work.root or instance
    return any(len(entry.path) == 1 for layer in root.layers for entry in layer.entries("ruler"))


def _show(root: Instance) -> Show | None:
    from pastedown.tree.expression import Path

    setting = root.setting("show")
    if setting is None or setting.value is None:
        return None
    word = setting.value.head if isinstance(setting.value, Path) and not setting.value.trailers else ""
    if word not in _SHOWS:
        root.work.tell(
            error(
                "unknown-choice",
                setting.value.span,
                "Lengths are shown in inches, metric or both.",
                way_out=did_you_mean(word, _SHOWS) or "Write show = inches, show = metric or show = both.",
            )
        )
        return None
    return _SHOWS[word]
