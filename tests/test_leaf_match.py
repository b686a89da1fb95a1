"""Leaves of a flitch: counted by match, laid in order, turned as the match asks."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.errors import LayoutError, TableError
from pricebook.takeoff import Face
from pricebook.veneer.leaf_match import (
    MATCHES,
    Flitch,
    check_leaves,
    lay_leaves,
    leaves,
)

INCH = 25.4


def flitch(leaves=24, usable_in=6.0, length_in=96.0, **changes):
    base = {
        "key": "log",
        "species": "walnut",
        "length_mm": length_in * INCH,
        "price_cents": 900,
    }
    return Flitch.even(leaves, usable_in * INCH, **(base | changes))


def drifting(*widths_in, length_in=96.0, **changes):
    base = {
        "key": "log",
        "species": "walnut",
        "length_mm": length_in * INCH,
        "price_cents": 900,
    }
    return Flitch(widths_mm=tuple(w * INCH for w in widths_in), **(base | changes))


def face(name, along_in, across_in, count=1, **changes):
    base = {
        "piece": "chest",
        "group": name,
        "along_mm": along_in * INCH,
        "across_mm": across_in * INCH,
        "overhang_mm": 0.0,
        "veneer": "show",
        "species": "walnut",
    }
    return Face(name=name, count=count, **(base | changes))


def numbers(plan, name):
    return [piece.leaf for piece in plan.laid if piece.face == name]


def turned(plan, name):
    return [piece.turned for piece in plan.laid if piece.face == name]


@settings(max_examples=80, deadline=None)
@given(st.floats(1, 5000), st.floats(10, 400), st.sampled_from(MATCHES))
def test_the_leaves_cover_the_face_and_one_step_fewer_would_not(width, usable, match):
    count, each = leaves(width, usable, match)
    step = 2 if match in {"centre balance", "slip-centre-book"} else 1

    assert count * each >= width * (1 - 1e-9)
    assert each <= usable * (1 + 1e-8)
    fewest = 4 if match == "slip-centre-book" else step
    assert count == fewest or (count - step) * usable < width


@pytest.mark.parametrize("width", [0, -1, math.nan, math.inf, True, "18", None])
def test_a_width_that_is_none_is_refused(width):
    with pytest.raises(LayoutError, match=r"the face is .* mm wide; a width is a"):
        leaves(width, 6, "book")
    with pytest.raises(LayoutError, match=r"a leaf is .* mm wide; a width is a"):
        leaves(18, width, "book")


def test_a_match_that_is_not_known_is_refused_with_the_closest_one():
    with pytest.raises(LayoutError, match=r'"boook" is not a match .*mean "book"'):
        leaves(18, 6, "boook")


@pytest.mark.parametrize(
    ("match", "pattern"),
    [
        ("book", [False, True, False, True]),
        ("slip", [False, False, False, False]),
        ("random", [False, False, False, False]),
        ("slip-centre-book", [False, False, True, True]),
        ("balance", [False, True, False, True]),
    ],
)
def test_leaves_are_turned_as_the_match_asks(match, pattern):
    plan = lay_leaves([face("top", 40, 20)], flitch(), match)

    assert turned(plan, "top") == pattern


def test_balance_match_can_lie_slip():
    plan = lay_leaves([face("top", 40, 20)], flitch(), "balance", lie="slip")

    assert turned(plan, "top") == [False] * 4


def test_leaves_follow_one_another_in_the_log():
    plan = lay_leaves([face("top", 60, 20), face("side", 60, 18)], flitch(), "book")

    assert numbers(plan, "top") == [1, 2, 3, 4]
    assert numbers(plan, "side") == [5, 6, 7]


def test_random_leaves_were_not_neighbours_in_the_log():
    plan = lay_leaves([face("top", 60, 36)], flitch(), "random")

    found = numbers(plan, "top")
    assert sorted(found) == [1, 2, 3, 4, 5, 6]
    assert all(abs(a - b) > 1 for a, b in pairwise(found))


def test_the_figure_of_a_run_side_by_side_goes_through():
    # Five fronts of 7 in are 35 in: six leaves of 5 5/6 in, laid up as one.
    fronts = face("front", 34, 7, 5, run="fronts", run_direction="side by side")

    plan = lay_leaves([face("top", 60, 18), fronts], flitch(), "book")
    assert plan.leaves_used == tuple(range(1, 10))
    assert numbers(plan, "front (1 of 5)") == [1, 2]
    assert numbers(plan, "front (2 of 5)") == [2, 3]
    assert numbers(plan, "top") == [7, 8, 9]


def test_a_run_end_to_end_comes_from_the_same_leaves():
    fronts = face("front", 7, 34, 5, run="fronts", run_direction="end to end")

    plan = lay_leaves([fronts], flitch(), "book")
    assert numbers(plan, "front (5 of 5)") == [1, 2, 3, 4, 5, 6]
    assert plan.leaves_to_buy == 6
    found = sorted({p.leaf_along_at_mm for p in plan.laid})
    assert found == pytest.approx([n * 7 * INCH for n in range(5)])


def test_two_sides_come_from_one_set_of_leaves_when_their_length_allows():
    both = lay_leaves([face("side", 48, 18, 2)], flitch(), "book")
    apart = lay_leaves([face("side", 49, 18, 2)], flitch(), "book")

    assert both.leaves_to_buy == 3
    assert apart.leaves_to_buy == 6


def test_the_rest_of_a_running_leaf_starts_the_next_face():
    plan = lay_leaves([face("top", 60, 20), face("side", 60, 9)], flitch(), "running")

    # 6 + 6 + 6 + 2, then the other 4 of leaf 4 and 5 of leaf 5
    top = [p.width_mm / INCH for p in plan.laid if p.face == "top"]
    side = [(p.leaf, p.width_mm / INCH) for p in plan.laid if p.face == "side"]
    assert top == pytest.approx([6, 6, 6, 2])
    assert [leaf for leaf, _ in side] == [4, 5]
    assert [width for _, width in side] == pytest.approx([4, 5])


def test_two_leaves_high_take_twice_as_many():
    # AWS 2009, section 4-1.2.21: the ends booked first, then the sides.
    plan = lay_leaves([face("top", 100, 18)], flitch(), "book", end_match=True)

    assert plan.leaves_to_buy == 6
    low = [p.leaf for p in plan.laid if p.along_at_mm == 0]
    high = [p.leaf for p in plan.laid if p.along_at_mm > 0]
    assert (low, high) == ([1, 3, 5], [2, 4, 6])
    assert {p.end_turned for p in plan.laid if p.along_at_mm > 0} == {True}
    assert all(p.length_mm == pytest.approx(50 * INCH) for p in plan.laid)


def test_a_face_longer_than_a_leaf_is_refused_without_end_match():
    with pytest.raises(LayoutError, match=r'"top" is 100 in long .* leaf of "log" 96'):
        lay_leaves([face("top", 100, 18)], flitch(), "book")


def test_narrow_leaves_of_a_drifting_flitch_raise_the_count():
    # 18 in on leaves of 6, 6 and 5 1/2: three would need 6 each, so four of 4 1/2.
    plan = lay_leaves([face("top", 60, 18)], drifting(6, 6, 5.5, 5.5, 5), "book")

    assert [p.width_mm / INCH for p in plan.laid] == pytest.approx([4.5] * 4)


def test_running_leaves_are_taken_at_their_own_widths():
    plan = lay_leaves([face("top", 60, 18)], drifting(6, 5.5, 5, 4.5), "running")

    widths = [p.width_mm / INCH for p in plan.laid]
    assert widths == pytest.approx([6, 5.5, 5, 1.5])


@pytest.mark.parametrize(
    ("match", "more"),
    [("book", "1 more leaf is"), ("slip-centre-book", "2 more leaves are")],
)
def test_a_flitch_that_runs_out_names_the_face_and_how_many_more(match, more):
    # side: 18 in takes 3 leaves of 6, or 4 in pairs; 2 are left after the top
    faces = [face("top", 60, 24), face("side", 60, 18)]

    with pytest.raises(LayoutError, match=rf'6 leaves of "log" .* "side"; {more}'):
        lay_leaves(faces, flitch(6), match)


def test_a_running_flitch_that_runs_out_says_so_too():
    with pytest.raises(LayoutError, match='run out at "top"; 2 more leaves are needed'):
        lay_leaves([face("top", 60, 20)], flitch(2), "running")


def test_leaves_are_bought_in_whole_bundles():
    plan = lay_leaves([face("top", 60, 30)], flitch(bundle=4, price_cents=3000), "book")

    # five leaves: two bundles of four, three leaves over
    assert (plan.leaves_to_buy, plan.cost_cents) == (8, 6000)
    assert plan.waste.endswith("3 leaves are left whole.")


def test_the_waste_is_told_in_words():
    plan = lay_leaves([face("top", 39, 18, overhang_mm=12.7)], flitch(length_in=80))

    # 19 x 40 in on 4 leaves of 6 x 80: 1,920 sq in, net 702, ends half of them,
    # sides and joints 5 x 40 = 200, overhang 760 - 702 = 58.
    assert plan.waste == (
        "2.5 of 4 leaves' area, 63 %, is trimmed off: ends 50 %, sides and joints "
        "10 %, overhang 3 %; no leaf is left whole."
    )


def test_the_bench_reads_what_to_cut():
    plan = lay_leaves([face("top", 39, 18, overhang_mm=12.7)], flitch(), "book")

    assert plan.words()[1] == (
        "Leaf 2: cut 40 in long and 4 3/4 in wide for top, 4 3/4 in from its left, "
        "turned over."
    )


def test_leaves_of_another_wood_are_refused():
    with pytest.raises(LayoutError, match='"top" is of cherry and "log" is walnut'):
        lay_leaves([face("top", 39, 18, species="cherry")], flitch())


def test_a_flitch_that_cannot_exist_is_refused_with_every_fault():
    with pytest.raises(TableError, match="leaf 7 is 0 mm wide") as caught:
        drifting(6, 0, length_in=-1, price_cents=0, bundle=0, first_number=6)

    assert len(caught.value.faults) == 4


some_faces = st.lists(
    st.builds(
        face,
        st.sampled_from(["a", "b", "c", "d"]),
        st.floats(5, 60),
        st.floats(2, 40),
        st.integers(1, 3),
        overhang_mm=st.sampled_from([0.0, 12.7]),
        run=st.sampled_from([None, None, "run"]),
    ),
    min_size=1,
    max_size=4,
    unique_by=lambda one: one.name,
)


@settings(max_examples=60, deadline=None)
@given(some_faces, st.sampled_from(MATCHES), st.booleans(), st.data())
def test_every_plan_covers_every_face_once(faces, match, end_match, data):
    widths = data.draw(st.lists(st.floats(4, 9), min_size=120, max_size=120))
    log = drifting(*widths, length_in=data.draw(st.sampled_from([40, 96])))
    try:
        plan = lay_leaves(faces, log, match, end_match=end_match)
    except LayoutError as refused:
        assert "longer" in str(refused) or "end match" in str(refused)  # noqa: PT017
        return
    check_leaves(plan, faces)
    blanks = sum(f.count * f.cut_along_mm * f.cut_across_mm for f in faces)
    assert plan.laid_mm2 == pytest.approx(blanks)
    assert 0 <= plan.trimmed_share < 1


TOP = face("top", 60, 20)


def spoiled(place, match="book", **changes):
    plan = lay_leaves([TOP], flitch(), match)
    laid = list(plan.laid)
    laid[place] = replace(laid[place], **changes)
    return replace(plan, laid=tuple(laid))


@pytest.mark.parametrize(
    ("plan", "sentence"),
    [
        (spoiled(3, length_mm=100.0), '"top" is covered with'),
        (spoiled(0, width_mm=150.0), 'leaves 1 and 2 overlap on "top"'),
        (spoiled(3, across_at_mm=500.0), 'leaf 4 reaches beyond "top"'),
        (spoiled(3, leaf_across_at_mm=60.0), "does not lie on leaf 4"),
        (spoiled(3, leaf=99), 'leaf 99 is not of "log"'),
        (spoiled(3, leaf=3), 'the pieces for "top" and "top" overlap on leaf 3'),
        (spoiled(3, leaf=6), 'leaves of "top" do not follow one another'),
        (spoiled(3, turned=False), 'neighbours on "top" lie alike'),
        (spoiled(3, "slip", turned=True), "in slip match none is"),
        (
            spoiled(3, "slip-centre-book", turned=False),
            "is booked more than once",
        ),
        (spoiled(2, "slip-centre-book", turned=False), "is not booked at its centre"),
        (spoiled(3, "balance", width_mm=100.0), "are not of equal width"),
        (spoiled(3, face="lid"), '"lid" is not among the faces'),
    ],
)
def test_the_checker_finds_what_is_wrong(plan, sentence):
    with pytest.raises(LayoutError, match=sentence):
        check_leaves(plan, [TOP])


def test_the_checker_misses_no_face_and_no_joint():
    plan = lay_leaves([TOP], flitch(), "balance")

    with pytest.raises(LayoutError, match='"side" is covered with 0 of'):
        check_leaves(plan, [TOP, face("side", 10, 10)])
    three = lay_leaves([face("top", 60, 18)], flitch(), "balance")
    with pytest.raises(LayoutError, match="no joint on its centre line"):
        check_leaves(replace(three, match="centre balance"), [face("top", 60, 18)])
    with pytest.raises(LayoutError, match="the faces measure"):
        check_leaves(replace(plan, net_mm2=1.0), [TOP])
