"""The cost sheet as data frames, tables and a sentence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pricebook.cost.lines import BASES, GROUPS, CostSheet
from pricebook.frames.building import CENTS, NUMBER, TEXT, frame_of
from pricebook.frames.showing import shown
from pricebook.frames.table import Row, Table
from pricebook.money import show

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True, slots=True)
class GroupTotal:
    """What one group of a cost sheet takes.

    Parameters
    ----------
    group : str
        The group.
    cents : tuple of int
        An amount for each of `BASES`. [cents]
    """

    group: str
    cents: tuple[int, ...]


def group_totals(sheet: CostSheet) -> tuple[GroupTotal, ...]:
    """Add up what is used by group and basis.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    tuple of GroupTotal
        One for each group that has a line, in the sheet's order.
    """
    groups = {line.group for line in sheet.lines}
    return tuple(
        GroupTotal(group, tuple(_used_cents(sheet, group, basis) for basis in BASES))
        for group in GROUPS
        if group in groups
    )


def _used_cents(sheet: CostSheet, group: str, basis: str) -> int:
    mine = (x for x in sheet.lines if x.group == group and x.basis == basis)
    return sum(line.used_cents for line in mine)


def cost_frame(sheet: CostSheet) -> pd.DataFrame:
    """Return the lines of a cost sheet.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    pandas.DataFrame
        A row a line, in the sheet's order. Columns: `group`, `item` (string),
        `quantity` (float64), `unit`, `packs` (string), `bought_cents`, `used_cents`
        (int64), `left` (string), `left_cents` (int64), `basis`, `how`, `source`
        (string).
    """
    columns = {
        "group": TEXT,
        "item": TEXT,
        "quantity": NUMBER,
        "unit": TEXT,
        "packs": TEXT,
        "bought_cents": CENTS,
        "used_cents": CENTS,
        "left": TEXT,
        "left_cents": CENTS,
        "basis": TEXT,
        "how": TEXT,
        "source": TEXT,
    }
    return frame_of(
        columns, [[getattr(line, name) for name in columns] for line in sheet.lines]
    )


def groups_frame(sheet: CostSheet) -> pd.DataFrame:
    """Return what each group of a cost sheet takes: the numbers of its bars.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    pandas.DataFrame
        A row a group. Columns: `group` (string), `paid_cents`,
        `gift_in_kind_cents`, `time_given_cents`, `together_cents` (int64).
    """
    columns = {
        "group": TEXT,
        **{f"{basis.replace(' ', '_')}_cents": CENTS for basis in BASES},
        "together_cents": CENTS,
    }
    return frame_of(
        columns,
        [[row.group, *row.cents, sum(row.cents)] for row in group_totals(sheet)],
    )


def left_frame(sheet: CostSheet) -> pd.DataFrame:
    """Return what is left over as stock.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    pandas.DataFrame
        A row for each line that leaves something. Columns: `item`, `left`
        (string), `left_cents` (int64).
    """
    columns = {"item": TEXT, "left": TEXT, "left_cents": CENTS}
    return frame_of(
        columns, [[x.item, x.left, x.left_cents] for x in sheet.lines if x.left]
    )


def cost_table(sheet: CostSheet) -> Table:
    """Return the cost sheet as a table, with a subtotal a group.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    Table
        Quantities, packs, money and how each line was worked out.
    """
    table = shown(
        cost_frame(sheet).drop(columns=["left", "source"]),
        title=f"What {sheet.piece} costs",
        by="group",
        currency=sheet.settings.currency,
        note=source_note(sheet),
    )
    rows = (_named(row, sheet) for row in table.rows)
    return replace(table, rows=(*rows, *_total_rows(sheet)))


def _named(row: Row, sheet: CostSheet) -> Row:
    """Say of a subtotal what kinds of money it mixes."""
    if row.kind != "subtotal":
        return row
    group = row.cells[0].removesuffix(", together")
    bases = dict.fromkeys(x.basis for x in sheet.lines if x.group == group)
    mixed = f" ({' and '.join(bases)})" if len(bases) > 1 else ""
    return Row((row.cells[0] + mixed, *row.cells[1:]), row.kind)


def _total_rows(sheet: CostSheet) -> tuple[Row, ...]:
    totals = [
        ("cash to buy, and what is left over", sheet.cash_to_buy_cents, None),
        ("used up", None, sheet.used_up_cents),
        ("gifts in kind", None, sheet.gifts_in_kind_cents),
        ("time given", None, sheet.time_given_cents),
        ("full cost: used up, gifts and time", None, sheet.full_cost_cents),
    ]
    return tuple(
        Row(
            (
                *(words, "", "", ""),
                "" if bought is None else show(bought),
                "" if used is None else show(used),
                "" if bought is None else show(sheet.left_cents),
                *("", ""),
            ),
            "total",
        )
        for words, bought, used in totals
    )


def groups_table(sheet: CostSheet) -> Table:
    """Return what each group takes as a table.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    Table
        The numbers of `charts.cost_by_group`.
    """
    return shown(
        groups_frame(sheet),
        title=f"What {sheet.piece} uses up and is given",
        total=True,
        currency=sheet.settings.currency,
        note=source_note(sheet),
    )


def left_table(sheet: CostSheet) -> Table:
    """Return what is left over as a table.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    Table
        Left-over stock with its value.
    """
    return shown(
        left_frame(sheet),
        title=f"What {sheet.piece} leaves over",
        total=True,
        currency=sheet.settings.currency,
        note=source_note(sheet),
    )


def source_note(sheet: CostSheet) -> str:
    """Say where the prices of a cost sheet are from.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    str
        One sentence.
    """
    sources = list(dict.fromkeys(x.source for x in sheet.lines if x.source))
    old = len(sheet.old_rows)
    aged = f" {old} of them past the shop's age limit." if old else ""
    return f"Prices as of {sheet.on}: {'; '.join(sources) or 'none used'}.{aged}"


def cost_sentence(sheet: CostSheet) -> str:
    """Say in one sentence what a piece costs.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    str
        The totals of each basis, and the largest group.
    """
    sign = sheet.settings.currency
    totals = [row for row in group_totals(sheet) if sum(row.cents)]
    if not totals:
        return f"Nothing is used for {sheet.piece}."
    largest = max(totals, key=lambda row: sum(row.cents))
    return (
        f"{sheet.piece} costs {show(sheet.cash_to_buy_cents, sign)} to buy and "
        f"{show(sheet.full_cost_cents, sign)} in full: "
        f"{show(sheet.used_up_cents, sign)} used up, "
        f"{show(sheet.gifts_in_kind_cents, sign)} given in kind and "
        f"{show(sheet.time_given_cents, sign)} of time given; the largest group is "
        f"{largest.group} with {show(sum(largest.cents), sign)}."
    )
