"""Margins, fees and the advice on a price, and what is refused."""

import datetime
import math
import subprocess
import sys
import time
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import bidding, price, proceeds
from pricebook.errors import MoneyError, PricebookError, SpecError
from pricebook.money import show
from pricebook.price import Comparable, PieceCosts, PricePolicy, advise_price

TODAY = datetime.date(2026, 4, 1)
SALE = datetime.date(2026, 3, 14)
COSTS = PieceCosts(9_000, 7_200, 21_500, 6.5)
SALES = [Comparable(cents, SALE) for cents in (18_000, 22_000, 26_000, 31_000, 15_000)]


def policy(**wishes):
    return PricePolicy(**{"bidders": 4, "unsold_value_cents": 5_000, **wishes})


def advice(rules=None, costs=COSTS, **wishes):
    given_ = {"on": TODAY, "by": "the maker", "comparables": SALES, **wishes}
    return advise_price(costs, rules or policy(), **given_)


# --- margins ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("margin", "markup"),
    [(0.20, 0.25), (0.25, 1 / 3), (Fraction(1, 3), 0.5), (0.40, 2 / 3), (0.50, 1)],
)
def test_margin_and_markup_turn_into_each_other(margin, markup):
    # g = m/(1 + m), m = g/(1 - g): algebra
    assert price.markup_from_margin(margin) == pytest.approx(markup, rel=1e-12)
    assert price.margin_from_markup(markup) == pytest.approx(float(margin), rel=1e-12)


@given(
    cost=st.integers(1, 10**7),
    markup=st.integers(0, 10_000).map(lambda n: Fraction(n, 1000)),
)
@settings(max_examples=60)
def test_a_price_carries_the_markup_it_was_made_with(cost, markup):
    asked = price.price_from_markup_cents(cost, markup)

    assert price.markup_of(cost, asked) == pytest.approx(float(markup), abs=0.51 / cost)
    back = price.cost_from_markup_cents(asked, markup)
    assert abs(back - cost) <= 1
    margin = markup / (1 + markup)
    assert price.price_from_margin_cents(cost, margin) == asked


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf, True, None, "0.2"])
def test_markups_that_cannot_be_are_refused(bad):
    for door in (price.margin_from_markup, price.markup_from_margin):
        with pytest.raises(MoneyError, match=r"mark|margin"):
            door(bad)


@pytest.mark.parametrize("bad", [1, 1.5])
def test_a_margin_of_all_the_price_is_refused(bad):
    with pytest.raises(MoneyError, match="less than 1"):
        price.markup_from_margin(bad)
    with pytest.raises(MoneyError, match="less than 1"):
        price.price_from_margin_cents(100, bad)


@pytest.mark.parametrize("bad", [-1, 62.5, True, None, math.nan])
def test_costs_that_are_no_cents_are_refused(bad):
    for door in (price.price_from_markup_cents, price.price_from_margin_cents):
        with pytest.raises(MoneyError, match="cost_cents"):
            door(bad, 0.2)
    with pytest.raises(MoneyError, match="price_cents"):
        price.cost_from_markup_cents(bad, 0.2)


def test_a_cost_or_a_price_of_nothing_has_no_share():
    with pytest.raises(MoneyError, match="cost_cents is 0"):
        price.markup_of(0, 100)
    with pytest.raises(MoneyError, match="price_cents is 0"):
        price.margin_of(100, 0)


# --- fees ------------------------------------------------------------------------


def test_a_price_that_leaves_150_after_three_fees():
    # (150 + 4.30)/(1 - .179) = 187.9415; 9.40 + 5.45 + 18.79 + 4.30 = 37.94
    shares = [0.05, 0.029, 0.10]

    assert price.gross_up_cents(15_000, shares, 430) == 18_794
    assert price.net_of_fees_cents(18_794, shares, 430) == 15_000
    # 154.30/(.95 * .971 * .90) = 185.8577
    assert price.gross_up_in_turn_cents(15_000, shares, 430) == 18_586


def test_one_share_need_not_be_a_list():
    assert price.gross_up_cents(9_500, 0.05, 0) == 10_000
    assert price.gross_up_cents(9_500, Decimal("0.05")) == 10_000
    assert price.gross_up_cents(9_500, np.array([0.05]), 0) == 10_000
    assert price.gross_up_cents(9_500, [], 500) == 10_000


@given(
    net=st.integers(0, 10**7),
    shares=st.lists(st.integers(0, 300).map(lambda n: Fraction(n, 1000)), max_size=3),
    fixed=st.integers(0, 5_000),
)
@settings(max_examples=100)
def test_a_grossed_up_price_leaves_the_sum_and_hardly_more(net, shares, fixed):
    asked = price.gross_up_cents(net, shares, fixed)

    exact = (net + fixed) / (1 - sum(shares))
    assert net <= price.net_of_fees_cents(asked, shares, fixed) <= net + 3
    assert asked >= exact - Fraction(1, 2)
    # three fees rounded by half a cent each, over a rest of a tenth at least
    assert abs(asked - exact) <= (1.5 + 1) / float(1 - sum(shares)) + 1


@pytest.mark.parametrize(("net", "asked"), [(50_000, 55_556), (60_000, 66_000)])
def test_a_capped_fee(net, asked):
    # 500/.9 = 555.56, a fee below 60; 600 + 60 = 660, where 10 % would be 66
    assert price.gross_up_capped_cents(net, 0.10, 6_000) == asked


def test_a_card_fee_on_all_that_the_buyer_pays():
    # 154.30/(1.1 - .05 - .029 * 1.1 * 1.08) = 151.9377
    asked = price.hammer_for_net_cents(
        15_000,
        premium_share=0.10,
        tax_share=0.08,
        hammer_shares=0.05,
        charged_share=0.029,
        fixed_cents=430,
    )

    assert asked == 15_194


def test_what_a_hammer_price_pays_for_an_hour():
    # (320 * .95 - 72)/6.5 = 35.6923
    assert price.pay_per_hour_cents(32_000, 0.05, 7_200, 6.5) == 3_569
    # (72 + 6.5 * 22)/.95 = 226.3158
    assert price.gross_up_cents(7_200 + 14_300, 0.05) == 22_632
    assert price.pay_per_hour_cents(5_000, 0.05, 7_200, 6.5) < 0


@pytest.mark.parametrize(
    ("shares", "match"),
    [
        ([0.6, 0.4], "eat the whole price"),
        ([0.6, 0.5], "eat the whole price"),
        ([1], "less than 1"),
        (5, "less than 1"),
        ([-0.05], "0 or more"),
        ([math.nan], "ordinary size"),
        ([None], "must be a number"),
        ("0.05", "must be a number"),
        ({"card": 0.05}, "must be a number"),
        ([True], "must be a number"),
    ],
)
def test_shares_that_cannot_be_are_refused(shares, match):
    with pytest.raises(MoneyError, match=match):
        price.gross_up_cents(15_000, shares, 0)
    with pytest.raises(MoneyError, match=match):
        price.pay_per_hour_cents(15_000, shares, 0, 1)


@pytest.mark.parametrize("bad", [-1, 1.5, True, None, math.nan, "150"])
def test_sums_that_are_no_cents_are_refused(bad):
    with pytest.raises(MoneyError, match="net_cents"):
        price.gross_up_cents(bad, 0.05, 0)
    with pytest.raises(MoneyError, match="fixed_cents"):
        price.gross_up_cents(100, 0.05, bad)


def test_fees_that_eat_hammer_and_premium_are_refused():
    with pytest.raises(MoneyError, match="nothing is left"):
        price.hammer_for_net_cents(
            100,
            premium_share=0,
            tax_share=1,
            hammer_shares=[0.5, 0.3],
            charged_share=0.1,
        )


@pytest.mark.parametrize("hours", [0, -1, math.nan, None])
def test_hours_that_cannot_be_are_refused(hours):
    with pytest.raises(MoneyError, match="hours"):
        price.pay_per_hour_cents(100, 0, 0, hours)
    with pytest.raises(MoneyError, match="hours"):
        price.overhead_per_hour_cents(100, hours)


def test_volumes_that_cannot_be_are_refused():
    with pytest.raises(MoneyError, match="does not exceed the variable cost"):
        price.break_even_units(100, 100, 5)
    with pytest.raises(MoneyError, match="fixed_cents is -5"):
        price.break_even_sales_cents(200, 100, -5)
    with pytest.raises(MoneyError, match="tax_share is 1"):
        price.units_for_profit(200, 100, 5, 10, 1)
    with pytest.raises(MoneyError, match="no rows"):
        price.break_even_mix([], 5)
    with pytest.raises(MoneyError, match="never breaks even"):
        price.break_even_mix([(100, 150, 2), (100, 90, 1)], 5)
    with pytest.raises(MoneyError, match="income_cents is 0"):
        price.operating_leverage(100, 0)
    with pytest.raises(MoneyError, match=r"units is 2\.5"):
        price.Volume(price_cents=2, variable_cents=1, fixed_cents=1, units=2.5)
    with pytest.raises(MoneyError, match="sell no more than is made"):
        price.absorbed_and_marginal(
            price_cents=2, variable_cents=1, fixed_cents=1, made=1, sold=2
        )
    with pytest.raises(MoneyError, match="overhead_on_labour is -1"):
        price.job_cost_cents(1, 1, -1)


# --- comparables -----------------------------------------------------------------


def test_a_comparable_is_brought_to_this_pieces_condition_and_day():
    older = Comparable(20_000, datetime.date(2024, 4, 1), 1.1)

    assert older.adjusted_cents == 22_000
    # two years of 730 days in years of 365.25: 220 * 1.05^1.99863
    assert older.aged_cents(TODAY, 0.05) == round(22_000 * 1.05 ** (730 / 365.25))
    assert older.aged_cents(TODAY) == 22_000


@pytest.mark.parametrize(
    ("row", "match"),
    [
        ((None, SALE), "has no price"),
        ((18_000, None), "has no date"),
        ((18_000, "2026-03-14"), "has no date"),
        ((18_000, datetime.datetime(2026, 3, 14, tzinfo=datetime.UTC)), "has no date"),
        ((0, SALE), "price_cents is 0"),
        ((-18_000, SALE), "price_cents is -18000"),
        ((180.5, SALE), "a whole number"),
        ((18_000, SALE, 0), "condition_factor is 0"),
        ((18_000, SALE, math.nan), "condition_factor"),
        ((18_000, SALE, 1, "passed"), "kind is 'passed'"),
    ],
)
def test_comparables_that_cannot_be_are_refused(row, match):
    with pytest.raises(SpecError, match=match):
        Comparable(*row)


# --- advice ----------------------------------------------------------------------


def test_the_fair_market_value_is_the_middle_of_the_sales():
    found = advice().fair_market_value

    assert found.cents == 22_000
    for word in ("5 comparable sales", "the maker", "2026-04-01", "middle"):
        assert word in found.reason


def test_a_fair_market_value_says_who_and_when_or_that_nobody_is_named():
    named = advice(valued_on=datetime.date(2026, 3, 30)).fair_market_value
    nobody = advice(by="")

    assert "by the maker, 2026-03-30" in named.reason
    assert nobody.fair_market_value.cents == 22_000
    assert "nobody is named" in nobody.fair_market_value.reason
    assert any("name who judged" in warning for warning in nobody.warnings)


def test_the_fair_market_value_moves_with_sales_alone():
    dear = PieceCosts(90_000, 72_000, 215_000, 65)
    unsold = [*SALES, Comparable(10_000, SALE, 1, "unsold")]

    for other in (
        advice(costs=dear),
        advice(policy(bidders=40)),
        advice(retail_cents=90_000),
        advice(comparables=unsold),
    ):
        assert other.fair_market_value.cents == 22_000


def test_without_a_sale_there_is_no_fair_market_value():
    for rows in ([], [Comparable(10_000, SALE, 1, "unsold")]):
        found = advice(comparables=rows, retail_cents=40_000)

        assert found.fair_market_value.cents is None
        assert "No comparable sale" in found.fair_market_value.reason
        assert found.estimate_low.cents > 0


def test_figures_stand_in_order_and_on_the_ladder():
    ladder = bidding.TEN_PERCENT
    for bidders in (1, 2, 3, 4, 7, 20):
        for unsold in (0, 10_000, 40_000):
            found = advice(policy(bidders=bidders, unsold_value_cents=unsold))

            low, high = found.estimate_low.cents, found.estimate_high.cents
            assert found.opening_bid.cents <= low <= high
            for figure in (found.opening_bid, found.estimate_low, found.estimate_high):
                assert ladder.holds(figure.cents)
            if found.reserve.cents is not None:
                assert found.opening_bid.cents < found.reserve.cents <= low
                assert ladder.holds(found.reserve.cents)
            assert found.reserve_too_high.cents > 0


def test_the_opening_bid_is_half_the_believed_median():
    found = advice(policy(cost_sigma=None))

    # sales alone, three bidders at each: their geometric mean
    median = math.exp(sum(math.log(row.price_cents) for row in SALES) / 5)
    assert found.median_value_cents == round(median)
    assert found.opening_bid.cents == bidding.TEN_PERCENT.nearest(round(median / 2))
    more = advice(policy(cost_sigma=None, comparable_bidders=6))
    assert more.median_value_cents < found.median_value_cents


def test_the_estimate_holds_half_of_the_hammers_that_fall():
    found = advice()
    rungs = dict(found.outlook.rungs)
    sold = sum(rungs.values())

    low, high = found.estimate_low.cents, found.estimate_high.cents
    below = sum(chance for rung, chance in rungs.items() if rung < low)
    above = sum(chance for rung, chance in rungs.items() if rung > high)
    assert below / sold < 0.25 <= (below + rungs[low]) / sold
    assert above / sold <= 0.25 < (above + rungs[high]) / sold


def test_the_reserve_never_comes_from_cost():
    plain = advice(policy(unsold_value_cents=12_000, bidders=8))
    dear = advice(
        policy(unsold_value_cents=12_000, bidders=8),
        costs=PieceCosts(9_000, 7_200, 30_000, 40),
    )

    assert plain.reserve.cents == dear.reserve.cents is not None
    only_cost = advice(comparables=[])
    assert only_cost.reserve.cents is None
    assert "never comes from cost" in only_cost.reserve.reason


def test_the_reserve_follows_the_value_of_an_unsold_piece():
    low = advice(policy(unsold_value_cents=0, bidders=9)).reserve.cents
    high = advice(policy(unsold_value_cents=15_000, bidders=9)).reserve.cents

    assert low < high


def test_going_half_too_high_costs_what_the_theory_says():
    # sales so many that the median is sure, one bidder more or less a Poisson three
    rows = [Comparable(100_000, SALE)] * 400
    rules = policy(bidders=3, crowd="fixed", unsold_value_cents=50_000, cost_sigma=None)

    found = advice(rules, comparables=rows).reserve_too_high

    best = bidding.best_reserve(100_000, 0.5, 50_000)
    worth = [
        bidding.expected_hammer(100_000, 0.5, 3, r, "fixed")
        + 50_000 * (1 - bidding.chance_of_sale(100_000, 0.5, 3, r, "fixed"))
        for r in (best, 1.5 * best)
    ]
    assert found.cents == pytest.approx(worth[0] - worth[1], rel=0.005)


def test_averages_are_those_of_the_rungs():
    rules = policy(fee_shares=[0.05, 0.029], fixed_fee_cents=30)
    found = advice(rules)

    rungs = found.outlook.rungs
    mean = sum(rung * chance for rung, chance in rungs)
    assert found.expected_hammer.cents == round(mean)
    net = sum(
        price.net_of_fees_cents(rung, [0.05, 0.029], 30) * chance
        for rung, chance in rungs
    )
    assert found.expected_net.cents == round(net)
    halves = advice(rules, net_of=lambda cents: cents // 2).expected_net
    assert halves.cents == pytest.approx(mean / 2, abs=1)
    assert found.chance_of_sale.share == pytest.approx(
        sum(chance for _, chance in rungs), abs=1e-12
    )


def test_break_even_prices_leave_what_they_promise():
    rules = policy(fee_shares=0.05, fixed_fee_cents=400, wanted_net_cents=15_000)
    found = advice(rules).break_even

    assert list(found) == ["cash repaid", "used up", "full cost", "wanted net"]
    left = [price.net_of_fees_cents(row.cents, 0.05, 400) for row in found.values()]
    assert left == [9_000, 7_200, 21_500, 15_000]
    assert "wanted net" not in advice().break_even


def test_a_wanted_net_looks_through_the_split():
    rules = policy(wanted_net_cents=15_000)

    found = advice(rules, net_of=lambda cents: max(0, cents - 8_000)).break_even
    assert found["wanted net"].cents == 23_000
    never = advice(rules, net_of=lambda cents: min(cents, 10_000)).break_even
    assert never["wanted net"].cents is None
    assert "No hammer price" in never["wanted net"].reason
    nothing = advice(policy(wanted_net_cents=0), net_of=lambda cents: cents)
    assert nothing.break_even["wanted net"].cents == 0


def test_pay_by_the_hour_is_that_of_the_middle_hammer_price():
    found = advice()

    middle = found.outlook.quantile(0.5)
    assert found.pay_per_hour.cents == round((middle - 7_200) / 6.5)
    idle = advice(costs=PieceCosts(9_000, 7_200, 21_500, 0)).pay_per_hour
    assert idle.cents is None


def test_every_figure_has_its_reason_in_one_sentence():
    found = advice(policy(wanted_net_cents=15_000), retail_cents=42_000)

    figures = [
        getattr(found, name)
        for name in found.__slots__
        if hasattr(getattr(found, name), "reason")
    ]
    figures += found.break_even.values()
    assert len(figures) == 14
    for figure in figures:
        assert figure.reason.endswith(".")
        assert len(figure.reason) > 20


@pytest.mark.parametrize(
    ("wishes", "words"),
    [
        ({}, "number of bidders is held fixed"),
        ({}, "benefit auctions"),
        ({}, "a modelling assumption"),
        ({"comparables": SALES[:4]}, "rests on 4 comparable sales"),
        ({"comparables": [], "retail_cents": 30_000}, "rests on 0 comparable sales"),
        (
            {"comparables": [*SALES, Comparable(9_000, SALE, 1, "unsold")]},
            "1 comparable that stayed unsold",
        ),
        (
            {"comparables": [*SALES, Comparable(9_000, datetime.date(2019, 1, 1))]},
            "1 comparable older than 1095 days, the oldest of 2019-01-01",
        ),
        ({"retail_cents": 400_000}, "of the retail price"),
        ({"retail_cents": 12_000}, "of the retail price"),
        ({"costs": PieceCosts(90_000, 80_000, 90_000, 5)}, "Even the high estimate"),
        ({"rules": policy(unsold_value_cents=90_000)}, "keeping it"),
    ],
)
def test_thin_ground_is_named(wishes, words):
    found = advice(**wishes)

    assert any(words in warning for warning in found.warnings)


def test_firm_ground_is_not():
    found = advice(retail_cents=40_000)

    assert len(found.warnings) == 3


def test_figures_that_do_not_sit_well_together_are_named():
    high = advice(opening_bid_cents=50_000).warnings
    assert any("begins at 500.00, above the believed median" in said for said in high)
    dear = advice(comparables=[Comparable(500_000, SALE)]).warnings
    words = "The fair market value of 5,000.00 lies outside the estimate of"
    assert any(said.startswith(words) for said in dear)
    plain = " ".join(advice().warnings)
    assert "lies outside the estimate" not in plain
    assert "Bidding begins at" not in plain


def test_a_chosen_opening_and_reserve_take_the_place_of_the_advised():
    found = advice(opening_bid_cents=8_000, reserve_cents=15_000)

    assert found.opening_bid.cents == 8_000
    assert found.reserve.cents == 15_000
    assert found.outlook.rungs[0][0] == 15_000
    assert found.chance_of_sale.share < advice().chance_of_sale.share


def test_beside_what_was_chosen_stands_the_advice_itself():
    plain = advice(policy(bidders=9))
    found = advice(policy(bidders=9), opening_bid_cents=8_000, reserve_cents=10_000)

    own = f"Chosen, not advised; the advice itself is {show(plain.opening_bid.cents)}: "
    assert found.opening_bid.reason == own + plain.opening_bid.reason
    only_opened = advice(policy(bidders=9), opening_bid_cents=8_000).reserve
    assert only_opened.cents is not None
    own = f"Chosen, not advised; the advice itself is {show(only_opened.cents)}: "
    assert found.reserve.reason.startswith(f"{own}at most this: ")


@pytest.mark.parametrize(
    ("wishes", "match"),
    [
        ({"opening_bid_cents": 10_500}, r"opening bid of 105\.00 is not on the ladder"),
        ({"opening_bid_cents": -100}, "0 or more"),
        ({"opening_bid_cents": 100.5}, "a whole number"),
        ({"reserve_cents": 50_000}, "lies above the low estimate"),
        ({"reserve_cents": 12_345}, "reserve of 123.45 is not on the ladder"),
        (
            {"opening_bid_cents": 15_000, "reserve_cents": 10_000},
            "below the opening bid",
        ),
        ({"comparables": [Comparable(1, datetime.date(2026, 5, 1))]}, "after 2026"),
        ({"comparables": [18_000]}, "give a Comparable"),
        ({"retail_cents": 0}, "retail_cents is 0"),
        ({"retail_cents": -5}, "retail_cents is -5"),
        ({"by": None}, "by is None"),
        ({"on": None}, "give the day"),
        ({"valued_on": "2026-04-01"}, "the day it was judged"),
        ({"costs": PieceCosts(-1, 0, 0, 0)}, "cash_to_buy_cents is -1"),
        ({"costs": PieceCosts(1, 0, 0, -2)}, "hours is -2"),
        (
            {"comparables": [], "costs": PieceCosts(0, 0, 0, 0)},
            "nothing to judge a price by",
        ),
    ],
)
def test_advice_that_cannot_be_is_refused(wishes, match):
    with pytest.raises(SpecError, match=match):
        advice(**wishes)


@pytest.mark.parametrize(
    ("wishes", "match"),
    [
        ({"bidders": 0}, "bidders is 0"),
        ({"bidders": None}, "ask how many are likely to bid"),
        ({"bidders": 2.5, "crowd": "fixed"}, "a whole number"),
        ({"crowd": "many"}, "crowd is 'many'"),
        ({"unsold_value_cents": -1}, "unsold_value_cents is -1"),
        ({"sigma": 0}, "sigma is 0"),
        ({"sigma": -0.5}, "sigma is -0.5"),
        ({"comparable_sigma": 0}, "comparable_sigma"),
        ({"retail_sigma": math.nan}, "retail_sigma"),
        ({"cost_sigma": 0}, "cost_sigma"),
        ({"low_share": 0.75, "high_share": 0.25}, "must be lower"),
        ({"low_share": 0}, "low_share"),
        ({"opening_share": 1.5}, "opening_share"),
        ({"comparable_bidders": 1}, "comparable_bidders is 1"),
        ({"yearly_change": -1}, "yearly_change"),
        ({"comparable_age_days": 0}, "comparable_age_days"),
        ({"ladder": "1-2-5"}, "ladder_of"),
        ({"fee_shares": [0.6, 0.5]}, "eat the whole price"),
        ({"fixed_fee_cents": -1}, "fixed_fee_cents"),
        ({"wanted_net_cents": -1}, "wanted_net_cents"),
    ],
)
def test_policies_that_cannot_be_are_refused(wishes, match):
    with pytest.raises(PricebookError, match=match):
        policy(**wishes)


def test_the_number_of_bidders_and_the_unsold_value_are_asked():
    with pytest.raises(TypeError, match=r"bidders.*unsold_value_cents"):
        PricePolicy()


def test_decimals_do_where_numbers_do():
    exact = policy(
        bidders=Decimal(4), sigma=Decimal("0.5"), opening_share=Decimal("0.5")
    )

    assert advice(exact) == advice()


@pytest.mark.benchmark
def test_time_of_one_piece_of_advice(capsys):
    rules = policy(fee_shares=[0.05, 0.029], wanted_net_cents=15_000)
    advice(rules)

    start = time.perf_counter()
    for _ in range(20):
        advice(rules, retail_cents=42_000)
    taken_ms = (time.perf_counter() - start) / 20 * 1_000

    with capsys.disabled():
        print(f"\nadvice for one piece: {taken_ms:.1f} ms")


def test_an_opening_bid_is_never_nothing():
    found = advice(
        comparables=[Comparable(100, SALE)] * 5, costs=PieceCosts(0, 0, 0, 1)
    )

    assert found.opening_bid.cents == 1_000


def test_advice_loads_no_slow_library():
    code = (
        "import sys, datetime\n"
        "from pricebook.price import *\n"
        "advise_price(PieceCosts(1, 1, 9000, 1),"
        " PricePolicy(bidders=3, unsold_value_cents=0),"
        " on=datetime.date(2026, 4, 1), by='the maker')\n"
        "print({'numpy', 'scipy', 'pandas'} & set(sys.modules))"
    )

    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )

    assert done.stdout.strip() == "set()"


# --- a treasurer with a calculator -----------------------------------------------

SPLIT = [
    {"kind": "premium", "share": 0.10},
    {"kind": "sales_tax", "payee": "state", "rate": 0.0725,
     "base": "hammer_plus_premium"},
    {"kind": "card_fee", "payee": "card processor", "rate": 0.029, "fixed_cents": 30},
    {"kind": "repay", "payee": "maker", "cost_cents": 7_200, "cap_cents": 6_000},
    {"kind": "share", "payee": "venue", "share": 0.2, "of": "left",
     "floor_cents": 1_000, "cap_cents": 3_000},
    {"kind": "rest", "payee": "charity"},
]  # fmt: skip


def by_hand(hammer):
    """Return (charity, charity and maker) of SPLIT, worked out line by line."""

    def cents(amount):
        return int(amount.quantize(Decimal(1), ROUND_HALF_UP))

    gross = hammer + cents(Decimal(hammer) / 10)
    tax = cents(gross * Decimal("0.0725"))
    left = gross + tax
    paid = {}
    card = cents((gross + tax) * Decimal("0.029")) + 30 if hammer else 0
    for name, claim in (("tax", tax), ("card", card), ("maker", 6_000)):
        paid[name] = min(claim, left)
        left -= paid[name]
    venue = min(max(cents(left * Decimal("0.2")), 1_000), 3_000, left)
    return left - venue, left - venue + paid["maker"]


def split_advice(**wishes):
    def left(hammer):
        done = proceeds.split(hammer, SPLIT).amounts
        return done["charity"] + done["maker"]

    return advice(
        policy(wanted_net_cents=15_000),
        net_of=proceeds.net_to_charity(SPLIT),
        left_of=left,
        **wishes,
    )


def test_break_evens_of_a_split_leave_the_sum_when_worked_out_by_hand():
    found = split_advice().break_even

    sums = {"cash repaid": 9_000, "used up": 7_200, "full cost": 21_500}
    for name, wanted in sums.items():
        price_cents = found[name].cents
        assert by_hand(price_cents)[1] >= wanted > by_hand(price_cents - 1)[1]
    price_cents = found["wanted net"].cents
    assert by_hand(price_cents)[0] >= 15_000 > by_hand(price_cents - 1)[0]


def test_pay_by_the_hour_can_be_worked_out_from_its_own_sentence():
    found = split_advice(costs=PieceCosts(9_000, 7_200, 21_500, 6.4372))

    middle = found.outlook.quantile(0.5)
    left = by_hand(middle)[1]
    reason = found.pay_per_hour.reason
    assert f"{left / 100:,.2f} after what others take" in reason
    assert "over 6.44 hours" in reason
    assert found.pay_per_hour.cents == round((left - 7_200) / 6.44)


def test_the_estimate_says_how_many_really_stay_below():
    found = advice()
    rungs = dict(found.outlook.rungs)
    for figure in (found.estimate_low, found.estimate_high):
        below = sum(chance for rung, chance in rungs.items() if rung <= figure.cents)
        share = 100 * below / sum(rungs.values())
        assert f"; {share:.0f} % do" in figure.reason


def test_the_opening_bid_says_what_it_costs_in_sales():
    found = advice(policy(bidders=3, cost_sigma=None))

    # a Poisson crowd of 3: nobody comes with chance e^-3 = 4.98 %
    assert "bidding from nothing would sell 95 % of such lots" in (
        found.opening_bid.reason
    )
    assert f"from here it sells {100 * found.chance_of_sale.share:.0f} %" in (
        found.opening_bid.reason
    )


def test_one_bidder_and_one_sale_are_named_in_the_singular():
    found = advice(policy(bidders=1), comparables=SALES[:1])

    assert "with 1 likely bidder and" in found.chance_of_sale.reason
    assert found.fair_market_value.reason.startswith("The price of 1 comparable sale")
    crowd = policy(bidders=1, crowd="fixed")
    assert "exactly 1 bidder and" in advice(crowd).chance_of_sale.reason


def test_prices_brought_to_the_day_are_said_to_be():
    assert "and to that day" not in advice().fair_market_value.reason
    rising = advice(policy(yearly_change=0.03))
    assert "condition and to that day" in rising.fair_market_value.reason


def test_a_warning_names_what_the_advice_really_leans_on():
    def leaning(rules=None, **wishes):
        return " ".join(advice(rules, comparables=SALES[:2], **wishes).warnings)

    no_cost = policy(cost_sigma=None)
    assert "leans on what this one cost." in leaning()
    assert "leans on the retail price of a new piece." in leaning(
        no_cost, retail_cents=42_000
    )
    assert "leans" not in leaning(no_cost)


def test_a_reserve_too_high_may_cost_nothing_where_the_median_is_unsure():
    found = advice(
        policy(bidders=1, crowd="fixed", unsold_value_cents=6_000, cost_sigma=None),
        comparables=[],
        retail_cents=42_000,
    ).reserve_too_high

    assert found.cents <= 0
    assert "keep bidders away" in found.reason


@pytest.mark.parametrize(
    ("wishes", "match"),
    [
        ({"net_of": True}, "net_of is True; give a function"),
        ({"left_of": 5}, "left_of is 5; give a function"),
        ({"comparables": None}, "comparable 1 is None"),
        ({"rules": "cheap"}, "policy is 'cheap'; give a PricePolicy"),
        ({"costs": "dear"}, "costs are 'dear'; give a cost sheet"),
    ],
)
def test_arguments_that_are_something_else_are_refused(wishes, match):
    with pytest.raises(SpecError, match=match):
        advice(**wishes)


@pytest.mark.parametrize("rows", [None, 5, "mix", [5], [(1, 2)], [None], ["abcd"]])
def test_a_mix_is_made_of_rows_of_three(rows):
    with pytest.raises(MoneyError, match=r"give \(price, variable cost, parts\)"):
        price.break_even_mix(rows, 5)


@pytest.mark.parametrize("fixed", ["x", None, math.nan, math.inf, Decimal("NaN"), -1])
def test_fixed_cost_that_is_no_money_is_refused(fixed):
    with pytest.raises(MoneyError, match="fixed_cents is"):
        price.break_even_units(100, 20, fixed)


@pytest.mark.parametrize(
    "row", [(18_000, SALE, 1, np.array([1, 2])), (18_000, SALE, 1, "sold", 5)]
)
def test_words_of_a_comparable_are_text(row):
    with pytest.raises(SpecError, match=r"kind is|note is"):
        Comparable(*row)


def test_a_piece_that_hardly_anybody_would_bid_for_is_refused():
    with pytest.raises(SpecError, match="hardly anybody would bid"):
        advice(policy(bidders=5e-324))


def test_a_spread_of_next_to_nothing_is_refused():
    with pytest.raises(SpecError, match="retail_sigma is 1e-300; it must be 1e-09"):
        policy(retail_sigma=1e-300)


@pytest.mark.parametrize(
    ("arguments", "match"),
    [
        ((20_000, 18_000, 10_000, "1-2-5"), "lies above the low estimate of 180.00"),
        ((20_000, None, 10_000, "1-2-5"), "estimate_low_cents is None"),
        ((20_000, 22_000, math.nan, "1-2-5"), "opening_cents is nan"),
        ((21_500, 30_000, 10_000, "1-2-5"), "is not on the ladder"),
        ((20_000, 30_000, 10_000, "1-2-6"), 'did you mean "1-2-5"'),
        ((None, 30_000, 10_000, "1-2-5"), "the price in cents is None"),
    ],
)
def test_a_reserve_is_checked_on_a_ladder_of_any_form(arguments, match):
    price.check_reserve(15_000, 18_000, 10_000, [10_000, 15_000, 18_000])
    with pytest.raises(SpecError, match=match):
        price.check_reserve(*arguments)
