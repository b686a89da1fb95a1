"""Money is read, rounded, printed and shared without losing a cent."""

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pricebook import money
from pricebook.errors import MoneyError, UnitError


@pytest.mark.parametrize(
    ("text", "amount_cents"),
    [
        ("1,234.50", 123450),
        ("$45", 4500),
        ("45.5", 4550),
        ("0", 0),
        ("$ 1,000,000.01", 100000001),
        (" 12.00 ", 1200),
        ("1234567", 123456700),
    ],
)
def test_an_amount_is_read_as_people_write_it(text, amount_cents):
    assert money.read(text) == amount_cents


@pytest.mark.parametrize(
    "text",
    ["1.234", "-5", "+5", "1e3", "", "abc", "1,23.00", "12,34", "5.", ".5", "$", "NaN",
     "$-5", "1 000", "٣"],
)  # fmt: skip
def test_anything_else_is_refused(text):
    with pytest.raises(UnitError, match="is not an amount of money"):
        money.read(text)


@pytest.mark.parametrize("value", [45, 45.0, None, True])
def test_a_bare_number_is_no_amount(value):
    with pytest.raises(UnitError, match="is not an amount of money"):
        money.read(value)


@given(st.integers(0, 10**12))
def test_a_printed_amount_reads_back_the_same(amount_cents):
    assert money.read(money.show(amount_cents, "$")) == amount_cents


def test_a_negative_amount_is_printed_with_a_minus():
    assert money.show(-123456, "$") == "-$1,234.56"


def test_halves_go_up_whatever_the_binary_form():
    # 2.675, 1.005 and 0.125 in cents; binary floats alone give 267, 100 and 12
    assert money.half_up(267.5) == 268
    assert money.half_up(Decimal("100.5")) == 101
    assert money.half_up(12.5) == 13
    assert money.half_up(-12.5) == -13


@given(st.integers(-(10**9), 10**9), st.decimals(-999, 999, places=3))
def test_rounding_agrees_with_the_decimal_library(price_cents, quantity):
    product = Decimal(price_cents) * quantity
    expected = int(product.quantize(Decimal(1), rounding=ROUND_HALF_UP))
    assert money.times(price_cents, quantity) == expected


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_what_is_no_number_makes_no_money(bad):
    with pytest.raises(MoneyError, match="not a number"):
        money.half_up(bad)


@given(
    st.integers(0, 10**8),
    st.lists(st.integers(0, 1000), min_size=1, max_size=8).filter(any),
)
def test_shares_add_up_and_each_is_the_floor_or_ceiling_of_its_quota(total, weights):
    shares = money.share_out(total, weights)
    assert sum(shares) == total
    for share, weight in zip(shares, weights, strict=True):
        quota = Fraction(total * weight, sum(weights))
        assert abs(share - quota) < 1


def test_ties_go_to_the_first():
    assert money.share_out(5, [1, 1, 1]) == (2, 2, 1)
    assert money.share_out(100, [0.335, 0.335, 0.33]) == (34, 33, 33)


@pytest.mark.parametrize(
    ("total", "weights", "sentence"),
    [
        (-1, [1], "give whole cents, 0 or more"),
        (1, [], "one above 0"),
        (1, [0, 0], "one above 0"),
        (1, [2, -1], "must be 0 or more"),
    ],
)
def test_what_cannot_be_shared_is_refused(total, weights, sentence):
    with pytest.raises(MoneyError, match=sentence):
        money.share_out(total, weights)


@pytest.mark.parametrize(
    "number", [True, None, "1", "x", [], 1j, Decimal("NaN"), Decimal("Infinity")]
)
def test_no_money_is_made_of_what_is_no_number(number):
    with pytest.raises(MoneyError, match="is not a number that money can be made of"):
        money.exact(number)


def test_numbers_of_any_width_count_as_the_decimal_they_print_as():
    numpy = pytest.importorskip("numpy")
    assert money.exact(numpy.float32(0.05)) == Fraction(1, 20)
    assert money.exact(numpy.float64(0.05)) == Fraction(1, 20)
    huge = money.exact(numpy.int64(2**62)) * 4
    assert huge == 2**64  # kept whole, not cut to 64 bits


@pytest.mark.parametrize("total", [True, 0.5, 1.0, None, "1", -1, Decimal(5)])
def test_only_whole_cents_are_shared_out(total):
    with pytest.raises(MoneyError, match="give whole cents, 0 or more"):
        money.share_out(total, [1, 1])


@pytest.mark.parametrize("weights", [None, 3, "12", {"a": 1}, object()])
def test_weights_are_a_row_of_numbers(weights):
    with pytest.raises(MoneyError, match="give a row of numbers"):
        money.share_out(100, weights)


@given(
    st.integers(0, 10**7),
    st.lists(st.fractions(0, 50, max_denominator=40), min_size=1, max_size=5),
)
def test_fractions_share_out_as_the_whole_numbers_they_stand_for(total, weights):
    if sum(weights) == 0:
        return
    # 40! is a multiple of every denominator, found without asking the package
    whole = [int(weight * math.factorial(40)) for weight in weights]
    assert money.share_out(total, weights) == money.share_out(total, whole)
