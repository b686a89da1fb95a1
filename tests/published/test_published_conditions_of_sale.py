"""Buyer's premium in an international auction house's conditions of sale, 2020-21.

27.5 % of the first 12,500, 25 % above that up to and including 600,000, 20 % above
that up to and including 6,000,000, 14.5 % above. The premiums are worked from that
schedule by hand. The second schedule, 25 % to 1,000, 20 % to 5,000, 12 % above, is a
made-up one, worked by hand too. Exact to the cent.
"""

import itertools

import pytest

from pricebook import proceeds

PRINTED = (
    (12_500_00, 0.275),
    (600_000_00, 0.25),
    (6_000_000_00, 0.20),
    (None, 0.145),
)
MADE_UP = ((1_000_00, 0.25), (5_000_00, 0.20), (None, 0.12))


@pytest.mark.parametrize(
    ("hammer", "premium"),
    [
        (900_00, 247_50),
        (12_500_00, 3_437_50),
        (600_000_00, 150_312_50),
        (1_000_000_00, 230_312_50),
    ],
)
def test_the_printed_schedule_is_read_as_marginal_tiers(hammer, premium):
    assert proceeds.premium_cents(hammer, PRINTED) == premium


@pytest.mark.parametrize(
    ("hammer", "premium"),
    [(800_00, 200_00), (1_000_00, 250_00), (1_001_00, 250_20), (5_000_00, 1_050_00)],
)
def test_each_part_of_the_price_pays_its_own_share(hammer, premium):
    assert proceeds.premium_cents(hammer, MADE_UP) == premium


def test_a_slab_reading_would_take_less_from_a_higher_price():
    """12 % of all of 6,500 is 780, less than the 1,050 that 5,000 pays."""
    assert proceeds.premium_cents(6_500_00, MADE_UP) == 1_050_00 + 180_00


def test_the_premium_never_falls_and_its_rate_never_rises():
    premiums = [proceeds.premium_cents(h, MADE_UP) for h in range(0, 700_000, 1_000)]
    assert premiums == sorted(premiums)
    rates = [
        p / h for p, h in zip(premiums[1:], range(1_000, 700_000, 1_000), strict=True)
    ]
    assert all(a >= b for a, b in itertools.pairwise(rates))
