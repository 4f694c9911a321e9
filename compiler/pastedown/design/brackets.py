"""What stands in the brackets of the language's own functions: by place or by label, what is needed, which words.

One table for the checks before and while working out, so that both tell the same mistake in the same words.
"""

from __future__ import annotations

from attrs import frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.tree.expression import Argument, Call, Expression, Path

# So many values stand in one pair of brackets at most.
MOST_VALUES = 500
_AXES = ("height", "width")
# What is counted of a stack: only what is named, or all that lies on it too.
STATES = ("blank", "loaded")


@frozen
class ByPlace:
    """A function that takes its values without names, up to `most` of them. `words` are labels that take one of a few
    words; they are needed. So are the labels in `needs`; those in `may_have` may be left out, and those in `may_say`
    too, which take one of a few words. `what` are the values called, and `way_out` is told where there is none."""

    most: int
    words: tuple[tuple[str, tuple[str, ...]], ...] = ()
    what: str = "value"
    way_out: str = ""
    needs: tuple[str, ...] = ()
    may_have: tuple[str, ...] = ()
    may_say: tuple[tuple[str, tuple[str, ...]], ...] = ()

    @property
    def labels(self) -> tuple[str, ...]:
        return (*self.needs, *dict(self.words), *self.may_have, *dict(self.may_say))


@frozen
class ByLabel:
    """A function that takes its values by label. The first of `needs` may go without its name. `words` are labels
    that take one of a few words; they are needed. `where` says what a treatment is done to: "corner", "edge" or
    "inside", and "" for what is no treatment."""

    needs: tuple[str, ...]
    may_have: tuple[str, ...] = ()
    words: tuple[tuple[str, tuple[str, ...]], ...] = ()
    where: str = ""
    is_wanting: str = ""
    way_out: str = ""

    @property
    def known(self) -> tuple[str, ...]:
        return (*self.needs, *self.may_have, *dict(self.words))


# The first length of each treatment is the one that may go without its name.
TREATMENTS: dict[str, ByLabel] = {
    "mitre": ByLabel(("size",), ("along_height",), where="corner"),
    "round": ByLabel(("radius",), where="corner"),
    "notch": ByLabel(("width", "depth"), ("at",), where="edge"),
    "thumb_notch": ByLabel(("width",), ("depth", "at"), where="edge"),
    "taper": ByLabel(("by",), where="edge"),
    "window": ByLabel(("height", "width"), ("from_left", "from_tail", "radius"), where="inside"),
    "slit": ByLabel(("length",), ("from_left", "from_tail"), (("along", _AXES),), where="inside"),
}
BRACKETS: dict[str, ByPlace | ByLabel] = {
    "min": ByPlace(MOST_VALUES),
    "max": ByPlace(MOST_VALUES),
    "sum": ByPlace(MOST_VALUES),
    "count": ByPlace(1),
    "whole": ByPlace(1),
    "square_root": ByPlace(1),
    "on_paper": ByPlace(1),
    "placed": ByPlace(
        MOST_VALUES,
        words=(("along", _AXES),),
        what="join",
        way_out="Name the join that places it, as in placed(mount[1], along: height).",
    ),
    "skew": ByPlace(MOST_VALUES, what="join", way_out="Name the join that places it, as in skew(mount[1])."),
    "off_by": ByLabel(
        ("by", "what"),
        is_wanting="off_by needs an amount and its cause.",
        way_out='Write off_by(1/64 in, what: "swelling of the card").',
    ),
    "thickness": ByPlace(
        MOST_VALUES,
        what="thing",
        way_out="Name a part, a piece or a place, as in thickness(sheet).",
        may_have=("pose", "over", "to"),
        may_say=(("state", STATES),),
    ),
    "steepest": ByPlace(
        MOST_VALUES,
        what="thing",
        way_out="Write steepest(sheet, above: room, from: sheet.left).",
        needs=("above", "from"),
        may_have=("pose", "over"),
        may_say=(("state", STATES),),
    ),
    "wedge": ByPlace(1, what="slope"),
    "middles_apart": ByLabel(
        ("from", "to"),
        ("pose",),
        (("along", _AXES),),
        is_wanting="middles_apart needs two sides of paper, and along which way.",
        way_out="Write middles_apart(one.face, to: other.face, along: width).",
    ),
    "face_to_face": ByLabel(
        ("from", "to"),
        ("pose",),
        is_wanting="face_to_face needs two sides of paper.",
        way_out="Write face_to_face(one.face, to: other.face).",
    ),
    "lies_under": ByLabel(
        ("from",),
        ("pose",),
        is_wanting="lies_under needs a side of paper.",
        way_out="Write lies_under(card.leaf.face).",
    ),
    "lies_level": ByLabel(
        ("from",),
        ("pose",),
        is_wanting="lies_level needs a side of paper.",
        way_out="Write lies_level(over.back).",
    ),
    "choose": ByLabel(
        ("when", "yes", "no"),
        is_wanting="choose needs a condition and both outcomes.",
        way_out="Write choose(a > b, yes: a, no: b).",
    ),
    "span": ByLabel(
        ("from", "to", "pose"),
        words=(("along", _AXES),),
        way_out="Write span(strip.front_end, to: strip.back_end, along: width, pose: made_up).",
    ),
    **TREATMENTS,
}


def values_of(call: Call) -> tuple[dict[str, Expression], Diagnostic | None]:
    """The values in the brackets of a function by their labels ("0", "1" ... where they go by place), and what is
    wrong with them: a label that is not known or given twice, a value too many or too few, a wrong word."""
    function = BRACKETS[call.called.head]
    return _by_place(call, function) if isinstance(function, ByPlace) else _by_label(call, function)


def _by_place(call: Call, function: ByPlace) -> tuple[dict[str, Expression], Diagnostic | None]:
    name = call.called.head
    values = {str(at): argument.value for at, argument in enumerate(call.arguments) if not argument.label}
    given, labels = len(values), function.labels
    for argument in call.arguments:
        if argument.label in labels and argument.label not in values:
            values[argument.label] = argument.value
        elif argument.label:
            return values, _refused_label(name, function, argument, values)
    if 1 <= given <= function.most:
        return values, _without_word(call, function, values)
    several = f"up to {function.most} {function.what}s" if given else f"at least one {function.what}"
    wanted = f"one {function.what}" if function.most == 1 else several
    there = f"are {given}" if given else "is none"
    way_out = (
        function.way_out or f"Write {wanted} in its brackets."
        if given <= MOST_VALUES
        else "Put them into several lists, and take those together."
    )
    return values, error("missing-argument", call.span, f"{name} takes {wanted}, and here {there}.", way_out=way_out)


def _refused_label(name: str, function: ByPlace, argument: Argument, found: dict[str, Expression]) -> Diagnostic:
    label = argument.label
    if label in found:
        return error("set-twice", argument.span, f"{label} is given twice.", way_out="Keep one of them.")
    if not function.labels:
        sentence = f"{name} takes its {function.what}s without names."
        way_out = f"Write {argument.value.span.text} alone."
        return error("unknown-argument", argument.span, sentence, way_out=way_out)
    known = function.labels
    way_out = did_you_mean(label, known) or f"It takes {function.what}s, and {', '.join(known)}."
    return error("unknown-argument", argument.label_span or argument.span, f"{name} has no {label}.", way_out=way_out)


def _without_word(call: Call, function: ByPlace, found: dict[str, Expression]) -> Diagnostic | None:
    """What is told where a label is missing or takes another word than one of the few it may."""
    name = call.called.head
    for label in function.needs:
        if label not in found:
            way_out = function.way_out or f"Add {label}: ... in the brackets."
            return error("missing-argument", call.span, f"{name} needs {label}.", way_out=way_out)
    for label, allowed in function.may_say:
        if label in found and (fault := wrong_word(label, found[label], allowed)) is not None:
            return fault
    for label, allowed in function.words:
        if label not in found:
            or_else = " or ".join(f"{label}: {word}" for word in allowed)
            return error("missing-argument", call.span, f"{name} needs {label}.", way_out=f"Write {or_else}.")
        fault = wrong_word(label, found[label], allowed)
        if fault is not None:
            return fault
    return None


def _by_label(call: Call, function: ByLabel) -> tuple[dict[str, Expression], Diagnostic | None]:
    name, found = call.called.head, dict[str, Expression]()
    fault: Diagnostic | None = None
    for at, argument in enumerate(call.arguments):
        label = argument.label or (function.needs[0] if at == 0 else "")
        where = argument.label_span or argument.span
        if label not in function.known:
            sentence = f"{name} has no {label or 'further value without a name'}."
            way_out = did_you_mean(label, function.known) or f"It takes {', '.join(function.known)}."
            fault = fault or error("unknown-argument", where, sentence, way_out=way_out)
        elif label in found:
            fault = fault or error("set-twice", where, f"{label} is given twice.", way_out="Keep one of them.")
        else:
            found[label] = argument.value
    return found, fault or _lacking(call, function, found) or _wrong_word(name, function, found)


def _lacking(call: Call, function: ByLabel, found: dict[str, Expression]) -> Diagnostic | None:
    missing = next((label for label in (*function.needs, *dict(function.words)) if label not in found), None)
    if missing is None:
        return None
    name = call.called.head.replace("_", " ")
    needs = f"A {name} needs its {missing}." if function.where else f"{name} needs {missing}."
    sentence = function.is_wanting or needs
    way_out = function.way_out or f"Add {missing}: ... in the brackets."
    return error("missing-argument", call.span, sentence, way_out=way_out)


def _wrong_word(name: str, function: ByLabel, found: dict[str, Expression]) -> Diagnostic | None:
    for label, allowed in function.words:
        fault = wrong_word(label, found[label], allowed)
        if fault is not None and name == "span":
            sentence = "A span is measured along the height or along the width."
            way_out = did_you_mean(word_of(found[label]), allowed) or "Write along: height or along: width."
            return error(fault.id, fault.span, sentence, way_out=way_out)
        if fault is not None:
            return fault
    return None


def word_of(expression: Expression) -> str:
    """The bare word that an expression is; "" for anything else."""
    return expression.head if isinstance(expression, Path) and not expression.trailers else ""


def wrong_word(label: str, expression: Expression, allowed: tuple[str, ...]) -> Diagnostic | None:
    """What is told of something that is none of the few words allowed; None where it is one."""
    word = word_of(expression)
    if word in allowed:
        return None
    way_out = did_you_mean(word, allowed) or f"Write one of them, such as {allowed[0]}."
    return error("unknown-choice", expression.span, f"{label} is one of {', '.join(allowed)}.", way_out=way_out)
