"""Rows of stock in the files of a price book: found, drawn down, filled up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pricebook.errors import nearest
from pricebook.files.table import Table
from pricebook.rates import Roll, Row, Sheet


def stock_row(table: Table, key: str) -> int:
    """Return the place of the row in use of a key.

    Parameters
    ----------
    table : Table
        A file of the price book.
    key : str
        The row's key; of two sources the chosen one is in use.

    Returns
    -------
    int
        Its place among the records. [-]
    """
    found = [place for place, cells in table.rows() if cells["key"] == key]
    chosen = [p for p in found if table.cells(p).get("chosen") == "yes"]
    return (chosen or found)[0]


def short_stock(
    taken: Mapping[str, int], rows: Sequence[Row], what: str
) -> Iterator[str]:
    """Yield what is to be taken from the rack and is not there.

    Parameters
    ----------
    taken : mapping of str to int
        How many by key. [-]
    rows : sequence of Row
        Sheets or rolls on file.
    what : str
        "sheets" or "rolls", for the sentence.

    Yields
    ------
    str
        A sentence a key.
    """
    there = {row.key: row for row in rows}
    for key, count in taken.items():
        row = there.get(key)
        if row is None:
            yield f'"{key}" is no longer in the price book; {nearest(key, there)}'
        elif isinstance(row, Sheet | Roll) and row.on_hand < count:
            yield (
                f'"{key}": {count} {what} of the rack are to be taken and '
                f"{row.on_hand} are on hand; price the piece again."
            )


def free_key(table: Table, stem: str) -> str:
    """Return the first key of a stem that no row has: walnut-offcut-1, -2, ...

    Parameters
    ----------
    table : Table
        The file.
    stem : str
        What the key begins with.

    Returns
    -------
    str
        The key.
    """
    taken = {cells.get("key", "") for _, cells in table.rows()}
    number = 1
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"


def changed_stock(
    table: Table, taken: Mapping[str, int], what: str, summary: list[str]
) -> Table:
    """Return the table with whole sheets or rolls drawn from the rack.

    Parameters
    ----------
    table : Table
        The file.
    taken : mapping of str to int
        How many by key. [-]
    what : str
        "sheet" or "roll", for the summary.
    summary : list of str
        Gets a line a key.

    Returns
    -------
    Table
        The table changed.
    """
    for key, count in taken.items():
        place = stock_row(table, key)
        before = int(float(table.cells(place)["on_hand"]))
        table = table.with_cells(place, on_hand=str(before - count))
        plural = "" if count == 1 else "s"
        summary.append(f"{key}: {count} {what}{plural} taken, {before - count} left")
    return table


def material_row(table: Table, key: str, stock: float) -> Table:
    """Return the table with another quantity of a material on hand.

    Parameters
    ----------
    table : Table
        The file of materials, a row a pack.
    key : str
        The material.
    stock : float
        What lies in the rack now. [unit of the material]

    Returns
    -------
    Table
        The quantity stands in one row, the first that had one; other packs of the
        material in use say nothing of it any more.
    """
    packs: dict[tuple[str, str], list[int]] = {}
    for place, cells in table.rows():
        if cells["key"] == key:
            pack = (cells["pack"], cells["from_packs"] or "1")
            packs.setdefault(pack, []).append(place)
    in_use = [_chosen(table, places) for places in packs.values()]
    holding = [place for place in in_use if table.cells(place)["on_hand"]]
    first, *others = holding or in_use[:1]
    table = table.with_cells(first, on_hand=number_text(stock))
    for place in others:
        table = table.with_cells(place, on_hand="")
    return table


def _chosen(table: Table, places: list[int]) -> int:
    picks = [p for p in places if table.cells(p).get("chosen") == "yes"]
    return (picks or places)[0]


def number_text(quantity: float) -> str:
    """Return a quantity as a file holds it: at most four decimals.

    Parameters
    ----------
    quantity : float
        The quantity, 0 or more. [any unit]

    Returns
    -------
    str
        Digits.

    Examples
    --------
    >>> number_text(12.0), number_text(0.30000004), number_text(1.25)
    ('12', '0.3', '1.25')
    """
    return f"{quantity:.4f}".rstrip("0").rstrip(".")
