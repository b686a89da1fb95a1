"""Cost to raise a dollar: what is divided by what.

A watchdog's study of 2007 and its critics: a chapter raised 2,361,849, spent 363,199
and kept 1,998,650, so 0.1538 and 6.50 a dollar. Greenfield, "Fund-Raising", 1999, as
three sites quote it: benefit events 0.50 of gross proceeds; 0.50 is a return of 2.00
and 100 % on what was spent. To the last printed digit.
"""

import csv
from pathlib import Path

import pytest

from pricebook import receipts

TABLE = Path(__file__).parents[2] / "data/reference/greenfield_1999.csv"


def test_the_chapters_figures_come_out_as_printed():
    raised = receipts.CostToRaise(363_199_00, 2_361_849_00)
    assert raised.net_cents == 1_998_650_00
    assert float(raised.for_one) == pytest.approx(0.1538, abs=0.00005)
    assert float(raised.return_for_one) == pytest.approx(6.50, abs=0.005)


def test_half_a_dollar_spent_is_a_return_of_two():
    rows = receipts.read_figures(csv.DictReader(TABLE.read_text("utf-8").splitlines()))
    share = receipts.in_force(rows, "benefit events", 1999).figure
    raised = receipts.CostToRaise(int(100_00 * share), 100_00)
    assert float(raised.for_one) == 0.5
    assert raised.return_for_one == 2
    assert raised.return_on_investment == 1


def test_nothing_raised_has_no_cost_to_raise():
    raised = receipts.CostToRaise(50_00, 0)
    assert (raised.for_one, raised.net_margin) == (None, None)
    assert "nothing was raised" in raised.words
