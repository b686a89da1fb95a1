"""The panel of the board's report: settle what came back, and say what came of it."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pricebook.commands.common import Bar, file_name
from pricebook.commands.settle import write_papers
from pricebook.commands.settling import Settled, settled
from pricebook.files.learning import keep_learnt
from pricebook.files.places import shop_folder
from pricebook.files.totals import read_totals
from pricebook.panel import words
from pricebook.panel.answers import Answers, Pictures
from pricebook.panel.board_views import ESTIMATES, PAGE, VIEWS, board_answer
from pricebook.panel.boxes import button, choice, tick
from pricebook.panel.controls import Control
from pricebook.panel.evening import event_files
from pricebook.panel.frame import Panel
from pricebook.panel.keeping import output_folder, refuse_stale
from pricebook.panel.library import Widget, widgets
from pricebook.panel.report_tables import board_sentence

if TYPE_CHECKING:
    from pricebook.records import EventTotals

NOT_NOTED = ""


def settled_event(
    event: str | Path,
    results: str | Path,
    shop: str | Path | None = None,
    used: str | Path | None = None,
) -> Settled:
    """Settle an event from its file and from what came back.

    Parameters
    ----------
    event : str or Path
        An event file.
    results : str or Path
        The fundraiser's workbook, filled in, or a TOML file of results.
    shop : str or Path, optional
        The folder of the price book; else the one beside the events.
    used : str or Path, optional
        A file of what the pieces really took.

    Returns
    -------
    Settled
        The settlement, the board's report and the records for next time.

    Raises
    ------
    PricebookError
        With a sentence for everything that cannot be right; nothing is written.
    """
    given = Namespace(
        event=str(event),
        returned=str(results),
        shop=None if shop is None else str(shop),
        on=None,
        used=None if used is None else str(used),
        year=[],
    )
    return settled(given, Bar())


def board_panel(
    event: str | Path, results: str | Path, shop: str | Path | None = None
) -> BoardPanel:
    """Return the panel of the board's report.

    Parameters
    ----------
    event, results, shop
        As for `settled_event`; other files beside them can be chosen.

    Returns
    -------
    BoardPanel
        Shown by a notebook as it stands at the end of a cell.

    Raises
    ------
    PricebookError
        As for `settled_event`.
    """
    return BoardPanel(Path(event), Path(results), shop)


class BoardPanel(Panel):
    """Controls of a settlement, its pictures, and what the board is told.

    Parameters
    ----------
    event, results : Path
        The event file, and what came back.
    shop : str, Path or None
        The folder of the price book.

    Attributes
    ----------
    found : Settled
        The settlement and the report.
    """

    def __init__(self, event: Path, results: Path, shop: str | Path | None) -> None:
        self.found: Settled
        self._folder, self._shop = event.parent, shop
        self._asked: object = None
        self._answers, self._verdict = Answers(), widgets.HTML()
        controls = {
            "event": choice("Event file", event_files(event.parent), event.name),
            "results": choice("What came back", self._results(results), str(results)),
            "used": choice("What pieces took", self._used(), NOT_NOTED),
            "whole": tick("Money in whole units, rounded once"),
            "sure": tick("Yes, add to the price book"),
            "picture": choice("Show", VIEWS, ESTIMATES),
        }
        super().__init__(controls, *self._placed(controls))
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        asked = ("event", "results", "used", "whole")
        asks = [controls[name].widget for name in asked]
        answers = [controls["picture"].widget, self._verdict, self._answers.widget]
        buttons = [
            button("Reset", "Back to where this page began", self.reset),
            button("Look for new files", "Read the folders again", self.look),
            button("Write the board's papers", "Workbook, page and papers", self.write),
            self.pictures_button(),
        ]
        keep = [
            button("Keep what was learnt", "Add it to the price book", self.keep),
            controls["sure"].widget,
        ]
        return asks, answers, [widgets.HBox(buttons), widgets.HBox(keep)]

    def changed(self, control: Control | None = None) -> None:
        """Follow a change; whole units belong to the board's page."""
        if control is self.controls["whole"]:
            self.put_all({"picture": PAGE})
        super().changed(control)

    def work(self) -> None:
        """Settle anew where a file changed, and show what is asked for."""
        held = {name: control.value for name, control in self.controls.items()}
        asked = (held["event"], held["results"], held["used"])
        found = self.found if asked == self._asked else self._settle(held)
        years = self._years(found)
        answer = board_answer(held["picture"], found, years, whole=held["whole"])
        self.found, self._asked = found, asked
        self._answers.show(answer)
        report, sign = found.report, found.shop.settings.currency
        self._verdict.value = words.paragraph(board_sentence(report, sign))

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        view = self.controls["picture"].value
        name = f"{file_name([self.found.done.event.name])}_{view}"
        return output_folder(self._folder), name, [self._answers.pictures]

    def keep(self) -> None:
        """Add what was learnt to the price book, or say what would be added."""
        self.press(self._keep)

    def look(self) -> None:
        """Offer the files that are there now."""
        self.press(self._look)

    def write(self) -> None:
        """Write the board's papers, and say where they stand."""
        self.press(self._write)

    def _look(self) -> str:
        now = self._results(Path(self.controls["results"].value))
        with self.together():
            self.controls["event"].offer(event_files(self._folder))
            self.controls["results"].offer(now)
            self.controls["used"].offer(self._used())
        return f"{len(now)} files with results are there."

    def _settle(self, held: Mapping[str, Any]) -> Settled:
        used = self._folder / held["used"] if held["used"] else None
        path = self._folder / held["event"]
        return settled_event(path, held["results"], self._shop, used)

    def _keep(self) -> str:
        refuse_stale(self.controls)
        found, sure = self.found, self.controls["sure"]
        learnt, event = found.learnt, found.done.event
        if not sure.value:
            return (
                "Nothing is changed yet. Tick the box beside the button to add "
                f"{len(learnt.comparables)} comparables and {len(learnt.minutes)} new "
                "minutes to the price book."
            )
        shop = None if self._shop is None else str(self._shop)
        said = keep_learnt(
            shop_folder(shop, self._folder / self.controls["event"].value),
            learnt.comparables,
            learnt.minutes,
            rows=found.shop.minutes,
            event=event.key,
            on=event.on,
        )
        self.put_all({"sure": False})
        return " ".join(said)

    def _used(self) -> list[tuple[str, str]]:
        names = sorted(path.name for path in self._folder.glob("*_used.toml"))
        return [
            ("not noted", NOT_NOTED),
            *((x.removesuffix(".toml"), x) for x in names),
        ]

    def _write(self) -> str:
        refuse_stale(self.controls)
        written = write_papers(self.found, output_folder(self._folder))
        return "Written: " + ", ".join(str(path) for path in written.values())

    def _results(self, own: Path) -> list[tuple[str, str]]:
        output = output_folder(self._folder)
        found = [
            own,
            *sorted(self._folder.glob("*_results.toml")),
            *sorted(self._folder.glob("*.xlsx")),
            *sorted(output.glob("* book*.xlsx")),
        ]
        names = [(path.name.removesuffix(".toml"), path) for path in found]
        return [(name, str(path)) for name, path in dict.fromkeys(names)]

    def _years(self, found: Settled) -> list[EventTotals]:
        """Return the totals of this event and of those settled before."""
        files = sorted(output_folder(self._folder).glob("*.totals.json"))
        earlier = [read_totals(path).totals for path in files]
        totals: dict[Any, EventTotals] = {(x.name, x.on): x for x in earlier}
        own = found.record.totals
        totals[own.name, own.on] = own
        return sorted(totals.values(), key=lambda x: x.on)
