"""What every row of the price book has, and what the bench asks of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.errors import TableError, finite, raise_all, shown

UNITS = ("each", "ml", "l", "g", "kg", "mm", "m", "m2", "sheet", "pair")
VENEERS = ("show", "backing")
SHEET_FORMS = ("backed", "self-adhesive", "raw")
ROLL_FORMS = ("iron-on", "self-adhesive", "glue-on")
PAYS = ("paid", "given", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What the bench needs of one item, and how that was worked out.

    Parameters
    ----------
    item : str
        Key of a row of the price book.
    quantity : float
        How much. [unit]
    unit : str
        One of `UNITS`.
    group : str
        Heading of the cost sheet, such as "finish".
    how : str
        The working, in words a person can follow.
    """

    item: str
    quantity: float
    unit: str
    group: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """How much of one operation a piece asks for, and how that was worked out.

    Parameters
    ----------
    operation : str
        Key of a row of `Minutes`.
    quantity : float
        How much. [unit]
    unit : str
        One of `UNITS`.
    how : str
        The working, in words a person can follow.
    """

    operation: str
    quantity: float
    unit: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What every row of the price book has.

    Parameters
    ----------
    key : str
        The name that other files call the row by.
    dated : date
        When the figure was true.
    source : str
        Where the figure is from.
    """

    key: str
    dated: date
    source: str

    def __post_init__(self) -> None:
        """Refuse a row that cannot be true, with every fault of it."""
        raise_all(TableError, (f'"{self.key}": {fault}' for fault in self.faults()))

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        if not self.key.strip():
            yield "the key is empty; name the row."
        if not self.source.strip():
            yield "the source is empty; say where the figure is from."

    def age_days(self, on: date) -> int:
        """Return how old the figure is on a day, in whole days."""
        return (on - self.dated).days


def positive(name: str, value: float, unit: str = "") -> Iterator[str]:
    """Yield a fault unless a number is more than 0."""
    number = finite(value)
    if number is None or number <= 0:
        yield f"{name} is {_plain(value)}{unit}; it must be more than 0."


def not_negative(name: str, value: float, unit: str = "") -> Iterator[str]:
    """Yield a fault unless a number is 0 or more."""
    number = finite(value)
    if number is None or number < 0:
        yield f"{name} is {_plain(value)}{unit}; it must be 0 or more."


def _plain(value: object) -> str:
    number = finite(value)
    return shown(value) if number is None else f"{number:g}"


def one_of(name: str, value: str, known: tuple[str, ...]) -> Iterator[str]:
    """Yield a fault unless a word is one of those known."""
    if value not in known:
        yield f"{name} is {shown(value)}; use one of {', '.join(known)}."
