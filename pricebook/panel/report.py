"""The panel of the board's report: settle what came back, and say what came of it."""

from __future__ import annotations

from argparse import Namespace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pricebook.commands.common import Bar
from pricebook.commands.settle import write_papers
from pricebook.commands.settling import Settled, settled
from pricebook.errors import TableError
from pricebook.files.totals import read_totals
from pricebook.money import show
from pricebook.panel import words
from pricebook.panel.answers import Pictures
from pricebook.panel.boxes import button, choice, tick
from pricebook.panel.controls import Control
from pricebook.panel.evening import event_files
from pricebook.panel.frame import Panel
from pricebook.panel.keeping import output_folder
from pricebook.panel.library import Figure, Widget, widgets
from pricebook.panel.report_tables import board_tables, outcomes

if TYPE_CHECKING:
    from pricebook.records import EventTotals

ESTIMATES, PAGE, YEARS = "estimates", "page", "years"
_PICTURES = [
    ("Estimate against hammer", ESTIMATES),
    ("The board's page", PAGE),
    ("Year by year", YEARS),
]


def settled_event(
    event: str | Path, results: str | Path, shop: str | Path | None = None
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
        used=None,
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
        self._pictures, self._verdict = Pictures(), widgets.HTML()
        self._tables = widgets.HTML()
        controls = {
            "event": choice("Event file", event_files(event.parent), event.name),
            "results": choice("What came back", self._results(results), str(results)),
            "picture": choice("Picture", _PICTURES, ESTIMATES),
            "whole": tick("Money in whole units, rounded once"),
        }
        super().__init__(controls, *self._placed(controls))
        self.changed()

    def _placed(
        self, controls: dict[str, Control]
    ) -> tuple[list[Widget], list[Widget], list[Widget]]:
        asks = [control.widget for control in controls.values()]
        answers = [self._verdict, self._pictures.widget, self._tables]
        buttons = [
            button("Reset", "Back to where this page began", self.reset),
            button("Look for new files", "Read the folders again", self.look),
            button("Write the board's papers", "Workbook, page and papers", self.write),
        ]
        return asks, answers, [widgets.HBox(buttons)]

    def work(self) -> None:
        """Settle anew where a file changed, and show the report."""
        held = {name: control.value for name, control in self.controls.items()}
        asked = (held["event"], held["results"])
        if asked != self._asked:
            path = self._folder / held["event"]
            self.found = settled_event(path, held["results"], self._shop)
            self._asked = asked
        found = self.found
        draw = partial(self._figure, held["picture"])
        self._pictures.show([((asked, held["picture"]), draw)])
        report = found.report
        raised, _, net = report.money[:3]
        self._verdict.value = words.paragraph(
            f"{report.title}, {report.held_on}: {_amount(found, raised.cents)} raised, "
            f"{_amount(found, net.cents)} net. {report.verdict}"
        )
        tables = board_tables(report, whole=held["whole"]).values()
        said = (*report.unpaid, *report.unsold, *report.refunds, *report.cautions)
        self._tables.value = "".join(
            [*(table._repr_html_() for table in tables), *map(words.paragraph, said)]
        )

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
        return f"{len(now)} files with results are there."

    def _write(self) -> str:
        if any(control.said for control in self.controls.values()):
            raise TableError(
                "nothing is written while a file is refused; choose another."
            )
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
        return [(path.name, str(path)) for path in dict.fromkeys(found)]

    def _figure(self, picture: str) -> Figure:
        from pricebook import charts

        report, settings = self.found.report, self.found.shop.settings
        if picture == PAGE:
            return charts.board_page(report, paper=settings.paper)
        if picture == YEARS:
            return charts.year_by_year(self._years(), settings.currency)
        return charts.estimate_against_hammer(outcomes(report), settings.currency)

    def _years(self) -> list[EventTotals]:
        """Return the totals of this event and of those settled before."""
        files = sorted(output_folder(self._folder).glob("*.totals.json"))
        earlier = [read_totals(path).totals for path in files]
        totals: dict[Any, EventTotals] = {(x.name, x.on): x for x in earlier}
        own = self.found.record.totals
        totals[own.name, own.on] = own
        return sorted(totals.values(), key=lambda x: x.on)


def _amount(found: Settled, cents: int) -> str:
    return show(cents, found.shop.settings.currency)
