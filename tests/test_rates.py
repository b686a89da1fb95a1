"""Rows of the price book, and the cheapest packs."""

from datetime import date
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.errors import TableError
from pricebook.rates import Material, Pack, Sheet, buy
from pricebook.rates.packs import cheapest_packs

TAIL = {"dated": date(2026, 1, 1), "source": "invented"}


def material(*packs, on_hand=0.0):
    return Material(
        key="glue",
        name="glue",
        group="adhesive",
        unit="l",
        packs=tuple(Pack(quantity=q, price_cents=p, from_packs=n) for q, p, n in packs),
        on_hand=on_hand,
        **TAIL,
    )


def cost(packs, counts):
    """Price counts of packs by brute force, quantity breaks included."""
    return sum(
        n * min(p for q, p, least in packs if q == size and least <= n)
        for size, n in counts.items()
        if n
    )


def brute_force(need, packs):
    sizes = sorted({q for q, _, _ in packs})
    most = [need // q + 1 + max(n for _, _, n in packs) for q in sizes]
    best = None
    for counts in product(*(range(m + 1) for m in most)):
        chosen = dict(zip(sizes, counts, strict=True))
        if sum(q * n for q, n in chosen.items()) < need:
            continue
        try:
            price = cost(packs, chosen)
        except ValueError:
            continue  # fewer packs than any break allows
        best = price if best is None else min(best, price)
    return best


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 12),
    st.lists(
        st.tuples(st.integers(1, 6), st.integers(1, 90), st.sampled_from([1, 1, 3])),
        min_size=1,
        max_size=4,
        unique_by=lambda pack: (pack[0], pack[2]),
    ),
)
def test_the_cheapest_packs_are_those_of_a_full_search(need, packs):
    rows = tuple(Pack(quantity=q, price_cents=p, from_packs=n) for q, p, n in packs)
    found = cheapest_packs(Fraction(need), rows)
    held = sum(pack.quantity * count for pack, count in found)
    assert held >= need
    assert sum(pack.price_cents * count for pack, count in found) == brute_force(
        need, packs
    )


def test_seven_tenths_of_a_square_metre_take_three_sheets():
    # 7.3 m2 in sheets of 2.88 m2 at 41.50: 3 sheets, 124.50 (by hand)
    found = buy(material((2.88, 4150, 1)), 7.3)
    assert found.bought_cents == 12450
    assert found.left == pytest.approx(3 * 2.88 - 7.3)


def test_a_quantity_break_may_make_more_packs_cheaper():
    found = buy(material((1, 1000, 1), (1, 700, 3)), 2.5)
    assert found.bought_cents == 2100
    found = buy(material((1, 1000, 1), (1, 600, 3)), 1.5)
    assert found.bought_cents == 1800  # three at 6.00 beat two at 10.00


def test_the_rack_comes_first_and_used_plus_left_is_all_there_was():
    found = buy(material((1, 1000, 1), on_hand=2.0), 1.5)
    assert (found.bought_cents, found.used_cents, found.left) == (0, 1500, 0)
    assert found.stock == 0.5
    found = buy(material((1, 1000, 1), on_hand=1.0), 1.5)
    assert (found.bought_cents, found.used_cents, found.left_cents) == (1000, 1500, 500)


@given(st.floats(0.01, 50), st.floats(0, 5))
def test_used_and_left_add_up_to_bought_and_on_hand(quantity, on_hand):
    row = material((1, 900, 1), (4, 2500, 1), on_hand=on_hand)
    found = buy(row, quantity)
    from_rack = 900 * min(on_hand, quantity)
    assert found.used_cents + found.left_cents == pytest.approx(
        found.bought_cents + from_rack, abs=1.01
    )
    held = sum(pack.quantity * count for pack, count in found.packs)
    assert found.stock == pytest.approx(on_hand + held - quantity)


def test_a_row_says_everything_that_is_wrong_with_it():
    with pytest.raises(TableError, match="it must be more than 0") as caught:
        Sheet(key="x", species="oak", form="foil", veneer="show", along_mm=0,
              across_mm=-1, price_cents=0, **TAIL)  # fmt: skip
    assert len(caught.value.faults) == 4
