"""Keep in the price book what an event taught: comparables and minutes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from pricebook import lengths
from pricebook.errors import ReportError, TableError
from pricebook.files.market import COMPARABLE_COLUMNS, FEATURE_COLUMNS
from pricebook.files.opening import read_csv
from pricebook.files.places import inside_package
from pricebook.files.table import Table, read_table
from pricebook.files.writing import write_text
from pricebook.money import show
from pricebook.rates import Minutes
from pricebook.records import STANDARD_COUNTS_AS, ComparableRow, SuggestedMinutes

_OWN = re.compile(r"own records, (\d{1,6}) observations? \((.+)\)")


@dataclass(frozen=True, slots=True, kw_only=True)
class NewComparable:
    """A row for the list of comparables.

    Parameters
    ----------
    key : str
        Its key in the list.
    row : ComparableRow
        What was offered, and at what price.
    note : str
        What it was, in words.
    features : mapping of str to float
        Sizes and number of drawers, written where the list has such columns. [mm, -]
    """

    key: str
    row: ComparableRow
    note: str
    features: Mapping[str, float] = field(default_factory=dict)


def observations_behind(row: Minutes) -> tuple[int, tuple[str, ...]]:
    """Return how many own observations stand behind a row of minutes, from where.

    Parameters
    ----------
    row : Minutes
        A row of the price book.

    Returns
    -------
    (int, tuple of str)
        Observations, and the keys of the events that they are from; 0 and none
        for a row that is not from own records.

    Examples
    --------
    >>> from datetime import date
    >>> row = Minutes(key="sand", name="sand", setup_min=5, rate_min=8, unit="m2",
    ...     dated=date(2027, 4, 17), source="own records, 3 observations (spring)")
    >>> observations_behind(row)
    (3, ('spring',))
    """
    found = _OWN.fullmatch(row.source)
    if found is None:
        return 0, ()
    return int(found[1]), tuple(found[2].split(", "))


def counts_as(row: Minutes) -> float:
    """Return how many observations the old figure of a row counts for.

    Parameters
    ----------
    row : Minutes
        A row of the price book.

    Returns
    -------
    float
        What a standard counts for, and the own observations already in it, so
        that two events in a row give what both together would.
    """
    return STANDARD_COUNTS_AS + observations_behind(row)[0]


def keep_learnt(
    folder: str | Path,
    comparables: Iterable[NewComparable],
    minutes: Iterable[SuggestedMinutes],
    *,
    rows: Iterable[Minutes],
    event: str,
    on: date,
) -> tuple[str, ...]:
    """Add what an event taught to a price book, once.

    Parameters
    ----------
    folder : str or Path
        The folder of the price book.
    comparables : iterable of NewComparable
        Rows to add to comparables.csv.
    minutes : iterable of SuggestedMinutes
        New rates for minutes.csv.
    rows : iterable of Minutes
        The rows of minutes as they were read.
    event : str
        The event's key; what it taught once is not added again.
    on : date
        When it was held.

    Returns
    -------
    tuple of str
        A sentence for each thing kept, or left as it was.

    Raises
    ------
    ReportError
        If the price book belongs to the installed package, or a file cannot be
        written.
    TableError
        If a file cannot be read.

    Notes
    -----
    Comments and all other rows stay byte for byte. Each file is written whole or
    not at all, and neither before both are worked out.
    """
    base = Path(folder)
    refuse_package(base)
    said: list[str] = []
    lists = _with_comparables(base / "comparables.csv", comparables, said)
    rates = _with_minutes(
        base / "minutes.csv",
        list(minutes),
        {row.key: row for row in rows},
        (event, on),
        said,
    )
    for table in (lists, rates):
        if str(table) != table.text:
            write_text(table.path, str(table))
    return tuple(said)


def refuse_package(folder: Path) -> None:
    """Refuse to change the price book of the installed package.

    Parameters
    ----------
    folder : Path
        The folder of a price book.

    Raises
    ------
    ReportError
        If it is the package's own.
    """
    if inside_package(folder):
        raise ReportError(
            f"{folder} belongs to the installed package and stays as it is; make a "
            "working copy: pricebook new FOLDER, and settle its event."
        )


def _with_comparables(
    path: Path, comparables: Iterable[NewComparable], said: list[str]
) -> Table:
    rows = read_csv(path, COMPARABLE_COLUMNS, FEATURE_COLUMNS)
    there = {cells["key"] for _, cells in rows}
    table = read_table(path)
    for new in comparables:
        row = new.row
        if new.key in there:
            said.append(f"{path}: {new.key} is there already and stays as it is.")
            continue
        table = table.with_row(
            key=new.key,
            form=row.form,
            species=row.species,
            price=show(row.price_cents).replace(",", ""),
            kind="sold" if row.sold else "unsold",
            condition_factor="1",
            note=new.note,
            date=row.date.isoformat(),
            source=row.source,
            **_noted(new.features),
        )
        said.append(f"{path}: {new.key} is added.")
    return table


def _noted(features: Mapping[str, float]) -> dict[str, str]:
    """Return what is noted of a piece as the list writes it."""
    return {
        name: f"{number:g}" if name == "drawers" else lengths.show(number, "mm")
        for name, number in features.items()
    }


def _with_minutes(
    path: Path,
    minutes: list[SuggestedMinutes],
    rows: dict[str, Minutes],
    event: tuple[str, date],
    said: list[str],
) -> Table:
    table = read_table(path)
    places = {(cells["key"], cells["source"]): place for place, cells in table.rows()}
    for new in minutes:
        row = rows[new.operation]
        before, events = observations_behind(row)
        if event[0] in events:
            said.append(
                f"{path}: {row.key} holds the observations of {event[0]} already and "
                "stays as it is."
            )
            continue
        place = places.get((row.key, row.source))
        if place is None:
            raise TableError(
                f'{path}: the row "{row.key}" has changed since it was read; settle '
                "again."
            )
        count = before + new.observations
        times = "observation" if count == 1 else "observations"
        table = table.with_cells(
            place,
            rate_min=_plain(new.suggested_min),
            date=max(row.dated, event[1]).isoformat(),
            source=f"own records, {count} {times} ({', '.join((*events, event[0]))})",
        )
        said.append(
            f"{path}: {row.key} takes {_plain(new.suggested_min)} min a {row.unit}, "
            f"was {row.rate_min:g}."
        )
    return table


def _plain(minutes: float) -> str:
    """Return minutes as the file writes them, to a hundredth."""
    return f"{minutes:.2f}".rstrip("0").rstrip(".")
