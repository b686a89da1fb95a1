"""The sentences said of a number that no forecast and no record can be made of."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Real

from pricebook.errors import SpecError


def number_fault(where: str, value: object, *, above: bool = False) -> tuple[str, ...]:
    """Say what is wrong with a number that must be 0 or more.

    Parameters
    ----------
    where : str
        What the number is, as a reader would name it.
    value : object
        What was found.
    above : bool
        Whether 0 itself is refused.

    Returns
    -------
    tuple of str
        One sentence, or none when the number is sound.

    Examples
    --------
    >>> number_fault("hours", 6.5), number_fault("hours", 0)
    ((), ())
    >>> number_fault("sigma", 0, above=True)
    ('sigma is 0; it must be more than 0.',)
    """
    rule = "more than 0" if above else "0 or more"
    real = isinstance(value, (Real, Decimal)) and not isinstance(value, bool)
    if not real:
        return (f"{where} is {value!r}; it must be a number, {rule}.",)
    if not math.isfinite(value):  # type: ignore[arg-type]
        return (f"{where} is {value}; it must be a finite number, {rule}.",)
    if value < 0 or (above and value == 0):  # type: ignore[operator]
        return (f"{where} is {value}; it must be {rule}.",)
    return ()


def finite_fault(where: str, value: object) -> tuple[str, ...]:
    """Say what is wrong with a number that may be anything finite.

    Parameters
    ----------
    where : str
        What the number is, as a reader would name it.
    value : object
        What was found.

    Returns
    -------
    tuple of str
        One sentence, or none when the number is sound.

    Examples
    --------
    >>> finite_fault("mu", -2.5), finite_fault("mu", float("nan"))
    ((), ('mu is nan; it must be a finite number.',))
    """
    real = isinstance(value, (Real, Decimal)) and not isinstance(value, bool)
    if real and math.isfinite(value):  # type: ignore[arg-type]
        return ()
    return (f"{where} is {value!r}; it must be a finite number.",)


def whole_fault(where: str, value: object, *, least: int | None = 0) -> tuple[str, ...]:
    """Say what is wrong with a number that must be whole, such as cents or lots.

    Parameters
    ----------
    where : str
        What the number is, as a reader would name it.
    value : object
        What was found.
    least : int, optional
        The smallest number allowed; None allows any.

    Returns
    -------
    tuple of str
        One sentence, or none when the number is sound.

    Examples
    --------
    >>> whole_fault("target_cents", 250000)
    ()
    >>> whole_fault("target_cents", 2500.5)
    ('target_cents is 2500.5; it must be a whole number, 0 or more.',)
    """
    rule = "" if least is None else f", {least} or more"
    whole = isinstance(value, Integral) and not isinstance(value, bool)
    if not whole:
        return (f"{where} is {value!r}; it must be a whole number{rule}.",)
    if least is not None and int(value) < least:  # type: ignore[call-overload]
        return (f"{where} is {value}; it must be a whole number{rule}.",)
    return ()


def whole(where: str, value: object, *, least: int | None = 0) -> int:
    """Return a whole number, or refuse it by name.

    Parameters
    ----------
    where : str
        What the number is, as a reader would name it.
    value : object
        What was found.
    least : int, optional
        The smallest number allowed; None allows any.

    Returns
    -------
    int
        The number.

    Raises
    ------
    SpecError
        If it is not whole, or too small.

    Examples
    --------
    >>> whole("target_cents", 250000)
    250000
    """
    fault = whole_fault(where, value, least=least)
    if fault:
        raise SpecError(*fault)
    return int(value)  # type: ignore[call-overload, no-any-return]


def plain(number: Fraction) -> int | float:
    """Return an exact number as a reader expects it: whole, or with decimals.

    Parameters
    ----------
    number : Fraction
        An exact number. [-]

    Returns
    -------
    int or float
        The same number. [-]

    Examples
    --------
    >>> plain(Fraction(12, 2)), plain(Fraction(13, 2))
    (6, 6.5)
    """
    return number.numerator if number.denominator == 1 else float(number)
