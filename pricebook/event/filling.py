"""Fill in what a piece behind a lot or a candidate says; what is stated stays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, TypeVar

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.event.candidates import Candidate
from pricebook.event.checks import plain_key
from pricebook.event.lots import Demand, Lot, LotCost
from pricebook.event.plan import Event

T = TypeVar("T")
MONEY = "money"
"""The limit that is money; a candidate's need of it is its cost, in units."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotAdvice:
    """What the advice on a piece's price says of its lot.

    Parameters
    ----------
    estimate_low_cents, estimate_high_cents, reserve_cents : int or None
        As for `Lot`. [cents]
    demand : Demand or None
        What is believed of the bidders.

    Examples
    --------
    >>> LotAdvice(estimate_low_cents=20000, estimate_high_cents=35000).demand is None
    True
    """

    estimate_low_cents: int | None = None
    estimate_high_cents: int | None = None
    reserve_cents: int | None = None
    demand: Demand | None = None


def with_costs(event: Event, costs: Mapping[str, LotCost]) -> Event:
    """Return the event with the costs of lots that state none.

    Parameters
    ----------
    event : Event
        The event.
    costs : mapping
        Lot number to cost.

    Returns
    -------
    Event
        A new event; a lot that states its cost keeps it.

    Raises
    ------
    SpecError
        If a number is no lot's.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.proceeds import Rest
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     deductions=(Rest("the Share"),),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> with_costs(spring, {"1": LotCost(used_up_cents=4000)}).lots[0].cost.full_cents
    4000
    """
    by_lot = _known(event, costs)
    lots = tuple(
        replace(
            lot, cost=by_lot.get(plain_key(lot.key)) if lot.cost is None else lot.cost
        )
        for lot in event.lots
    )
    return replace(event, lots=lots)


def with_advice(event: Event, advice: Mapping[str, LotAdvice]) -> Event:
    """Return the event with estimates and beliefs for lots that state none.

    Parameters
    ----------
    event : Event
        The event.
    advice : mapping
        Lot number to advice.

    Returns
    -------
    Event
        A new event; what a lot states stays. A fair market value and an opening
        bid are a person's to state and are never filled in.

    Raises
    ------
    SpecError
        If a number is no lot's, or a lot cannot be with that advice.
    """
    by_lot = _known(event, advice)
    lots = [
        _advised(lot, by_lot.get(plain_key(lot.key), LotAdvice())) for lot in event.lots
    ]
    return replace(event, lots=tuple(lots))


def _advised(lot: Lot, advice: LotAdvice) -> Lot:
    stated = lot.estimate_low_cents is not None or lot.estimate_high_cents is not None
    low = lot.estimate_low_cents if stated else advice.estimate_low_cents
    high = lot.estimate_high_cents if stated else advice.estimate_high_cents
    reserve = lot.reserve_cents
    return replace(
        lot,
        estimate_low_cents=low,
        estimate_high_cents=high,
        reserve_cents=advice.reserve_cents if reserve is None else reserve,
        demand=lot.demand or advice.demand,
    )


def _known(event: Event, given: Mapping[str, T]) -> dict[str, T]:
    """Return the mapping by plain key, or refuse a number that is no lot's."""
    keys = [lot.key for lot in event.lots]
    there = {plain_key(key) for key in keys}
    raise_all(
        SpecError,
        [
            f'"{key}" is no lot of {event.name}; {nearest(key, keys)}'
            for key in given
            if plain_key(key) not in there
        ],
    )
    return {plain_key(key): value for key, value in given.items()}


def with_candidates(event: Event, figures: Iterable[Candidate]) -> Event:
    """Return the event with the figures of candidates that leave them open.

    Parameters
    ----------
    event : Event
        The event.
    figures : iterable of Candidate
        Of the same names, with what their pieces say.

    Returns
    -------
    Event
        A new event; what a candidate states stays.

    Raises
    ------
    SpecError
        If a name is no candidate's.
    """
    given = {candidate.name: candidate for candidate in figures}
    names = [candidate.name for candidate in event.candidates]
    raise_all(
        SpecError,
        [
            f'"{name}" is no candidate; {nearest(name, names)}'
            for name in given
            if name not in names
        ],
    )
    filled = [_filled(x, given.get(x.name, x)) for x in event.candidates]
    return replace(event, candidates=tuple(filled))


def _filled(stated: Candidate, found: Candidate) -> Candidate:
    open_figures = {f"{name}_cents" for name in stated.missing}
    taken = {name: getattr(found, name) for name in open_figures}
    needs = tuple({**dict(found.needs), **dict(stated.needs)}.items())
    return replace(stated, needs=needs, **taken)


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
        One a lot. A lot opens at its reserve if it has one, for below that it
        does not sell.

    Raises
    ------
    SpecError
        If a lot says nothing of its bidders: a sentence each.

    Examples
    --------
    >>> from datetime import date, datetime
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
            "opening_cents": lot.reserve_cents or lot.opening_cents,
        }
        for lot in event.lots
        if lot.demand is not None
    ]
