"""Money in whole cents, read and printed only here; rounded half up, shared out."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Real

from pricebook.errors import MoneyError, UnitError, shown

Number = int | float | Decimal | Fraction

_MOST_LETTERS = 60
_AMOUNT = re.compile(
    r"(?:[$£€]\s?)?"
    r"(?P<units>[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.(?P<part>[0-9]{1,2}))?"
)


def read(text: str) -> int:
    """Read an amount of money that a person wrote.

    Parameters
    ----------
    text : str
        `1,234.50`, `1234.5`, `$45`; a currency sign in front is allowed.

    Returns
    -------
    int
        The amount. [cents]

    Raises
    ------
    UnitError
        If there is a sign, an exponent, a third decimal, a comma out of place,
        or anything else that is not an amount of money.

    Examples
    --------
    >>> read("1,234.50"), read("$45"), read("0.5")
    (123450, 4500, 50)
    >>> read("1.234")
    Traceback (most recent call last):
        ...
    pricebook.errors.UnitError: "1.234" is not an amount of money; ...
    """
    if not isinstance(text, str):
        raise UnitError(
            f'{shown(text)} is not an amount of money; write text, "45.00".'
        )
    plain = text.strip()
    match = _AMOUNT.fullmatch(plain)
    if match is None or len(plain) > _MOST_LETTERS:
        raise UnitError(
            f"{shown(plain)} is not an amount of money; write digits with at most "
            "two decimals and no sign, such as 1,234.50 or 45."
        )
    units = int(match["units"].replace(",", ""))
    return 100 * units + int((match["part"] or "0").ljust(2, "0"))


def show(amount_cents: int, sign: str = "") -> str:
    """Print an amount of money with thousands and cents.

    Parameters
    ----------
    amount_cents : int
        The amount. [cents]
    sign : str
        A currency sign to put in front.

    Returns
    -------
    str
        The amount; a negative one begins with a minus.

    Raises
    ------
    MoneyError
        If the amount is not in whole cents, or the sign is no text.

    Examples
    --------
    >>> show(123450), show(5, "$"), show(-1200)
    ('1,234.50', '$0.05', '-12.00')
    """
    if isinstance(amount_cents, bool) or not isinstance(amount_cents, Integral):
        raise MoneyError(
            f"{shown(amount_cents)} cannot be printed as money; write whole cents."
        )
    if not isinstance(sign, str):
        raise MoneyError(f"{shown(sign)} is not a currency sign; give text.")
    units, part = divmod(abs(int(amount_cents)), 100)
    minus = "-" if amount_cents < 0 else ""
    return f"{minus}{sign}{units:,}.{part:02d}"


def exact(number: Number) -> Fraction:
    """Return a number as an exact fraction, a float as the decimal it prints as.

    Parameters
    ----------
    number : int, float, Decimal or Fraction
        A finite number. [-]

    Returns
    -------
    Fraction
        The same number. [-]

    Raises
    ------
    MoneyError
        If it is not a finite number.

    Examples
    --------
    >>> exact(0.1)
    Fraction(1, 10)
    """
    if isinstance(number, Fraction):
        return number
    if isinstance(number, Integral) and not isinstance(number, bool):
        return Fraction(int(number))
    if isinstance(number, (Real, Decimal)) and not isinstance(number, bool):
        # a float of any width counts as the decimal it prints as
        decimal = number if isinstance(number, Decimal) else Decimal(str(number))
        if decimal.is_finite():
            return Fraction(decimal)
    raise MoneyError(f"{number!r:.40} is not a number that money can be made of.")


def half_up(amount: Number) -> int:
    """Round to a whole number, halves away from zero.

    Parameters
    ----------
    amount : int, float, Decimal or Fraction
        An amount. [cents]

    Returns
    -------
    int
        The nearest whole number. [cents]

    Notes
    -----
    A float counts as the decimal it prints as, so 267.5 rounds to 268 whatever
    its binary form. Halves of a negative amount go down, as in a spreadsheet.

    Examples
    --------
    >>> half_up(20812.5), half_up(-12.5), half_up(0.49)
    (20813, -13, 0)
    """
    value = exact(amount)
    size = math.floor(abs(value) + Fraction(1, 2))
    return -size if value < 0 else size


def times(price_cents: Number, quantity: Number) -> int:
    """Multiply a price by a quantity and round once, half up.

    Parameters
    ----------
    price_cents : int, float, Decimal or Fraction
        Price of one unit. [cents]
    quantity : int, float, Decimal or Fraction
        How many units. [-]

    Returns
    -------
    int
        The amount. [cents]

    Examples
    --------
    >>> times(2250, 9.25)
    20813
    """
    return half_up(exact(price_cents) * exact(quantity))


def share_out(total_cents: int, weights: Iterable[Number]) -> tuple[int, ...]:
    """Share an amount out by weight so that the shares add up to it.

    Parameters
    ----------
    total_cents : int
        The amount to share, 0 or more. [cents]
    weights : sequence of numbers
        One weight a share, none below 0. [-]

    Returns
    -------
    tuple of int
        The shares, in the order of the weights. [cents]

    Raises
    ------
    MoneyError
        If the amount is not whole cents of 0 or more, a weight is no number or below
        0, or no weight is above 0.

    Notes
    -----
    Largest remainder: each share gets the whole cents of its quota; the cents
    left over go one each to the largest remainders, ties to the first. Every
    share is the floor or the ceiling of its quota. A larger total can lower one
    share by a cent (the house paradox).

    Examples
    --------
    >>> share_out(10000, [1, 1, 1])
    (3334, 3333, 3333)
    >>> share_out(0, [2, 1])
    (0, 0)
    """
    if not is_cents(total_cents):
        raise MoneyError(
            f"{total_cents!r:.40} cannot be shared; give whole cents, 0 or more."
        )
    parts = whole_weights(weights)
    whole = sum(parts)
    if whole <= 0 or min(parts) < 0:
        raise MoneyError("weights to share by must be 0 or more, and one above 0.")
    quotas = [divmod(int(total_cents) * part, whole) for part in parts]
    shares = [floor for floor, _ in quotas]
    left = int(total_cents) - sum(shares)
    for i in sorted(range(len(parts)), key=lambda i: -quotas[i][1])[:left]:
        shares[i] += 1
    return tuple(shares)


def whole_weights(weights: Iterable[Number]) -> list[int]:
    """Return whole numbers in the same proportion as some weights.

    Parameters
    ----------
    weights : sequence of numbers
        The weights. [-]

    Returns
    -------
    list of int
        The smallest such numbers for fractions; whole weights stay as they are. [-]

    Raises
    ------
    MoneyError
        If the weights are no row, or one of them is not a finite number.

    Examples
    --------
    >>> whole_weights([0.5, 0.25, 1]), whole_weights([60, 30, 10])
    ([2, 1, 4], [60, 30, 10])
    """
    named = isinstance(weights, (str, bytes, Mapping))
    try:
        listed = [] if named else list(weights)
    except TypeError:
        named = True
    if named:
        raise MoneyError(f"weights are {shown(weights)}; give a row of numbers.")
    whole = [weight for weight in listed if type(weight) is int]
    if len(whole) == len(listed):
        return whole
    exact_weights = [exact(weight) for weight in listed]
    over = math.lcm(*(weight.denominator for weight in exact_weights))
    return [w.numerator * (over // w.denominator) for w in exact_weights]


def is_cents(amount: object) -> bool:
    """Tell whether a value is an amount of whole cents, 0 or more.

    Parameters
    ----------
    amount : object
        Any value. [cents]

    Returns
    -------
    bool
        True for a whole number of 0 or more; a float never is one.

    Examples
    --------
    >>> is_cents(4500), is_cents(-1), is_cents(45.0), is_cents(True)
    (True, False, False, False)
    """
    if type(amount) is int:
        return amount >= 0
    if isinstance(amount, bool) or not isinstance(amount, Integral):
        return False
    return int(amount) >= 0
