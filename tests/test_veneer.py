"""Parts on sheets by plain numbers: the door, its refusals, and its checker."""

import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from pricebook.errors import LayoutError, PricebookError
from pricebook.veneer import Cut, check, cut_list, fit, lay_out, leaves

PARTS = [(76, 40, 1), (82, 39, 2), (70, 15, 5), (70, 10, 1)]
SHEETS = [(192, 48, 6000), (192, 96, 10000), (240, 96, 12800)]
FRONTS = ((2, "side by side"),)


@pytest.fixture
def plan():
    return fit(PARTS, SHEETS, FRONTS)


def moved(plan, sheet, place, by=(0, 0, 0)):
    """Return the plan with one placement shifted: part, along, across."""
    sheets = [list(row) for row in plan.sheets]
    placements = list(sheets[sheet][1])
    part, along, across = placements[place]
    placements[place] = (part + by[0], along + by[1], across + by[2])
    sheets[sheet][1] = tuple(placements)
    return replace(plan, sheets=tuple((kind, places) for kind, places in sheets))


def without(plan, sheet, place):
    rows = list(plan.sheets)
    kind, places = rows[sheet]
    rows[sheet] = (kind, places[:place] + places[place + 1 :])
    return replace(plan, sheets=tuple(rows))


def last(plan):
    return len(plan.sheets) - 1, len(plan.sheets[-1][1]) - 1


def test_a_sound_plan_passes_its_check(plan):
    check(plan, PARTS, SHEETS, FRONTS)


@pytest.mark.parametrize("which", ["first", "last"])
def test_a_missing_part_is_found_wherever_it_lies(plan, which):
    spot = (0, 0) if which == "first" else last(plan)
    with pytest.raises(LayoutError, match=r"is placed \d times; \d are needed"):
        check(without(plan, *spot), PARTS, SHEETS, FRONTS)


@pytest.mark.parametrize("which", ["first", "last"])
def test_a_part_outside_its_sheet_is_found_wherever_it_lies(plan, which):
    spot = (0, 0) if which == "first" else last(plan)
    with pytest.raises(LayoutError, match="sticks out of sheet"):
        check(moved(plan, *spot, by=(0, 500, 0)), PARTS, SHEETS, FRONTS)


def test_overlap_of_the_last_part_is_found():
    parts, sheets = [(4, 5, 2)], [(10, 5, 7)]
    plan = fit(parts, sheets)
    lain = replace(plan, sheets=((0, ((0, 0, 0), (0, 3, 0))),))
    with pytest.raises(LayoutError, match="overlap on sheet 0"):
        check(lain, parts, sheets)


def test_a_doubled_part_is_found(plan):
    kind, places = plan.sheets[0]
    doubled = replace(plan, sheets=((kind, (*places, places[0])), *plan.sheets[1:]))
    with pytest.raises(LayoutError, match="are needed"):
        check(doubled, PARTS, SHEETS, FRONTS)


def test_a_turned_part_is_found():
    """A placement has no size: a turned part shows as one that sticks out."""
    plan = fit([(4, 9, 1)], [(5, 10, 7)])
    with pytest.raises(LayoutError, match="sticks out"):
        check(plan, [(9, 4, 1)], [(5, 10, 7)])


def test_a_pinwheel_is_not_reachable_by_cuts_from_edge_to_edge():
    parts, sheets = [(2, 4, 2), (4, 2, 2), (2, 2, 1)], [(6, 6, 5)]
    lain = ((0, 0, 0), (0, 4, 2), (1, 0, 4), (1, 2, 0), (2, 2, 2))
    plan = replace(
        fit(parts, sheets), cost_cents=5, least_possible_cents=5, sheets=((0, lain),)
    )
    with pytest.raises(LayoutError, match="cannot be cut free from edge to edge"):
        check(plan, parts, sheets)


def test_a_wrong_cost_and_a_bound_above_the_cost_are_found(plan):
    with pytest.raises(LayoutError, match="the sheets sum to"):
        check(replace(plan, cost_cents=1), PARTS, SHEETS, FRONTS)
    high = replace(plan, least_possible_cents=plan.cost_cents + 1)
    with pytest.raises(LayoutError, match="the bound is wrong"):
        check(high, PARTS, SHEETS, FRONTS)


def test_a_run_out_of_order_or_apart_is_found():
    parts, sheets = [(10, 2, 1), (10, 3, 1), (10, 4, 1)], [(10, 20, 5)]
    run = ((0, 1, 2, "side by side"),)
    plan = fit(parts, sheets, run)
    apart = replace(plan, sheets=((0, ((0, 0, 0), (1, 0, 3), (2, 0, 6))),))
    crossed = replace(plan, sheets=((0, ((1, 0, 0), (0, 0, 3), (2, 0, 5))),))
    for wrong in (apart, crossed):
        with pytest.raises(LayoutError, match="not cut in its order"):
            check(wrong, parts, sheets, run)


def test_more_of_a_sheet_than_there_are_is_found():
    parts, sheets = [(9, 9, 2)], [(10, 10, 5)]
    plan = fit(parts, sheets)
    with pytest.raises(LayoutError, match="is used 2 times; there are 1"):
        check(plan, parts, [(10, 10, 5, 1)])


def test_a_missing_or_a_short_cut_is_found(plan):
    with pytest.raises(LayoutError, match="do not free part"):
        check(replace(plan, cuts=plan.cuts[:-1]), PARTS, SHEETS, FRONTS)
    first = plan.cuts[0]
    short = Cut(
        sheet=0, direction=first.direction, at=first.at, start=0, end=first.end - 1
    )
    with pytest.raises(LayoutError, match="does not run from edge to edge"):
        check(replace(plan, cuts=(short, *plan.cuts[1:])), PARTS, SHEETS, FRONTS)


def test_a_plan_of_more_stages_than_allowed_is_found():
    parts = [(10, 4, 1), (6, 6, 1), (4, 3, 1), (4, 3, 1), (1, 6, 1)]
    plan = fit(parts, [(10, 10, 5), (20, 20, 90)])
    with pytest.raises(LayoutError, match="more than 1 stages"):
        check(plan, parts, [(10, 10, 5), (20, 20, 90)], stages=1)


def test_a_run_keeps_its_order_in_the_direction_that_is_stated():
    parts, sheets = [(10, 2, 2), (10, 3, 1)], [(40, 20, 5)]
    side = fit(parts, sheets, [(0, 1)])
    assert sorted(side.sheets[0][1], key=lambda p: p[2])[-1][0] == 1
    end = fit(parts, sheets, [(1, 0, "end to end")])
    assert sorted(end.sheets[0][1], key=lambda p: p[1])[0][0] == 1


def test_identical_members_join_along_their_shorter_size():
    plan = fit([(6, 34, 3)], [(20, 34, 5), (6, 102, 1)], [(0,)])
    assert {along for _, along, _ in plan.sheets[0][1]} == {0, 6, 12}


@pytest.mark.parametrize(
    ("parts", "sheets", "matched", "words"),
    [
        ([], SHEETS, (), "no parts to lay out"),
        (PARTS, [], (), "no sheets to cut from"),
        ([(0, 4, 1)], SHEETS, (), "part 0: along is 0"),
        ([(4, -1, 1)], SHEETS, (), "part 0: across is -1"),
        ([(4, 4, 0)], SHEETS, (), "part 0: count is 0"),
        ([(4.5, 4, 1)], SHEETS, (), "must be a whole number"),
        ([(float("nan"), 4, 1)], SHEETS, (), "must be a whole number"),
        ([(float("inf"), 4, 1)], SHEETS, (), "must be a whole number"),
        ([(True, 4, 1)], SHEETS, (), "must be a whole number"),
        ([("4", 4, 1)], SHEETS, (), "must be a whole number"),
        ([(4, 4)], SHEETS, (), "has 2 members"),
        (PARTS, [(192, 0, 5)], (), "sheet 0: across is 0"),
        (PARTS, [(192, 96, 0)], (), "price in cents is 0"),
        (PARTS, [(192, 96, -3)], (), "price in cents is -3"),
        (PARTS, [(192, 96, 5, -1)], (), "how many is -1"),
        ([(300, 4, 1)], SHEETS, (), "part 0 is 300 along x 4 across and fits no sheet"),
        (PARTS, SHEETS, [(9,)], "names part 9, which does not exist"),
        (PARTS, SHEETS, [()], "run 0 has no parts"),
        (PARTS, SHEETS, [(0, 0)], "already in run 0"),
        (PARTS, SHEETS, [(0, 1)], 'end the run with "side by side"'),
        (PARTS, SHEETS, [(0, 1, "upwards")], 'joins "upwards"'),
        ([(70, 15, 9)], SHEETS, [(0, "side by side")], "run of part 0 is 70 along"),
        (PARTS, [(192, 96, 5, 1)], (), "would be left over; allow more sheets"),
        (PARTS, [(192, 96, 5, 0)], (), "fits no sheet"),
        (PARTS, 5, (), "must be a list"),
        (np.array(5), SHEETS, (), "parts is array\\(5\\); it must be a list"),
        (PARTS, [np.array(5)], (), "sheet 0 is array\\(5\\); it must be a list"),
        (PARTS, SHEETS, np.array(0), "matched is array\\(0\\); it must be a list"),
        ([(np.array(4), 4, 1)], SHEETS, (), "must be a whole number"),
        ([(10**5000, 4, 1)], SHEETS, (), "a number of more than 300 digits; it must"),
        (PARTS, [(192, 96, -(10**5000))], (), "a number of more than 300 digits"),
        (PARTS, SHEETS, [(10**5000,)], "a number of more than 300 digits"),
        ([(4 + 0j, 4, 1)], SHEETS, (), "must be a whole number"),
        ({"top": (4, 4, 1)}, SHEETS, (), "parts is .*; it must be a list"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(parts, sheets, matched, words):
    with pytest.raises(PricebookError, match=words):
        fit(parts, sheets, matched)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"sheets": None}, "the layout's sheets is None; it must be a list"),
        ({"sheets": ((0, ((0, "1", 0),)),)}, 'holds "1"; it must be a whole number'),
        ({"sheets": ((10**5000, ()),)}, "holds a number of more than 300 digits"),
        ({"sheets": ((0,),)}, "has 1 members"),
        ({"cost_cents": float("nan")}, "cost in cents is nan"),
        ({"cuts": ("across",)}, 'cut 0 is "across"; it must be a Cut'),
        ({"cuts": (Cut(sheet=0, direction=3, at="x", start=0, end=1),)}, "at is"),
    ],
)
def test_a_layout_of_the_wrong_kind_is_refused_in_a_sentence(plan, change, words):
    with pytest.raises(LayoutError, match=words):
        check(replace(plan, **change), PARTS, SHEETS)


def test_what_is_no_layout_is_refused_in_a_sentence(plan):
    with pytest.raises(LayoutError, match="the layout is None; give what fit returns"):
        check(None, PARTS, SHEETS)
    with pytest.raises(LayoutError, match="cut_list takes a layout, not 5"):
        cut_list(5, "in")
    with pytest.raises(LayoutError, match="stages is array"):
        fit(PARTS, SHEETS, stages=np.array([2, 3]))
    with pytest.raises(LayoutError, match="progress is 3; give a function"):
        fit(PARTS, SHEETS, progress=3)
    with pytest.raises(LayoutError, match="faces holds 5; each must be a Face"):
        lay_out([5], [])


def test_all_faults_are_told_at_once():
    with pytest.raises(LayoutError, match="part 0") as refused:
        fit([(0, 4, 1), (4, 0, 1)], SHEETS)
    assert len(refused.value.faults) == 2


def test_whole_floats_are_whole_numbers():
    assert fit([(31.0, 19.0, 3)], [(96, 24, 60)]).cost_cents == 60


def test_the_last_cent_does_not_depend_on_the_run():
    batch = [(a, c, 4 * n) for a, c, n in PARTS]
    assert fit(batch, SHEETS) == fit(batch, SHEETS)


def test_a_mixture_is_never_dearer_than_one_size_alone():
    batch = [(a, c, 4 * n) for a, c, n in PARTS]
    mixed = fit(batch, SHEETS).cost_cents
    assert mixed <= min(fit(batch, [kind]).cost_cents for kind in SHEETS[1:])


def test_among_equal_costs_the_fewest_sheets_are_taken():
    plan = fit([(10, 10, 2)], [(10, 10, 5), (20, 10, 10)])
    assert plan.sheets == ((1, ((0, 0, 0), (0, 10, 0))),)


def test_among_equal_plans_the_largest_offcut_is_left():
    """Two parts across one end leave 15 x 20; one at each end would leave less."""
    plan = fit([(5, 10, 2)], [(20, 20, 5)])
    assert max(left.along * left.across for left in plan.offcuts) == 15 * 20


def test_areas_are_conserved(plan):
    cut = sum(a * c * n for a, c, n in PARTS)
    left = sum(piece.along * piece.across for piece in plan.offcuts)
    whole = sum(SHEETS[kind][0] * SHEETS[kind][1] for kind, _ in plan.sheets)
    assert cut + left == whole


def test_doubling_every_length_changes_nothing_but_the_places():
    twice = fit(
        [(2 * a, 2 * c, n) for a, c, n in PARTS],
        [(2 * a, 2 * c, price) for a, c, price in SHEETS],
    )
    once = fit(PARTS, SHEETS)
    assert twice.cost_cents == once.cost_cents
    assert [len(places) for _, places in twice.sheets] == [
        len(places) for _, places in once.sheets
    ]


def test_the_solver_keeps_standard_output_clean():
    code = (
        "from pricebook.veneer.cover import cheapest_cover\n"
        "from pricebook.veneer import fit\n"
        "fit([(7, 5, 9), (4, 6, 9), (3, 8, 9), (5, 5, 9)], [(19, 17, 5), (23, 11, 4)])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=True, text=True
    )
    assert (done.stdout, done.stderr) == ("", "")


def test_leaves_is_the_function():
    assert callable(leaves)
