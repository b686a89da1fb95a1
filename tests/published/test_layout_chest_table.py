"""A chest of drawers on three sizes of sheet: the least cost of each way to cut it.

No published table; the six rows below were established by an exact programme of its
own and by a constraint solver of the general kind, both apart from this package: least
costs with sheets of 2 x 8, 4 x 8 and 4 x 10 ft at 60, 100 and 128. That one sheet of
4 x 8 ft never suffices also follows from the constraint solver without the
edge-to-edge rule. The yield example is plain geometry: of faces 30 x 18 in, cut half an
inch larger all round, a sheet of 96 x 24 in gives three, a net yield of
3 * 30 * 18 / (96 * 24) = 70.3 %.
"""

import pytest

from pricebook.veneer import check, fit

SHEETS = [(192, 48, 60), (192, 96, 100), (240, 96, 128)]
"""Half inches: the cut sizes below are whole numbers of them."""

TOP, SIDES = (76, 40, 1), (82, 39, 2)
ROWS = {
    "one block, vertical": ([TOP, SIDES, (67, 70, 1), (10, 70, 1)], (), 200, 128),
    "one strip, vertical": (
        [TOP, SIDES, (15, 70, 5), (10, 70, 1)], ((2, "end to end"),), 200, 160,
    ),
    "separate, vertical": ([TOP, SIDES, (15, 70, 5), (10, 70, 1)], (), 200, 160),
    "one block, horizontal": ([TOP, SIDES, (70, 67, 1), (70, 10, 1)], (), 200, 128),
    "one strip, horizontal": (
        [TOP, SIDES, (70, 15, 5), (70, 10, 1)], ((2, "side by side"),), 200, 128,
    ),
    "separate, horizontal": ([TOP, SIDES, (70, 15, 5), (70, 10, 1)], (), 200, 128),
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS.keys())
def test_a_chest_costs_what_the_table_says_and_it_is_proven(row):
    parts, runs, one_size, three_sizes = row
    for sheets, cost in ((SHEETS[1:2], one_size), (SHEETS, three_sizes)):
        plan = fit(parts, sheets, runs)
        check(plan, parts, sheets, runs)
        assert plan.cost_cents == cost
        assert plan.proven


def test_a_sheet_of_two_by_eight_feet_yields_three_faces_and_seventy_per_cent():
    sheets = [(96, 24, 60)]
    assert len(fit([(31, 19, 3)], sheets).sheets) == 1
    assert len(fit([(31, 19, 4)], sheets).sheets) == 2
    assert pytest.approx(0.703, abs=0.0005) == 3 * 30 * 18 / (96 * 24)
