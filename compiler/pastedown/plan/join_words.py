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
    """The whole instruction for a join or a close, before the maker's own words about it."""
    return paragraph(
        _what_to_what(join, stock, pieces),
        *(_meeting(line, join) for line in sorted_alignments(join) if line.what != line.to),
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


def _what_to_what(join: Join, stock: str, pieces: Mapping[str, FlatPiece]) -> PlanText:
    what, to = _faces(join.what, join.part, pieces), _faces(join.to, join.part, pieces)
    adhesive = "the adhesive already on it" if join.adhesive == "itself" else stock or join.adhesive
    pairs = list(zip(what, to, strict=True)) if len(what) == len(to) else [(listed(what), listed(to))]
    if join.adhesive == "nothing":
        told = listed([f"{one} to {other}" for one, other in pairs])
        return (f"Lay it in, {told}. Nothing holds it there.",)
    if join.closes:
        told = listed([f"{one} and {other} together" for one, other in pairs])
        return (f"Bring {told} and hold them with {adhesive}.",)
    return (f"Stick {listed([f'{one} to {other}' for one, other in pairs])} with {adhesive}.",)


def _meeting(alignment: Alignment, join: Join) -> PlanText:
    what, to = (_line(path, join) for path in (alignment.what, alignment.to))
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


def _line(path: str, join: Join) -> str:
    pieces = {piece for side in (join.what, join.to) for piece, _, _ in side.faces}
    piece = next((piece for piece in sorted(pieces) if path.startswith(piece + ".")), None)
    if piece is None:
        return read_inside_out(within(path, join.part))
    return f"{read_inside_out(within(path, piece))} of {read_piece(within(piece, join.part))}"


def _faces(side: Side, part: str, pieces: Mapping[str, FlatPiece]) -> list[str]:
    called = []
    for path, panel, face in side.faces:
        piece = pieces.get(path)
        word = face if piece is None else side_in_words(piece.stock.kind, piece.face_up, face)
        called.append(f"the {word} of {_thing(path, panel, part)}")
    return called


def side_in_words(stock_kind: str, face_up: str, side: str) -> str:
    """What a side is called, "face" or "back". Of a board whose face is called the outside or the inside, that word or
    the other one: "the back of the back" means nothing to anybody."""
    if stock_kind != "board" or face_up not in _OTHER_SIDE:
        return side
    return face_up if side == "face" else _OTHER_SIDE[face_up]


def _things(side: Side, part: str) -> str:
    return listed(list(dict.fromkeys(_thing(path, panel, part) for path, panel, _ in side.faces)))


def _thing(path: str, panel: str, part: str) -> str:
    piece = read_piece(within(path, part))
    if not panel:
        return piece
    return f"panel {spoken(panel)} of {piece}" if panel.endswith("]") else f"the {spoken(panel)} panel of {piece}"


