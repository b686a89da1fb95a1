"""What a panel writes: a piece file, a workbook; and where both stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from pricebook.commands.advising import advise
from pricebook.commands.common import file_name
from pricebook.cost import CostSheet, Shop
from pricebook.errors import TableError
from pricebook.files.keeping import taking
from pricebook.files.market import read_market
from pricebook.files.saving import save_piece
from pricebook.files.writing import free_path
from pricebook.panel.controls import Control
from pricebook.piece import Piece
from pricebook.price import Advice


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
    pieces: Sequence[Piece],
    sheets: Sequence[CostSheet],
    shop: Shop,
    book: Path,
    on: date,
    folder: Path,
    *,
    chosen: Sequence[Advice] = (),
) -> Path:
    """Write the workbook of pieces, beside no other of that name.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces.
    sheets : sequence of CostSheet
        What each costs.
    shop : Shop
        The price book, and where it lies.
    book : Path
        The folder of the price book, for the market.
    on : date
        The day of the prices.
    folder : Path
        Where it shall stand.
    chosen : sequence of Advice
        The advice as the controls have it; without it, that of the price book.

    Returns
    -------
    Path
        The workbook.
    """
    from pricebook import charts
    from pricebook.workbook import write_workbook

    advices: Sequence[Advice | None] = chosen
    if not chosen:
        market = read_market(book)
        both = zip(pieces, sheets, strict=True)
        advices = [advise(piece, sheet, market, on) for piece, sheet in both]
    figures = charts.layout_figures(sheets[0].layout, sheets[0].settings.lengths)
    path = free_path(folder / f"{file_name([piece.name for piece in pieces])}.xlsx")
    return write_workbook(
        path,
        sheets,
        advice=advices,
        pictures=[charts.png_bytes(figure) for figure in figures],
        shop=shop,
    )


def take_from_stock(
    book: Path, sheets: Sequence[CostSheet], on: date, *, sure: bool
) -> str:
    """Draw what pieces use from the stock on hand, or say what would be drawn.

    Parameters
    ----------
    book : Path
        The folder of the price book.
    sheets : sequence of CostSheet
        What the pieces cost.
    on : date
        The day that new rows are dated.
    sure : bool
        Whether to change the files.

    Returns
    -------
    str
        What was taken and kept, or would be.
    """
    plan = taking(book, sheets, on)
    said = "; ".join(line.rstrip(".") for line in plan.summary)
    if not sure:
        return f"Nothing is changed yet. Tick the box beside the button for: {said}."
    plan.write()
    return f"Taken from the stock on hand: {said}."


def output_folder(folder: Path) -> Path:
    """Return the folder for what is written, for a folder below data/."""
    return folder.resolve().parent.parent / "output"


def piece_files(folder: Path) -> list[tuple[str, str]]:
    """Return the piece files of a folder, as a drop-down offers them."""
    names = sorted(path.name for path in folder.glob("*.toml"))
    return [(name.removesuffix(".toml"), name) for name in names]
