import re

from attrs import evolve

from pastedown.geometry.model import Model
from pastedown.geometry.piece import ArcTo, CutPath, FlatPiece, LineTo, Point
from pastedown.plan.cut_pieces import cut_pieces
from pastedown.plan.plan import CutPiece
from pastedown.plan.stock_names import name_stocks
from pastedown.quantity.quantity import NO_LENGTH, Length, inches, mm
from plan.small_models import GREY, KRAFT, SNAPSHOT, model, piece, rectangle, run, small_book, somewhere


def cut(*pieces: FlatPiece) -> tuple[CutPiece, ...]:
    return _cut(model(pieces))


def _cut(design: Model) -> tuple[CutPiece, ...]:
    return cut_pieces(design.pieces, name_stocks(design))


def with_cut_corner(path: str, at_head_right: bool, left: str = "a", right: str = "b") -> FlatPiece:
    """A blank of 60 mm by 40 mm with one corner cut off: at head and right, or at tail and left."""
    corners = [(0, 0), (40, 0), (40, 50), (30, 60), (0, 60)]
    if not at_head_right:
        corners = [(40 - x, 60 - y) for x, y in corners]
    points = [Point(mm(x), mm(y)) for x, y in corners]
    outline = CutPath("outline", points[0], tuple(LineTo(point) for point in (*points[1:], points[0])), True)
    return evolve(piece(path, mm(60), mm(40)), outline=outline, left=left, right=right)


def test_like_pieces_of_like_parts_are_one_entry() -> None:
    by_id = {each.id: each for each in _cut(small_book(4))}
    assert set(by_id) == {"hinge-strip", "page-front-sheet", "page-rear-sheet"}
    front = by_id["page-front-sheet"]
    assert (front.count, front.name) == (4, "page front sheet")
    assert front.paths == tuple(f"page[{number}].front_sheet" for number in (1, 2, 3, 4))


def test_the_paths_of_a_family_are_in_the_order_of_their_numbers() -> None:
    sheets = [piece(f"page[{number}].sheet", mm(60), mm(40)) for number in (10, 9, 2, 1)]
    (entry,) = cut(*sheets)
    assert entry.paths == ("page[1].sheet", "page[2].sheet", "page[9].sheet", "page[10].sheet")


def test_a_piece_of_another_size_has_an_entry_and_a_number_of_its_own() -> None:
    sheets = [piece(f"page[{number}].sheet", mm(60), mm(70 if number == 3 else 40)) for number in (1, 2, 3, 4)]
    entries = {each.id: each for each in cut(*sheets)}
    assert entries["page-sheet"].name == "page sheet (pages 1, 2 and 4)"
    assert entries["page-sheet-2"].name == "page sheet (page 3)"


def test_pieces_with_other_names_are_kept_apart_though_they_are_alike() -> None:
    front, rear = piece("page.front_sheet", mm(60), mm(40)), piece("page.rear_sheet", mm(60), mm(40))
    assert [each.id for each in cut(front, rear)] == ["page-front-sheet", "page-rear-sheet"]


def test_pieces_with_other_folds_are_kept_apart() -> None:
    fold = run("height", ("tail", "head"), [("flap", mm(10)), ("turn", "mountain"), ("body", mm(50))])
    other = run("height", ("tail", "head"), [("flap", mm(10)), ("turn", "valley"), ("body", mm(50))])
    pieces = (piece("a[1].sheet", mm(60), mm(40), fold), piece("a[2].sheet", mm(60), mm(40), other))
    assert [each.count for each in cut(*pieces)] == [1, 1]


def test_the_place_in_the_text_is_no_difference() -> None:
    one = piece("a[1].sheet", mm(60), mm(40))
    assert len(cut(one, evolve(one, path="a[2].sheet", span=somewhere("elsewhere")))) == 1


def test_it_does_not_matter_where_an_outline_was_begun() -> None:
    one = piece("a[1].sheet", mm(60), mm(40))
    begun_elsewhere = evolve(one, path="a[2].sheet", outline=rectangle(mm(60), mm(40), begun_at=2))
    assert len(cut(one, begun_elsewhere)) == 1


def test_a_half_turn_is_the_same_blank() -> None:
    one = with_cut_corner("a[1].sheet", at_head_right=True)
    turned = with_cut_corner("a[2].sheet", at_head_right=False, left="b", right="a")
    assert len(cut(one, turned)) == 1


def test_a_half_turn_with_edges_named_otherwise_is_another_piece() -> None:
    one = with_cut_corner("a[1].sheet", at_head_right=True)
    not_turned = with_cut_corner("a[2].sheet", at_head_right=False)
    assert len(cut(one, not_turned)) == 2


def test_a_mirror_image_is_another_piece() -> None:
    one = with_cut_corner("a[1].sheet", at_head_right=True, left="a", right="a")
    mirrored = evolve(one, path="a[2].sheet", outline=_mirrored(one.outline, one.width))
    assert len(cut(one, mirrored)) == 2


def _mirrored(path: CutPath, width: Length) -> CutPath:
    def mirror(point: Point) -> Point:
        return Point(width - point.x, point.y)

    moves = tuple(LineTo(mirror(move.end)) for move in path.moves)
    return CutPath(path.name, mirror(path.start), moves, path.closed)


def test_a_half_turn_of_a_ladder_that_counts_from_the_tail_is_another_piece() -> None:
    from_tail = run("height", ("tail", "head"), [("flap", mm(10)), ("turn", "mountain"), ("body", mm(50))])
    from_head = run("height", ("head", "tail"), [("flap", mm(10)), ("turn", "mountain"), ("body", mm(50))], turned=True)
    one, other = (piece(f"a[{k}].sheet", mm(60), mm(40), laid) for k, laid in ((1, from_tail), (2, from_head)))
    assert len(cut(one, evolve(other, left="fore_edge", right="spine"))) == 2


def test_a_half_turn_keeps_a_ladder_between_the_same_edges() -> None:
    items: list[tuple[str, Length | str]] = [("flap", mm(10)), ("turn", "mountain"), ("body", mm(30))]
    one = piece("a[1].sheet", mm(60), mm(40), run("width", ("spine", "fore_edge"), items))
    turned = piece("a[2].sheet", mm(60), mm(40), run("width", ("spine", "fore_edge"), items, turned=True))
    assert len(cut(one, evolve(turned, left="fore_edge", right="spine"))) == 1


def test_a_slit_is_the_same_cut_from_either_end_and_a_rounded_corner_turns_along() -> None:
    def sheet(path: str, slit: tuple[int, int], corner: int) -> FlatPiece:
        line = CutPath("slit", Point(mm(slit[0]), mm(30)), (LineTo(Point(mm(slit[1]), mm(30))),), False)
        start, ends = Point(mm(corner), NO_LENGTH), Point(NO_LENGTH, mm(corner))
        arc = ArcTo(ends, Point(mm(corner), mm(corner)), mm(corner), True)
        window = CutPath("window", start, (arc, LineTo(start)), True)
        return evolve(piece(path, mm(60), mm(40)), inner_cuts=(line, window))

    assert len(cut(sheet("a[1].s", (10, 30), 5), sheet("a[2].s", (30, 10), 5))) == 1
    assert len(cut(sheet("a[1].s", (10, 30), 5), sheet("a[2].s", (10, 30), 6))) == 2


def test_the_list_is_sorted_by_stock_then_size_then_handle() -> None:
    pieces = [
        piece("c.small", mm(10), mm(10)),
        piece("b.large", mm(50), mm(50)),
        piece("b[10].mid", mm(20), mm(20), component="ten"),
        piece("a.board", mm(5), mm(5), stock=GREY),
        piece("b.also_large", mm(50), mm(50)),
    ]
    assert [each.id for each in cut(*pieces)] == ["a-board", "b-also-large", "b-large", "b-mid", "c-small"]


def test_handles_are_safe_as_file_names_and_unique() -> None:
    pieces = [piece(f"page_{k}[{k}].mat[{n}]", mm(10 + n), mm(10)) for k in (1, 2) for n in (1, 2, 3)]
    pieces.append(piece("page_1.mat_2", mm(3), mm(3)))
    ids = [each.id for each in cut(*pieces)]
    assert len(set(ids)) == 7
    assert all(re.fullmatch("[a-z][a-z0-9-]*", id) for id in ids)


def test_like_pieces_of_parts_with_other_names_are_named_after_their_kind() -> None:
    pieces = [piece(f"{part}.body", mm(10), mm(10), component="tag") for part in ("front_tag", "rear_tag")]
    (entry,) = cut(*pieces)
    assert (entry.id, entry.name) == ("tag-body", "tag body (front tag and rear tag)")


def test_a_part_that_is_named_like_its_only_piece_is_named_once() -> None:
    assert [each.id for each in cut(piece("tag.tag", mm(9), mm(9)))] == ["tag"]
    assert [each.id for each in cut(piece("front_liner.liner", mm(9), mm(9)))] == ["front-liner"]
    assert [each.id for each in cut(piece("incline.line", mm(9), mm(9)))] == ["incline-line"]


def test_a_stock_is_called_as_one_says_its_name() -> None:
    white = evolve(KRAFT, name="white_card")
    assert [each.stock for each in cut(piece("tag", mm(20), mm(30), stock=white))] == ["white card"]


def test_two_stocks_of_one_name_are_told_apart() -> None:
    thicker = evolve(KRAFT, caliper=mm("0.4"))
    pieces = (piece("a.x", mm(9), mm(9)), piece("b.y", inches(1), mm(9), stock=thicker))
    assert {each.id: each.stock for each in cut(*pieces)} == {"a-x": "kraft card", "b-y": "kraft card (2)"}


def test_what_is_bought_in_its_size_is_said_to_be_so() -> None:
    lying = piece("page[1].photo", inches(4), inches(3), stock=SNAPSHOT)
    trimmed = piece("page[2].photo", inches(4), inches(2), stock=SNAPSHOT)
    mat = piece("page[3].mat", inches(4), inches(3))
    found = cut_pieces((lying, trimmed, mat), {SNAPSHOT: "snapshot", KRAFT: "kraft"})
    assert {each.paths[0]: each.bought for each in found} == {
        "page[1].photo": True,
        "page[2].photo": False,
        "page[3].mat": False,
    }
