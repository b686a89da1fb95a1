"""Mark-up exercises of an open textbook of mathematics.

Contemporary Mathematics, Rice University/OpenStax, 2023, section 6.2. Figures as
printed; the working line of the last one prints 2.25/3.25 for its 1.25, a slip, but
its answer is right.
"""

import pytest

from pricebook import price


@pytest.mark.parametrize(
    ("cost", "markup", "asked"), [(6_200, 0.15, 7_130), (75_000, 0.45, 108_750)]
)
def test_price_from_cost_and_markup(cost, markup, asked):
    assert price.price_from_markup_cents(cost, markup) == asked


@pytest.mark.parametrize(
    ("cost", "asked", "markup"), [(9_000, 10_350, 15), (520, 990, 90.38)]
)
def test_markup_from_cost_and_price(cost, asked, markup):
    # printed to 0.01 per cent
    assert 100 * price.markup_of(cost, asked) == pytest.approx(markup, abs=0.005)


@pytest.mark.parametrize(
    ("asked", "markup", "cost"), [(1_062, 0.20, 885), (2_655, 1.25, 1_180)]
)
def test_cost_from_price_and_markup(asked, markup, cost):
    assert price.cost_from_markup_cents(asked, markup) == cost
