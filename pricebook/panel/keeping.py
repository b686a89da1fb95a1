"""What a panel writes: a piece file, a workbook; and where both stand."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from pricebook.commands.advising import advise
from pricebook.commands.common import file_name
from pricebook.cost import CostSheet, Shop
from pricebook.errors import TableError
from pricebook.files.market import read_market
from pricebook.files.saving import save_piece
from pricebook.files.writing import free_path
from pricebook.panel.controls import Control
from pricebook.piece import Piece


def refuse_stale(controls: Mapping[str, Control]) -> None:
    """Refuse to write what is not what the controls show.

    Parameters
    ----------
    controls : mapping of str to Control
        The controls.

    Raises
    ------
    TableError
        If one of them has been refused.
    """
    wrong = [control.label for control in controls.values() if control.said]
    if wrong:
        raise TableError(
            f"nothing is written while a control is refused ({', '.join(wrong)}); "
            "correct it first, or reset."
        )


def keep_piece(
    piece: Piece, folder: Path, unit: str, *, over: bool, own: Path | None
) -> Path:
    """Write a piece into its folder, under its own name.

    Parameters
    ----------
    piece : Piece
        The piece.
    folder : Path
        The folder of the pieces.
    unit : str
        "in" or "mm": how lengths are written.
    over : bool
        Whether a file that is there may be written over.
    own : Path or None
        A file that this panel wrote before, which may be written over.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    ReportError
        If another file is there, or it cannot be written.
    """
    path = folder / f"{file_name([piece.name])}.toml"
    return save_piece(piece, path, unit=unit, replace=over or path == own)


def write_cost_book(
    piece: Piece, sheet: CostSheet, shop: Shop, book: Path, on: date, folder: Path
) -> Path:
    """Write the workbook of a piece, beside no other of that name.

    Parameters
    ----------
    piece : Piece
        The piece.
    sheet : CostSheet
        What it costs.
    shop : Shop
        The price book, and where it lies.
    book : Path
        The folder of the price book, for the market.
    on : date
        The day of the prices.
    folder : Path
        Where it shall stand.

    Returns
    -------
    Path
        The workbook.
    """
    from pricebook import charts
    from pricebook.workbook import write_workbook

    advice = advise(piece, sheet, read_market(book), on)
    figures = charts.layout_figures(sheet.layout, sheet.settings.lengths)
    path = free_path(folder / f"{file_name([piece.name])}.xlsx")
    return write_workbook(
        path,
        [sheet],
        advice=[advice],
        pictures=[charts.png_bytes(figure) for figure in figures],
        shop=shop,
    )


def output_folder(folder: Path) -> Path:
    """Return the folder for what is written, for a folder below data/."""
    return folder.resolve().parent.parent / "output"


def piece_files(folder: Path) -> list[tuple[str, str]]:
    """Return the piece files of a folder, as a drop-down offers them."""
    names = sorted(path.name for path in folder.glob("*.toml"))
    return [(name.removesuffix(".toml"), name) for name in names]
