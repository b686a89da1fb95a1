"""The panel of one piece: its form, its layout on sheets, and its cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from pricebook.commands.common import all_of, day_of, file_name
from pricebook.cost import CostSheet, Shop, cost_sheets
from pricebook.cost.inputs import inputs_of
from pricebook.files import read_piece, read_shop
from pricebook.files.places import shop_folder
from pricebook.panel.answers import Answers, Pictures
from pricebook.panel.boxes import button, choice, day_box, several, tick
from pricebook.panel.controls import Control
from pricebook.panel.cost_views import (
    DAYS,
    GRID,
    SHEETS,
    VIEWS,
    Asked,
    cost_answer,
)
from pricebook.panel.figures import offer_figures
from pricebook.panel.frame import Panel, section
from pricebook.panel.keeping import (
    keep_piece,
    output_folder,
    piece_files,
    refuse_stale,
    take_from_stock,
    write_cost_book,
)
from pricebook.panel.library import Widget, widgets
from pricebook.panel.piece_form import (
    FIELDS,
    filled_in,
    form_controls,
    has_field,
    held_values,
)
from pricebook.panel.sheet_sizes import ALL, STAGES, sizes_offered, with_size
from pricebook.panel.starting import STARTING_FORMS, files_and_forms, started_like
from pricebook.piece import Piece

_HEADINGS = {"name": "Piece", "species": "Veneer and banding", "system": "Finish"}
_MORE = {"stages": None, "others": (), "auction": None}
_SHOWS = {"start": DAYS, "auction": DAYS, "down": GRID, "across": GRID}
"""Controls that belong to one view, and call for it."""


def cost_panel(
    piece: str | Path, shop: str | Path | None = None, on: date | None = None
) -> CostPanel:
    """Return the panel of a piece: change it, and see what it costs.

    Parameters
    ----------
    piece : str or Path
        A piece file; its folder is the one that others are chosen from.
    shop : str or Path, optional
        The folder of the price book; else the one beside the pieces.
    on : date, optional
        The day for which prices are taken; else today.

    Returns
    -------
    CostPanel
        Shown by a notebook as it stands at the end of a cell.

    Raises
    ------
    PricebookError
        If the piece or the price book cannot be read.
    """
    path = Path(piece)
    folder = shop_folder(None if shop is None else str(shop), path)
    return CostPanel(path, read_shop(folder), folder, on or day_of(None))


class CostPanel(Panel):
    """Controls of one piece, with its layout and its cost.

    Parameters
    ----------
    path : Path
        The piece file.
    shop : Shop
        The price book.
    folder : Path
        Where the price book lies.
    on : date
        The day for which prices are taken.

    Attributes
    ----------
    piece : Piece
        The piece as the controls have it, saved or not.
    pieces : tuple of Piece
        The piece, and those that share sheets with it.
    sheets : tuple of CostSheet
        What each of them costs.
    """

    def __init__(self, path: Path, shop: Shop, folder: Path, on: date) -> None:
        self.piece = self._opened = read_piece(path)
        self.pieces: tuple[Piece, ...] = (self.piece,)
        self.sheets: tuple[CostSheet, ...] = ()
        self._folder, self._shop, self._book, self._on = path.parent, shop, folder, on
        self._saved: Path | None = None
        self._answers = Answers()
        self._answered: object = None
        controls = {
            "file": choice("Piece file", files_and_forms(path.parent), path.name),
            **form_controls(self.piece, shop),
            "size": choice("Size of the sheets", sizes_offered(shop, self.piece), ALL),
            "stages": choice("Cuts in a row", STAGES, None),
            "others": several("Shares sheets with", piece_files(path.parent)),
            "start": day_box("Work starts on", on),
            "auction": day_box("Auction on", None, empty="not set"),
            "down": choice("Down the side", [("", "")], ""),
            "across": choice("Across the top", [("", "")], ""),
            "over": tick("Write over a piece file that is there"),
            "sure": tick("Yes, change the stock"),
            "picture": choice("Show", VIEWS, SHEETS),
        }
        super().__init__(controls, *self._placed(controls))
        self._show_fields()
        self.changed()
        self._start |= {name: self.controls[name].value for name in ("down", "across")}

    @property
    def sheet(self) -> CostSheet:
        """What the piece costs."""
        return self.sheets[0]

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        left: list[Widget] = [controls["file"].widget]
        for key in FIELDS:
            left += [section(_HEADINGS[key])] if key in _HEADINGS else []
            left.append(controls[key].widget)
            if key == "form":
                left += [controls[k].widget for k in ("size", "stages", "others")]
        for title, keys in (
            ("Days to the auction", ("start", "auction")),
            ("What if two figures change", ("down", "across")),
        ):
            left += [section(title), *(controls[key].widget for key in keys)]
        writes = [
            button("Reset", "Back to the piece file", self.reset),
            button("Save this piece", "Write its piece file", self.save),
            controls["over"].widget,
            button("Write the workbook", "Write its spreadsheet", self.write),
        ]
        more = [
            self.pictures_button(),
            button("Take from the stock", "Draw what is used from the rack", self.take),
            controls["sure"].widget,
        ]
        foot = [widgets.HBox(writes), widgets.HBox(more)]
        return left, [controls["picture"].widget, self._answers.widget], foot

    def changed(self, control: Control | None = None) -> None:
        """Follow a change; another file, or another wood, changes other controls."""
        if self.busy:
            return
        if control is self.controls["file"]:
            if self.attempt(self.open, control):
                self.tell(f"{self.piece.name} is open.")
            return
        if control is self.controls["species"]:
            self._banding_follows()
        for name, view in _SHOWS.items():
            if control is self.controls[name]:
                self.put_all({"picture": view})
        super().changed(control)

    def work(self) -> None:
        """Fill in the piece, cost it, and show what is asked for."""
        values = {name: c.value for name, c in self.controls.items()}
        piece = filled_in(self._opened, values)
        size = self.controls["size"]
        with self.together():
            size.offer(sizes_offered(self._shop, piece))
        shop, stages = with_size(self._shop, size.value), values["stages"]
        others = all_of(partial(read_piece, self._folder / n) for n in values["others"])
        pieces = (piece, *others)
        sheets = cost_sheets(pieces, shop, self._on, stages=stages)
        asked = Asked(
            piece=piece,
            shop=shop,
            on=self._on,
            stages=stages,
            sheets=sheets,
            start=values["start"],
            auction=values["auction"],
            figures=("", ""),
        )
        self._answer(values["picture"], asked)
        self.piece, self.pieces, self.sheets = piece, pieces, sheets
        self.controls["hours"].echo(f"{self.sheet.hours:.1f} h in all")

    def open(self) -> None:
        """Open the piece that the file control names, or start a new one."""
        name = self.controls["file"].value
        if name in STARTING_FORMS:
            piece = started_like(name, self.piece, self._shop)
        else:
            piece = read_piece(self._folder / name)
        self._opened, self._saved = piece, None
        self._start |= held_values(piece) | {"size": ALL, **_MORE, "file": name}
        self._show_fields()
        self.put_all(held_values(piece) | {"size": ALL, **_MORE})
        self.work()

    def reset(self) -> None:
        """Give every control what the piece file says."""
        self.set_all(self._start | {"file": self.controls["file"].value})

    def save(self) -> None:
        """Write the piece file, and say where it stands."""
        self.press(self._save)

    def write(self) -> None:
        """Write the workbook, and say where it stands."""
        self.press(self._write)

    def take(self) -> None:
        """Draw what is used from the stock on hand, or say what would be drawn."""
        self.press(self._take)

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        view = self.controls["picture"].value
        name = f"{file_name([self.piece.name])}_{view}"
        return output_folder(self._folder), name, [self._answers.pictures]

    def _save(self) -> str:
        refuse_stale(self.controls)
        self._saved = keep_piece(
            self.piece,
            self._folder,
            self._shop.settings.lengths,
            over=self.controls["over"].value,
            own=self._saved,
        )
        with self.together():
            self.controls["file"].offer(files_and_forms(self._folder))
            self.controls["others"].offer(piece_files(self._folder))
        return f"Saved: {self._saved.resolve()}"

    def _write(self) -> str:
        refuse_stale(self.controls)
        path = write_cost_book(
            self.pieces,
            self.sheets,
            self._shop,
            self._book,
            self._on,
            output_folder(self._folder),
        )
        return f"Written: {path}"

    def _take(self) -> str:
        refuse_stale(self.controls)
        sure = self.controls["sure"]
        said = take_from_stock(self._book, self.sheets, self._on, sure=sure.value)
        if sure.value:
            self._shop = read_shop(self._book)
            self.set_all({"sure": False})
        return said

    def _show_fields(self) -> None:
        for key in FIELDS:
            self.controls[key].show(visible=has_field(self._opened, key))

    def _banding_follows(self) -> None:
        """Let banding of the old wood follow the new one, where there is any."""
        banding, wood = self.controls["banding"], self.controls["species"].value
        offered = [value for _, value in banding.box.options]
        if banding.value == self.piece.veneer.species and wood in offered:
            with self.together():
                banding.put(wood)

    def _answer(self, view: str, asked: Asked) -> None:
        """Show a view, unless it stands there already."""
        pair = (self.controls["down"], self.controls["across"])
        known = inputs_of(asked.piece, asked.sheet, asked.shop)
        with self.together():
            asked = replace(asked, figures=offer_figures(pair, known))
        if (view, asked) != self._answered:
            self._answers.show(cost_answer(view, asked))
            self._answered = (view, asked)
