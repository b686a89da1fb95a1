"""Sessions and drying up to the day of the auction."""

import math
from dataclasses import replace
from datetime import date, datetime, time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import labour
from pricebook.errors import SpecError
from pricebook.rates import Minutes, Work

START, AUCTION = date(2026, 5, 4), date(2026, 5, 23)  # a Monday, a Saturday


def step(name="coat", work_min=60.0, drying_min=0.0, key=None):
    return labour.Step(
        key=key or name, name=name, work_min=work_min, drying_min=drying_min
    )


def elapsed(steps, start=START, auction=AUCTION, session_min=120.0, **options):
    return labour.elapsed_plan(
        steps, start, auction, session_min=session_min, **options
    )


def test_three_coats_that_dry_overnight_take_three_evenings():
    result = elapsed([step(drying_min=720)] * 3)
    assert [s.stints[0].day.day for s in result.steps] == [4, 5, 6]
    assert all(s.dries_overnight is False for s in result.steps)
    assert result.ready == date(2026, 5, 6)
    assert result.spare_days == 17
    assert result.in_time is True


def test_drying_runs_on_past_midnight():
    result = elapsed([step(drying_min=1440)], begins=time(18, 0))
    assert result.steps[0].dries_overnight is True
    assert result.ready == date(2026, 5, 5)


def test_short_drying_is_waited_for_in_the_session():
    result = elapsed([step(work_min=30, drying_min=30)] * 2)
    assert [s.starts.time() for s in result.steps] == [time(9, 0), time(10, 0)]


def test_dry_work_goes_on_tomorrow_and_a_coat_does_not():
    sanding = elapsed([step("sand", 200)]).steps[0]
    assert [(s.from_min, s.to_min) for s in sanding.stints] == [(0, 120), (0, 80)]
    coat = elapsed([step("sand", 90), step("coat", 60, 480)]).steps[1]
    assert [s.day.day for s in coat.stints] == [5]


def test_only_the_days_of_the_week_given_are_worked():
    result = elapsed([step(work_min=200)], weekdays=("Saturday",))
    assert [s.day.day for s in result.steps[0].stints] == [9, 16]


def test_the_step_that_decides_is_named():
    steps = [step("sand", 60), step("glue", 30, 4320), step("coat", 60, 480)]
    result = elapsed(steps)
    assert result.decider == 'the drying after "glue"'
    assert 'the drying after "glue" decides the day' in result.sentence


@pytest.mark.parametrize("slow", range(4))
def test_without_what_decides_it_is_ready_sooner(slow):
    steps = [step(f"step {n}", 30, 60 if n != slow else 5000) for n in range(4)]
    result = elapsed(steps)
    assert result.decider == f'the drying after "step {slow}"'
    shorter = [replace(s, drying_min=min(s.drying_min, 60)) for s in steps]
    assert elapsed(shorter).ready < result.ready


def test_like_steps_are_numbered():
    result = elapsed([step(drying_min=480)] * 2)
    assert [s.step.name for s in result.steps] == ["coat (1 of 2)", "coat (2 of 2)"]


def test_too_late_is_said_with_the_days():
    result = elapsed([step(drying_min=1440 * 20)])
    assert result.in_time is False
    assert result.spare_days == -1
    assert result.sentence.startswith("Not ready in time: 2026-05-24 is 1 day after")


def test_ready_on_the_day_itself_counts():
    result = elapsed([step()], auction=START)
    assert (result.spare_days, result.in_time) == (0, True)
    assert "the day of the auction" in result.sentence


def test_days_that_run_out_leave_no_ready_day():
    result = elapsed([step(work_min=300), step()], days=[START, date(2026, 5, 6)])
    assert (result.ready, result.in_time, result.spare_days) == (None, False, None)
    assert result.unplaced_min == 120
    assert "120 min of work left" in result.sentence


def test_veneer_settles_while_other_work_goes_on():
    steps = [step("sand", 60), step("lay", 60)]
    kept = elapsed(steps, acclimatise_min=2880, acclimatise_before="lay")
    assert [s.starts.day for s in kept.steps] == [4, 6]
    assert kept.decider == "letting the veneer settle"


def test_a_labour_plan_is_placed_as_it_stands():
    row = Minutes(
        key="coat",
        name="brush a coat",
        setup_min=20,
        rate_min=14,
        unit="m2",
        people=2,
        drying_min=720,
        dated=date(2026, 1, 1),
        source="invented",
    )
    coat = Work(operation="coat", quantity=3.42, unit="m2", how="")
    plan = labour.plan_labour(
        [coat, coat], [row], paid_cents_per_hour=0, given_cents_per_hour=0
    )
    result = elapsed(plan)
    assert [s.step.work_min for s in result.steps] == pytest.approx([33.94, 33.94])
    assert [s.starts.day for s in result.steps] == [4, 5]


def test_nothing_to_do_is_ready_at_once():
    result = elapsed([])
    assert (result.ready, result.sentence) == (START, "There is nothing to do.")


@given(
    st.lists(
        st.tuples(st.floats(1, 400), st.sampled_from([0.0, 45.0, 480.0, 2880.0])),
        min_size=1,
        max_size=6,
    ),
    st.sampled_from([60.0, 150.0, 600.0]),
)
@settings(max_examples=40, deadline=None)
def test_all_work_is_placed_in_order_and_inside_sessions(pairs, session_min):
    steps = [step(f"s{n}", w, d) for n, (w, d) in enumerate(pairs)]
    result = elapsed(steps, session_min=session_min)
    free = datetime.combine(START, time(9, 0))
    for planned, given_step in zip(result.steps, steps, strict=True):
        placed = math.fsum(s.to_min - s.from_min for s in planned.stints)
        assert placed == pytest.approx(given_step.work_min)
        assert planned.starts >= free
        free = planned.dry
        for stint in planned.stints:
            assert -1e-6 <= stint.from_min < stint.to_min <= session_min + 1e-6


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"auction": date(2026, 5, 3)}, "is before the start"),
        ({"session_min": 0}, "a session is 0 min"),
        ({"session_min": math.nan}, "a session is nan min"),
        ({"session_min": 901}, "end by midnight"),
        ({"weekdays": ("Sunnday",)}, 'did you mean "Sunday"'),
        ({"weekdays": ()}, "no day to work on"),
        ({"days": ()}, "no day to work on"),
        ({"days": (date(2026, 5, 1),)}, "leave it out"),
        ({"start": datetime(2026, 5, 4, 9)}, "is not a day"),  # noqa: DTZ001
        ({"acclimatise_min": -1}, "acclimatise_min is -1"),
        (
            {"acclimatise_min": 60, "acclimatise_before": "lya"},
            "to wait for the veneer",
        ),
    ],
)
def test_a_calendar_that_cannot_be_is_refused(options, words):
    with pytest.raises(SpecError, match=words):
        elapsed([step()], **options)


@pytest.mark.parametrize("amount", [-1, math.inf, math.nan, True, "5"])
def test_time_that_is_none_is_refused(amount):
    with pytest.raises(SpecError, match="use 0 or more"):
        elapsed([step(work_min=amount)])
