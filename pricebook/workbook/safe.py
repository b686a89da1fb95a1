"""What a person typed, made safe for a workbook, or refused."""

from __future__ import annotations

import re
from collections.abc import Iterable

LONGEST_TEXT = 32_767
"""Characters that one cell holds."""

LONGEST_NAME = 31
"""Characters that the name of a sheet may have."""

LONGEST_HEADER = 80
"""Characters of a name that stand at the head of a page; the format takes 255."""

_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_NOT_IN_NAMES = re.compile(r"[\[\]:*?/\\\x00-\x1f]")


def text_fault(where: str, text: str) -> str:
    """Say why a text cannot stand in a cell, or return nothing.

    Parameters
    ----------
    where : str
        Which cell, in words.
    text : str
        What it shall say.

    Returns
    -------
    str
        A sentence; empty where all is well.

    Examples
    --------
    >>> text_fault("Cost, A5", "oak")
    ''
    >>> text_fault("Cost, A5", "oak" + chr(7))
    'Cost, A5: "oak…" holds the control character U+0007; take it out.'
    """
    if found := _CONTROL.search(text):
        before = text[max(0, found.start() - 20) : found.start()]
        return (
            f'{where}: "{before}…" holds the control character '
            f"U+{ord(found[0]):04X}; take it out."
        )
    if len(text) > LONGEST_TEXT:
        return (
            f'{where}: "{text[:20]}…" has {len(text):,} characters and a cell holds '
            f"{LONGEST_TEXT:,}; shorten it."
        )
    return ""


def sheet_names(wanted: Iterable[str], taken: Iterable[str] = ()) -> tuple[str, ...]:
    """Return names that sheets may have, each its own, near to those wanted.

    Parameters
    ----------
    wanted : iterable of str
        Names as people would read them.
    taken : iterable of str
        Names that other sheets have.

    Returns
    -------
    tuple of str
        At most 31 characters each, without []:*?/ and backslash, no two alike
        whatever their case.

    Examples
    --------
    >>> sheet_names(["Cost: chest/1", "cost  chest 1", "History"])
    ('Cost chest 1', 'cost chest 1 (2)', 'History sheet')
    """
    used = {name.lower() for name in taken}
    found = []
    for name in wanted:
        plain = " ".join(_NOT_IN_NAMES.sub(" ", name).split()).strip("' ") or "Sheet"
        if plain.lower() == "history":  # kept by spreadsheets for themselves
            plain = "History sheet"
        number, one = 1, plain[:LONGEST_NAME].rstrip("' ")
        while one.lower() in used:
            number += 1
            end = f" ({number})"
            one = plain[: LONGEST_NAME - len(end)].rstrip("' ") + end
        used.add(one.lower())
        found.append(one)
    return tuple(found)


def header_text(text: str) -> str:
    """Return a text for the head or foot of a page, where & begins a command.

    Examples
    --------
    >>> header_text("Nuts & bolts")
    'Nuts && bolts'
    """
    plain = " ".join(_CONTROL.sub(" ", text).split())
    if len(plain) > LONGEST_HEADER:
        plain = plain[: LONGEST_HEADER - 1].rstrip() + "…"
    return plain.replace("&", "&&")


def quoted(sheet: str) -> str:
    """Return the name of a sheet as formulas write it.

    Examples
    --------
    >>> quoted("Cost of Ann's chest")
    "'Cost of Ann''s chest'"
    """
    return "'" + sheet.replace("'", "''") + "'"
