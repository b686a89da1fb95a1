"""The checks of arguments that bidding and price share: a sentence a fault."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from numbers import Real

from pricebook.errors import SpecError, nearest, raise_all

CROWDS = ("fixed", "poisson")
"""How the number of bidders is meant: exactly so many, or so many on average."""

BIDDERS_MOST = 1_000_000
"""The largest crowd that the integrals are checked for. [-]"""

SIGMA_LEAST = 1e-9
"""The narrowest spread of prices that may be taken as known [-]."""

SIGMA_MOST = 5.0
"""The widest spread of values that the integrals are checked for [-]."""


def number_faults(
    name: str,
    number: object,
    *,
    above: float | None = None,
    least: float | None = None,
    most: float | None = None,
    below: float | None = None,
    whole: bool = False,
) -> list[str]:
    """Say what is wrong with a number, in a sentence, or nothing.

    Parameters
    ----------
    name : str
        What the number is, as the reader wrote it.
    number : object
        What was given.
    above, least, most, below : float, optional
        Bounds: more than, at least, at most, less than.
    whole : bool
        Whether it must be a whole number.

    Returns
    -------
    list of str
        One sentence, or none.

    Examples
    --------
    >>> number_faults("sigma", 0, above=0)
    ['sigma is 0; it must be more than 0.']
    >>> number_faults("sigma", 0.5, above=0)
    []
    """
    if isinstance(number, bool) or not isinstance(number, (Real, Decimal)):
        return [f"{name} is {number!r}; it must be a number."]
    exact = _fraction(number)
    if exact is None:
        return [f"{name} is {number!s:.20}; it must be a number of ordinary size."]
    shown = str(number) if len(str(number)) <= 30 else f"{float(exact):.6g}"
    if whole and exact.denominator != 1:
        return [f"{name} is {shown}; it must be a whole number."]
    broken = (
        (above is not None and exact <= above, f"more than {above}"),
        (least is not None and exact < (least or 0), f"{least} or more"),
        (most is not None and exact > (most or 0), f"{most} or less"),
        (below is not None and exact >= (below or 0), f"less than {below}"),
    )
    return [
        f"{name} is {shown}; it must be {rule}."
        for is_broken, rule in broken
        if is_broken
    ]


def _fraction(number: Real | Decimal) -> Fraction | None:
    """Return a number as a fraction, or None if no float can hold it."""
    try:
        if not math.isfinite(float(number)):
            return None
        return Fraction(number if isinstance(number, (int, Decimal)) else float(number))
    except (OverflowError, ValueError):
        return None


def cents_faults(name: str, amount: object) -> list[str]:
    """Say what is wrong with an amount in whole cents, or nothing.

    Parameters
    ----------
    name : str
        What the amount is.
    amount : object
        What was given. [cents]

    Returns
    -------
    list of str
        One sentence, or none.

    Examples
    --------
    >>> cents_faults("cost_cents", -5)
    ['cost_cents is -5; it must be 0 or more.']
    >>> cents_faults("cost_cents", 62.5)
    ['cost_cents is 62.5; it must be a whole number.']
    """
    return number_faults(name, amount, least=0, whole=True)


def spread_faults(name: str, spread: object, most: float = SIGMA_MOST) -> list[str]:
    """Say what is wrong with a spread that prices are weighed by.

    Parameters
    ----------
    name : str
        What the spread is.
    spread : object
        Of the logarithm of a price. [-]
    most : float
        The widest one. [-]

    Returns
    -------
    list of str
        One sentence, or none.

    Examples
    --------
    >>> spread_faults("sigma", 1e-300)
    ['sigma is 1e-300; it must be 1e-09 or more.']
    """
    found = number_faults(name, spread, above=0, most=most)
    return found or number_faults(name, spread, least=SIGMA_LEAST)


def room_faults(median: object, sigma: object) -> list[str]:
    """Say what is wrong with a median and a spread of bidders' values.

    Parameters
    ----------
    median : object
        The median value. [money]
    sigma : object
        The spread of the logarithms of the values. [-]

    Returns
    -------
    list of str
        The sentences, or none.

    Examples
    --------
    >>> room_faults(300, 0.5)
    []
    """
    return [
        *number_faults("median", median, above=0),
        *number_faults("sigma", sigma, above=0, most=SIGMA_MOST),
    ]


def crowd_faults(bidders: object, crowd: object) -> list[str]:
    """Say what is wrong with a number of bidders and how it is meant.

    Parameters
    ----------
    bidders : object
        How many bid. [-]
    crowd : object
        "fixed" or "poisson".

    Returns
    -------
    list of str
        The sentences, or none.

    Examples
    --------
    >>> crowd_faults(2.5, "fixed")
    ['bidders is 2.5; it must be a whole number.']
    >>> crowd_faults(2.5, "poisson")
    []
    """
    if isinstance(crowd, str) and crowd == "poisson":
        return number_faults("bidders", bidders, above=0, most=BIDDERS_MOST)
    is_fixed = isinstance(crowd, str) and crowd == "fixed"
    faults = number_faults(
        "bidders", bidders, least=1, most=BIDDERS_MOST, whole=is_fixed
    )
    if not is_fixed:
        faults.append(f"crowd is {crowd!r}; {nearest(str(crowd), CROWDS)}")
    return faults


def amounts(name: str, given: Iterable[object]) -> tuple[float, ...]:
    """Return prices as floats, all above 0.

    Parameters
    ----------
    name : str
        What the prices are.
    given : iterable
        The prices. [money]

    Returns
    -------
    tuple of float
        The same prices. [money]

    Raises
    ------
    SpecError
        If it is no row of prices, or a price is not a number above 0.

    Examples
    --------
    >>> amounts("sold", [120, 150])
    (120.0, 150.0)
    """
    if isinstance(given, (str, bytes)) or not isinstance(given, Iterable):
        raise SpecError(f"{name} is {given!r}; it must be a row of prices.")
    prices = list(given)
    raise_all(
        SpecError,
        (
            fault
            for i, price in enumerate(prices, 1)
            for fault in number_faults(f"{name}, price {i},", price, above=0)
        ),
    )
    return tuple(float(price) for price in prices)  # type: ignore[arg-type]
