"""Fill in what a piece behind a lot or a candidate says; what is stated stays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.event.candidates import Candidate
from pricebook.event.checks import plain_key
from pricebook.event.lot_parts import Demand, LotCost
from pricebook.event.lots import Lot
from pricebook.event.plan import Event

T = TypeVar("T")


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
