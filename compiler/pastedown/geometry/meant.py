"""A requirement that is not met on purpose: `shut.shuts.meant = "It is to stand proud."`

Only where the component says `may_be_meant: yes` of it, so that no looseness of words lets a thing through that cannot
be built. The reason stays with the requirement and is told wherever its verdict is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.diagnostic import Label, error
from pastedown.geometry import model
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, single, truth
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import TextValue
from pastedown.tree.statement import Require

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


def meant(instance: Instance, name: str, requirement: Require, scope: Scope) -> model.WorkedText:
    """Why the maker lets a requirement go unmet; nothing where nobody says so. Raises Fault where it may not, and where
    no reason is given."""
    for layer in instance.layers_below(name, None, instance):
        entry = layer.set_to("meant")
        if entry is None or entry.value is None:
            continue
        if not _may_be(requirement, scope):
            raise Fault(
                error(
                    "not-to-be-meant",
                    entry.span,
                    f"{instance.path_of(name, None)} has to be met, whatever is meant.",
                    reason="Only a requirement of which its component says may_be_meant: yes is a matter of taste.",
                    way_out="Leave this out, and meet the requirement.",
                    labels=(Label(requirement.name_span, "required here"),),
                )
            )
        value = single(evaluate(entry.value, entry.scope), entry.value.span)
        if not isinstance(value, TextValue) or not value.pieces:
            raise Fault(
                error(
                    "wrong-kind",
                    entry.value.span,
                    f"meant is a reason in quotes, and this is {describe(value)}.",
                    way_out='Write why it is meant: "...".',
                )
            )
        return value.pieces
    return ()


def _may_be(requirement: Require, scope: Scope) -> bool:
    return any(setting.label == "may_be_meant" and truth(setting.value, scope) for setting in requirement.settings)
