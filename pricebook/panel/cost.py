"""The panel of one piece: its form, its layout on sheets, and its cost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from pricebook.commands.common import day_of
from pricebook.cost import CostSheet, Shop, cost_sheet
from pricebook.files import read_piece, read_shop
from pricebook.files.places import shop_folder
from pricebook.lengths import show as length
from pricebook.money import show as money
from pricebook.panel import words
from pricebook.panel.boxes import button, choice, tick
from pricebook.panel.controls import Control
from pricebook.panel.frame import Panel, Pictures, section
from pricebook.panel.keeping import (
    keep_piece,
    output_folder,
    piece_files,
    refuse_stale,
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
from pricebook.panel.starting import STARTING_FORMS, starting_piece
from pricebook.piece import Piece
from pricebook.rates import Sheet

SHEETS, GROUPS = "sheets", "groups"
ALL = ""
_HEADINGS = {"name": "Piece", "species": "Veneer and banding", "system": "Finish"}


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
    sheet : CostSheet
        What it costs.
    """

    def __init__(self, path: Path, shop: Shop, folder: Path, on: date) -> None:
        self.piece = self._opened = read_piece(path)
        self.sheet: CostSheet
        self._folder, self._shop, self._book, self._on = path.parent, shop, folder, on
        self._saved: Path | None = None
        self._pictures, self._sentence = Pictures(), widgets.HTML()
        self._table = widgets.HTML()
        controls = {
            "file": choice("Piece file", self._files(), path.name),
            **form_controls(self.piece, shop),
            "size": choice("Size of the sheets", self._sizes(self.piece), ALL),
            "over": tick("Write over a piece file that is there"),
            "picture": choice(
                "Picture", [("Layout on sheets", SHEETS), ("Cost by group", GROUPS)],
                SHEETS,
            ),
        }  # fmt: skip
        super().__init__(controls, *self._placed(controls))
        self._show_fields()
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        left: list[Widget] = [controls["file"].widget]
        for key in FIELDS:
            left += [section(_HEADINGS[key])] if key in _HEADINGS else []
            left.append(controls[key].widget)
            left += [controls["size"].widget] if key == "form" else []
        buttons = [
            button("Reset", "Back to the piece file", self.reset),
            button("Save this piece", "Write its piece file", self.save),
            button("Write the workbook", "Write its spreadsheet", self.write),
        ]
        foot = [widgets.HBox([*buttons, controls["over"].widget])]
        right = [
            controls["picture"].widget,
            self._pictures.widget,
            self._sentence,
            self._table,
        ]
        return left, right, foot

    def changed(self, control: Control | None = None) -> None:
        """Follow a change; another file, or another wood, changes other controls."""
        if control is self.controls["file"] and not self.busy:
            if self.attempt(self.open, control):
                self.tell(f"{self.piece.name} is open.")
            return
        if control is self.controls["species"]:
            self._banding_follows()
        super().changed(control)

    def work(self) -> None:
        """Fill in the piece, cost it, and show its layout and its cost."""
        values = {name: c.value for name, c in self.controls.items()}
        piece = filled_in(self._opened, values)
        size = self.controls["size"]
        with self.together():
            size.offer(self._sizes(piece))
        sheet = cost_sheet(piece, _with_size(self._shop, size.value), self._on)
        self.piece, self.sheet = piece, sheet
        self.controls["hours"].echo(f"{sheet.hours:.1f} h in all")
        self._show_pictures(values["picture"])
        self._show_table()

    def open(self) -> None:
        """Open the piece that the file control names, or start a new one."""
        name = self.controls["file"].value
        if name in STARTING_FORMS:
            piece = self._new(name)
        else:
            piece = read_piece(self._folder / name)
        self._opened, self._saved = piece, None
        self._start = held_values(piece) | {"size": ALL}
        self._show_fields()
        self.put_all(self._start)
        self.work()

    def reset(self) -> None:
        """Give every control what the piece file says."""
        self.set_all(held_values(self._opened) | {"size": ALL, "over": False})

    def save(self) -> None:
        """Write the piece file, and say where it stands."""
        self.press(self._save)

    def write(self) -> None:
        """Write the workbook, and say where it stands."""
        self.press(self._write)

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
            self.controls["file"].offer(self._files())
        return f"Saved: {self._saved.resolve()}"

    def _write(self) -> str:
        refuse_stale(self.controls)
        path = write_cost_book(
            self.piece,
            self.sheet,
            self._shop,
            self._book,
            self._on,
            output_folder(self._folder),
        )
        return f"Written: {path}"

    def _new(self, form: str) -> Piece:
        wishes = self.piece.veneer
        system = self.piece.finish.system if self.piece.finish else None
        return starting_piece(
            form, wishes.species, system or self._shop.finishes[0].key
        )

    def _files(self) -> list[tuple[str, str]]:
        new = [(f"new: {form}", form) for form in STARTING_FORMS]
        return [*piece_files(self._folder), *new]

    def _sizes(self, piece: Piece) -> list[tuple[str, str]]:
        unit, sign = self._shop.settings.lengths, self._shop.settings.currency
        offered = [
            (
                f"{length(s.along_mm, unit)} x {length(s.across_mm, unit)}, "
                f"{money(s.price_cents, sign)}",
                s.key,
            )
            for s in self._shop.sheets
            if s.to_buy and _fits(s, piece.veneer.species, piece.veneer.form)
        ]
        return [("all in the price book", ALL), *offered]

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

    def _show_pictures(self, chosen: str) -> None:
        from pricebook import charts

        if chosen == GROUPS:
            draw = partial(charts.cost_by_group, self.sheet)
            self._pictures.show([(self.sheet.lines, draw)])
            return
        unit = self.sheet.settings.lengths
        self._pictures.show(
            [
                (plan, partial(charts.layout_figure, plan, unit))
                for plan in self.sheet.layout.sheets
            ]
        )

    def _show_table(self) -> None:
        from pricebook import frames

        self._sentence.value = words.paragraph(frames.cost_sentence(self.sheet))
        self._table.value = frames.groups_table(self.sheet)._repr_html_()


def _fits(sheet: Sheet, species: str, form: str) -> bool:
    return (sheet.veneer, sheet.species, sheet.form) == ("show", species, form)


def _with_size(shop: Shop, key: str) -> Shop:
    """Return a price book that sells one size of a wood; what is on hand stays."""
    if key == ALL:
        return shop
    one = next(sheet for sheet in shop.sheets if sheet.key == key)
    kept = tuple(
        s
        for s in shop.sheets
        if s.key == key or not (s.to_buy and _fits(s, one.species, one.form))
    )
    return replace(shop, sheets=kept)
