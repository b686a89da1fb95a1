"""`pricebook price PIECE [PIECE ...]`: cost sheet, layout and price advice."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path

from pricebook.commands.advice_text import advice_text, split_text
from pricebook.commands.advising import advise, middle_hammer_cents, split_of
from pricebook.commands.answers import price_answer
from pricebook.commands.asked import Asked, asked, asked_answer, asked_text
from pricebook.commands.common import (
    Bar,
    all_of,
    day_of,
    file_name,
    in_files,
    print_json,
    shop_of,
)
from pricebook.cost import CostSheet, Shop, cost_sheets
from pricebook.cost.batch_text import batch_text
from pricebook.cost.text import cost_text, layout_text, leaves_text
from pricebook.files import read_piece
from pricebook.files.market import Market, read_market
from pricebook.files.places import shop_folder
from pricebook.piece import Piece
from pricebook.price import Advice


def run(given: argparse.Namespace) -> None:
    """Print cost sheets and write the workbook and the pictures."""
    paths = [Path(name) for name in given.piece]
    on = day_of(given.on)
    shop = shop_of(given, paths[0])
    pieces = all_of(partial(read_piece, path) for path in paths)
    files = [(piece.name, path) for piece, path in zip(pieces, paths, strict=True)]
    book = shop_folder(given.shop, paths[0])
    market = read_market(book)
    bar = Bar()
    with in_files(files):
        sheets = cost_sheets(pieces, shop, on, stages=given.stages, progress=bar)
    bar.close()
    further = asked(given, pieces, sheets, shop, book, on)
    advices = _advised(pieces, sheets, files, market, on)
    _write(sheets, advices, shop, Path(given.out))
    _draw_asked(further, Path(given.out))
    if further.taking:
        further.taking.write()
    if given.json:
        print_json({**price_answer(sheets, advices), **asked_answer(further)})
    else:
        _print(sheets, advices, market, further)


def _advised(
    pieces: Sequence[Piece],
    sheets: Sequence[CostSheet],
    files: Sequence[tuple[str, Path]],
    market: Market,
    on: date,
) -> list[Advice | None]:
    """Advise on every piece, or refuse with the faults of all, each by its file."""

    def one(place: int) -> Advice | None:
        with in_files([files[place]]):
            return advise(pieces[place], sheets[place], market, on)

    return all_of(partial(one, place) for place in range(len(pieces)))


def _print(
    sheets: Sequence[CostSheet],
    advices: Sequence[Advice | None],
    market: Market,
    further: Asked,
) -> None:
    settings = sheets[0].settings
    for sheet, advice in zip(sheets, advices, strict=True):
        print(cost_text(sheet), end="\n\n")
        print(advice_text(advice, settings.currency), end="\n\n")
        if advice is not None:
            split = split_of(middle_hammer_cents(advice), sheet, market)
            print(split_text(split, settings.currency), end="\n\n")
    plans = (
        batch_text(sheets),
        layout_text(sheets[0].layout, settings.lengths),
        leaves_text(sheets[0]),
    )
    print("\n\n".join(part for part in (*plans, *asked_text(further)) if part))


def _write(
    sheets: tuple[CostSheet, ...],
    advices: Sequence[Advice | None],
    shop: Shop,
    folder: Path,
) -> None:
    from pricebook import charts
    from pricebook.files.writing import write_whole
    from pricebook.workbook import write_workbook

    name = file_name([sheet.piece for sheet in sheets])
    lengths = sheets[0].settings.lengths
    layout = sheets[0].layout
    figures = charts.layout_figures(layout, lengths) if layout.sheets else ()
    pictures = tuple(charts.png_bytes(figure) for figure in figures)
    book = folder / f"{name}.xlsx"
    write_workbook(book, sheets, advice=advices, pictures=pictures, shop=shop)
    print(f"written: {book}", file=sys.stderr)
    if not pictures:
        return
    drawn = pictures[0]
    if len(pictures) > 1:
        drawn = charts.png_bytes(charts.layout_overview(layout, lengths))
    picture = folder / f"{name}_layout.png"
    write_whole(picture, lambda part: part.write_bytes(drawn))
    print(f"written: {picture}", file=sys.stderr)


def _draw_asked(further: Asked, folder: Path) -> None:
    """Draw the days to the auction and what drives the cost, where asked for."""
    if not (further.plans or further.drivers):
        return
    from pricebook import charts
    from pricebook.files.writing import write_whole

    figures = {}
    for sheet, plan in zip(further.sheets, further.plans, strict=False):
        figures[f"{file_name([sheet.piece])}_days.png"] = charts.elapsed(plan)
    for sheet, found in zip(further.sheets, further.drivers, strict=False):
        words = f"Full cost ({sheet.settings.currency})"
        figures[f"{file_name([sheet.piece])}_drivers.png"] = charts.swings(
            found.full_cost, base=found.full_cost_cents, words=words
        )
    for name, figure in figures.items():
        write_whole(folder / name, partial(charts.save, figure))
        print(f"written: {folder / name}", file=sys.stderr)
