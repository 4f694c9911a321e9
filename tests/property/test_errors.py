"""Errors carried through arithmetic: against the same arithmetic on perturbed numbers, and the order of their sums."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.geometry.fold import fold_section
from pastedown.geometry.hand import USUAL_HAND, HandErrors, folded, laid
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, inches, mm, number
from pastedown.quantity.rounding import round_to
from pastedown.quantity.spread import Spread, spread_of, square_root
from reference.through_the_compiler import made

half_widths = st.fractions(Fraction(1, 64), 2, max_denominator=64)
terms = st.dictionaries(st.sampled_from("abcdefgh"), half_widths, min_size=1)
signs = st.lists(st.sampled_from([-1, 1]), min_size=40, max_size=40)


def with_errors(value: Fraction, errors: dict[str, Fraction]) -> Length:
    length = mm(value)
    for name, half_width in errors.items():
        length = length.with_error(name, mm(half_width))
    return length


def spread(amount: Quantity) -> Spread:
    found = spread_of(amount)
    assert found is not None
    return found


@given(terms)
def test_root_sum_square_lies_between_nought_and_the_worst_case(errors: dict[str, Fraction]) -> None:
    # TOL-09, by Cauchy and Schwarz: 0 <= rss <= worst <= sqrt(n) rss, and all the same for one error.
    found = spread(with_errors(Fraction(1), errors))
    assert 0 <= found.rss.value <= found.worst.value
    assert found.worst.value**2 <= len(errors) * found.rss_squared
    assert abs(found.rss.value**2 - found.rss_squared) < Fraction(1, 10**9)
    if len(errors) == 1:
        assert found.rss == found.worst


@given(st.fractions(-5, 5, max_denominator=64), terms, st.sampled_from("abcdefgh"), half_widths)
def test_a_wider_error_never_makes_a_score_better(
    value: Fraction, errors: dict[str, Fraction], name: str, more: Fraction
) -> None:
    wider = {**errors, name: errors.get(name, Fraction(0)) + more}
    before, after = spread(with_errors(value, errors)), spread(with_errors(value, wider))
    assert abs(after.order) <= abs(before.order)
    if value > 0:
        assert after.chance >= before.chance


@given(st.fractions(0, 100, max_denominator=1000))
def test_square_roots(value: Fraction) -> None:
    root = square_root(value)
    assert root**2 <= value < (root + Fraction(1, 2**39)) ** 2
    assert square_root(value**2) == value


@given(st.fractions(-9, 9), st.fractions(1, 9), st.fractions(-9, 9), terms, terms, st.integers(-4, 4))
def test_sums_are_exact_and_products_right_to_the_first_order(
    a: Fraction, b: Fraction, c: Fraction, of_a: dict[str, Fraction], of_b: dict[str, Fraction], times: int
) -> None:
    left, right = with_errors(a, of_a), with_errors(b, of_b)
    # What shares a term is off together.
    both = set(of_a) | set(of_b)
    for form, plain in (
        (left + right, {each: of_a.get(each, 0) + of_b.get(each, 0) for each in both}),
        (left - right, {each: of_a.get(each, 0) - of_b.get(each, 0) for each in both}),
        (-left, {each: -of_a[each] for each in of_a}),
        (left * times, {each: of_a[each] * times for each in of_a}),
        (left * number(c), {each: of_a[each] * c for each in of_a}),
        (left / mm(b), {each: of_a[each] / b for each in of_a}),
        (left * right, {each: of_a.get(each, 0) * b + of_b.get(each, 0) * a for each in both}),
        (left / right, {each: of_a.get(each, 0) / b - of_b.get(each, 0) * a / b**2 for each in both}),
    ):
        wanted = {name: Fraction(amount) for name, amount in plain.items() if amount}
        assert (form.errors.terms() if form.errors is not None else {}) == wanted


@given(terms)
def test_equality_order_and_hash_know_no_errors(errors: dict[str, Fraction]) -> None:
    made_length, asked = with_errors(Fraction(3), errors), mm(3)
    assert made_length == asked and hash(made_length) == hash(asked) and repr(made_length) == repr(asked)
    assert made_length <= asked <= made_length
    assert made_length.exact.errors is None
    assert round_to(made_length, "down", with_errors(Fraction(1, 2), errors)).errors is None
    cancelled = made_length - made_length
    assert cancelled.errors is None or cancelled.errors.terms() == {}


def test_long_sums_cost_no_more_than_they_are_long() -> None:
    total = mm(0)
    for place in range(5_000):
        total = total + mm(1).with_error(f"cut {place}", mm(1)) * 1
        total = total - total / 2
    assert total.errors is not None
    assert total.errors.size() < 40_000


def test_factors_past_all_sense_are_given_up() -> None:
    amount = mm(3).with_error("cut", mm(1))
    for _ in range(18):
        amount = amount * amount / mm(7)
    assert spread_of(amount) is None


runs = st.lists(st.tuples(st.integers(20, 200), st.sampled_from(["mountain", "valley"])), min_size=2, max_size=6)
ANGLES = st.lists(st.sampled_from(["flat", "square", "shut"]), min_size=6, max_size=6)


def run_of(ends: list[Fraction], kinds: list[str]) -> Run:
    """A run by the places at which its panels end."""
    starts = [Fraction(0), *ends[:-1]]
    panels = tuple(
        Panel(f"panel[{at}]", mm(first), mm(last)) for at, (first, last) in enumerate(zip(starts, ends, strict=True))
    )
    scores = tuple(
        Score(f"fold[{at}]", mm(end), kind) for at, (end, kind) in enumerate(zip(ends[:-1], kinds, strict=False))
    )
    return Run("width", "left", "right", False, panels, scores)


@settings(max_examples=60)
@given(runs, ANGLES, signs)
def test_a_folded_run_comes_out_as_its_errors_say(
    sizes: list[tuple[int, str]], angles: list[str], off: list[int]
) -> None:
    """Every line of a run is set off by its whole error, one way or the other, and the run folded anew: it has to be
    off by just the sum of its terms."""
    kinds = [kind for _, kind in sizes]
    ends = [Fraction(sum(size for size, _ in sizes[: at + 1])) for at in range(len(sizes))]
    turned = {f"fold[{at}]": angle for at, angle in zip(range(len(sizes) - 1), angles, strict=False)}
    flat = run_of(ends, kinds)
    panels, scores = laid("strip", "width", flat.panels, flat.scores, USUAL_HAND)
    by_hand = folded(Run("width", "left", "right", False, panels, scores), "strip", turned, USUAL_HAND)
    section = fold_section(by_hand, turned, mm("0.3"), {})

    shifts: dict[str, Fraction] = {"strip, cut to its width": off[0] * USUAL_HAND.cut.value}
    for at, (name, angle) in enumerate(turned.items()):
        shifts[f"strip, score {name}"] = off[2 * at + 1] * USUAL_HAND.score.value
        shifts[f"strip, fold {name}"] = off[2 * at + 2] * USUAL_HAND.fold.value if angle != "flat" else Fraction(0)
    off_ends = [end + shifts[f"strip, score fold[{at}]"] + shifts[f"strip, fold fold[{at}]"]
                for at, end in enumerate(ends[:-1])]  # fmt: skip
    off_ends.append(ends[-1] + shifts["strip, cut to its width"])
    again = fold_section(run_of(off_ends, kinds), turned, mm("0.3"), {})

    half_widths = {name: half_width_of(name, USUAL_HAND) for name in shifts}
    for nominal, really in zip(
        (*section.folds.values(), section.last), (*again.folds.values(), again.last), strict=True
    ):
        for by_errors, by_folding in ((nominal.x, really.x), (nominal.y, really.y)):
            found = by_errors.errors.terms() if by_errors.errors is not None else {}
            moved = sum((amount * shifts[name] / half_widths[name] for name, amount in found.items()), Fraction(0))
            assert by_errors.value + moved == by_folding.value


def half_width_of(name: str, hand: HandErrors) -> Fraction:
    kind = name.partition(", ")[2].split()[0]
    return {"cut": hand.cut, "score": hand.score, "fold": hand.fold}[kind].value


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 8), st.integers(1, 8), st.integers(0, 8))
def test_a_less_exact_hand_never_makes_a_design_safer(cut: int, more: int, fold: int) -> None:
    body = """  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  cut_error = {cut}/128 in
  fold_error = {fold}/128 in
  piece sheet from card, width: 5 in, loose: yes {{
    run tail to head {{ panel flap: 1/2 in  fold line: mountain  panel body: 7 in }}
  }}
  pose made_up {{ sheet.line = shut }}
  require fits: span(sheet.line, to: sheet.head, along: height, pose: made_up) >= 6 3/4 in because "so" """
    orders = []
    for width in (cut, cut + more):
        model = made(body.format(cut=width, fold=fold)).model
        assert model is not None
        found = model.requirements[0].margin
        assert found is not None
        orders.append(found.order)
    assert orders[1] < orders[0]


def test_a_hand_without_errors_leaves_no_margin_to_judge() -> None:
    body = """  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  cut_error = 0 in
  piece sheet from card, height: 7 in, width: 5 in, loose: yes
  require fits: sheet.height <= 7 in because "so" """
    model = made(body).model
    assert model is not None
    assert model.requirements[0].margin is None
    assert NO_LENGTH.with_error("cut", NO_LENGTH).errors is None
    assert inches(1).with_error("cut", inches(1)).errors is not None
