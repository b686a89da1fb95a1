"""`pricebook price PIECE [PIECE ...]`: cost sheet, layout and price advice."""

from __future__ import annotations

import argparse
import sys
from functools import partial
from pathlib import Path

from pricebook.commands.answers import price_answer
from pricebook.commands.common import (
    Bar,
    all_of,
    day_of,
    file_name,
    print_json,
    shop_of,
)
from pricebook.cost import CostSheet, cost_sheets
from pricebook.cost.text import cost_text, layout_text
from pricebook.files import read_piece


def run(given: argparse.Namespace) -> None:
    """Print cost sheets and write the workbook and the pictures."""
    paths = [Path(name) for name in given.piece]
    on = day_of(given.on)
    shop = shop_of(given, paths[0])
    pieces = all_of(partial(read_piece, path) for path in paths)
    bar = Bar()
    sheets = cost_sheets(pieces, shop, on, stages=given.stages, progress=bar)
    bar.close()
    if given.json:
        print_json(price_answer(sheets))
    else:
        _print(sheets)
    _write(sheets, Path(given.out))


def _print(sheets: tuple[CostSheet, ...]) -> None:
    for sheet in sheets:
        print(cost_text(sheet), end="\n\n")
    print(layout_text(sheets[0].layout, sheets[0].settings.lengths))


def _write(sheets: tuple[CostSheet, ...], folder: Path) -> None:
    from pricebook import charts
    from pricebook.files.writing import write_whole
    from pricebook.workbook import write_workbook

    name = file_name([sheet.piece for sheet in sheets])
    lengths = sheets[0].settings.lengths
    figures = charts.layout_figures(sheets[0].layout, lengths)
    pictures = tuple(charts.png_bytes(figure) for figure in figures)
    book = folder / f"{name}.xlsx"
    write_workbook(book, sheets, pictures=pictures)
    print(f"written: {book}", file=sys.stderr)
    overview = charts.layout_overview(sheets[0].layout, lengths)
    picture = folder / f"{name}_layout.png"
    write_whole(picture, lambda part: charts.save(overview, part))
    print(f"written: {picture}", file=sys.stderr)
