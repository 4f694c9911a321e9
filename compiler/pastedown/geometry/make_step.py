"""A step that the maker wrote: a thing to do, or with `reads:` a measurement to check."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.brackets import word_of
from pastedown.design.setting_names import GATHERING, STEP_SETTINGS
from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.actual import AS_DESIGNED
from pastedown.geometry.evaluate import length, text_value
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.make_join import Named
from pastedown.geometry.pose import FLAT, pose_at
from pastedown.geometry.ruler import ruler_of
from pastedown.quantity.quantity import Length
from pastedown.quantity.spread import give_or_take
from pastedown.quantity.write import write
from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import Step

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


def make_step(instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> model.Step:
    """The step with everything worked out. Raises Fault at its first fault."""
    step = entry.statement
    assert isinstance(step, Step)
    named = Named(instance, name, index, entry, scope)
    reads, least, most = (_length(named, label) for label in ("reads", "least", "most"))
    if reads is None and (least is not None or most is not None):
        if any(given.label not in STEP_SETTINGS for given in step.settings):
            raise Spoilt  # a setting was misspelt, and that has been told
        raise Fault(
            error(
                "missing-argument",
                named.span,
                "A step with least or most is a measurement, and says what the ruler reads.",
                way_out="Add reads: ...",
            )
        )
    # What was really made reads as it reads.
    allowed = instance.work.actual is not AS_DESIGNED
    out_of_band = reads is not None and ((least is not None and least > reads) or (most is not None and most < reads))
    if reads is not None and out_of_band and not allowed:
        ruler = ruler_of(instance)
        raise Fault(
            error(
                "reading-range",
                named.span,
                f"The reading of {named.path} is {write(reads, ruler)}, which its own least and most do not allow.",
                way_out=f"Let least be {write(reads, ruler)} or less, and most {write(reads, ruler)} or more.",
            )
        )
    return model.Step(
        path=named.path,
        part=instance.path,
        component=instance.component.name,
        name=name,
        text=text_value(step.text, scope).pieces,
        reads=reads,
        least=least,
        most=most,
        give=_give(instance, reads, step.span) if reads is not None else None,
        tip=named.text("tip"),
        caution=named.text("caution"),
        after=named.paths("after"),
        before=named.paths("before"),
        span=named.span,
        shown=_shown(named),
        gathered=tuple((label, path) for label in GATHERING for path in dict.fromkeys(named.paths(label))),
    )


def _shown(named: Named) -> str:
    """The path of the pose in which the step is drawn; `flat`, which is built in, is taken as a pose of its part."""
    setting = named.setting("shown")
    if setting is None:
        return ""
    value, scope = setting
    if word_of(value) == FLAT:
        return named.instance.path_of(FLAT, None)
    if not isinstance(value, Path):
        raise Spoilt  # that it is no pose has been told
    return pose_at(value, scope).path


def _give(instance: Instance, reads: Length, span: Span) -> Length | None:
    """How far off the errors of the hand may bring a reading: their root-sum-square, up to the next half mark of the
    ruler, as near as a hand can read."""
    if reads.errors is None:
        return None
    instance.work.spend(span, reads.errors.size())
    return give_or_take(reads, ruler_of(instance).marks / 2)


def _length(named: Named, label: str) -> Length | None:
    setting = named.setting(label)
    return None if setting is None else length(*setting)
