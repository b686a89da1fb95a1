"""Tables in plain text: aligned, in the reader's units."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Cells = Sequence[str]
_MANY = {"pair": "pairs", "sheet": "sheets", "leaf": "leaves"}


def text_table(
    head: Cells, rows: Iterable[Cells], right: Iterable[int] = (), indent: str = "  "
) -> str:
    """Lay out rows in columns.

    Parameters
    ----------
    head : sequence of str
        Column heads.
    rows : iterable of sequence of str
        The cells.
    right : iterable of int
        Columns that are set to the right: figures.
    indent : str
        What each line begins with.

    Returns
    -------
    str
        The table; head, rule and a line a row.

    Examples
    --------
    >>> print(text_table(["edge", "length"], [["top", "37 in"]], right=[1]))
      edge  length
      ----  ------
      top    37 in
    """
    body = [list(row) for row in rows]
    lines = [list(head), *body]
    widths = [max(len(row[i]) for row in lines) for i in range(len(head))]
    to_right = set(right)
    rule = ["-" * width for width in widths]

    def line(cells: Cells) -> str:
        set_cells = [
            cell.rjust(width) if number in to_right else cell.ljust(width)
            for number, (cell, width) in enumerate(zip(cells, widths, strict=True))
        ]
        return (indent + "  ".join(set_cells)).rstrip()

    return "\n".join(line(cells) for cells in [head, rule, *body])


def counted(number: str, unit: str) -> str:
    """Print a number with what it counts, as a person would say it.

    Parameters
    ----------
    number : str
        The number, printed.
    unit : str
        Unit of the price book.

    Returns
    -------
    str
        The number alone where things are counted, else with its unit.

    Examples
    --------
    >>> counted("2", "each"), counted("3", "pair"), counted("0.91", "l")
    ('2', '3 pairs', '0.91 L')
    """
    if unit == "each":
        return number
    if unit in _MANY:
        return f"{number} {unit if number == '1' else _MANY[unit]}"
    return f"{number} {'L' if unit == 'l' else unit}"


def in_readers_unit(quantity: float, unit: str, lengths: str) -> tuple[float, str]:
    """Turn a long length into the reader's unit, and leave all else as it is.

    Parameters
    ----------
    quantity : float
        How much. [unit]
    unit : str
        Unit of the price book, or "h".
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    (float, str)
        Feet for metres where the reader measures in inches; litres are L.

    Examples
    --------
    >>> in_readers_unit(3.048, "m", "in"), in_readers_unit(2, "l", "mm")
    ((10.0, 'ft'), (2, 'L'))
    """
    if unit == "m" and lengths == "in":
        return quantity / 0.3048, "ft"
    return quantity, "L" if unit == "l" else unit


def amount_text(quantity: float, unit: str, lengths: str) -> str:
    """Print a quantity, a long length in feet or metres, hours alike.

    Parameters
    ----------
    quantity : float
        How much. [unit]
    unit : str
        Unit of the price book, or "h".
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        Two decimals at most, where they say anything.

    Examples
    --------
    >>> amount_text(0.9102, "l", "in"), amount_text(32.8, "m", "in")
    ('0.91 L', '107.61 ft')
    """
    quantity, unit = in_readers_unit(quantity, unit, lengths)
    number = f"{quantity:.2f}"
    if unit != "h":
        number = number.rstrip("0").rstrip(".")
    if quantity and number == "0":
        number = f"{quantity:.3f}" if quantity >= 0.0005 else "under 0.001"
    return counted(number, unit)


def packs_in_words(count: int, quantity: float, unit: str) -> str:
    """Print how many packs to buy, and what one holds.

    Parameters
    ----------
    count : int
        How many packs.
    quantity : float
        What one holds. [unit]
    unit : str
        Unit of the price book.

    Returns
    -------
    str
        Words for the cost sheet.

    Examples
    --------
    >>> packs_in_words(2, 0.946, "l"), packs_in_words(5, 1, "each")
    ('2 x 0.946 L', '5')
    >>> packs_in_words(1, 10, "each"), packs_in_words(2, 50, "pair")
    ('1 pack of 10', '2 packs of 50 pairs')
    >>> packs_in_words(2, 8, "leaf")
    '2 bundles of 8 leaves'
    """
    held = counted(f"{quantity:g}", unit)
    if unit not in ("each", "pair", "leaf"):
        return f"{count} x {held}"
    if quantity == 1:
        return counted(f"{count}", unit)
    pack = "bundle" if unit == "leaf" else "pack"
    return f"{count} {pack}{'' if count == 1 else 's'} of {held}"
