"""The name of a settlement: a second one never takes the place of the first."""

from __future__ import annotations

from collections.abc import Iterable
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
