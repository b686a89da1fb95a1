"""What is no sensible argument is refused in a sentence by every door of the bench."""

from datetime import date
from decimal import Decimal
from fractions import Fraction
from math import inf, nan

import numpy as np
import pytest

from pricebook import banding, cautions, finish, labour, lengths, money, veneer
from pricebook.errors import PricebookError

NO_NUMBER = (
    "x", "", "2", None, True, False, nan, inf, -inf, -1, 1e308, 10**400,
    Decimal("NaN"), Decimal("sNaN"), Decimal("1e500"), np.float64("nan"),
    np.bool_(True), [], (), {}, object(), 1j, np.array([1.0, 2.0]), b"x",
    date(2024, 1, 1), len,
)  # fmt: skip
NO_ROW = (
    "x", None, True, nan, 3, 1e308, Decimal("2.5"), object(), np.array(2.0), b"x",
    ["x"], [None], [nan], [inf], [-1], [True], {1: 2},
)  # fmt: skip
DAY = date(2024, 1, 1)
DOORS = [
    (lengths.show, (603.25, "in"), (0,)),
    (veneer.leaves, (508.0, 152.4, "balance"), (0, 1)),
    (finish.flakes_kg, (2, 1), (0, 1)),
    (finish.mixed_l, (2, 1), (0, 1)),
    (finish.dilute, (4, 2), (0, 1)),
    (finish.coverage_m2_per_l, (0.5, 50, 0.65), (0, 1, 2)),
    (finish.batch, (2, 1), (0, 1)),
    (finish.litres, (3.0, 3, 8.0, 0.65, 20.0), (0, 1, 2, 3, 4)),
    (labour.unit_factor, (10, 0.8), (0, 1)),
    (labour.total_factor, (10, 0.8, "unit"), (0, 1)),
    (labour.people_for, (1000, 500), (0, 1)),
    (cautions.tip_over_scope, (700.0, 20.0, 100.0, DAY, "chest"), (0, 1, 2)),
    (cautions.newtons, (1010,), (0,)),
    (cautions.movement_mm, (450, 0.00274, 4), (0, 1)),
    (cautions.panel_mass_kg, (2438, 1219, 19, 720), (0, 1, 2, 3)),
    (cautions.density_class, (700,), (0,)),
    (cautions.drawer_volume_l, (700, 400, 150), (0, 1, 2)),
]


CASES = [
    pytest.param(door, arguments, place, id=f"{door.__name__}-{place}")
    for door, arguments, places in DOORS
    for place in places
]


def _sentence(door, arguments):
    """Return the refusal, after checking that it can be read out."""
    with pytest.raises(PricebookError, match=r"\w.*[.?]") as caught:
        door(*arguments)
    said = str(caught.value)
    assert len(said) < 400, said
    assert "Error" not in said, said
    return said


@pytest.mark.parametrize(("door", "arguments", "place"), CASES)
def test_what_is_no_number_is_refused_in_a_sentence(door, arguments, place):
    for odd in NO_NUMBER:
        if door is lengths.show and isinstance(odd, float) and 0 <= odd < inf:
            continue
        _sentence(door, (*arguments[:place], odd, *arguments[place + 1 :]))


@pytest.mark.parametrize(("door", "arguments", "place"), CASES)
def test_a_number_of_any_type_counts_as_that_number(door, arguments, place):
    plain = door(*arguments)
    given = arguments[place]
    alike = [np.float64(given), Fraction(str(given)), Decimal(str(given))]
    if door in {labour.unit_factor, labour.total_factor} and place == 0:
        alike = [np.int64(given)]
    if door is cautions.movement_mm and place:
        alike.pop()
    if door is cautions.panel_mass_kg and place == 3:
        alike.pop()
    if door is cautions.density_class:
        alike.pop()
    for number in alike:
        assert door(*arguments[:place], number, *arguments[place + 1 :]) == plain


@pytest.mark.parametrize(
    ("door", "arguments", "place"),
    [
        (money.share_out, (100, [1, 2]), 1),
        (money.whole_weights, ([1],), 0),
        (banding.rolls, ([100.0], [(1000.0, 500)]), 0),
        (banding.rolls, ([100.0], [(1000.0, 500)]), 1),
        (cautions.enclosed_volume_l, ([(700, 400, 150)], []), 0),
        (cautions.enclosed_volume_l, ([(700, 400, 150)], []), 1),
        (cautions.total_mass_kg, ([],), 0),
    ],
)
def test_what_is_no_row_is_refused_in_a_sentence(door, arguments, place):
    for odd in NO_ROW:
        if odd == [-1] and door is money.whole_weights:
            continue
        _sentence(door, (*arguments[:place], odd, *arguments[place + 1 :]))


@pytest.mark.parametrize("odd", [*NO_NUMBER[:8], 2.0, *NO_NUMBER[12:]])
def test_only_whole_cents_are_printed_as_money(odd):
    _sentence(money.show, (odd,))


@pytest.mark.parametrize(
    ("door", "arguments"),
    [
        (lengths.show, (603.25, np.array([1.0, 2.0]))),
        (lengths.show, (603.25, None)),
        (money.show, (100, nan)),
        (veneer.leaves, (508.0, 152.4, np.array([1.0, 2.0]))),
        (veneer.leaves, (508.0, 152.4, None)),
        (labour.total_factor, (10, 0.8, np.array([1.0, 2.0]))),
        (labour.total_factor, (10, 0.8, 10**400)),
    ],
)
def test_a_word_that_is_none_is_refused_in_a_sentence(door, arguments):
    _sentence(door, arguments)


@pytest.mark.parametrize("unit", ["mm", "in", "ft", "m"])
@pytest.mark.parametrize("digits", [70, 400, 5000])
def test_digits_without_end_are_no_length(digits, unit):
    assert "too long" in _sentence(lengths.read, (f"{'9' * digits} {unit}",))


def test_digits_without_end_are_no_money():
    _sentence(money.read, ("9" * 5000,))


@pytest.mark.parametrize("text", ["2 ft -6 in", "23 -3/4 in", "23- 3/4 in"])
def test_a_dash_that_looks_like_a_minus_is_refused(text):
    _sentence(lengths.read, (text,))
