"""What a notebook shows of a value that stands alone at the end of a cell."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from pricebook.cost import CostSheet
from pricebook.cost.options import Comparison
from pricebook.event import BoardReport
from pricebook.forecast import Evening
from pricebook.panel.cost_views import layout_tables
from pricebook.panel.report_tables import board_tables
from pricebook.panel.species_rows import species_table
from pricebook.price import Advice
from pricebook.proceeds import Split
from pricebook.veneer.layout import Layout

if TYPE_CHECKING:
    from pricebook.frames import Table


def show_as_tables(formatter: Any) -> None:  # noqa: ANN401 - carries no types
    """Let a notebook show costs, advice, splits and reports as tables.

    Parameters
    ----------
    formatter : IPython.core.formatters.HTMLFormatter
        That of the running notebook.

    Notes
    -----
    Every word in the tables is escaped. A value that is printed stays as it was.
    """
    for kind, tables_of in _LOOKS.items():
        formatter.for_type(kind, _html_of(tables_of))


def _html_of(tables_of: Callable[[Any], Iterable[Table]]) -> Callable[[Any], str]:
    return lambda value: "".join(table._repr_html_() for table in tables_of(value))


def _cost(sheet: CostSheet) -> Iterable[Table]:
    from pricebook import frames

    return frames.cost_table(sheet), frames.left_table(sheet)


def _advice(advice: Advice) -> Iterable[Table]:
    from pricebook import frames

    return (frames.shown(frames.advice_frame(advice)),)


def _split(split: Split) -> Iterable[Table]:
    from pricebook import frames

    return (frames.shown(frames.split_frame(split)),)


def _evening(drawn: Evening) -> Iterable[Table]:
    from pricebook import frames

    made = (frames.forecast_frame(drawn), frames.forecast_lots_frame(drawn))
    return map(frames.shown, made)


_LOOKS: dict[type, Callable[[Any], Iterable[Table]]] = {
    CostSheet: _cost,
    Layout: lambda layout: layout_tables(layout, "in"),
    Comparison: lambda found: (species_table(found),),
    Advice: _advice,
    Split: _split,
    Evening: _evening,
    BoardReport: lambda report: board_tables(report).values(),
}
