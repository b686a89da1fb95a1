"""How a settlement is named, and how lots are in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import count

from pricebook.event.plan import Event


def settlement_name(event: Event, existing: Iterable[str]) -> str:
    """Return the next free name for a settlement's files, without an ending.

    Parameters
    ----------
    event : Event
        The event.
    existing : iterable of str
        Names that are taken; endings and capitals do not count.

    Returns
    -------
    str
        `<key> settlement 1`, or the first number after it that is free.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> settlement_name(SimpleNamespace(key="spring"), ["Spring settlement 1.xlsx"])
    'spring settlement 2'
    """
    stem = f"{event.key.strip().lower().replace(' ', '-')} settlement"
    taken = {name.casefold() for name in existing}
    taken |= {name.rpartition(".")[0] for name in taken if "." in name}
    return next(
        f"{stem} {number}"
        for number in count(1)
        if f"{stem} {number}".casefold() not in taken
    )


def some_lots(keys: Sequence[str], most: int = 60) -> str:
    """Name lots in a sentence or a cell; more than a reader takes in are counted.

    Parameters
    ----------
    keys : sequence of str
        The lots.
    most : int
        So many are named. [-]

    Returns
    -------
    str
        The lots, with commas.

    Examples
    --------
    >>> some_lots(["1", "2", "7"]), some_lots(["1", "2", "7", "9"], 2)
    ('1, 2, 7', '1, 2 and 2 more')
    """
    more = f" and {len(keys) - most:,} more" if len(keys) > most else ""
    return f"{', '.join(keys[:most])}{more}"
