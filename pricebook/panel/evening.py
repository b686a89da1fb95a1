"""The panel of an auction evening: what it may raise, and how sure that is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from pricebook.commands.book import free_book_path, pictures_of
from pricebook.commands.common import day_of, file_name
from pricebook.commands.events import event_of
from pricebook.event import Event, evening_lots
from pricebook.files import read_shop
from pricebook.files.places import shop_folder
from pricebook.forecast import Evening, evening
from pricebook.money import exact, half_up
from pricebook.panel import words
from pricebook.panel.answers import Answers, Pictures
from pricebook.panel.boxes import button, choice, money_box, number_box
from pricebook.panel.controls import Control, Track
from pricebook.panel.evening_views import (
    CATALOGUE,
    CHOICE,
    FORECAST,
    VIEWS,
    catalogue_answer,
    choice_answer,
    forecast_answer,
)
from pricebook.panel.frame import Panel, section
from pricebook.panel.keeping import output_folder
from pricebook.panel.library import Widget, widgets

EVENINGS, SEED = 20_000, 1
_PERCENT = Track(low=10, high=200, value_at=float, position_of=round)
_SPREAD = Track(
    low=0, high=20, value_at=lambda n: n / 20, position_of=lambda v: round(20 * v)
)
_TARGET = Track(
    low=0, high=200, value_at=lambda n: 10_000 * n, position_of=lambda c: c // 10_000
)


def evening_panel(
    event: str | Path, shop: str | Path | None = None, on: date | None = None
) -> EveningPanel:
    """Return the panel of an evening: turnout, spread and target.

    Parameters
    ----------
    event : str or Path
        An event file; its folder is the one that others are chosen from.
    shop : str or Path, optional
        The folder of the price book; else the one beside the events.
    on : date, optional
        The day of the prices behind its pieces; else today.

    Returns
    -------
    EveningPanel
        Shown by a notebook as it stands at the end of a cell.

    Raises
    ------
    PricebookError
        If the event, a piece of it or the price book cannot be read.
    """
    named = None if shop is None else str(shop)
    return EveningPanel(Path(event), named, on or day_of(None))


class EveningPanel(Panel):
    """Controls of a forecast, its picture and its tables.

    Parameters
    ----------
    path : Path
        The event file.
    shop : str or None
        The folder of the price book.
    on : date
        The day of the prices.

    Attributes
    ----------
    event : Event
        The event, with what its pieces say.
    drawn : Evening
        The forecast.
    """

    def __init__(self, path: Path, shop: str | None, on: date) -> None:
        self.event = event_of(path, shop, on)
        self.drawn: Evening
        self._folder, self._shop, self._on = path.parent, shop, on
        self._settings = read_shop(shop_folder(shop, path)).settings
        sign = self._settings.currency
        self._asked: object = None
        self._answers = Answers()
        held = _event_values(self.event)
        controls = {
            "file": choice("Event file", event_files(path.parent), path.name),
            "bidders": number_box(
                "Bidders (% of expected)",
                100.0,
                unit="%",
                above_zero=True,
                track=_PERCENT,
            ),
            "common": number_box(
                "Spread of the room's mood", held["common"], most=3, track=_SPREAD
            ),
            "turnout": number_box(
                "Spread of the turnout", held["turnout"], most=3, track=_SPREAD
            ),
            "target": money_box(
                "Target", held["target"], sign, empty="none", track=_TARGET
            ),
        }
        self._limits = {f"limit {name}": name for name, _ in self.event.limits}
        controls |= {
            f"limit {name}": _limit_box(name, there, sign)
            for name, there in self.event.limits
        }
        controls["view"] = choice("Show", VIEWS, FORECAST)
        super().__init__(controls, *self._placed(controls))
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        hint = words.paragraph(
            "A spread of 0 means that all evenings are alike; 0.2 that two of three "
            "lie within about a fifth. Both are stated, never inferred."
        )
        evening = ("file", "bidders", "common", "turnout", "target")
        asks = [*(controls[name].widget for name in evening), widgets.HTML(hint)]
        if self._limits:
            asks.append(section("Which pieces to do"))
        asks += [controls[name].widget for name in self._limits]
        answers = [controls["view"].widget, self._answers.widget]
        says = "The fundraiser's workbook, ready to fill in"
        buttons = [
            button("Reset", "Back to the event file", self.reset),
            button("Write the workbook", says, self.write),
            self.pictures_button(),
        ]
        return asks, answers, [widgets.HBox(buttons)]

    def changed(self, control: Control | None = None) -> None:
        """Follow a change; another file changes what the others hold."""
        if control in [self.controls[name] for name in self._limits]:
            self.put_all({"view": CHOICE})
        if control is not self.controls["file"] or self.busy:
            super().changed(control)
        elif self.attempt(self.open, control):
            self.tell(f"{self.event.name} is open.")

    def open(self) -> None:
        """Open the event that the file control names."""
        name = self.controls["file"].value
        self.event = event_of(self._folder / name, self._shop, self._on)
        self._asked = None
        there = {f"limit {key}": _held(key, most) for key, most in self.event.limits}
        for key in self._limits:
            self.controls[key].show(visible=key in there)
        held = {key: there[key] for key in self._limits if key in there}
        self._start |= _event_values(self.event) | held | {"file": name}
        self.put_all(self._start)
        self.work()

    def work(self) -> None:
        """Draw the evenings anew where they changed, and show what is asked for."""
        held = {name: control.value for name, control in self.controls.items()}
        sign = self._settings.currency
        if held["view"] == CATALOGUE:
            self._answers.show(catalogue_answer(self.event, sign))
        elif held["view"] == CHOICE:
            limits = {n: _limit(n, held[key]) for key, n in self._limits.items()}
            self._answers.show(choice_answer(self.event, limits, sign))
        else:
            asked = (self.event, held["bidders"], held["common"], held["turnout"])
            drawn = self.drawn if asked == self._asked else _drawn(self.event, held)
            answer = forecast_answer(drawn, asked, held["target"], sign)
            self.drawn, self._asked = drawn, asked
            self._answers.show(answer)

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        name = f"{file_name([self.event.name])}_evening"
        return output_folder(self._folder), name, [self._answers.pictures]

    def write(self) -> None:
        """Write the fundraiser's workbook, and say where it stands."""
        self.press(self._write)

    def _write(self) -> str:
        from pricebook.workbook import write_book

        path = free_book_path(self.event, output_folder(self._folder))
        write_book(
            path,
            self.event,
            pictures=pictures_of(self.event.lots, self._folder),
            currency=self._settings.currency,
            paper=self._settings.paper,
        )
        return f"Written: {path}"


def event_files(folder: Path) -> list[tuple[str, str]]:
    """Return the event files of a folder, as a drop-down offers them."""
    names = sorted(path.name for path in folder.glob("*.toml"))
    return [
        (name.removesuffix(".toml"), name)
        for name in names
        if not name.endswith(("_results.toml", "_used.toml"))
    ]


def _limit_box(name: str, there: float, sign: str) -> Control:
    label = f"{name.capitalize()} at most"
    if name == "money":
        return money_box(label, half_up(100 * exact(there)), sign)
    return number_box(label, _held(name, there))


def _held(name: str, there: float) -> float:
    """Return what the control of a limit holds: money in cents, which is in units."""
    return half_up(100 * exact(there)) if name == "money" else float(there)


def _limit(name: str, held: float) -> float:
    """Return a limit as an event has it: money in units."""
    return float(exact(held) / 100) if name == "money" else held


def _event_values(event: Event) -> dict[str, Any]:
    return {
        "common": event.common,
        "turnout": event.turnout,
        "target": event.target_cents,
    }


def _drawn(event: Event, held: Mapping[str, Any]) -> Evening:
    factor = exact(held["bidders"]) / 100
    lots = [
        lot | {"bidders": _scaled(lot["bidders"], factor)}
        for lot in evening_lots(event)
    ]
    return evening(
        lots,
        SEED,
        EVENINGS,
        held["common"],
        turnout=held["turnout"],
        ladder=event.ladder,
    )


def _scaled(bidders: float, factor: Any) -> float:  # noqa: ANN401 - a fraction
    """Return so many bidders; a whole number stays one where it can."""
    scaled = exact(bidders) * factor
    return int(scaled) if scaled.denominator == 1 else float(scaled)
