"""Lengths are read and printed the way people write them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pricebook import lengths
from pricebook.errors import PricebookError, UnitError


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [
        # by hand: 23.75 x 25.4 = 603.25; 30 x 25.4 = 762; 30.5 x 25.4 = 774.7
        ("23 3/4 in", 603.25),
        ('23-3/4"', 603.25),
        ("23.75 in", 603.25),
        ("2 ft 6 in", 762.0),
        ("2' 6 1/2\"", 774.7),
        ("2'6\"", 762.0),
        ("2 ft", 609.6),
        ("60 cm", 600.0),
        ("603 mm", 603.0),
        ("1.2 m", 1200.0),
        ("3/4 in", 19.05),
        ("  23 3/4   in ", 603.25),
        ("8 feet", 2438.4),
        ("1 inch", 25.4),
        ("0 in", 0.0),
    ],
)
def test_a_length_is_read_as_people_write_it(text, length_mm):
    assert lengths.read(text) == pytest.approx(length_mm, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("603", "has no unit; write 603 in or 603 mm"),
        ("23 3/4", "has no unit"),
        ("-3 in", "has a sign"),
        ("+3 in", "has a sign"),
        ("", "a length is empty"),
        ("wide", "is not a length"),
        ("3/0 in", "divides by 0"),
        ("23 5/4 in", "a fraction below 1"),
        ("2 ft 14 in", "inches below 12"),
        ("1e3 mm", "is not a length"),
        ("1,200 mm", "is not a length"),
        ("23 3/4 in in", "is not a length"),
        ("nan mm", "is not a length"),
        ("٣ mm", "is not a length"),
        ("23.5 1/2 in", "a fraction below 1"),
    ],
)
def test_anything_else_is_refused_with_a_sentence(text, sentence):
    with pytest.raises(UnitError, match=sentence):
        lengths.read(text)


@pytest.mark.parametrize("value", [603, 603.0, None, b"603 mm"])
def test_a_bare_number_is_no_length(value):
    with pytest.raises(UnitError, match="is not a length"):
        lengths.read(value)


def test_an_error_is_also_a_value_error():
    assert issubclass(PricebookError, ValueError)


@pytest.mark.parametrize(
    ("length_mm", "unit", "text"),
    [
        (603.25, "in", "23 3/4 in"),
        (603.25, "mm", "603 mm"),
        (603.5, "mm", "604 mm"),
        (0, "in", "0 in"),
        (25.4 / 16, "in", "1/16 in"),
        (25.4 - 0.1, "in", "1 in"),
        (25.4 / 32, "in", "1/16 in"),  # halves go up
    ],
)
def test_a_length_is_printed_to_a_sixteenth_or_a_millimetre(length_mm, unit, text):
    assert lengths.show(length_mm, unit) == text


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_what_is_no_length_is_not_printed(bad):
    with pytest.raises(UnitError, match="0 or more"):
        lengths.show(bad)


def test_an_unknown_unit_is_refused():
    with pytest.raises(UnitError, match="use in or mm"):
        lengths.show(1.0, "cubit")


@given(st.integers(0, 400 * 16))
def test_a_printed_length_reads_back_the_same(sixteenths):
    length_mm = sixteenths * 25.4 / 16
    printed = lengths.show(length_mm, "in")
    assert abs(lengths.read(printed) - length_mm) < 1e-9
    assert lengths.show(lengths.read(printed), "in") == printed


@given(st.floats(0, 10_000))
def test_any_length_reads_back_to_a_thirty_second(length_mm):
    again = lengths.read(lengths.show(length_mm, "in"))
    assert abs(again - length_mm) <= 25.4 / 32 + 1e-9
    assert abs(lengths.read(lengths.show(length_mm, "mm")) - length_mm) <= 0.5
