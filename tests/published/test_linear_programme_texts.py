"""Small product-mix programmes of three texts, as choices of whole pieces.

W. L. Winston, Operations Research, ch. 6: desks, tables, chairs at 60, 30, 20; lumber
8, 6, 1 of 48; finishing 4, 2, 1.5 of 20; carpentry 2, 1.5, .5 of 8; at most 5 tables:
280 from 2 desks and 8 chairs (printed). Its shadow prices 0, 10, 10 are from memory.
B. Render, R. M. Stair, Quantitative Analysis for Management, ch. 7: tables and chairs,
4 T + 3 C <= 240, 2 T + C <= 100: at 70 and 50 a piece 4,100 (printed); at 7 and 5 a
piece 410 from 30 and 40 with shadow prices 1.5 and .5 (from memory).
Principles of Accounting, Volume 2: Managerial Accounting, 2019, section 10.6: 80,000
machine hours; desks 185 in an hour, chairs 55 in half, bookcases in a quarter; orders
of 60,000, 48,000 and 40,000: make 60,000, 20,000 and 40,000 (printed). The text prints
48 a bookcase; its own figures give 175 - 35 - 50 - 45 = 45, and the plan is the same.
All answers are whole numbers, so they are compared exactly.
"""

from itertools import product

import pytest

from pricebook import forecast

WINSTON = [
    {"name": "desk", "uplift_cents": 60, "most": 6}
    | {"lumber": 8, "finishing": 4, "carpentry": 2},
    {"name": "table", "uplift_cents": 30, "most": 5}
    | {"lumber": 6, "finishing": 2, "carpentry": 1.5},
    {"name": "chair", "uplift_cents": 20, "most": 48}
    | {"lumber": 1, "finishing": 1.5, "carpentry": 0.5},
]
WINSTON_LIMITS = {"lumber": 48, "finishing": 20, "carpentry": 8}


def best_by_trial(limits):
    ranges = [range(piece["most"] + 1) for piece in WINSTON]
    return max(
        sum(p["uplift_cents"] * n for p, n in zip(WINSTON, counts, strict=True))
        for counts in product(*ranges)
        if all(
            sum(p[key] * n for p, n in zip(WINSTON, counts, strict=True)) <= limit
            for key, limit in limits.items()
        )
    )


def test_desks_tables_chairs():
    choice = forecast.choose(WINSTON, WINSTON_LIMITS)
    assert choice.counts == (("desk", 2), ("table", 0), ("chair", 8))
    assert choice.uplift_cents == 280
    assert choice.used == {"lumber": 24, "finishing": 20, "carpentry": 8}


@pytest.mark.unconfirmed
def test_shadow_prices_of_desks_tables_chairs():
    choice = forecast.choose(WINSTON, WINSTON_LIMITS)
    assert choice.lp_worth == pytest.approx(
        {"lumber": 0, "finishing": 10, "carpentry": 10}, abs=1e-9
    )


def test_one_more_of_each_in_whole_pieces_is_what_trying_all_finds():
    choice = forecast.choose(WINSTON, WINSTON_LIMITS)
    for key, limit in WINSTON_LIMITS.items():
        wider = best_by_trial({**WINSTON_LIMITS, key: limit + 1})
        assert choice.worth_of_one_more[key] == wider - 280


def flair(table, chair):
    pieces = [
        {"name": "table", "uplift_cents": table, "most": 100, "wood": 4, "paint": 2},
        {"name": "chair", "uplift_cents": chair, "most": 100, "wood": 3, "paint": 1},
    ]
    return forecast.choose(pieces, {"wood": 240, "paint": 100})


def test_tables_and_chairs():
    assert flair(70, 50).uplift_cents == 4100


@pytest.mark.unconfirmed
def test_tables_and_chairs_with_shadow_prices():
    choice = flair(7, 5)
    assert choice.counts == (("table", 30), ("chair", 40))
    assert choice.uplift_cents == 410
    assert choice.lp_worth == pytest.approx({"wood": 1.5, "paint": 0.5})


def test_desks_chairs_bookcases_within_machine_hours():
    pieces = [
        {"name": "desk", "uplift_cents": 185, "most": 60_000, "hours": 1},
        {"name": "chair", "uplift_cents": 55, "most": 48_000, "hours": 0.5},
        {"name": "bookcase", "uplift_cents": 45, "most": 40_000, "hours": 0.25},
    ]
    choice = forecast.choose(pieces, {"hours": 80_000})
    assert dict(choice.counts) == {"desk": 60_000, "chair": 20_000, "bookcase": 40_000}
    # 60,000 x 185 + 20,000 x 55 + 40,000 x 45 = 14,000,000; an hour makes two chairs
    assert choice.uplift_cents == 14_000_000
    assert choice.worth_of_one_more == {"hours": 110}
    assert choice.lp_worth == pytest.approx({"hours": 110})
