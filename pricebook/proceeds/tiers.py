"""Marginal tiers: each part of a price pays the share of its own step."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import cast

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, is_cents

Tier = tuple[int | None, Number]
Steps = tuple[tuple[int | None, Fraction], ...]


def share_of(value: object) -> Fraction | None:
    """Return a share from 0 to 1 as an exact fraction, or None if it is not one."""
    try:
        return _exact_share(value)
    except TypeError:  # a list or a signalling NaN cannot be looked up
        return None


@lru_cache(maxsize=1024, typed=True)
def _exact_share(value: object) -> Fraction | None:
    """Read a share; cached, as what-ifs read the same few shares again and again."""
    try:
        share = money.exact(cast("Number", value))
    except MoneyError:
        return None
    return share if 0 <= share <= 1 else None


def part(base_cents: int, share: Fraction) -> int:
    """Take a share of an amount that is not negative, half up, in whole cents."""
    over, under = share.numerator, share.denominator
    return (2 * over * base_cents + under) // (2 * under)


def _pair(tier: object) -> tuple[object, object] | None:
    """Take a tier apart: a pair, or a mapping with `up_to_cents` and `share`."""
    if isinstance(tier, Mapping):
        if not set(tier) <= {"up_to_cents", "up_to", "share"} or "share" not in tier:
            return None
        bound = tier.get("up_to_cents")
        return (_typed(tier["up_to"]) if "up_to" in tier else bound), tier["share"]
    pair = tuple(tier) if isinstance(tier, Iterable) else ()
    if len(pair) == 2 and not isinstance(tier, str | set):
        return pair
    return None


def _end(bound: object) -> object:
    """Return where a tier ends; an infinite end is none."""
    return None if isinstance(bound, float) and bound == math.inf else bound


def _typed(text: object) -> object:
    """Read an amount that a person typed; leave what is no text for the checks."""
    return money.read(text) if isinstance(text, str) else text


def steps_of(tiers: object, *, open_end: bool) -> tuple[Steps, list[str]]:
    """Return tiers as exact steps, with a sentence for each fault found."""
    if isinstance(tiers, str | Mapping | set) or not isinstance(tiers, Iterable):
        return (), [f"tiers are {tiers!r}; give pairs (up to cents or None, share)."]
    rows = list(tiers)
    if not rows:
        return (), ["tiers are empty; give at least one pair (None, share)."]
    steps: list[tuple[int | None, Fraction]] = []
    faults: list[str] = []
    before = 0
    for number, tier in enumerate(rows, start=1):
        pair = _pair(tier)
        if pair is None:
            faults.append(
                f"tier {number} is {tier!r}; give a pair (up to cents or None, share)."
            )
            continue
        bound, share = _end(pair[0]), share_of(pair[1])
        faults += _step_faults(number, len(rows), (bound, pair[1]), before)
        end = int(cast("int", bound)) if is_cents(bound) else None
        before = before if end is None else end
        steps.append((end, share or Fraction(0)))
    if open_end and steps and steps[-1][0] is not None:
        faults.append("the last tier ends at a price; let it run on with None.")
    return tuple(steps), faults


def _step_faults(
    number: int, count: int, pair: tuple[object, object], before: int
) -> list[str]:
    """List what is wrong with one step, given where the step before it ended."""
    bound, share = pair
    faults = []
    if share_of(share) is None:
        faults.append(f"tier {number}: share is {share!r}; it must be from 0 to 1.")
    if bound is None:
        if number < count:
            faults.append(f"tier {number} has no end, yet a tier follows it.")
    elif not is_cents(bound):
        faults.append(f"tier {number} ends at {bound!r}; it must be whole cents.")
    elif isinstance(bound, int) and bound <= before:
        faults.append(
            f"tier {number} ends at {money.show(bound)}, not above "
            f"{money.show(before)}; tiers must go upwards."
        )
    return faults


def chosen_steps(share: object, tiers: object) -> tuple[Steps, list[str]]:
    """Return the steps of a flat share or of tiers, one of the two, and faults."""
    has_tiers = tiers is not None and not (
        isinstance(tiers, tuple | list) and not tiers
    )
    if (share is not None) == has_tiers:
        return (), ["give a share or tiers, one of the two."]
    if has_tiers:
        return steps_of(tiers, open_end=True)
    flat = share_of(share)
    if flat is None:
        return (), [f"share is {share!r}; it must be from 0 to 1."]
    return ((None, flat),), []


def marginal(price_cents: int, steps: Steps) -> int:
    """Add up what each step takes of its own part of a price, rounded once."""
    if len(steps) == 1:
        return part(price_cents, steps[0][1])
    taken = Fraction(0)
    below = 0
    for bound, share in steps:
        top = price_cents if bound is None else min(price_cents, bound)
        taken += share * (top - below)
        if bound is None or price_cents <= bound:
            break
        below = bound
    return money.half_up(taken)


def premium_cents(hammer_cents: int, tiers: Iterable[Tier]) -> int:
    """Work out a buyer's premium by marginal tiers.

    Parameters
    ----------
    hammer_cents : int
        Hammer price, 0 or more. [cents]
    tiers : sequence of (int or None, number)
        Where each tier ends (its end belongs to it; None runs on) [cents] and the
        share that the part of the price inside it pays, 0 to 1. [-]

    Returns
    -------
    int
        The premium, rounded half up once. [cents]

    Raises
    ------
    MoneyError
        If the price is not whole cents of 0 or more, a share is outside 0 to 1,
        tiers do not go upwards, or the price lies above the last tier.

    Notes
    -----
    Like tax brackets: only the part of the price within a tier pays its share, so
    the premium never drops when the price rises. One share on the whole price
    (a slab) would drop at each step and is not offered.
    Source: published_conditions_of_sale_2020.

    Examples
    --------
    >>> tiers = [(100000, 0.25), (500000, 0.20), (None, 0.12)]
    >>> premium_cents(80000, tiers), premium_cents(100100, tiers)
    (20000, 25020)
    """
    steps, faults = steps_of(tiers, open_end=False)
    if not is_cents(hammer_cents):
        faults.insert(
            0, f"hammer price is {hammer_cents!r}; it must be whole cents, 0 or more."
        )
    elif steps and steps[-1][0] is not None and hammer_cents > steps[-1][0]:
        faults.append(
            f"hammer price {money.show(hammer_cents)} lies above the last tier, "
            f"{money.show(steps[-1][0])}; let the last tier run on with None."
        )
    raise_all(MoneyError, faults)
    return marginal(int(hammer_cents), steps)
