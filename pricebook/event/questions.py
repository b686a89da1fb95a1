"""An event as the forecast asks for it: its candidates, and its lots."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.event.plan import Event

MONEY = "money"
"""The limit that is money; a candidate's need of it is its cost, in units."""


def choice_pieces(
    event: Event,
) -> tuple[list[dict[str, Any]], dict[str, int | float]]:
    """Return the candidates and limits as `forecast.choose` takes them.

    Parameters
    ----------
    event : Event
        The event, its candidates complete.

    Returns
    -------
    tuple of (list of dict, dict)
        The pieces, each with its need of every limit, and the limits. A need of
        the limit `money` is the candidate's cost, in units.

    Raises
    ------
    SpecError
        If there is no candidate or limit, or one lacks a figure: a sentence each.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.event import Candidate, Lot
    >>> from pricebook.proceeds import Rest
    >>> chest = Candidate(name="Chest", as_is_cents=4000, finished_cents=30000,
    ...                   cost_cents=9000, needs=(("hours", 14),))
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     deductions=(Rest("the Share"),), candidates=(chest,),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ...     limits=(("hours", 40), ("money", 200)),
    ... )
    >>> pieces, limits = choice_pieces(spring)
    >>> pieces[0]["hours"], float(pieces[0]["money"]), limits["money"]
    (14, 90.0, 200)
    """
    limits = dict(event.limits)
    faults = []
    if not event.candidates:
        faults.append(f"{event.name} names no candidates; add at least one.")
    if not limits:
        faults.append(f"{event.name} states no limits; state hours, sheets or money.")
    pieces: list[dict[str, Any]] = []
    for one in event.candidates:
        needs = dict(one.needs)
        lacking = [k for k in limits if k != MONEY and k not in needs]
        faults += [
            f'candidate "{one.name}": {name} is not known; state it, or name a piece.'
            for name in (*one.missing, *lacking)
        ]
        faults += [
            f'candidate "{one.name}": "{key}" is no limit; {nearest(key, limits)}'
            for key in needs
            if key not in limits or key == MONEY
        ]
        row: dict[str, Any] = {k: needs.get(k, 0) for k in limits if k != MONEY}
        if MONEY in limits:
            row[MONEY] = Fraction(one.cost_cents or 0, 100)
        named = {"name": one.name, "uplift_cents": one.uplift_cents, "most": one.most}
        pieces.append(named | row)
    raise_all(SpecError, faults)
    return pieces, limits


def evening_lots(event: Event) -> list[dict[str, Any]]:
    """Return the lots as `forecast.evening` takes them.

    Parameters
    ----------
    event : Event
        The event, its lots' demand complete.

    Returns
    -------
    list of dict
        One a lot. A lot opens at its reserve if it has one, or the next rung of
        the ladder above it, for below that it does not sell.

    Raises
    ------
    SpecError
        If a lot says nothing of its bidders: a sentence each.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.event import Lot
    >>> from pricebook.proceeds import Rest
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     deductions=(Rest("the Share"),),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> evening_lots(spring)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: lot 1 says nothing of its bidders; state median, ...
    """
    raise_all(
        SpecError,
        [
            f"lot {lot.key} says nothing of its bidders; state median, sigma and "
            "bidders, or name a piece."
            for lot in event.lots
            if lot.demand is None
        ],
    )
    return [
        {
            "name": f"{lot.key} {lot.title}",
            "median_cents": lot.demand.median_cents,
            "sigma": lot.demand.sigma,
            "bidders": lot.demand.bidders,
            "crowd": lot.demand.crowd,
            "opening_cents": event.ladder.at_or_above(
                max(lot.reserve_cents or 0, lot.opening_cents)
            ),
        }
        for lot in event.lots
        if lot.demand is not None
    ]
