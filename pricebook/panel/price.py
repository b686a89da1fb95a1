"""The panel of one piece's price: what it may fetch, and who gets what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from pricebook.bidding import Ladder
from pricebook.commands.advising import middle_hammer_cents, split_of
from pricebook.commands.common import day_of, file_name
from pricebook.cost import CostSheet, Shop, cost_sheet
from pricebook.files import read_piece, read_shop
from pricebook.files.market import read_market
from pricebook.files.places import shop_folder
from pricebook.money import exact, show
from pricebook.panel import words
from pricebook.panel.answers import Pictures
from pricebook.panel.boxes import button, choice, money_box, tick
from pricebook.panel.controls import Control
from pricebook.panel.frame import Panel, section
from pricebook.panel.keeping import (
    keep_piece,
    output_folder,
    piece_files,
    refuse_stale,
    write_cost_book,
)
from pricebook.panel.library import Figure, Widget, widgets
from pricebook.panel.market_form import (
    market_controls,
    market_values,
    rung_track,
    with_market,
)
from pricebook.panel.pricing import advised, receipt_words, rule_controls, rules_with
from pricebook.panel.rung_rows import rung_table
from pricebook.price import Advice, price_from_margin_cents
from pricebook.proceeds import Split

_MARKET = ("bidders", "unsold", "wanted", "opening", "reserve")


def price_panel(
    piece: str | Path, shop: str | Path | None = None, on: date | None = None
) -> PricePanel:
    """Return the panel of a price: bidders, opening bid, margin and shares.

    Parameters
    ----------
    piece : str or Path
        A piece file; its folder is the one that others are chosen from.
    shop : str or Path, optional
        The folder of the price book; else the one beside the pieces.
    on : date, optional
        The day of the prices and of the advice; else today.

    Returns
    -------
    PricePanel
        Shown by a notebook as it stands at the end of a cell.

    Raises
    ------
    PricebookError
        If the piece, the price book or the market cannot be read.
    """
    path = Path(piece)
    folder = shop_folder(None if shop is None else str(shop), path)
    return PricePanel(path, read_shop(folder), folder, on or day_of(None))


class PricePanel(Panel):
    """Controls of one price, with the pictures of both its halves.

    Parameters
    ----------
    path : Path
        The piece file.
    shop : Shop
        The price book.
    folder : Path
        Where it lies, and the market with it.
    on : date
        The day of the prices and of the advice.

    Attributes
    ----------
    piece : Piece
        The piece, with what the controls say of its market.
    sheet : CostSheet
        What it costs.
    advice : Advice
        What to ask for it.
    split : Split
        Where the money of one hammer price goes.
    """

    def __init__(self, path: Path, shop: Shop, folder: Path, on: date) -> None:
        self.piece = read_piece(path)
        self.sheet: CostSheet = cost_sheet(self.piece, shop, on)
        self.advice: Advice
        self.split: Split
        self._folder, self._shop, self._book, self._on = path.parent, shop, folder, on
        self._market = read_market(folder)
        self._saved: Path | None = None
        self._rungs, self._goes = Pictures(), Pictures()
        self._fetches, self._gets = widgets.HTML(), widgets.HTML()
        self._tables = widgets.HTML()
        sign = shop.settings.currency
        ladder: Ladder = self._market.assumptions["ladder"]
        self._rule_controls = rule_controls(self._market.rules, sign)
        controls = {
            "file": choice("Piece file", piece_files(path.parent), path.name),
            **market_controls(self.piece, ladder, sign),
            "hammer": money_box(
                "Hammer price to split", None, sign,
                empty="the middle price", track=rung_track(ladder),
            ),
            **self._rule_controls,
            "over": tick("Write over a piece file that is there"),
        }  # fmt: skip
        super().__init__(controls, *self._placed(controls))
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        asks = [
            controls["file"].widget,
            section("Who bids, and from where"),
            *(controls[key].widget for key in (*_MARKET, "margin")),
            section("Who gets what"),
            controls["hammer"].widget,
            *(control.widget for control in self._rule_controls.values()),
        ]
        answers = [
            self._rungs.widget,
            self._fetches,
            self._goes.widget,
            self._gets,
            self._tables,
        ]
        buttons = [
            button("Reset", "Back to the piece file", self.reset),
            button("Save this piece", "Write its piece file", self.save),
            button("Write the workbook", "Write its spreadsheet", self.write),
            self.pictures_button(),
        ]
        return asks, answers, [widgets.HBox([*buttons, controls["over"].widget])]

    def changed(self, control: Control | None = None) -> None:
        """Follow a change; another file changes what the others hold."""
        if control is not self.controls["file"] or self.busy:
            super().changed(control)
        elif self.attempt(self.open, control):
            self.tell(f"{self.piece.name} is open.")

    def open(self) -> None:
        """Open the piece that the file control names."""
        piece = read_piece(self._folder / self.controls["file"].value)
        self.sheet = cost_sheet(piece, self._shop, self._on)
        self.piece, self._saved = piece, None
        self._start |= market_values(piece) | {"file": self.controls["file"].value}
        self.put_all(self._start)
        self.work()

    def work(self) -> None:
        """Advise and split anew, and draw the half that changed."""
        held = {name: control.value for name, control in self.controls.items()}
        piece = with_market(self.piece, held)
        market = replace(self._market, rules=rules_with(self._market.rules, held))
        advice = advised(
            piece,
            self.sheet,
            market,
            self._on,
            opening_cents=held["opening"],
            reserve_cents=held["reserve"],
        )
        hammer = held["hammer"]
        hammer = middle_hammer_cents(advice) if hammer is None else hammer
        split = split_of(hammer, self.sheet, market)
        used_up = self.sheet.used_up_cents
        asks = price_from_margin_cents(used_up, exact(held["margin"]) / 100)
        self.piece, self.advice, self.split = piece, advice, split
        self._show(held, asks)

    def _show(self, held: Mapping[str, Any], asks: int) -> None:
        from pricebook import charts, frames

        sign, advice = self._shop.settings.currency, self.advice
        name = f"{held['margin']:g} % margin"
        draw = partial(_rungs_figure, advice, {name: asks}, sign)
        self._rungs.show([((advice, name, asks), draw)])
        self._goes.show(
            [(self.split, partial(charts.money_goes, self.split, currency=sign))]
        )
        self.controls["opening"].stand_for(advice.opening_bid.cents)
        self.controls["hammer"].stand_for(self.split.hammer_cents)
        self.controls["reserve"].stand_for(advice.reserve.cents)
        self._fetches.value = words.paragraph(
            f"{frames.advice_sentence(advice, sign)} A margin of {held['margin']:g} % "
            f"over what is used up asks for {show(asks, sign)}."
        )
        self._gets.value = words.paragraph(frames.split_sentence(self.split, sign))
        tables = (
            frames.shown(frames.advice_frame(advice), currency=sign),
            frames.shown(frames.split_frame(self.split), currency=sign),
            rung_table(advice.outlook, sign),
        )
        warnings = [words.paragraph(text) for text in advice.warnings]
        hammer = self.split.hammer_cents
        warnings.append(
            words.folded(
                f"What the buyer's receipt says at {show(hammer, sign)}",
                receipt_words(advice, hammer),
            )
        )
        self._tables.value = "".join([*(x._repr_html_() for x in tables), *warnings])

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        name = f"{file_name([self.piece.name])}_price"
        return output_folder(self._folder), name, [self._rungs, self._goes]

    def save(self) -> None:
        """Write the piece file with what is known of its market."""
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
        return f"Saved: {self._saved.resolve()}"

    def _write(self) -> str:
        refuse_stale(self.controls)
        path = write_cost_book(
            [self.piece],
            [self.sheet],
            self._shop,
            self._book,
            self._on,
            output_folder(self._folder),
            chosen=[self.advice],
        )
        return f"Written: {path}"


def _rungs_figure(advice: Advice, more: Mapping[str, int], sign: str) -> Figure:
    """Draw what an advice says of the rungs, and one more price among the marks."""
    from pricebook import charts

    found = {name: figure.cents for name, figure in advice.break_even.items()}
    marks = {name: cents for name, cents in found.items() if cents is not None}
    return charts.price_rungs(
        {**dict(advice.outlook.rungs), None: advice.outlook.no_sale},
        break_evens={**marks, **more},
        opening_cents=advice.opening_bid.cents,
        reserve_cents=advice.reserve.cents,
        estimate_cents=(advice.estimate_low.cents, advice.estimate_high.cents),
        currency=sign,
    )
