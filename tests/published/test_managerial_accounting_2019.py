"""Worked examples of an open textbook of managerial accounting.

Principles of Accounting, Volume 2: Managerial Accounting, Rice University/OpenStax,
2019, sections 3.1 to 3.5, 4.4, 4.5, 6.1, 6.5 and 9.4. Figures as printed, in
units of money; here in cents. Left out, for its own working contradicts them: the
300-unit chart of 3.2, and the labour rate of 4.5 said to be 1.50.
"""

import pytest

from pricebook import price


def cents(amount):
    return round(amount * 100)


@pytest.mark.parametrize(
    ("each", "variable", "fixed", "units", "sales"),
    [
        (100, 20, 18_000, 225, 22_500),  # 3.2
        (3.75, 1.50, 2_475, 1_100, 4_125),  # 3.3
        (4.25, 1.50, 2_475, 900, 3_825),
        (3.75, 1.55, 2_475, 1_125, 4_218.75),
        (3.75, 1.50, 2_700, 1_200, 4_500),
        (3.95, 1.45, 2_875, 1_150, 4_542.50),
        (90, 40, 85_000, 1_700, 153_000),  # 3.5
    ],
)
def test_break_even_points_are_as_printed(each, variable, fixed, units, sales):
    given = cents(each), cents(variable), cents(fixed)

    assert price.break_even_units(*given) == units
    assert price.break_even_sales_cents(*given) == cents(sales)


@pytest.mark.parametrize(
    ("profit", "tax", "units"), [(16_000, 0, 425), (24_000, 0.4, 725)]
)
def test_units_for_a_target_profit(profit, tax, units):
    given = cents(100), cents(20), cents(18_000)

    assert price.units_for_profit(*given, cents(profit), tax) == pytest.approx(units)


@pytest.mark.parametrize(("units", "income"), [(175, -4_000), (300, 6_000)])
def test_income_below_and_above_break_even(units, income):
    year = price.Volume(
        price_cents=cents(100),
        variable_cents=cents(20),
        fixed_cents=cents(18_000),
        units=units,
    )

    assert year.income_cents == cents(income)


def test_break_even_of_a_mix():
    rows = [(625, 325, 5), (775, 450, 3), (925, 625, 2)]

    pieces = price.break_even_mix(rows, cents(145_000))

    assert pieces[0] / 5 == pytest.approx(4_715.447, abs=5e-4)  # printed to 0.001
    assert [round(count) for count in pieces] == [23_577, 14_146, 9_431]


def test_margin_of_safety():
    year = price.Volume(
        price_cents=9_000, variable_cents=4_000, fixed_cents=8_500_000, units=2_500
    )

    assert year.margin_of_safety_cents == cents(72_000)


@pytest.mark.parametrize(
    ("contribution", "leverage", "fall"),
    [(148_000, 1.74, -0.348), (210_000, 2.47, -0.494)],
)
def test_operating_leverage(contribution, leverage, fall):
    found = price.operating_leverage(cents(contribution), cents(85_000))

    assert found == pytest.approx(leverage, abs=0.005)  # printed to 0.01
    assert -0.2 * found == pytest.approx(fall, abs=0.0005)


def test_a_job_card_with_overhead_on_labour():
    assert price.job_cost_cents(cents(700), cents(66), 2.5) == cents(931)


def test_overhead_for_each_hour():
    rate = price.overhead_per_hour_cents(cents(2_500_000), 1_250_000)
    assert rate == cents(2)

    hours, units = (350_000, 400_000, 500_000), (140_000, 100_000, 250_000)
    carried = [rate * h / n for h, n in zip(hours, units, strict=True)]
    assert carried == [cents(5), cents(8), cents(4)]


@pytest.mark.parametrize(
    ("sold", "absorbed", "marginal", "absorbed_stock", "marginal_stock"),
    [
        (8_000, 54_400, 52_000, 52_400, 50_000),
        (10_000, 68_000, 68_000, 0, 0),
    ],
)
def test_absorbed_beside_marginal(
    sold, absorbed, marginal, absorbed_stock, marginal_stock
):
    books = price.absorbed_and_marginal(
        price_cents=cents(33),
        variable_cents=cents(3 + 15 + 7),
        fixed_cents=cents(12_000),
        made=10_000,
        sold=sold,
    )

    assert books.absorbed_unit_cents == cents(26.20)
    assert books.absorbed_income_cents == cents(absorbed)
    assert books.marginal_income_cents == cents(marginal)
    assert books.absorbed_stock_cents == cents(absorbed_stock)
    assert books.marginal_stock_cents == cents(marginal_stock)


@pytest.mark.parametrize(("cost", "asked"), [(10, 13), (12, 15.60)])
def test_cost_plus_thirty_per_cent(cost, asked):
    assert price.price_from_markup_cents(cents(cost), 0.30) == cents(asked)
