"""The public return's event lines, from settled lots and the evening's money."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.event.plan import Event
from pricebook.event.settled import SettledLot
from pricebook.receipts import EventLines, event_lines


def missing_values(lots: Sequence[SettledLot]) -> tuple[str, ...]:
    """Name the lots whose value, or value when given, is not stated."""
    return tuple(lot.key for lot in lots if lot.on_the_return is None)


def return_lines(event: Event, lots: Sequence[SettledLot]) -> EventLines | None:
    """Work out the event lines, as the cash went.

    Parameters
    ----------
    event : Event
        The event.
    lots : sequence of SettledLot
        Its lots.

    Returns
    -------
    EventLines or None
        The lines; None while a lot states no value. [cents]

    Notes
    -----
    A lot that is not paid counts as still on hand; a premium counts where the
    charity keeps it; a share paid to others is a direct expense of the lot.
    """
    seen = [lot.on_the_return for lot in lots]
    known = [lot for lot in seen if lot is not None]
    if len(known) < len(seen):
        return None
    costs = _costs_by_line(event)
    return event_lines(
        known,
        tickets=[
            (ticket.price_cents, ticket.value_cents)
            for ticket in event.tickets
            for _ in range(ticket.count)
        ],
        cash_gifts_cents=sum(x.value_cents for x in event.gifts if x.kind == "cash"),
        kept_premiums_cents=sum(lot.kept_premium_cents for lot in lots),
        cash_prizes_cents=costs.get("cash prizes", 0),
        noncash_prizes_cents=costs.get("noncash prizes", 0),
        rent_cents=costs.get("rent", 0),
        food_cents=costs.get("food", 0),
        entertainment_cents=costs.get("entertainment", 0),
        other_direct_cents=costs.get("other", 0),
    )


def _costs_by_line(event: Event) -> dict[str, int]:
    found: dict[str, int] = {}
    for cost in event.costs:
        found[cost.line] = found.get(cost.line, 0) + cost.amount_cents
    return found
