"""What may be wrong with the rows of a ladder of bids."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from pricebook.bidding.arguments import number_faults
from pricebook.money import show

Step = tuple[int | None, int]
"""Up to which price (None: without end), and by how much a bid rises [cents]."""


def row_faults(name: str, steps: Sequence[Step], first_cents: int) -> list[str]:
    """Say what is wrong with the rows, in the order of the rows.

    Parameters
    ----------
    name : str
        What the ladder is called.
    steps : sequence of (int or None, int)
        The rows (up to, step). [cents]
    first_cents : int
        The lowest rung. [cents]

    Returns
    -------
    list of str
        The sentences, or none.

    Examples
    --------
    >>> row_faults("plain", [(500, 25), (None, 50)], 0)
    []
    >>> row_faults("plain", [(500, 25), (400, 50)], 0)
    ['ladder "plain", row 2 goes backwards: it ends at 4.00, the row ...']
    """
    is_rows = isinstance(steps, Sequence) and not isinstance(steps, str | bytes)
    if not is_rows or not all(_is_pair(row) for row in steps):
        return [f'ladder "{name}" is {steps!r:.80}; give (up to, step) rows.']
    if not steps:
        return [f'ladder "{name}" has no rows; give (up to, step) rows.']
    found = number_faults("first_cents", first_cents, least=0, whole=True)
    low = 0 if found else int(first_cents)
    for row, (up_to, step) in enumerate(steps, 1):
        where = f'ladder "{name}", row {row}'
        faults = number_faults(f"{where}: step", step, above=0, whole=True)
        if up_to is not None:
            faults += _stretch_faults(where, low, up_to, step, bool(faults or found))
            low = low if faults else int(up_to)
        elif row < len(steps):
            faults.append(f"{where} has no end, so no row may follow it.")
        found += faults
    return found


def _is_pair(row: object) -> bool:
    return isinstance(row, Sequence) and not isinstance(row, str) and len(row) == 2


def repeat_faults(
    name: str, steps: Sequence[Step], first_cents: int, repeats_from_cents: int
) -> list[str]:
    """Say what is wrong with the stretch that comes again tenfold.

    Parameters
    ----------
    name, steps, first_cents
        As for `row_faults`; the rows are sound.
    repeats_from_cents : int
        Where the stretch begins. [cents]

    Returns
    -------
    list of str
        One sentence, or none.

    Examples
    --------
    >>> repeat_faults("tens", [(100, 10), (1000, 100)], 0, 100)
    []
    """
    faults = number_faults("repeats_from_cents", repeats_from_cents, whole=True)
    if faults:
        return faults
    top = steps[-1][0]
    ends = {first_cents, *(up_to for up_to, _ in steps[:-1])}
    if repeats_from_cents in ends and top == 10 * repeats_from_cents > 0:
        return []
    return [
        f'ladder "{name}" repeats from {repeats_from_cents} cents, but its rows end at '
        f"{top}; a row must begin there, and the last end at ten times as much."
    ]


def _stretch_faults(
    where: str, low: int, up_to: object, step: int, has_faults: bool
) -> list[str]:
    """Say what is wrong with the end of one row."""
    faults = number_faults(f"{where}: up to", up_to, whole=True)
    if faults:
        return faults
    up_to = int(cast("int", up_to))
    if up_to <= low:
        return [
            f"{where} goes backwards: it ends at {show(up_to)}, the row before it at "
            f"{show(low)}; each row must end higher than the one before."
        ]
    if not has_faults and (up_to - low) % step:
        return [
            f"{where}: a step of {show(step)} does not divide the stretch from "
            f"{show(low)} to {show(up_to)}; end the row on one of its rungs."
        ]
    return []
