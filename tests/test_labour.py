"""Minutes and money of the bench, and learning over like pieces."""

import math
from dataclasses import FrozenInstanceError
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import labour, money
from pricebook.errors import SpecError
from pricebook.rates import Minutes, Work

START, AUCTION = date(2026, 5, 4), date(2026, 5, 23)  # a Monday, a Saturday
PAY = {"paid_cents_per_hour": 3000, "given_cents_per_hour": 2400}


def minutes(key="sand", **changes):
    row = {"name": key, "setup_min": 20, "rate_min": 14, "unit": "m2"} | changes
    return Minutes(key=key, dated=date(2026, 1, 1), source="invented", **row)


def work(key="sand", quantity=3.42, unit="m2", how=""):
    return Work(operation=key, quantity=quantity, unit=unit, how=how)


def plan(steps, rows, **options):
    return labour.plan_labour(steps, rows, **(PAY | options))


# --- learning ---------------------------------------------------------------------

TABLE = {  # rate: {n: (unit, sum of units, n^(b+1))}, three decimals
    0.8: {
        1: (1.000, 1.000, 1.000),
        2: (0.800, 1.800, 1.600),
        3: (0.702, 2.502, 2.106),
        4: (0.640, 3.142, 2.560),
        5: (0.596, 3.738, 2.978),
        6: (0.562, 4.299, 3.370),
        8: (0.512, 5.346, 4.096),
        10: (0.477, 6.315, 4.765),
        16: (0.410, 8.920, 6.554),
        20: (0.381, 10.485, 7.624),
    },
    0.9: {
        2: (0.900, 1.900, 1.800),
        4: (0.810, 3.556, 3.240),
        8: (0.729, 6.574, 5.832),
        10: (0.705, 7.994, 7.047),
        20: (0.634, 14.608, 12.684),
    },
}


@pytest.mark.parametrize(
    ("rate", "n", "row"),
    [(rate, n, row) for rate, rows in TABLE.items() for n, row in rows.items()],
)
def test_learning_factors_of_both_conventions_stand_in_one_table(rate, n, row):
    found = (
        labour.unit_factor(n, rate),
        labour.total_factor(n, rate, "unit"),
        labour.total_factor(n, rate, "cumulative average"),
    )
    assert found == pytest.approx(row, abs=0.0006)


@given(st.integers(1, 500), st.floats(0.5, 1))
@settings(max_examples=60, deadline=None)
def test_a_doubling_leaves_the_rate(n, rate):
    doubled = labour.unit_factor(2 * n, rate) / labour.unit_factor(n, rate)
    assert doubled == pytest.approx(rate)
    totals = [
        labour.total_factor(k, rate, "cumulative average") / k for k in (n, 2 * n)
    ]
    assert totals[1] / totals[0] == pytest.approx(rate)


@given(st.integers(1, 60), st.floats(0.5, 1))
@settings(max_examples=40, deadline=None)
@pytest.mark.parametrize("convention", labour.CONVENTIONS)
def test_the_total_is_the_sum_of_the_units_in_both_conventions(convention, n, rate):
    units = [labour.unit_factor(k, rate, convention) for k in range(1, n + 1)]
    total = labour.total_factor(n, rate, convention)
    assert total == pytest.approx(math.fsum(units))
    assert 1 <= total <= n * (1 + 1e-12)


@pytest.mark.parametrize("n", [0, -1, 2.5, 4.0, True, "3", None, 10**7])
def test_a_number_of_pieces_that_is_none_is_refused(n):
    with pytest.raises(SpecError, match="whole number from 1"):
        labour.unit_factor(n, 0.8)


@pytest.mark.parametrize("rate", [0, -0.8, 0.2, 80, 1.01, math.nan, True, "0.8"])
def test_a_learning_rate_out_of_range_is_refused(rate):
    with pytest.raises(SpecError, match=r"write 80 % as 0\.8"):
        labour.total_factor(4, rate, "unit")


def test_an_unknown_convention_is_refused_with_the_nearest():
    with pytest.raises(SpecError, match='did you mean "unit"'):
        labour.total_factor(4, 0.8, "units")


# --- minutes and money ------------------------------------------------------------


def test_a_step_is_set_up_once_and_paid_by_the_minute():
    line = plan([work(how="all faces")], [minutes()]).lines[0]
    assert line.person_min == pytest.approx(20 + 3.42 * 14)
    assert line.how == "set up 20 min + 3.42 m2 x 14 min/m2; all faces"
    assert line.amount_cents == money.times(2400, Fraction("67.88") / 60)


def test_money_is_exact_where_a_float_would_lose_a_cent():
    # 0.1 h of 3.70 is 37 cents and a half and rounds up; in floats it is 0.3749..
    rows = [minutes(setup_min=0, rate_min=0.1)]
    result = plan([work(quantity=60.5)], rows, given_cents_per_hour=3719)
    assert result.cents_of("given") == money.half_up(Fraction("6.05") * 3719 / 60)


def test_two_people_are_both_counted_and_the_clock_shows_half():
    rows = [minutes("lay", people=2), minutes("sand")]
    result = plan([work("lay"), work("sand")], rows)
    alone, shared = result.lines[1], result.lines[0]
    assert shared.person_min == alone.person_min
    assert shared.elapsed_min == alone.elapsed_min / 2
    assert "by 2 people" in shared.how


def test_a_crew_may_be_named_for_one_job():
    result = plan([work()], [minutes()], crew={"sand": 2})
    assert result.lines[0].people == 2


@pytest.mark.parametrize(
    ("along_mm", "across_mm", "people"),
    [
        (2438.4, 1219.2, 2),
        (1219.2, 609.6, 1),
        (1219.2, 609.7, 2),
        (1500, 400, 1),
        (1501, 100, 2),
    ],
)
def test_a_sheet_beyond_one_persons_reach_takes_two(along_mm, across_mm, people):
    # 8 square feet or arm span: common practice, no source
    assert labour.people_for(along_mm, across_mm) == people


def test_rework_teaching_and_learning_are_off_by_default():
    result = plan([work()], [minutes()])
    assert result.person_min == pytest.approx(67.88)


def test_rework_is_a_share_of_the_step():
    result = plan([work()], [minutes()], rework_share=0.1)
    assert result.person_min == pytest.approx(67.88 * 1.1)
    assert "10 % more for rework" in result.lines[0].how


def test_teaching_counts_both_people_as_time_given():
    result = plan([], [], teaching_min=30)
    assert result.lines[0].person_min == 60
    assert result.lines[0].elapsed_min == 30
    assert result.cents_of("given") == 2400


def test_learning_shortens_the_rate_and_not_the_set_up():
    four = labour.Learning(rate=0.8, convention="cumulative average", pieces=4)
    result = plan([work(quantity=4)], [minutes()], learning=four)
    assert result.person_min == pytest.approx(20 + 14 * 2.56)
    assert "cumulative average, 4 pieces" in result.lines[0].how


def test_learning_goes_on_from_the_pieces_made_before():
    later = labour.Learning(rate=0.8, convention="unit", pieces=1, made_before=9)
    assert later.mean_factor == pytest.approx(labour.unit_factor(10, 0.8))


def test_learning_of_no_pieces_is_refused():
    with pytest.raises(SpecError, match="whole number from 1"):
        labour.Learning(rate=0.8, convention="unit", pieces=0)
    with pytest.raises(SpecError, match="made_before"):
        labour.Learning(rate=0.8, convention="unit", pieces=1, made_before=-1)


def test_money_is_kept_apart_by_pay_and_foots():
    rows = [minutes("a", pay="paid"), minutes("b"), minutes("c", pay="none")]
    result = plan([work("a"), work("b"), work("c")], rows)
    assert result.cents_of("none") == 0
    assert result.minutes_of("none") == pytest.approx(67.88)
    total = sum(line.amount_cents for line in result.lines)
    assert total == result.cents_of("paid") + result.cents_of("given")
    with pytest.raises(SpecError, match="no kind of pay"):
        result.cents_of("gift")


@given(st.lists(st.floats(0, 500), max_size=8), st.floats(0, 1))
@settings(max_examples=40, deadline=None)
def test_more_work_never_takes_less_and_lines_add_up(quantities, rework):
    steps = [work(quantity=q) for q in quantities]
    result = plan(steps, [minutes()], rework_share=rework)
    more = plan([*steps, work(quantity=1)], [minutes()], rework_share=rework)
    assert more.person_min > result.person_min
    assert math.fsum(x.person_min for x in result.lines) == result.person_min
    assert result.hours == pytest.approx(result.person_min / 60)


def test_nothing_to_do_takes_no_time():
    line = plan([work(quantity=0)], [minutes(drying_min=60)]).lines[0]
    assert (line.person_min, line.drying_min, line.how) == (0, 0, "nothing to do")


def test_all_faults_of_the_work_are_named_at_once():
    steps = [work("sandd"), work(unit="m"), work(quantity=math.nan), work(quantity=-1)]
    with pytest.raises(SpecError, match='did you mean "sand"') as caught:
        plan(steps, [minutes()], rework_share=-0.1)
    assert len(caught.value.faults) == 5


@pytest.mark.parametrize(
    ("option", "words"),
    [
        ({"rework_share": 2}, "must be 0 to 1"),
        ({"teaching_min": math.inf}, "teaching_min is inf"),
        ({"given_cents_per_hour": -1}, "given_per_hour is -1"),
        ({"paid_cents_per_hour": True}, "paid_per_hour is True"),
        ({"crew": {"lay": 2}}, "has no row of minutes"),
        ({"crew": {"sand": 0}}, "use 1, 2 or more"),
    ],
)
def test_options_out_of_range_are_refused(option, words):
    with pytest.raises(SpecError, match=words):
        plan([work()], [minutes()], **option)


def test_a_plan_does_not_change_what_went_in():
    steps, rows = [work()], [minutes()]
    result = plan(steps, rows)
    assert (steps, rows) == ([work()], [minutes()])
    with pytest.raises(FrozenInstanceError):
        result.lines[0].people = 3
