"""What the event lines must equal elsewhere, and which papers the figures call for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import is_cents
from pricebook.receipts.figures import Figure, in_force
from pricebook.receipts.thresholds import AS_OF, PRACTITIONER, THRESHOLDS


def tie_out(lines: Mapping[int, int]) -> dict[str, int]:
    """Carry the event lines to the lines of the return that must equal them.

    Parameters
    ----------
    lines : mapping
        As `event_lines` returns them. [cents]

    Returns
    -------
    dict
        Lines 1c, 8a, 8b and 8c of the long return's part VIII and lines 6b, 6c
        and 6d of the short one, gaming being none. [cents]

    Raises
    ------
    MoneyError
        If a line is missing.

    Notes
    -----
    1c = line 2, 8a = 6b = line 3, 8b = 6c = line 10, 8c = 6d = line 11.
    Sources: form_990_2021, form_990_ez_2021.

    Examples
    --------
    >>> from pricebook.receipts import event_lines
    >>> tie_out(event_lines([], tickets=[(30000, 5000)], food_cents=5000))
    {'1c': 25000, '8a': 5000, '8b': 5000, '8c': 0, '6b': 5000, '6c': 5000, '6d': 0}
    """
    _need_lines(lines)
    return {
        "1c": lines[2],
        "8a": lines[3],
        "8b": lines[10],
        "8c": lines[11],
        "6b": lines[3],
        "6c": lines[10],
        "6d": lines[3] - lines[10],
    }


def _need_lines(lines: Mapping[int, int]) -> None:
    """Refuse what are no event lines."""
    if isinstance(lines, Mapping) and all(number in lines for number in range(1, 12)):
        return
    raise MoneyError(
        f"the lines are {lines!r:.40}; give lines 1 to 11 as event_lines returns them."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Triggers:
    """Which schedules the event and the year call for.

    Parameters
    ----------
    event_schedule : bool
        Contributions and gross income of the year's events are above the limit.
    event_listed : bool
        This event's gross receipts are above the limit.
    noncash_schedule : bool
        The year's gifts in kind are above the limit.
    words : tuple of str
        A sentence for each, the practitioner's line last.

    Examples
    --------
    >>> from pricebook.receipts import event_lines
    >>> triggers(event_lines([(40000, 55000)])).event_schedule
    False
    """

    event_schedule: bool
    event_listed: bool
    noncash_schedule: bool
    words: tuple[str, ...]


def triggers(
    lines: Mapping[int, int],
    *,
    noncash_cents: int = 0,
    other_events_cents: int = 0,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> Triggers:
    """Say which schedules of the public return the figures call for.

    Parameters
    ----------
    lines : mapping
        As `event_lines` returns them. [cents]
    noncash_cents : int
        Gifts in kind of the year, as far as they are known. [cents]
    other_events_cents : int
        Contributions and gross income of the year's other events. [cents]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year of the return.

    Returns
    -------
    Triggers
        Yes or no for each, with a sentence.

    Raises
    ------
    MoneyError
        If an amount is not whole cents of 0 or more, or a line is missing.

    Notes
    -----
    Event schedule: lines 2 + 3 of all events above 15,000; an event is listed with
    line 1 above 5,000; noncash schedule: above 25,000, or any art or collectible.
    Source: form_990_2021.

    Examples
    --------
    >>> from pricebook.receipts import event_lines
    >>> triggers(event_lines([], cash_gifts_cents=1500100)).event_schedule
    True
    """
    _need_lines(lines)
    amounts = {"noncash": noncash_cents, "other events": other_events_cents}
    raise_all(
        MoneyError,
        [
            f"{name} is {value!r}; it must be whole cents, 0 or more."
            for name, value in amounts.items()
            if not is_cents(value)
        ],
    )
    total = lines[2] + lines[3] + other_events_cents
    tests = (
        ("event schedule above", total, "contributions and gross income of events"),
        ("event listed above", lines[1], "gross receipts of this event"),
        ("noncash schedule above", noncash_cents, "gifts in kind counted"),
    )
    rows = [(in_force(thresholds, name, as_of), got, what) for name, got, what in tests]
    return Triggers(
        event_schedule=rows[0][1] > rows[0][0].cents,
        event_listed=rows[1][1] > rows[1][0].cents,
        noncash_schedule=rows[2][1] > rows[2][0].cents,
        words=(*_trigger_words(rows), f"As of {as_of}. {PRACTITIONER}"),
    )


def _trigger_words(rows: Iterable[tuple[Figure, int, str]]) -> Iterator[str]:
    for figure, got, what in rows:
        verdict = "above" if got > figure.cents else "not above"
        yield (
            f"{what}: {money.show(got)}, {verdict} {money.show(figure.cents)} "
            f"({figure.source}, {figure.year})."
        )
