"""The panel of one piece in every wood, form and size of sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from pricebook.commands.common import all_of, day_of, file_name
from pricebook.cost import Shop
from pricebook.cost.compare import compare_species
from pricebook.cost.options import Comparison, SpeciesOption
from pricebook.errors import SpecError
from pricebook.files import read_piece, read_shop
from pricebook.files.places import shop_folder
from pricebook.panel.answers import Answer, Answers, Pictures
from pricebook.panel.boxes import button, choice, number_box
from pricebook.panel.controls import Control, Track
from pricebook.panel.frame import Panel, section
from pricebook.panel.keeping import output_folder, piece_files
from pricebook.panel.library import Widget, widgets
from pricebook.panel.sheet_sizes import STAGES
from pricebook.panel.veneer_views import (
    COMPARED,
    MOVED,
    VIEWS,
    compared,
    moved,
    prices_then,
)

ANY = ""
BEST, EVERY = "best", "every"
_ONLY_SHOWN = ("form", "rows", "view")


def veneer_panel(
    piece: str | Path, shop: str | Path | None = None, on: date | None = None
) -> VeneerPanel:
    """Return the panel that compares woods and sheets for a piece.

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
    VeneerPanel
        Shown by a notebook as it stands at the end of a cell.

    Raises
    ------
    PricebookError
        If the piece or the price book cannot be read.
    """
    path = Path(piece)
    folder = shop_folder(None if shop is None else str(shop), path)
    return VeneerPanel(path, read_shop(folder), on or day_of(None))


class VeneerPanel(Panel):
    """Controls of a comparison, its picture and its ranked table.

    Parameters
    ----------
    path : Path
        The piece file.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.

    Attributes
    ----------
    comparison : Comparison
        Every row, ranked.
    """

    def __init__(self, path: Path, shop: Shop, on: date) -> None:
        self.comparison: Comparison
        self._folder, self._shop, self._on = path.parent, shop, on
        self._compared: object = None
        self._answers = Answers()
        woods = sorted({s.species for s in shop.sheets if s.veneer == "show"})
        forms = sorted({s.form for s in shop.sheets if s.veneer == "show"})
        named = [(wood, wood) for wood in woods]
        percent = Track(low=10, high=200, value_at=float, position_of=round)
        controls = {
            "file": choice("Piece file", piece_files(path.parent), path.name),
            "form": choice(
                "Form of the sheets",
                [("all forms", ANY), *((f, f) for f in forms)],
                ANY,
            ),
            "rows": choice(
                "Rows", [("best of each wood", BEST), ("every size", EVERY)], BEST
            ),
            "stages": choice("Cuts in a row", STAGES, None),
            "view": choice("Show", VIEWS, COMPARED),
            "driest": number_box("Driest room (% moisture)", 6.0, unit="%"),
            "dampest": number_box("Dampest room (% moisture)", 10.0, unit="%"),
            "wood": choice("Change the price of", [("no wood", ANY), *named], ANY),
            "price": number_box(
                "Its sheets then (% of price)",
                100.0,
                unit="%",
                above_zero=True,
                track=percent,
            ),
        }
        super().__init__(controls, *self._placed(controls))
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        asks = [
            *(controls[key].widget for key in ("file", "form", "rows", "stages")),
            section("How much the wood moves"),
            controls["driest"].widget,
            controls["dampest"].widget,
            section("What if a price changed"),
            controls["wood"].widget,
            controls["price"].widget,
        ]
        reset = button("Reset", "Back to where this page began", self.reset)
        answers = [controls["view"].widget, self._answers.widget]
        return asks, answers, [widgets.HBox([reset, self.pictures_button()])]

    def work(self) -> None:
        """Compare anew what changed, and show what is asked for."""
        held = {name: control.value for name, control in self.controls.items()}
        if held["view"] == MOVED:
            self._answers.show(self._moved(held))
            return
        asked = tuple(v for k, v in held.items() if k not in _ONLY_SHOWN)
        found = self._compare(held) if asked != self._compared else self.comparison
        shown = _rows(found, held["form"], held["rows"])
        self.comparison, self._compared = found, asked
        self._answers.show(compared(found, shown))

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        name = file_name([self.comparison.piece])
        return output_folder(self._folder), f"{name}_woods", [self._answers.pictures]

    def _moved(self, held: dict[str, Any]) -> Answer:
        files = [name for _, name in piece_files(self._folder)]
        pieces = all_of(partial(read_piece, self._folder / name) for name in files)
        return moved(pieces, self._shop, self._on, held["wood"], held["price"])

    def _compare(self, held: dict[str, Any]) -> Comparison:
        if held["driest"] > held["dampest"]:
            raise SpecError(
                f"the driest room is at {held['driest']:g} % and the dampest at "
                f"{held['dampest']:g} %; the driest must not be the damper one."
            )
        piece = read_piece(self._folder / held["file"])
        return compare_species(
            piece,
            _with_price(self._shop, held["wood"], held["price"]),
            self._on,
            stages=held["stages"],
            moisture_percent=(held["driest"], held["dampest"]),
        )


def _rows(found: Comparison, form: str, rows: str) -> tuple[SpeciesOption, ...]:
    """Return the rows that are asked for, in their rank."""
    options = tuple(one for one in found.options if form in (ANY, one.form))
    if not options:
        raise SpecError(f"no wood of the price book can be had {form} for this piece.")
    if rows == EVERY:
        return options
    return replace(found, options=options).best_of_species


def _with_price(shop: Shop, wood: str, percent: float) -> Shop:
    """Return a price book in which the sheets of a wood cost more, or less."""
    if wood == ANY:
        return shop
    then = prices_then(shop, wood, percent)
    sheets = tuple(
        replace(sheet, price_cents=then.get(sheet.key, sheet.price_cents))
        for sheet in shop.sheets
    )
    return replace(shop, sheets=sheets)
