"""Dated figures: thresholds of the law and of public forms, each with its source."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from pricebook import money
from pricebook.errors import TableError, nearest, raise_all

COLUMNS = ("name", "year", "figure", "unit", "source", "confirmed", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A published figure, the year from which it holds, and where it stands.

    Parameters
    ----------
    name : str
        What it is.
    year : int
        The first year for which it holds, or the year of the data.
    figure : Decimal
        The figure, in its unit.
    unit : str
        `usd`, `usd per h`, `usd per mile`, `share`, `days` or `each`.
    source : str
        Key of data/SOURCES.csv.
    confirmed : bool
        Whether the published text was seen.
    note : str
        Anything a reader should know.

    Examples
    --------
    >>> from pricebook.receipts import THRESHOLDS
    >>> in_force(THRESHOLDS, "disclosure above", 2026).cents
    7500
    """

    name: str
    year: int
    figure: Decimal
    unit: str
    source: str
    confirmed: bool
    note: str = ""

    @property
    def cents(self) -> int:
        """The figure as money [cents]."""
        return money.half_up(self.figure * 100)

    @property
    def words(self) -> str:
        """The figure with its year and source, and whether it was confirmed."""
        doubt = "" if self.confirmed else ", from memory"
        figure = f"{self.figure:,} {self.unit}"
        return f"{self.name}: {figure}, {self.year}, {self.source}{doubt}"


def read_figures(rows: Iterable[Mapping[str, str]]) -> tuple[Figure, ...]:
    """Read the rows of a table of dated figures.

    Parameters
    ----------
    rows : iterable of mappings
        With the columns name, year, figure, unit, source, confirmed and note.

    Returns
    -------
    tuple of Figure
        In the order of the rows.

    Raises
    ------
    TableError
        With a sentence for each row that cannot be read.

    Examples
    --------
    >>> row = {
    ...     "name": "volunteer hour", "year": "2022", "figure": "31.80",
    ...     "unit": "usd per h", "source": "independent_sector",
    ...     "confirmed": "yes", "note": "",
    ... }
    >>> read_figures([row])[0].cents
    3180
    """
    found: list[Figure] = []
    faults: list[str] = []
    for number, row in enumerate(rows, start=2):
        try:
            found.append(_figure(row))
        except (KeyError, ValueError, InvalidOperation):
            faults.append(
                f"row {number}: {dict(row)!r} is no dated figure; give "
                f"{', '.join(COLUMNS)}, the year as digits, confirmed yes or no."
            )
    raise_all(TableError, faults)
    return tuple(found)


def _figure(row: Mapping[str, str]) -> Figure:
    number = Decimal(row["figure"])
    if not number.is_finite() or number < 0:
        raise ValueError(row["figure"])
    if not row["name"] or not row["source"]:
        raise ValueError("name and source")
    return Figure(
        name=row["name"],
        year=int(row["year"]),
        figure=number,
        unit=row["unit"],
        source=row["source"],
        confirmed={"yes": True, "no": False}[row["confirmed"]],
        note=row["note"],
    )


def in_force(figures: Iterable[Figure], name: str, year: int) -> Figure:
    """Find the figure that holds in a year: the newest that is not later.

    Parameters
    ----------
    figures : iterable of Figure
        Where to look.
    name : str
        What it is called.
    year : int
        The year asked for.

    Returns
    -------
    Figure
        The figure.

    Raises
    ------
    TableError
        If no figure of that name is as old as that.

    Notes
    -----
    For a threshold that stands until it is changed. A yearly figure, such as the
    value of a volunteer hour, is asked for with `of_year`.

    Examples
    --------
    >>> from pricebook.receipts import THRESHOLDS
    >>> in_force(THRESHOLDS, "paid for services from", 2025).cents
    60000
    >>> in_force(THRESHOLDS, "paid for services from", 2026).cents
    200000
    """
    named = _named(figures, name, year)
    held = [figure for figure in named if figure.year <= year]
    if not held:
        first = min(figure.year for figure in named)
        raise TableError(f"{name} is known from {first} on, not for {year}; add a row.")
    return max(held, key=lambda figure: figure.year)


def of_year(figures: Iterable[Figure], name: str, year: int) -> Figure:
    """Find the figure of exactly one year.

    Parameters
    ----------
    figures : iterable of Figure
        Where to look.
    name : str
        What it is called.
    year : int
        The year of the data.

    Returns
    -------
    Figure
        The figure.

    Raises
    ------
    TableError
        If the table has no row for that year: it is never carried over.

    Examples
    --------
    >>> from pricebook.receipts import THRESHOLDS
    >>> of_year(THRESHOLDS, "paid for services from", 2026).year
    2026
    """
    named = _named(figures, name, year)
    for figure in named:
        if figure.year == year:
            return figure
    years = ", ".join(str(figure.year) for figure in named)
    raise TableError(
        f"{name} has no figure for {year}, only for {years}; "
        "add a row or state the figure yourself."
    )


def _named(figures: Iterable[Figure], name: str, year: int) -> list[Figure]:
    """Return the figures of a name, the arguments checked."""
    if not isinstance(year, int) or isinstance(year, bool):
        raise TableError(f"the year is {year!r:.40}; give it as a whole number.")
    every = (
        ()
        if isinstance(figures, str) or not isinstance(figures, Iterable)
        else (tuple(figures))
    )
    if not every or not all(isinstance(figure, Figure) for figure in every):
        raise TableError(
            f"the table is {figures!r:.40}; give dated figures, as read_figures does."
        )
    if not isinstance(name, str):
        raise TableError(f"the name is {name!r:.40}; give the name of a figure.")
    named = [figure for figure in every if figure.name == name]
    if not named:
        known = sorted({figure.name for figure in every})
        raise TableError(f'"{name}" is not in the table; {nearest(name, known)}')
    return named
