"""Takes the parts of each form of the grammar, gives its node of the tree: a method a form, named as in the grammar."""

from attrs import frozen

from pastedown.source import Span
from pastedown.syntax.build_values import Block, BuildValues, Parts, over, value_of, whole
from pastedown.syntax.token import Token
from pastedown.tree.expression import Expression, Path, Text
from pastedown.tree.statement import (
    Album,
    Align,
    Amend,
    Component,
    Each,
    Fact,
    Family,
    Fold,
    Join,
    Panel,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Run,
    Setting,
    Statement,
    Step,
    Takes,
    TypeName,
    Use,
    Variant,
    When,
)  # fmt: skip


@frozen
class Tail:
    """The text and the braces that may end a statement, in either order."""

    doc: Text | None
    body: tuple[Statement, ...]
    span: Span


class BuildShared:
    """Forms that statements are made of."""

    def block(self, parts: Parts) -> Block:
        return Block(tuple(parts[1:-1]), over(parts[0], parts[-1]))

    def settings(self, parts: Parts) -> tuple[Setting, ...]:
        return tuple(parts)

    def setting(self, parts: Parts) -> Setting:
        _, label, value = parts
        return Setting(label.value, value, over(label, value), label.word_span)

    def tail(self, parts: Parts) -> Tail | None:
        if not parts:
            return None
        doc = next((value_of(part) for part in parts if isinstance(part, Token)), None)
        body = next((part.body for part in parts if isinstance(part, Block)), ())
        return Tail(doc, body, over(parts[0], parts[-1]))

    def family(self, parts: Parts) -> Family:
        (name,) = parts
        return name if isinstance(name, Family) else Family(name.value, name.word_span)

    def title(self, parts: Parts) -> Family:
        return self.family(parts[:1])

    def indexed(self, parts: Parts) -> Family:
        name = parts[0]
        if len(parts) == 4:
            return Family(name.value, whole(parts), index=parts[2])
        return Family(name.value, whole(parts), counter=parts[2].value, first=parts[4], last=parts[6])

    def bounds(self, parts: Parts) -> tuple[Expression, Expression]:
        return parts[1], parts[3]

    def default(self, parts: Parts) -> tuple[Expression]:
        return (parts[1],)

    def type(self, parts: Parts) -> TypeName:
        inner = [part for part in parts[1:] if isinstance(part, Path | Setting)]
        words = tuple(part for part in inner if isinstance(part, Path))
        settings = tuple(part for part in inner if isinstance(part, Setting))
        return TypeName(parts[0].value, words, settings, whole(parts))

    def type_word(self, parts: Parts) -> Path:
        (name,) = parts
        return Path(name.value, (), name.span, name.span)

    def type_setting(self, parts: Parts) -> Setting:
        label, value = parts
        return Setting(label.value, value, over(label, value), label.word_span)


class BuildThings:
    """Statements that declare what there is: files, facts, parts, pieces and what runs across them."""

    def file(self, parts: Parts) -> tuple[Statement, ...]:
        return tuple(parts)

    def use(self, parts: Parts) -> Use:
        at = next(at for at, part in enumerate(parts) if part.type == "FROM")
        names = tuple((part.value, part.span) for part in parts[1:at:2])
        first, *rest = parts[at + 1 :]
        if first.type == "TEXT":
            return Use(names, "".join(first.value.pieces), True, first.span, whole(parts))
        source = ".".join(part.value for part in (first, *rest))
        return Use(names, source, False, over(first, parts[-1]), whole(parts))

    def fact(self, parts: Parts) -> Fact:
        path, _, value, doc = parts
        return Fact(path, value, value_of(doc), False, whole(parts))

    def fixed(self, parts: Parts) -> Fact:
        _, path, _, value, doc = parts
        return Fact(path, value, value_of(doc), True, whole(parts))

    def amend(self, parts: Parts) -> Amend:
        path, _, block = parts
        return Amend(path, block.body, whole(parts))

    def component(self, parts: Parts) -> Component:
        _, name, doc, block = parts
        return Component(name.value, value_of(doc), block.body, whole(parts), name.span)

    def album(self, parts: Parts) -> Album:
        _, name, doc, block = parts
        return Album(name.value, value_of(doc), block.body, whole(parts), name.span)

    def variant(self, parts: Parts) -> Variant:
        _, name, _, base, doc, block = parts
        return Variant(name.value, base, value_of(doc), block.body, whole(parts), name.span)

    def takes(self, parts: Parts) -> Takes:
        _, name, kind, bounds, default, doc = parts
        least, most = bounds or (None, None)
        value = default[0] if default else None
        return Takes(name.value, kind, least, most, value, value_of(doc), whole(parts), name.word_span)

    def part(self, parts: Parts) -> Part:
        _, family, _, value, doc = parts
        return Part(family, value, value_of(doc), whole(parts))

    def piece(self, parts: Parts) -> Piece:
        _, family, _, stock, settings, tail = parts
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Piece(family, stock, settings, body, doc, whole(parts))

    def run(self, parts: Parts) -> Run:
        _, start, _, end, block = parts
        return Run(start, end, block.body, whole(parts))

    def panel(self, parts: Parts) -> Panel:
        _, family, size, settings, doc = parts
        return Panel(family, size, settings, value_of(doc), whole(parts))

    def fold(self, parts: Parts) -> Fold:
        _, family, kind, settings, doc = parts
        return Fold(family, kind.value, settings, value_of(doc), whole(parts), kind.span)

    def each(self, parts: Parts) -> Each:
        _, counter, _, first, _, last, block = parts
        return Each(counter.value, first, last, block.body, whole(parts))

    def when(self, parts: Parts) -> When:
        _, condition, block = parts
        return When(condition, block.body, whole(parts))


class BuildRelations:
    """Statements that say how things lie to one another, in which order, and what must hold."""

    def join(self, parts: Parts) -> Join:
        return self._join(parts, closes=False)

    def close(self, parts: Parts) -> Join:
        return self._join(parts, closes=True)

    def _join(self, parts: Parts, *, closes: bool) -> Join:
        _, family, what, _, to, settings, tail = parts
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Join(family, what, to, settings, body, closes, doc, whole(parts))

    def align(self, parts: Parts) -> Align:
        _, what, _, to, settings = parts
        return Align(what, to, settings, whole(parts))

    def place(self, parts: Parts) -> Place:
        tail = parts[-1]
        faces = tuple(part for part in parts[2:-1] if isinstance(part, Path))
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Place(parts[1], faces, body, doc, whole(parts))

    def pose(self, parts: Parts) -> Pose:
        family, base, block = parts[1], parts[3], parts[-1]
        return Pose(family, base, block.body, whole(parts))

    def require(self, parts: Parts) -> Require:
        return self._require(parts, strict=True)

    def prefer(self, parts: Parts) -> Require:
        return self._require(parts, strict=False)

    def _require(self, parts: Parts, *, strict: bool) -> Require:
        _, name, condition, _, because, settings = parts
        return Require(name.value, condition, because.value, settings, strict, whole(parts), name.word_span)

    def step(self, parts: Parts) -> Step:
        _, family, text, settings = parts
        return Step(family, text.value, settings, whole(parts))


class Build(BuildValues, BuildShared, BuildThings, BuildRelations):
    """Every form of the grammar."""
