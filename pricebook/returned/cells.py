"""Read one cell: what kind of thing stands in it, and whether it can be right."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from pricebook import money
from pricebook.errors import ReportError, UnitError
from pricebook.event.book import NO, YES
from pricebook.event.checks import MOST_CENTS

SPREADSHEET_DIGITS = 15
"""A spreadsheet program computes and shows no more digits than this."""
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august",
    "september", "october", "november", "december",
)  # fmt: skip
_NAMED_DAY = re.compile(
    r"(?:(?P<d1>\d{1,2})(?:st|nd|rd|th)?\.?[\s-]+(?P<m1>[a-z]+)"
    r"|(?P<m2>[a-z]+)\.?\s+(?P<d2>\d{1,2})(?:st|nd|rd|th)?)"
    r"\.?,?[\s-]+(?P<y>\d{4})",
    re.IGNORECASE,
)
_SLASHED_DAY = re.compile(r"(\d{1,2})[/.\-](\d{1,2})[/.\-](\d{4})")
_YEAR_FIRST = re.compile(r"(\d{4})[/.](\d{1,2})[/.](\d{1,2})")
_SIGN_BEHIND = re.compile(r"(?P<amount>[0-9.,]+)\s*[$\u00a2-\u00a5\u20a0-\u20c0]")
_CODE = re.compile(r"^[A-Z]{3}\s+(?=[0-9])|(?<=[0-9])\s+[A-Z]{3}$")
_BEFORE_A_PADDLE = re.compile(
    r"^(?:paddle|number|no\.?|#)(?:\s*(?:no\.?|#))?[\s:-]*(?=\d)", re.IGNORECASE
)
_A_NAME = re.compile(r"[^\W\d_]{4}")
MOST_PADDLE_LETTERS = 12
"""A paddle is a number, perhaps with a letter; a name is not stored."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell as it came back.

    Parameters
    ----------
    ref : str
        Where it stands: `F7`.
    value : object
        What it holds; None when empty.
    kind : str
        "empty", "text", "number", "yes or no", "date", "formula" or "error".
    """

    ref: str
    value: object = None
    kind: str = "empty"

    @property
    def is_empty(self) -> bool:
        """Whether nothing, or nothing but blanks, stands in it."""
        return self.kind == "empty" or self.text == ""

    @property
    def text(self) -> str:
        """What it holds as text; a whole number without its point."""
        if self.value is None:
            return ""
        if isinstance(self.value, float) and self.value.is_integer():
            return str(int(self.value))
        if isinstance(self.value, datetime) and self.value.time() == time():
            return self.value.date().isoformat()
        return str(self.value).strip()


def refuse_formula(cell: Cell) -> None:
    """Refuse a formula or an error where a value belongs.

    Examples
    --------
    >>> refuse_formula(Cell("F7", "#REF!", "error"))
    Traceback (most recent call last):
        ...
    pricebook.errors.ReportError: found the error #REF!; a value belongs here; ...
    """
    if cell.kind == "formula":
        raise ReportError(
            f"found the formula {cell.text}; a value belongs here; type it in."
        )
    if cell.kind == "error":
        raise ReportError(
            f"found the error {cell.text}; a value belongs here; type it in."
        )


def plain_text(cell: Cell) -> str:
    """Read a cell as text."""
    refuse_formula(cell)
    if isinstance(cell.value, datetime):
        return cell.value.date().isoformat()
    return cell.text


def price(cell: Cell) -> int | None:
    """Read an amount of money: a number, or text with a currency sign [cents].

    Examples
    --------
    >>> price(Cell("F7", "$1,250.00", "text")), price(Cell("F7", 12.5, "number"))
    (125000, 1250)
    >>> price(Cell("F7", 12.345, "number"))
    Traceback (most recent call last):
        ...
    pricebook.errors.ReportError: found 12.345; a price has at most two decimals; ...
    """
    refuse_formula(cell)
    if cell.is_empty:
        return None
    if cell.kind == "number":
        return _cents(cell.value)
    if cell.kind == "text":
        try:
            return money.read(_without_currency(cell.text))
        except UnitError:
            raise ReportError(_price_rule(f'the text "{cell.text}"')) from None
    raise ReportError(_price_rule(f"{cell.kind} {cell.text}"))


def _without_currency(text: str) -> str:
    """Take off a currency's sign behind an amount, or its three-letter code."""
    behind = _SIGN_BEHIND.fullmatch(text)
    return behind["amount"] if behind else _CODE.sub("", text)


def _price_rule(found: str) -> str:
    return (
        f"found {found}; a price is a number with at most two decimals and no minus, "
        "such as 1250 or 1250.50; correct it, and put words into the note."
    )


def _cents(value: object) -> int:
    number = Decimal(f"{value:.{SPREADSHEET_DIGITS}g}")
    if number < 0:
        raise ReportError(f"found {number}; a price is not below 0; correct it.")
    cents = number * 100
    if cents != cents.to_integral_value():
        raise ReportError(
            f"found {number.normalize():f}; a price has at most two decimals; "
            "correct it."
        )
    if cents > MOST_CENTS:
        raise ReportError(f"found {number:f}; no lot brings that much; correct it.")
    return int(cents)


def paddle(cell: Cell) -> str:
    """Read a paddle number; digits alone lose their leading noughts.

    Examples
    --------
    >>> paddle(Cell("G7", 12.0, "number")), paddle(Cell("G8", "012", "text"))
    ('12', '12')
    >>> paddle(Cell("G9", "Paddle 12", "text")), paddle(Cell("G10", "#12", "text"))
    ('12', '12')
    """
    refuse_formula(cell)
    if len(cell.text) > MOST_PADDLE_LETTERS:
        raise ReportError(
            f'found "{cell.text[:MOST_PADDLE_LETTERS]}..."; a paddle is a number of at '
            f"most {MOST_PADDLE_LETTERS} signs, never a name; correct it."
        )
    if _A_NAME.search(cell.text) and not any(sign.isdecimal() for sign in cell.text):
        raise ReportError(
            f'found "{cell.text}"; a paddle is a number, perhaps with a letter, never '
            "a name; write the number."
        )
    if cell.kind in ("date", "yes or no"):
        raise ReportError(
            f"found {cell.kind} {cell.text}; a paddle is a number; type it again."
        )
    word = _BEFORE_A_PADDLE.sub("", cell.text)
    word = word.removesuffix(".0") if word[:-2].isdecimal() else word
    if cell.kind == "number" and not word.isdecimal():
        raise ReportError(f"found {word}; a paddle is a whole number; correct it.")
    return str(int(word)) if word.isascii() and word.isdecimal() else word


def word(cell: Cell, same: Mapping[str, str] | None = None) -> str:
    """Read a word in any capitals; `same` gives other spellings of known ones."""
    found = plain_text(cell).casefold()
    return (same or {}).get(found, found)


def paid(cell: Cell) -> tuple[bool | None, int | None]:
    """Read whether a lot was paid, or how much of it; None where nothing stands.

    Examples
    --------
    >>> paid(Cell("H7", "Yes", "text")), paid(Cell("H8", 120.0, "number"))
    ((True, None), (None, 12000))
    """
    refuse_formula(cell)
    if cell.is_empty:
        return None, None
    if isinstance(cell.value, bool):
        return cell.value, None
    found = cell.text.casefold()
    if found in (YES, NO, YES[0], NO[0]):
        return found[0] == YES[0], None
    try:
        return None, price(cell)
    except ReportError:
        raise ReportError(
            f'found "{cell.text}"; write yes, no, or the part that was paid.'
        ) from None


def day(cell: Cell) -> date | None:
    """Read a date: a date cell, or text that can mean one day only.

    Examples
    --------
    >>> day(Cell("J7", "April 17, 2027", "text")), day(Cell("J8", "17/4/2027", "text"))
    (datetime.date(2027, 4, 17), datetime.date(2027, 4, 17))
    >>> day(Cell("J9", "4/5/2027", "text"))
    Traceback (most recent call last):
        ...
    pricebook.errors.ReportError: found "4/5/2027", which can be two days; ...
    """
    refuse_formula(cell)
    if cell.is_empty:
        return None
    if isinstance(cell.value, datetime):
        return cell.value.date()
    if isinstance(cell.value, date):
        return cell.value
    try:
        return _day_of_text(cell.text)
    except ReportError:
        raise
    except ValueError:
        raise ReportError(
            f'found "{cell.text}"; write a date as year, month, day: 2027-04-17.'
        ) from None


def _day_of_text(text: str) -> date:
    named = _NAMED_DAY.fullmatch(text)
    if named:
        month = _month(named["m1"] or named["m2"])
        return date(int(named["y"]), month, int(named["d1"] or named["d2"]))
    year_first = _YEAR_FIRST.fullmatch(text)
    if year_first:
        return date(*(int(part) for part in year_first.groups()))
    slashed = _SLASHED_DAY.fullmatch(text)
    if slashed:
        first, second, year = (int(part) for part in slashed.groups())
        if first != second and max(first, second) <= len(_MONTHS):
            raise ReportError(
                f'found "{text}", which can be two days; write year, month, day: '
                f"{year}-{first:02d}-{second:02d}."
            )
        return date(year, min(first, second), max(first, second))
    return datetime.fromisoformat(text).date()


def _month(name: str) -> int:
    """Return the number of a month by its name or the first three letters of it."""
    found = [
        number
        for number, month in enumerate(_MONTHS, start=1)
        if len(name) >= 3 and month.startswith(name.casefold())
    ]
    if len(found) != 1:
        raise ValueError(name)
    return found[0]
