"""Tables in plain text: aligned, in the reader's units."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Cells = Sequence[str]


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
