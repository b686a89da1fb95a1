"""`pricebook settle EVENT RETURNED`: read it back, check it, settle, tell the board."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from pricebook.commands.common import Bar, print_json
from pricebook.commands.settle_answer import settle_answer
from pricebook.commands.settle_papers import papers_text
from pricebook.commands.settle_text import settle_text
from pricebook.commands.settling import Settled, settled
from pricebook.errors import ReportError
from pricebook.event import settlement_name
from pricebook.files.learning import keep_learnt, refuse_package
from pricebook.files.places import shop_folder
from pricebook.files.totals import write_totals
from pricebook.files.writing import write_text, write_whole


def run(given: argparse.Namespace) -> None:
    """Settle, write the board's papers, and print; nothing is written if refused."""
    if given.keep:
        refuse_package(shop_folder(given.shop, Path(given.event)))
    bar = Bar()
    found = settled(given, bar)
    bar(4, 5, "writing")
    files = write_papers(found, Path(given.out))
    bar.close()
    kept = _keep(given, found) if given.keep else ()
    if given.json:
        names = {kind: str(path) for kind, path in files.items()}
        print_json({**settle_answer(found), "files": names, "kept": list(kept)})
    else:
        print(settle_text(found, kept))
    for path in files.values():
        print(f"written: {path}", file=sys.stderr)


def write_papers(found: Settled, folder: Path) -> dict[str, Path]:
    """Write workbook, page, papers and totals under a name that is free.

    Parameters
    ----------
    found : Settled
        The settlement.
    folder : Path
        Where they go.

    Returns
    -------
    dict of str to Path
        What was written: workbook, page, papers, totals.

    Raises
    ------
    ReportError
        If the folder cannot be read or a file cannot be written.
    """
    from pricebook import charts, workbook

    try:
        there = [one.name for one in folder.iterdir()] if folder.exists() else []
    except OSError as error:
        raise ReportError(
            f"{folder} cannot be read: {error.strerror}; choose another folder."
        ) from None
    name = settlement_name(found.done.event, there)
    settings = found.shop.settings
    page = charts.pdf_bytes(
        charts.board_page(found.report, year=found.year, paper=settings.paper)
    )
    book = folder / f"{name}.xlsx"
    workbook.write_board(
        book, found.report, currency=settings.currency, paper=settings.paper
    )
    return {
        "workbook": book,
        "page": write_whole(
            folder / f"{name}.pdf", lambda part: part.write_bytes(page)
        ),
        "papers": write_text(folder / f"{name}.txt", papers_text(found.done)),
        "totals": write_totals(folder / f"{name}.totals.json", found.record),
    }


def _keep(given: argparse.Namespace, found: Settled) -> tuple[str, ...]:
    event, learnt = found.done.event, found.learnt
    return keep_learnt(
        shop_folder(given.shop, Path(given.event)),
        learnt.comparables,
        learnt.minutes,
        rows=found.shop.minutes,
        event=event.key,
        on=event.on,
    )
