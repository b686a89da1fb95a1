"""What a piece may fetch, and where the money goes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

from matplotlib.figure import Figure

from pricebook.charts.bars import level_bars
from pricebook.charts.flags import Flag
from pricebook.charts.plots import Posts, share_plot
from pricebook.charts.rows import Series
from pricebook.charts.style import BLUE, GREEN, ORANGE, SKY, Colour, house, says_so
from pricebook.errors import SpecError
from pricebook.money import show
from pricebook.price import Advice
from pricebook.proceeds import Split

_LEFT_OFF = 0.005
"""Rungs beyond this much of the chance are told in words, not drawn."""


@house()
def price_rungs(
    rungs: Mapping[int | None, float],
    *,
    break_evens: Mapping[str, int] | None = None,
    opening_cents: int | None = None,
    reserve_cents: int | None = None,
    estimate_cents: tuple[int, int] | None = None,
    currency: str = "",
) -> Figure:
    """Draw the chance that the hammer falls on each rung.

    Parameters
    ----------
    rungs : mapping of int or None to float
        Chance by price in cents; the chance of no sale under None. [-]
    break_evens : mapping of str to int
        Prices to mark, by name. [cents]
    opening_cents, reserve_cents : int or None
        Prices to mark. [cents]
    estimate_cents : (int, int) or None
        Low and high estimate; rungs between them are hatched. [cents]
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        A bar a rung. Rungs with the last 0.5 % of the chance are left off and
        counted in the title.

    Raises
    ------
    SpecError
        If there is no rung, or a chance is not between 0 and 1.
    """
    unsold = rungs.get(None, 0.0)
    prices = sorted(price for price in rungs if price is not None)
    chances = {price: rungs[price] for price in prices}
    if not all(0 <= chance <= 1 + 1e-9 for chance in [unsold, *chances.values()]):
        raise SpecError("a chance of a rung is not a number between 0 and 1.")
    if not prices:
        raise SpecError("there is no rung to draw; give the opening bid at least.")
    last = _last_drawn(prices, chances)
    drawn = [price for price in prices if price <= last]
    marks = _marks(break_evens or {}, opening_cents, reserve_cents)
    low, high = _reach(drawn, [flag.at for flag in marks])
    return share_plot(
        _rungs_title(chances, unsold, last, currency),
        _posts(drawn, chances, estimate_cents, high - low),
        marks,
        low=low,
        high=high,
        words="Hammer price",
        upright_words="Chance",
        currency=currency,
    )


def advised_rungs(advice: Advice, currency: str = "") -> Figure:
    """Draw the chance of each rung with all that an advice says about the price.

    Parameters
    ----------
    advice : Advice
        What to ask for a piece.
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        See `price_rungs`.
    """
    return price_rungs(
        {**dict(advice.outlook.rungs), None: advice.outlook.no_sale},
        break_evens={
            name: figure.cents
            for name, figure in advice.break_even.items()
            if figure.cents is not None
        },
        opening_cents=advice.opening_bid.cents,
        reserve_cents=advice.reserve.cents,
        estimate_cents=(advice.estimate_low.cents, advice.estimate_high.cents),
        currency=currency,
    )


def _last_drawn(prices: list[int], chances: Mapping[int, float]) -> int:
    left = math.fsum(chances.values())
    for price in prices:
        left -= chances[price]
        if left <= _LEFT_OFF:
            return price
    return prices[-1]


def _rungs_title(
    chances: Mapping[int, float], unsold: float, last: int, currency: str
) -> str:
    best = max(chances, key=lambda price: chances[price])
    beyond = math.fsum(chance for price, chance in chances.items() if price > last)
    more = f" and above {show(last, currency)} {100 * beyond:.1f} %" if beyond else ""
    return (
        f"The likeliest single hammer price is {show(best, currency)}; the chance of "
        f"no sale is {100 * unsold:.1f} %{more}."
    )


def _marks(
    break_evens: Mapping[str, int], opening: int | None, reserve: int | None
) -> list[Flag]:
    found = [
        Flag(cents, f"break-even, {name}: {show(cents)}")
        for name, cents in break_evens.items()
    ]
    if opening is not None:
        found.append(Flag(opening, f"opening bid: {show(opening)}", "-"))
    if reserve is not None:
        found.append(Flag(reserve, f"reserve: {show(reserve)}", "-."))
    return found


def _reach(drawn: list[int], marks: list[float]) -> tuple[float, float]:
    """Return the ends of the scale: all bars, and marks that lie not far off."""
    low, high = float(drawn[0]), float(drawn[-1])
    span = max(high - low, high * 0.2, 100.0)
    low = min([low, *marks])
    high = max([high, *marks])
    return max(0.0, low - 0.05 * span), high + 0.05 * span


def _posts(
    drawn: list[int],
    chances: Mapping[int, float],
    estimate: tuple[int, int] | None,
    span: float,
) -> list[Posts]:
    low, high = estimate if estimate else (0, -1)
    inside = [price for price in drawn if low <= price <= high]
    outside = [price for price in drawn if not low <= price <= high]
    gaps = [b - a for a, b in pairwise(drawn)]
    thick = max(span / 250, min([span / 40, *(0.9 * gap for gap in gaps)]))

    def posts(name: str, part: list[int], colour: Colour, hatch: str) -> Posts:
        at, shares = tuple(map(float, part)), tuple(chances[price] for price in part)
        return Posts(name, at, shares, thick, colour, hatch)

    return [
        *([posts("outside the estimate", outside, SKY, "")] if outside else []),
        *([posts("inside the estimate", inside, BLUE, "////")] if inside else []),
    ]


@house()
def money_goes(split: Split, currency: str = "") -> Figure:
    """Draw where the money of one price goes.

    Parameters
    ----------
    split : Split
        Who gets what.
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        A bar a line of the split, in the order of the rules; the charity's own
        are hatched otherwise.
    """
    charged = split.charged_cents
    if not charged:
        return says_so("There is nothing to share out.", "Nothing was charged.")
    names = [
        line.label if line.label == line.payee else f"{line.label} ({line.payee})"
        for line in split.lines
    ]
    mine = [line.payee == split.charity for line in split.lines]
    amounts = [line.amount_cents for line in split.lines]
    pairs = list(zip(amounts, mine, strict=True))
    series = [
        Series(split.charity, tuple(a if m else 0 for a, m in pairs), GREEN, ""),
        Series("others", tuple(0 if m else a for a, m in pairs), ORANGE, "////"),
    ]
    share = 100 * split.charity_cents / charged
    return level_bars(
        f"Of {show(charged, currency)} charged, {show(split.charity_cents, currency)} "
        f"({share:.1f} %) goes to {split.charity}.",
        names,
        series,
        words="What each gets",
        currency=currency,
        stacked=True,
    )
