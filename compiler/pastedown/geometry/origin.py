"""Follows a fact back, as long as it is but another one by its name, to the number or the sum that states it."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of, follow
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope
from pastedown.tree.expression import Dot, Expression, Path
from pastedown.tree.statement import Takes

# A chain of names that is longer than this is followed no further.
MOST_HOPS = 20


@frozen(eq=False)
class Origin:
    """What states a fact: `expression` where it stands in `scope`, which is that of the fact called `path`, so many
    `hops` away."""

    path: str
    expression: Expression
    scope: Scope
    hops: int


def origin_of(owner: Instance, name: str) -> Origin | None:
    """What states a fact of a part; None where several things do, or nothing that is written."""
    try:
        return _origin_of(owner, name)
    except (Fault, Spoilt):
        return None


def _origin_of(owner: Instance, name: str) -> Origin | None:
    for hops in range(MOST_HOPS):
        found = list(said_of(owner, name))
        if len(found) != 1:
            return None
        expression, scope = found[0]
        after = owned(expression, scope) if isinstance(expression, Path) else None
        if after is None:
            return Origin(owner.path_of(name, None), expression, scope, hops)
        owner, name = after
    return None


def owned(path: Path, scope: Scope) -> tuple[Instance, str] | None:
    """The part and the fact of it that a path means; of a family the first member. None for anything else."""
    if path.head in scope.locals:
        return None
    if not path.trailers:
        part = scope.part
        known = part is not None and part.has(path.head) and part.kind_of(path.head) in (None, Takes)
        return (part, path.head) if part is not None and known else None
    last = path.trailers[-1]
    if not isinstance(last, Dot):
        return None
    holder = follow(Path(path.head, path.trailers[:-1], span=path.span, head_span=path.head_span), scope)
    first = next(iter(each_of(holder)), None)
    if not isinstance(first, Instance) or first.kind_of(last.name) not in (None, Takes) or not first.has(last.name):
        return None
    return first, last.name


def said_of(owner: Instance, name: str) -> Iterator[tuple[Expression, Scope]]:
    """The words that say what a fact of a part is."""
    if owner.kind_of(name) not in (None, Takes):
        return
    setting = owner.setting(name)
    if setting is not None and setting.value is not None:
        yield setting.value, setting.scope
    elif owner.kind_of(name) is Takes:
        _, entry, scope = owner.declared(name)[0]
        if isinstance(entry.statement, Takes) and entry.statement.default is not None:
            yield entry.statement.default, scope
