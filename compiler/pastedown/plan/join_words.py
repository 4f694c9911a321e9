"""What is brought to what, in words: the faces, the lines that meet, and what holds them."""

from collections.abc import Mapping

from pastedown.geometry.model import Alignment, Crease, Join, Side
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.plan import PlanText
from pastedown.plan.sentence import paragraph, sentence
from pastedown.plan.words import last_name, listed, read_inside_out, read_piece, spoken, within
from pastedown.quantity.quantity import NO_LENGTH

_OTHER_SIDE = {"outside": "inside", "inside": "outside"}
_MIDDLES = {"mid_height": "from head to tail", "mid_width": "from side to side"}


def join_text(join: Join, stock: str, pieces: Mapping[str, FlatPiece]) -> PlanText:
    """The whole instruction for a join or a close, before the maker's own words about it. Where parts of the design are
    joined it speaks of them first, and then of the pieces within each."""
    parts = _parts_joined(join, pieces)
    called = _Called(join, pieces, parts)
    return paragraph(
        _what_to_what(join, stock, pieces, called, parts),
        *(_meeting(line, called) for line in sorted_alignments(join) if line.what != line.to),
        _movement(join),
        join.doc,
    )


def crease_text(crease: Crease) -> PlanText:
    """The whole instruction for a fold made where the piece lies."""
    on = _things(crease.on, crease.part)
    over = read_inside_out(within(crease.over, crease.part))
    return (f"Crease {on} over {over}, where it lies. Press along that line until the fold shows.",)


def sorted_alignments(join: Join) -> list[Alignment]:
    """Sorted by direction and lines, never by the order in which they were written."""
    return sorted(join.alignments, key=lambda line: (line.axis, natural_key(line.what), natural_key(line.to)))


def _parts_joined(join: Join, pieces: Mapping[str, FlatPiece]) -> tuple[str, str] | None:
    """The two parts that a join brings together, by their paths; None where it joins pieces of its own part, or those
    of several parts at once."""
    owners = [{_part_of(path, pieces) for path, _, _ in side.faces} for side in (join.what, join.to)]
    if join.closes or any(len(each) > 1 for each in owners):
        return None
    what, to = (each.pop() for each in owners)
    return None if what == to or join.part in (what, to) else (what, to)


def _part_of(path: str, pieces: Mapping[str, FlatPiece]) -> str:
    return pieces[path].part if path in pieces else ""


class _Called:
    """What the pieces of a join are called: within their parts where these are named first, and where that leaves no
    doubt of which of both is meant."""

    def __init__(self, join: Join, pieces: Mapping[str, FlatPiece], parts: tuple[str, str] | None) -> None:
        whole, short = (
            [{path: read_piece(within(path, owner)) for path, _, _ in side.faces} for side, owner in sides]
            for sides in (
                [(side, join.part) for side in (join.what, join.to)],
                list(zip((join.what, join.to), parts or (join.part, join.part), strict=True)),
            )
        )
        told = short if set(short[0].values()).isdisjoint(short[1].values()) else whole
        self._words = {**told[0], **told[1]}
        self._part = join.part

    def piece(self, path: str) -> str:
        return self._words[path]

    def line(self, path: str) -> str:
        piece = next((piece for piece in sorted(self._words) if path.startswith(piece + ".")), None)
        if piece is None:
            return read_inside_out(within(path, self._part))
        return f"{read_inside_out(within(path, piece))} of {self._words[piece]}"


def _what_to_what(
    join: Join, stock: str, pieces: Mapping[str, FlatPiece], called: _Called, parts: tuple[str, str] | None
) -> PlanText:
    what, to = _faces(join.what, called, pieces), _faces(join.to, called, pieces)
    adhesive = "the adhesive already on it" if join.adhesive == "itself" else stock or join.adhesive
    pairs = list(zip(what, to, strict=True)) if len(what) == len(to) else [(listed(what), listed(to))]
    one_to_other = listed([f"{one} to {other}" for one, other in pairs])
    if parts is not None:
        thing, place = (read_inside_out(within(part, join.part)) for part in parts)
        if join.adhesive == "nothing":
            return (f"Lay {thing} into {place}, {one_to_other}. Nothing holds it there.",)
        return (f"Join {thing} to {place}: stick {one_to_other} with {adhesive}.",)
    if join.adhesive == "nothing":
        return (f"Lay it in, {one_to_other}. Nothing holds it there.",)
    if join.closes:
        told = listed([f"{one} and {other} together" for one, other in pairs])
        return (f"Bring {told} and hold them with {adhesive}.",)
    return (f"Stick {one_to_other} with {adhesive}.",)


def _meeting(alignment: Alignment, called: _Called) -> PlanText:
    what, to = (called.line(path) for path in (alignment.what, alignment.to))
    names = {last_name(alignment.what), last_name(alignment.to)}
    if alignment.inside > NO_LENGTH:
        return sentence(f"Set {what} inside {to} by ", alignment.inside, ".")
    if alignment.inside < NO_LENGTH:
        return sentence(f"Let {what} stand out beyond {to} by ", -alignment.inside, ".")
    if len(names) == 1 and (direction := _MIDDLES.get(names.pop())):
        return (f"Centre one on the other {direction}.",)
    return (f"Bring {what} to {to}.",)


def _movement(join: Join) -> PlanText:
    if join.adhesive == "nothing":
        return ()
    return ("This join moves in use." if join.moving else "This join never moves.",)


def _faces(side: Side, called: _Called, pieces: Mapping[str, FlatPiece]) -> list[str]:
    told = []
    for path, panel, face in side.faces:
        piece = pieces.get(path)
        word = face if piece is None else side_in_words(piece.stock.kind, piece.face_up, face)
        told.append(f"the {word} of {_panel_of(panel, called.piece(path))}")
    return told


def side_in_words(stock_kind: str, face_up: str, side: str) -> str:
    """What a side is called, "face" or "back". Of a board whose face is called the outside or the inside, that word or
    the other one: "the back of the back" means nothing to anybody."""
    if stock_kind != "board" or face_up not in _OTHER_SIDE:
        return side
    return face_up if side == "face" else _OTHER_SIDE[face_up]


def _things(side: Side, part: str) -> str:
    return listed(list(dict.fromkeys(_thing(path, panel, part) for path, panel, _ in side.faces)))


def _thing(path: str, panel: str, part: str) -> str:
    return _panel_of(panel, read_piece(within(path, part)))


def _panel_of(panel: str, piece: str) -> str:
    if not panel:
        return piece
    return f"panel {spoken(panel)} of {piece}" if panel.endswith("]") else f"the {spoken(panel)} panel of {piece}"


