"""The lower part of the board's page: what is owed, controls, year, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pricebook.charts.page_lines import (
    SIZE,
    SMALL,
    Column,
    Line,
    gap,
    heading,
    paragraph,
    table,
)
from pricebook.event import BoardReport
from pricebook.money import show
from pricebook.records import EventTotals, Year


@dataclass(frozen=True, slots=True)
class Limits:
    """How much of each list the page shows.

    Parameters
    ----------
    said : int
        Sentences of one list.
    rows : int
        Events of a year.
    caution_lines : int
        Lines of cautions.
    signed : int
        Who signs.
    """

    said: int
    rows: int
    caution_lines: int
    signed: int


LIMITS = (Limits(5, 7, 14, 8), Limits(3, 4, 10, 8), Limits(1, 2, 6, 6))
"""The first with which the page holds everything is taken."""


def owed(report: BoardReport) -> tuple[str, ...]:
    """Return who still owes, and who gets money back."""
    return (*report.unpaid, *report.refunds)


def said(title: str, words: Sequence[str], width: float, most: int) -> list[Line]:
    """Set sentences under a heading; none is said to be none."""
    lines = heading(title, width)
    if not words:
        return [*lines, *paragraph("none", width, size=SMALL)]
    for word in words[:most]:
        lines += paragraph(word, width, size=SMALL, most=2)
    if len(words) > most:
        more = f"and {len(words) - most:,} more in the workbook"
        lines += paragraph(more, width, size=SMALL)
    return lines


def controls(report: BoardReport, width: float, most: int) -> list[Line]:
    """Set the control totals: those that fail in words, the others by name."""
    failed = [control for control in report.controls if not control.passes]
    passed = [control for control in report.controls if control.passes]
    lines = heading(
        f"Control totals: {len(passed)} of {len(report.controls)} pass", width
    )
    for control in failed[:most]:
        lines += paragraph(control.words, width, size=SMALL, bold=True, most=2)
    if len(failed) > most:
        more = f"FAIL: {len(failed) - most} more, in the workbook"
        lines += paragraph(more, width, size=SMALL, bold=True)
    names = "; ".join(control.name for control in passed)
    if names:
        lines += paragraph(f"PASS: {names}.", width, size=SMALL, most=6)
    return lines


def year_so_far(year: Year | None, width: float, most: int) -> list[Line]:
    """Set the events of a year and their sum."""
    if year is None:
        return []
    columns = [
        Column("event", width - 400.0),
        Column("held on", 70.0),
        *(Column(head, 66.0, right=True) for head in ("raised", "spent", "net")),
        Column("to raise 1.00", 66.0, right=True),
        Column("lots sold", 66.0, right=True),
    ]
    shown = year.events[-most:]
    hidden = len(year.events) - len(shown)
    earlier = [(f"{hidden} earlier, in the sum below", *[""] * 6)] if hidden else []
    rows = [(event.name, event.on.isoformat(), *_sums(event)) for event in shown]
    rows = [*earlier, *rows, ("the year", "", *_sums(year))]
    lines = heading(f"The year so far: {len(year.events)} events", width)
    lines += [line for row in table(columns, rows) for line in row]
    return [*lines, *paragraph(year.sentence, width, size=SMALL, most=2)]


def _sums(of: EventTotals | Year) -> tuple[str, ...]:
    rate = of.cost_to_raise_a_dollar
    return (
        show(of.raised_cents),
        show(of.cost_cents),
        show(of.net_cents),
        "" if rate is None else f"{rate:.4f}",
        str(of.lots_sold),
    )


def cautions(report: BoardReport, width: float, most: int) -> list[Line]:
    """Set what the reader must know before using a figure."""
    lines = heading("Before using a figure", width)
    for number, caution in enumerate(report.cautions):
        said = paragraph(caution[:1].upper() + caution[1:], width, size=SMALL, most=2)
        if len(lines) + len(said) > most:
            more = f"and {len(report.cautions) - number} more in the workbook"
            return [*lines, *paragraph(more, width, size=SMALL)]
        lines += said
    return lines


def sign_off(report: BoardReport, width: float, most: int) -> list[Line]:
    """Set the lines to sign on."""
    lines = [*heading("Signed", width), gap(6.0)]
    cell = width / 2
    named = report.sign_off[:most]
    for number in range(0, len(named), 2):
        pair = named[number : number + 2]
        columns = [Column("", cell)] * len(pair)
        signed = [
            f"{who}: ________________________  date: ____________" for who in pair
        ]
        lines += [*table(columns, [signed], size=SIZE)[1], gap(6.0)]
    return lines
