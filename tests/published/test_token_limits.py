"""Limits for thank-you tokens: Rev. Proc. 90-12 and its yearly successors.

IRC 513(h)(2) sets 5, 25 and 50, indexed together, so the lowest payment stands at 5
times the low-cost article and the highest value at 10 times in every year. 2024: 13.20,
66.00, 132 (Rev. Proc. 2023-34, two secondary texts). A payment of 50 allows a benefit
of at most 2 %, 1.00; one of 5,000 in 2013 allows 100. 2025 and 2026 are from memory.
"""

import csv
from pathlib import Path

import pytest

from pricebook import receipts

TABLE = Path(__file__).parents[2] / "data/reference/low_cost_articles.csv"
ROWS = receipts.read_figures(csv.DictReader(TABLE.read_text("utf-8").splitlines()))
UNSEEN = {row.year for row in ROWS if not row.confirmed}
YEARS = [
    pytest.param(year, marks=pytest.mark.unconfirmed if year in UNSEEN else ())
    for year in sorted({row.year for row in ROWS})
]


def test_2024_has_the_printed_limits():
    limits = receipts.token_limits(2024, ROWS)
    assert limits.article_cents == 13_20
    assert limits.payment_cents == 66_00
    assert limits.value_cents == 132_00


@pytest.mark.parametrize("year", YEARS)
def test_the_three_limits_stand_at_1_to_5_to_10(year):
    found = {row.name: row.figure for row in ROWS if row.year == year}
    article = found["low-cost article"]
    assert found["token payment from"] == 5 * article
    assert found["token value up to"] == 10 * article


@pytest.mark.parametrize(
    ("year", "paid", "value", "small"),
    [
        (2013, 50_00, 1_00, True),
        (2013, 50_00, 1_01, False),
        (2013, 5000_00, 100_00, True),
        (2013, 5000_00, 102_01, False),
    ],
)
def test_a_benefit_of_up_to_2_percent_does_not_count(year, paid, value, small):
    limits = receipts.token_limits(year, ROWS)
    assert limits.is_small(paid_cents=paid, value_cents=value) is small


def test_a_year_without_a_row_is_not_made_up():
    with pytest.raises(ValueError, match="no figure for 2019"):
        receipts.token_limits(2019, ROWS)
