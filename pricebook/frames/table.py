"""Tables to look at: figures to the right, subtotals, a source note, all escaped."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from itertools import takewhile

_CELL = "padding:2px 8px;vertical-align:top;"
_RIGHT = _CELL + "text-align:right;white-space:nowrap;"
_LEFT = _CELL + "text-align:left;"
_RULE = "border-top:1px solid currentColor;"


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column.

    Parameters
    ----------
    words : str
        What it says, its unit included.
    right : bool
        Whether the column holds figures, which stand to the right.
    """

    words: str
    right: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table.

    Parameters
    ----------
    cells : tuple of str
        A text a column; of a group only the first counts.
    kind : str
        "row", "group", "subtotal" or "total"; the words of a sum run on over blank
        cells beside them.
    """

    cells: tuple[str, ...]
    kind: str = "row"

    @property
    def sums(self) -> bool:
        """Whether the row adds up others."""
        return self.kind in ("subtotal", "total")

    @property
    def words_span(self) -> int:
        """How many columns the first cell takes. [-]."""
        if not self.sums:
            return 1
        return 1 + sum(1 for _ in takewhile(lambda cell: not cell, self.cells[1:]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table as a person reads it, on a page or in plain text.

    Parameters
    ----------
    title : str
        What it shows; may be empty.
    heads : tuple of Head
        The columns.
    rows : tuple of Row
        The rows, in order.
    note : str
        Where the figures are from; may be empty.

    Notes
    -----
    Whatever a person typed is shown as typed: nothing of it is run as HTML.

    Examples
    --------
    >>> table = Table(
    ...     title="Cost",
    ...     heads=(Head("item"), Head("used ($)", right=True)),
    ...     rows=(Row(("<b>walnut", "72.00")), Row(("total", "72.00"), "total")),
    ...     note="prices of 2026-09-14",
    ... )
    >>> print(table)
    Cost
    item       used ($)
    -------------------
    <b>walnut     72.00
    -------------------
    total         72.00
    prices of 2026-09-14
    >>> "&lt;b&gt;walnut" in table._repr_html_()
    True
    """

    title: str = ""
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]
    note: str = ""

    def _repr_html_(self) -> str:
        span = f"colspan='{len(self.heads)}'"
        plain = "class='tex2jax_ignore mathjax_ignore'"  # a $ is money, no formula
        parts = [f"<table {plain} style='border-collapse:collapse;'>"]
        if self.title:
            parts.append(_cell("caption", self.title, _LEFT + "font-weight:bold;"))
        heads = "".join(
            _cell("th scope='col'", head.words, _side(head)) for head in self.heads
        )
        parts.append(f"<thead><tr>{heads}</tr></thead><tbody>")
        parts += [f"<tr>{self._html_cells(row, span)}</tr>" for row in self.rows]
        parts.append("</tbody>")
        if self.note:
            note = _cell(f"td {span}", self.note, _LEFT + _RULE)
            parts.append(f"<tfoot><tr>{note}</tr></tfoot>")
        return "".join([*parts, "</table>"])

    def _html_cells(self, row: Row, span: str) -> str:
        if row.kind == "group":
            return _cell(f"th scope='rowgroup' {span}", row.cells[0], _LEFT)
        tag, rule = ("th scope='row'", _RULE) if row.sums else ("td", "")
        taken = row.words_span
        first = f"{tag} colspan='{taken}'" if taken > 1 else tag
        side = _LEFT if taken > 1 else _side(self.heads[0])
        rest = zip(self.heads[taken:], row.cells[taken:], strict=True)
        return _cell(first, row.cells[0], side + rule) + "".join(
            _cell(tag, cell, _side(head) + rule) for head, cell in rest
        )

    def __str__(self) -> str:
        words = [head.words for head in self.heads]
        full = [row for row in self.rows if row.kind != "group"]
        plain = [r.cells if r.words_span == 1 else ("", *r.cells[1:]) for r in full]
        widths = [max(map(len, column)) for column in zip(words, *plain, strict=True)]
        for row in full:
            widths[0] += max(0, len(row.cells[0]) - _room(widths, row.words_span))
        rule = "-" * (sum(widths) + 2 * (len(widths) - 1))
        lines = [self.title] if self.title else []
        lines += [self._line(words, widths), rule]
        before = "total"
        for row in self.rows:
            if row.kind == "total" != before:
                lines.append(rule)
            before = row.kind
            is_group = row.kind == "group"
            lines.append(row.cells[0] if is_group else self._row(row, widths))
        return "\n".join([*lines, self.note] if self.note else lines)

    def _row(self, row: Row, widths: list[int]) -> str:
        taken = row.words_span
        if taken == 1:
            return self._line(row.cells, widths)
        words = row.cells[0].ljust(_room(widths, taken))
        blank = ("",) * taken
        rest = self._line((*blank, *row.cells[taken:]), widths)
        return (words + rest[len(words) :]).rstrip()

    def _line(self, cells: tuple[str, ...] | list[str], widths: list[int]) -> str:
        set_cells = [
            cell.rjust(width) if head.right else cell.ljust(width)
            for head, cell, width in zip(self.heads, cells, widths, strict=True)
        ]
        return "  ".join(set_cells).rstrip()


def _room(widths: list[int], columns: int) -> int:
    """Return the width of some columns and the gaps between them."""
    return sum(widths[:columns]) + 2 * (columns - 1)


def _side(head: Head) -> str:
    return _RIGHT if head.right else _LEFT


def _cell(tag: str, words: str, style: str) -> str:
    """Return one cell; only here does a word become HTML."""
    return f"<{tag} style='{style}'>{escape(words)}</{tag.split(' ', maxsplit=1)[0]}>"
