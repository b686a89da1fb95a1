"""What the panel of a piece can show: layout, lines, days, drivers, what-if."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from pricebook.cost import CostSheet, Shop
from pricebook.cost.drivers import what_drives
from pricebook.cost.elapsed import elapsed_of, shelf_life_notes
from pricebook.cost.inputs import inputs_of
from pricebook.cost.text import cautions_text
from pricebook.cost.what_if import what_if
from pricebook.errors import SpecError
from pricebook.panel.answers import Answer, Drawing
from pricebook.panel.driver_rows import driver_table
from pricebook.panel.figures import batch_table, grid_table, values_around
from pricebook.piece import Piece

if TYPE_CHECKING:
    from pricebook.frames import Table
    from pricebook.veneer.layout import Layout

SHEETS, GROUPS, LINES, BENCH = "sheets", "groups", "lines", "bench"
DAYS, DRIVERS, GRID = "days", "drivers", "grid"
VIEWS = [
    ("Layout on sheets", SHEETS),
    ("Cost by group", GROUPS),
    ("Every line of the cost", LINES),
    ("Faces, edges and hours", BENCH),
    ("Days to the auction", DAYS),
    ("What drives the cost", DRIVERS),
    ("What if two figures change", GRID),
]
_DRIVERS_DRAWN = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Everything that the controls of a piece ask.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book, with the sheets that may be bought.
    on : date
        The day for which prices are taken.
    stages : int or None
        Most cuts in a row on a sheet.
    sheets : tuple of CostSheet
        What it costs, and what the pieces cost that share its sheets.
    start : date
        First day at the bench.
    auction : date or None
        Day of the auction.
    figures : tuple of (str, str)
        Names of the two figures that change.
    """

    piece: Piece
    shop: Shop
    on: date
    stages: int | None
    sheets: tuple[CostSheet, ...]
    start: date
    auction: date | None
    figures: tuple[str, str]

    @property
    def sheet(self) -> CostSheet:
        """What the piece itself costs."""
        return self.sheets[0]


def cost_answer(view: str, asked: Asked) -> Answer:
    """Return what a view shows of a piece.

    Parameters
    ----------
    view : str
        One of the values in `VIEWS`.
    asked : Asked
        The piece, and what is asked of it.

    Returns
    -------
    Answer
        Pictures, sentences and tables.

    Raises
    ------
    PricebookError
        If the view cannot be worked out, such as days without an auction.
    """
    return _MAKERS[view](asked)


def _said(asked: Asked) -> tuple[str, ...]:
    from pricebook import frames

    return tuple(frames.cost_sentence(sheet) for sheet in asked.sheets)


def _folded(asked: Asked) -> tuple[tuple[str, tuple[str, ...]], ...]:
    cautions, notes = tuple(cautions_text(asked.sheet)), asked.sheet.notes
    return (
        (f"Cautions for {asked.sheet.piece}", cautions),
        ("What to know about these figures", notes),
    )


def _layout(asked: Asked) -> Answer:
    from pricebook import charts, frames

    layout, unit = asked.sheet.layout, asked.sheet.settings.lengths
    drawn: list[Drawing] = [
        (plan, partial(charts.layout_figure, plan, unit)) for plan in layout.sheets
    ]
    batch = [batch_table(asked.sheets)] if len(asked.sheets) > 1 else []
    return Answer(
        pictures=tuple(drawn),
        sentences=(*_said(asked), frames.layout_sentence(layout, unit)),
        tables=(*batch, *layout_tables(layout, unit)),
        folded=_folded(asked),
    )


def layout_tables(layout: Layout, unit: str) -> tuple[Table, Table]:
    """Return where each face lies and which offcuts are kept: a layout's numbers.

    Parameters
    ----------
    layout : Layout
        The layout.
    unit : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    (Table, Table)
        A row a face, and a row an offcut.
    """
    from pricebook import frames

    placed = frames.layout_frame(layout, unit).drop(columns="as_cut")
    title = "Where each face lies, from the marked corner"
    kept = frames.offcuts_frame(layout)
    return (
        frames.shown(placed, title=title, lengths=unit),
        frames.shown(kept, title="Offcuts to keep", lengths=unit),
    )


def _groups(asked: Asked) -> Answer:
    from pricebook import charts, frames

    draw = partial(charts.cost_by_group, asked.sheet)
    return Answer(
        pictures=((("groups", asked.sheet.lines), draw),),
        sentences=_said(asked),
        tables=(frames.groups_table(asked.sheet),),
        folded=_folded(asked),
    )


def _lines(asked: Asked) -> Answer:
    from pricebook import frames

    return Answer(
        sentences=_said(asked),
        tables=(frames.cost_table(asked.sheet), frames.left_table(asked.sheet)),
        folded=_folded(asked),
    )


def _bench(asked: Asked) -> Answer:
    from pricebook import frames

    sheet, unit = asked.sheet, asked.sheet.settings.lengths
    faces = frames.faces_frame(sheet.take_off, unit)
    made = (
        ("Faces to veneer", faces.drop(columns=["net", "as_cut"])),
        ("Edges to band", frames.edges_frame(sheet.take_off)),
        (
            "Work in bench order",
            frames.labour_frame(sheet.labour).drop(columns="source"),
        ),
        ("Cuts in bench order", frames.cuts_frame(sheet.layout)),
    )
    return Answer(
        sentences=(frames.labour_sentence(sheet.labour),),
        tables=tuple(
            frames.shown(frame, title=title, lengths=unit) for title, frame in made
        ),
    )


def _days(asked: Asked) -> Answer:
    from pricebook import charts, frames

    if asked.auction is None:
        raise SpecError("When is the auction? Write its day in the box for it.")
    if asked.auction < asked.on:
        raise SpecError(
            f"the auction of {asked.auction} is in the past on {asked.on}; write the "
            "day of one to come."
        )
    plan = elapsed_of(asked.sheet, asked.shop, asked.start, asked.auction)
    return Answer(
        pictures=((plan, partial(charts.elapsed, plan)),),
        sentences=(plan.sentence, *shelf_life_notes(asked.sheet, plan)),
        tables=(frames.shown(frames.elapsed_frame(plan)),),
    )


def _drivers(asked: Asked) -> Answer:
    from pricebook import charts, frames

    sign = asked.sheet.settings.currency
    found = what_drives(asked.piece, asked.shop, asked.on, stages=asked.stages)
    shown = found.full_cost[:_DRIVERS_DRAWN]
    draw = partial(
        charts.swings,
        shown,
        base=found.full_cost_cents,
        words=f"Full cost ({sign})",
    )
    return Answer(
        pictures=((("drivers", shown), draw),),
        sentences=(
            frames.swings_sentence(shown, result="the full cost"),
            f"Each figure is taken {100 * found.share:g} % down and up, all else as "
            "it stands.",
        ),
        tables=(driver_table(found.full_cost, sign),),
        folded=(("What could not be moved", found.refused),),
    )


def _grid(asked: Asked) -> Answer:
    from pricebook import charts, frames

    known = {x.name: x for x in inputs_of(asked.piece, asked.sheet, asked.shop)}
    down, across = asked.figures
    found = what_if(
        asked.piece,
        asked.shop,
        asked.on,
        (down, values_around(known[down])),
        (across, values_around(known[across])),
        stages=asked.stages,
    )
    return Answer(
        pictures=((found, partial(charts.grid, found)),),
        sentences=(frames.grid_sentence(found),),
        tables=(grid_table(found, asked.sheet.settings.currency),),
    )


_MAKERS: dict[str, Callable[[Asked], Answer]] = {
    SHEETS: _layout,
    GROUPS: _groups,
    LINES: _lines,
    BENCH: _bench,
    DAYS: _days,
    DRIVERS: _drivers,
    GRID: _grid,
}
