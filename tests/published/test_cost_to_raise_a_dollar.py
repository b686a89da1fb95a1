"""What a fundraising event cost, as reported and disputed in 2007.

A watchdog's study of that year gave 1.33 a dollar for events because it divided by
contributions alone. In the reply one chapter raised 2,361,849, spent 363,199 and kept
1,998,650: .1538 a dollar, 6.50 back for each. The difference and the kept sum are
printed, the two rates worked out from them to four and two digits. A rate of .50 is a
return of 2.00 by definition.
"""

from datetime import date

import pytest

from pricebook.records import EventTotals, roll_up


def event(raised, spent):
    return EventTotals(
        name="event",
        on=date(2007, 6, 1),
        raised_cents=raised,
        cost_cents=spent,
        lots_sold=1,
        lots_passed=0,
    )


def test_a_chapter_of_2007():
    found = roll_up([event(236_184_900, 36_319_900)])
    assert found.net_cents == 199_865_000
    assert found.cost_to_raise_a_dollar == pytest.approx(0.1538, abs=5e-5)
    assert found.return_per_dollar == pytest.approx(6.50, abs=5e-3)
    assert "363,199.00 cash spent over 2,361,849.00 cash raised" in found.sentence


def test_half_a_dollar_is_a_return_of_two():
    found = event(200_000, 100_000)
    assert (found.cost_to_raise_a_dollar, found.return_per_dollar) == (0.5, 2.0)


def test_a_rate_without_a_denominator_is_not_told():
    assert event(0, 5_000).cost_to_raise_a_dollar is None
    assert event(5_000, 0).return_per_dollar is None
    assert event(5_000, 0).cost_to_raise_a_dollar == 0
    assert event(0, 5_000).sentence.startswith("Nothing was raised")
