"""Planned against used, estimates against hammer prices, and the year."""

import math
from dataclasses import FrozenInstanceError
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import records
from pricebook.errors import SpecError
from pricebook.money import half_up
from pricebook.records import (
    EventTotals,
    LotOutcome,
    LotRecord,
    Usage,
    comparables,
    crps_log_normal,
    hammer_ratios,
    hit_rate,
    pinball,
    pinball_scores,
    rate_and_quantity_variance,
    roll_up,
    suggest_minutes,
    total_variances,
)

NAN = float("nan")


def veneer(**changes):
    row = {
        "name": "veneer",
        "kind": "material",
        "unit": "m2",
        "standard_rate_cents": 4_000,
        "standard_quantity": 3,
        "actual_rate_cents": 3_800,
        "actual_quantity": 3.5,
    }
    return Usage(**(row | changes))


# --- planned against used ----------------------------------------------------


def test_a_cheaper_sheet_and_more_of_it():
    # (38.00 - 40.00) x 3.5 = -7.00; (3.5 - 3) x 40.00 = 20.00; 133.00 - 120.00 = 13.00
    found = veneer().variances
    assert (found.rate_cents, found.rate_mark) == (-700, "F")
    assert (found.quantity_cents, found.quantity_mark) == (2_000, "U")
    assert (found.total_cents, found.total_mark) == (1_300, "U")
    assert veneer().cause_names == ("price", "quantity")


def test_work_done_as_planned_has_no_variance_and_no_mark():
    found = rate_and_quantity_variance(2_200, 6.5, 2_200, 6.5)
    assert (found.total_cents, found.rate_mark, found.total_mark) == (0, "", "")


def test_an_unplanned_material_is_all_quantity():
    # planned 0 at 12.00, used 2 at 12.00
    found = rate_and_quantity_variance(1_200, 0, 1_200, 2)
    assert (found.rate_cents, found.quantity_cents) == (0, 2_400)


rates = st.integers(0, 10_000)
quantities = st.integers(0, 400).map(lambda quarters: quarters / 4)


@settings(max_examples=60)
@given(rates, quantities, rates, quantities)
def test_the_two_causes_explain_all_that_was_spent_above_plan(sr, sq, ar, aq):
    found = rate_and_quantity_variance(sr, sq, ar, aq)
    gap = half_up(ar * aq - sr * sq)
    assert abs(found.total_cents - gap) <= 1  # each cause is rounded once
    assert found.total_cents == found.rate_cents + found.quantity_cents


def test_a_table_of_variances_adds_up_as_printed():
    rows = [veneer(actual_rate_cents=3_333), veneer(actual_quantity=1 / 3)]
    total = total_variances(rows)
    assert total.rate_cents == sum(row.variances.rate_cents for row in rows)
    assert total.quantity_cents == sum(row.variances.quantity_cents for row in rows)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"kind": "glue"}, r"veneer: kind is 'glue'; write \"material\" or \"labour\""),
        ({"actual_quantity": -1}, r"veneer: actual_quantity is -1; it must be 0 or"),
        ({"actual_rate_cents": NAN}, r"veneer: actual_rate_cents is nan"),
        ({"standard_quantity": "3"}, r"veneer: standard_quantity is '3'"),
    ],
)
def test_a_usage_that_cannot_be_is_named(changes, sentence):
    with pytest.raises(SpecError, match=sentence):
        veneer(**changes)


def test_all_faults_of_a_variance_are_told_at_once():
    with pytest.raises(SpecError) as caught:
        rate_and_quantity_variance(-1, NAN, True, "2")
    assert len(caught.value.faults) == 4


# --- estimates ---------------------------------------------------------------


def lots(*hammers):
    return [
        LotOutcome(
            lot=str(number),
            estimate_low_cents=20_000,
            estimate_high_cents=30_000,
            hammer_cents=hammer,
        )
        for number, hammer in enumerate(hammers, 1)
    ]


def test_the_ends_of_an_estimate_are_inside_and_unsold_lots_are_apart():
    found = hit_rate(lots(20_000, 30_000, 30_001, 19_999, None), 0.5)
    assert (found.hits, found.lots, found.unsold) == (2, 4, 1)
    assert found.share == 0.5


def test_nothing_is_claimed_below_twenty_lots():
    found = hit_rate(lots(*[90_000] * 19), 0.5)
    assert "fewer than 20 lots sold say nothing" in found.sentence
    assert hit_rate(lots(*[90_000] * 20), 0.5).sentence.endswith(
        "so the estimates are too narrow or off centre."
    )


@pytest.mark.parametrize(
    ("hits", "verdict"),
    [(5, "too narrow"), (6, "nothing speaks"), (14, "nothing speaks"), (15, "wider")],
)
def test_the_verdict_turns_at_the_ends_of_the_band(hits, verdict):
    # 20 lots at one half: 6 to 14 are the central 95 % (binomial tables)
    found = hit_rate(lots(*[25_000] * hits, *[50_000] * (20 - hits)), 0.5)
    assert found.band == (6, 14)
    assert verdict in found.sentence


def test_no_lots_sold_have_no_share():
    found = hit_rate(lots(None, None), 0.5)
    assert (found.share, found.lots, found.unsold) == (None, 0, 2)
    assert "No lot with an estimate sold" in found.sentence


@pytest.mark.parametrize("share", [0, 1, 1.5, -0.1, NAN, True])
def test_a_stated_share_lies_between_nothing_and_all(share):
    with pytest.raises(SpecError, match="stated_share is"):
        hit_rate(lots(25_000), share)


def test_ratios_are_sums_over_sums_of_the_lots_sold():
    rows = [*lots(30_000, None), lots(20_000)[0]]
    valued = LotOutcome(
        lot="9",
        estimate_low_cents=40_000,
        estimate_high_cents=60_000,
        hammer_cents=50_000,
        fair_market_value_cents=40_000,
    )
    found = hammer_ratios([*rows, valued])
    # (300 + 200 + 500) / (250 + 250 + 500); 500 / 400
    assert (found.over_middle, found.lots) == (1.0, 3)
    assert (found.over_fair_market_value, found.lots_with_value) == (1.25, 1)
    assert valued.over_fair_market_value == 1.25
    assert rows[1].over_middle is None
    assert rows[0].over_fair_market_value is None
    nothing = hammer_ratios(lots(None))
    assert (nothing.over_middle, nothing.over_fair_market_value) == (None, None)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"estimate_low_cents": 40_000}, "the estimate runs from 40000 down to 30000"),
        ({"estimate_low_cents": -1}, "lot 7: estimate_low_cents is -1"),
        ({"estimate_high_cents": 300.5}, "lot 7: estimate_high_cents is 300.5"),
        ({"hammer_cents": -5}, "lot 7: hammer_cents is -5"),
        ({"hammer_cents": NAN}, "lot 7: hammer_cents is nan"),
        ({"fair_market_value_cents": 0}, "lot 7: fair_market_value_cents is 0"),
    ],
)
def test_an_outcome_that_cannot_be_is_named(changes, sentence):
    row = {
        "lot": "7",
        "estimate_low_cents": 20_000,
        "estimate_high_cents": 30_000,
        "hammer_cents": 25_000,
    }
    with pytest.raises(SpecError, match=sentence):
        LotOutcome(**(row | changes))


# --- scores ------------------------------------------------------------------


@settings(max_examples=60)
@given(st.floats(0.01, 0.99), st.integers(0, 10**6), st.integers(0, 10**6))
def test_pinball_loss_is_nothing_only_for_a_perfect_forecast(share, actual, forecast):
    loss = pinball(share, actual, forecast)
    assert loss >= 0
    assert (loss == 0) == (actual == forecast)
    # at one half it is half the distance
    assert pinball(0.5, actual, forecast) == abs(actual - forecast) / 2


def test_the_right_quantile_loses_least():
    # 100 hammer prices 1 ... 100: the 10 % quantile lies from 10 to 11
    losses = [math.fsum(pinball(0.1, y, x) for y in range(1, 101)) for x in range(101)]
    assert min(range(101), key=losses.__getitem__) in (10, 11)


@settings(max_examples=40)
@given(st.floats(0.01, 100), st.floats(-2, 4), st.floats(0.05, 1.5), st.floats(0.5, 9))
def test_the_score_grows_with_the_unit(actual, mu, sigma, unit):
    once = crps_log_normal(actual, mu, sigma)
    assert once > -1e-9
    scaled = crps_log_normal(unit * actual, mu + math.log(unit), sigma)
    assert scaled == pytest.approx(unit * once, rel=1e-9, abs=1e-9)


def test_a_sure_forecast_scores_its_distance():
    assert crps_log_normal(300, math.log(250), 1e-6) == pytest.approx(50, abs=1e-3)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: pinball(0, 1, 1), "share is 0; it must be more than 0"),
        (lambda: pinball(1, 1, 1), "share is 1; it must be between 0 and 1"),
        (lambda: pinball(0.5, NAN, 1), "actual is nan; it must be a finite number"),
        (lambda: pinball(0.5, 1, "2"), "forecast is '2'; it must be a finite number"),
        (lambda: pinball_scores([]), "there is nothing to score"),
        (lambda: pinball_scores([(1, {})]), "there is nothing to score"),
        (
            lambda: pinball_scores([(1, {0.1: 1}), (1, {0.2: 1})]),
            r"row 2 has quantiles \[0.2\]; it must have \[0.1\]",
        ),
        (lambda: crps_log_normal(0, 0, 1), "actual is 0; it must be more than 0"),
        (lambda: crps_log_normal(1, 0, 0), "sigma is 0; it must be more than 0"),
        (lambda: crps_log_normal(1, NAN, 1), "mu is nan; it must be a finite number"),
        (lambda: crps_log_normal(1, 900, 1), "make a mean too large to hold"),
    ],
)
def test_a_score_that_cannot_be_told_is_refused(call, sentence):
    with pytest.raises(SpecError, match=sentence):
        call()


# --- comparables -------------------------------------------------------------


def record(lot, outcome, **prices):
    return LotRecord(
        lot=lot, form="bookcase", species="cherry", outcome=outcome, **prices
    )


def test_sold_and_passed_lots_become_comparables_and_the_others_are_named():
    found = comparables(
        [
            record("1", "sold", hammer_cents=32_000, least_cents=15_000),
            record("2", "passed", least_cents=18_000),
            record("3", "withdrawn"),
            record("4", "void", hammer_cents=50_000),
        ],
        on=date(2026, 4, 18),
        source="spring",
    )
    assert [(row.price_cents, row.sold) for row in found.rows] == [
        (32_000, True),
        (18_000, False),
    ]
    assert {row.source for row in found.rows} == {"spring"}
    assert [lot for lot, _ in found.left_out] == ["3", "4"]
    with pytest.raises(FrozenInstanceError):
        found.rows[0].price_cents = 1


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: record("1", "gone"), "lot 1: outcome is 'gone'; use one of sold"),
        (lambda: record("1", "sold"), "lot 1: hammer_cents is None"),
        (lambda: record("1", "passed"), "lot 1: least_cents is None"),
        (lambda: record("1", "sold", hammer_cents=0), "lot 1: hammer_cents is 0"),
    ],
)
def test_a_record_without_its_price_is_refused(call, sentence):
    with pytest.raises(SpecError, match=sentence):
        call()


# --- minutes -----------------------------------------------------------------


def test_five_observations_go_half_way():
    found = suggest_minutes("lay a face", 10, [(1, 20)] * 5)
    assert (found.weight, found.suggested_min, found.observations) == (0.5, 15, 5)
    assert found.sentence == (
        "lay a face: 15 min a unit instead of 10, from 5 observations at 20; the old "
        "figure keeps 50 % of the say."
    )


def test_a_standard_that_counts_for_little_gives_way_at_once():
    found = suggest_minutes("lay a face", 10, [(2, 40)], standard_counts_as=1)
    assert (found.observed_min, found.suggested_min) == (20, 15)
    assert "from 1 observation at 20" in found.sentence


def test_without_observations_the_standard_stays():
    found = suggest_minutes("lay a face", 10, [])
    assert (found.suggested_min, found.weight, found.observed_min) == (10, 0, None)
    assert "nothing was observed" in found.sentence


@settings(max_examples=50)
@given(
    st.floats(0.5, 60),
    st.lists(st.tuples(st.integers(1, 9), st.floats(0, 400)), min_size=1, max_size=9),
)
def test_a_suggestion_lies_between_the_standard_and_what_was_observed(standard, seen):
    found = suggest_minutes("sand", standard, seen)
    ends = sorted([standard, found.observed_min])
    assert ends[0] - 1e-9 <= found.suggested_min <= ends[1] + 1e-9
    more = suggest_minutes("sand", standard, [*seen, *seen])
    assert more.weight > found.weight


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("sand", -1, []), "sand: standard_min is -1"),
        (("sand", 10, [(0, 5)]), "sand, observation 1: units is 0; it must be more"),
        (("sand", 10, [(1, 5), (1, NAN)]), "sand, observation 2: minutes is nan"),
        (("sand", 10, [], 0), "sand: standard_counts_as is 0"),
    ],
)
def test_minutes_that_cannot_be_are_named(arguments, sentence):
    with pytest.raises(SpecError, match=sentence):
        suggest_minutes(*arguments)


# --- the year ----------------------------------------------------------------


def event(name, on, **changes):
    row = {
        "raised_cents": 500_000,
        "cost_cents": 100_000,
        "lots_sold": 10,
        "lots_passed": 2,
        "gifts_in_kind_cents": 40_000,
        "time_given_cents": 60_000,
        "unpaid_cents": 5_000,
    }
    return EventTotals(name=name, on=on, **(row | changes))


def test_a_year_is_the_sum_of_its_events_by_date():
    autumn = event("autumn", date(2026, 10, 3), raised_cents=300_000, lots_void=1)
    year = roll_up([autumn, event("spring", date(2026, 4, 18))])
    assert [each.name for each in year.events] == ["spring", "autumn"]
    assert (year.raised_cents, year.cost_cents, year.net_cents) == (
        800_000,
        200_000,
        600_000,
    )
    assert (year.lots_sold, year.lots_passed, year.lots_void) == (20, 4, 1)
    # sums over sums: .25, and not the mean of .20 and .3333
    assert year.cost_to_raise_a_dollar == 0.25
    # (2,000 + 800 given in kind + 1,200 of time) / 8,000
    assert year.full_cost_to_raise_a_dollar == 0.5
    assert year.unpaid_cents == 10_000


def test_gifts_time_and_unpaid_lots_stay_out_of_the_cash_figures():
    bare = event(
        "a",
        date(2026, 1, 1),
        gifts_in_kind_cents=0,
        time_given_cents=0,
        unpaid_cents=0,
    )
    full = event("a", date(2026, 1, 1))
    assert bare.net_cents == full.net_cents
    assert bare.cost_to_raise_a_dollar == full.cost_to_raise_a_dollar
    assert bare.full_cost_to_raise_a_dollar == bare.cost_to_raise_a_dollar


def test_an_event_that_lost_money_has_a_net_below_nothing():
    assert event("a", date(2026, 1, 1), cost_cents=700_000).net_cents == -200_000


@pytest.mark.parametrize(
    ("days", "fits"),
    [
        ((date(2026, 4, 18), date(2027, 4, 17)), True),
        ((date(2026, 4, 18), date(2027, 4, 18)), False),
        ((date(2026, 4, 18), date(2028, 1, 1)), False),
    ],
)
def test_a_fiscal_year_is_at_most_twelve_months(days, fits):
    events = [event("a", days[0]), event("b", days[1])]
    if fits:
        assert len(roll_up(events).events) == 2
    else:
        with pytest.raises(SpecError, match="lie a year or more apart"):
            roll_up(events)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: roll_up([]), "there are no events to add up"),
        (
            lambda: roll_up([event("a", date(2026, 1, 1))] * 2),
            "a of 2026-01-01 is given 2 times",
        ),
        (
            lambda: event("a", date(2026, 1, 1), raised_cents=-1),
            "a: raised_cents is -1",
        ),
        (
            lambda: event("a", date(2026, 1, 1), lots_sold=1.5),
            "a: lots_sold is 1.5; it must be a whole number",
        ),
        (lambda: event("a", "2026-01-01"), "a: on is '2026-01-01'; it must be a date"),
    ],
)
def test_a_year_that_cannot_be_added_up_is_refused(call, sentence):
    with pytest.raises(SpecError, match=sentence):
        call()


def test_every_name_offered_is_there():
    assert all(hasattr(records, name) for name in records.__all__)
