"""Which results can be right and which cannot, result by result."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.event.checks import cents_fault, day_fault, plain_key, word_fault
from pricebook.event.lots import Lot
from pricebook.event.plan import Event
from pricebook.event.results import METHODS, STATES, VOID, Result
from pricebook.money import show

_NOT_SOLD = ("unsold", "not sold", "no sale", "no bid", "no bids")


@dataclass(frozen=True, slots=True)
class Fault:
    """What cannot be right in one result: its lot, the field, the sentence.

    Parameters
    ----------
    at : int
        Which result, from 0.
    lot : str
        Its lot.
    field : str
        Field of `Result` that is at fault.
    sentence : str
        What was found, the rule, what to do.

    Examples
    --------
    >>> print(Fault(0, "7", "paddle", "has no paddle; write it."))
    lot 7: has no paddle; write it.
    """

    at: int
    lot: str
    field: str
    sentence: str

    def __str__(self) -> str:
        return f"lot {self.lot}: {self.sentence}"


def in_order(event: Event, results: Iterable[Result]) -> tuple[Result, ...]:
    """Return the results in the order of the catalogue, or refuse them.

    Parameters
    ----------
    event : Event
        The event.
    results : iterable of Result
        One for each lot, in any order.

    Returns
    -------
    tuple of Result
        In the order of the lots.

    Raises
    ------
    SpecError
        With a sentence for each fault, a lot without a result included.

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
    >>> in_order(spring, [Result(lot="1", state="sold", hammer_cents=12000)])
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: lot 1: is sold, but to no paddle; write the paddle ...
    """
    given = list(results)
    faults = [str(fault) for fault in result_faults(event, given)]
    raise_all(SpecError, [*faults, *missing_faults(event, given)])
    by_lot = {plain_key(result.lot): result for result in given}
    return tuple(by_lot[plain_key(lot.key)] for lot in event.lots)


def missing_faults(event: Event, results: Iterable[Result]) -> Iterator[str]:
    """List the lots that have no result."""
    there = {plain_key(str(result.lot)) for result in results}
    for lot in event.lots:
        if plain_key(lot.key) not in there:
            yield (
                f"lot {lot.key} has no result; add its row: sold, passed, withdrawn "
                "or void."
            )


def result_faults(event: Event, results: Iterable[Result]) -> Iterator[Fault]:
    """List what cannot be right, result by result.

    Parameters
    ----------
    event : Event
        The event.
    results : iterable of Result
        The results.

    Yields
    ------
    Fault
        In the order of the results.
    """
    lots = {plain_key(lot.key): lot for lot in event.lots}
    seen: set[str] = set()
    for at, result in enumerate(results):
        key = plain_key(str(result.lot))
        if key not in lots:
            yield Fault(
                at,
                result.lot,
                "lot",
                f"is not in the catalogue of {event.name}; correct the number or "
                "take the row out.",
            )
            continue
        if key in seen:
            yield Fault(at, result.lot, "lot", "stands twice; keep one row a lot.")
        seen.add(key)
        for field, sentence in _one(event, lots[key], result):
            yield Fault(at, result.lot, field, sentence)


def _one(event: Event, lot: Lot, result: Result) -> Iterator[tuple[str, str]]:
    """List field and sentence of each fault of one result."""
    typed = list(_type_faults(result))
    yield from typed
    if typed:
        return
    if not result.is_hammered:
        yield from _idle(result)
        return
    if result.hammer_cents is None:
        yield (
            "hammer_cents",
            f"is {result.state} without a hammer price; write the price, or "
            "the state passed or withdrawn.",
        )
    else:
        yield from _price(lot, result)
    if not result.paddle:
        yield (
            "paddle",
            f"is {result.state}, but to no paddle; write the paddle number.",
        )
    if (result.paid or result.amount_cents) and not result.method:
        yield "method", "is paid, but not how; write cash, cheque or card."
    if result.on is not None and result.on < event.bidding_opens.date():
        yield (
            "on",
            f"date {result.on} is before bidding opened on "
            f"{event.bidding_opens.date()}; correct it.",
        )
    if result.state == VOID:
        yield from _void(result)


def _type_faults(result: Result) -> Iterator[tuple[str, str]]:
    """List the fields that hold the wrong kind of value."""
    found = [
        ("state", _state_fault(result.state)),
        (
            "hammer_cents",
            cents_fault("hammer price", result.hammer_cents, optional=True, above=0),
        ),
        ("amount_cents", cents_fault("amount", result.amount_cents, optional=True)),
        ("on", day_fault("date", result.on, optional=True)),
    ]
    if result.method != "":
        found.append(("method", word_fault("method", result.method, METHODS)))
    for field, faults in found:
        yield from ((field, sentence) for sentence in faults)
    for field in ("paddle", "initials", "note"):
        if not isinstance(getattr(result, field), str):
            yield field, f"{field} is {getattr(result, field)!r}; it must be text."
    if not isinstance(result.paid, bool):
        yield "paid", f"paid is {result.paid!r}; say True or False."


def _state_fault(state: object) -> Iterator[str]:
    """Say what is wrong with a state; one letter more may not turn it about."""
    if str(state).casefold() in _NOT_SOLD:
        yield f'state is "{state}"; a lot that nobody bought is passed: write passed.'
    else:
        yield from word_fault("state", state, STATES)


def _idle(result: Result) -> Iterator[tuple[str, str]]:
    """List what a lot that was not hammered must not have."""
    for field, word in (
        ("hammer_cents", "a hammer price"),
        ("paddle", "a paddle"),
        ("paid", "a payment"),
        ("amount_cents", "an amount paid"),
        ("method", "a way of paying"),
    ):
        value = getattr(result, field)
        if value not in (None, "", False):
            yield (
                field,
                f"is {result.state} and yet has {word}; take it out (a last bid "
                "goes into the note), or write sold.",
            )


def _price(lot: Lot, result: Result) -> Iterator[tuple[str, str]]:
    """List a price that is too low to stand without a word of why."""
    price = result.hammer_cents or 0
    if result.note.strip():
        return
    if price < lot.opening_cents:
        yield (
            "hammer_cents",
            f"hammer price {show(price)} is below the opening bid "
            f"{show(lot.opening_cents)}; correct it, or say why in the note.",
        )
    elif lot.reserve_cents is not None and price < lot.reserve_cents:
        yield (
            "hammer_cents",
            f"hammer price {show(price)} does not reach the reserve "
            f"{show(lot.reserve_cents)}; correct it, or say why in the note.",
        )


def _void(result: Result) -> Iterator[tuple[str, str]]:
    """List what an undone sale lacks: the reason, who undid it and when."""
    for field, word in (("note", "a reason"), ("initials", "initials")):
        if not getattr(result, field).strip():
            yield field, f"is void without {word}; the row needs it beside the price."
    if result.on is None:
        yield "on", "is void without a date; the row needs it beside the price."
