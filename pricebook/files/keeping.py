"""Draw what pieces use from the stock on hand, and keep what is left of it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path

from pricebook.cost import CostSheet, Shop
from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.printing import counted
from pricebook.errors import TableError, raise_all
from pricebook.files.leaf_rows import leaf_faults, leaves_taken
from pricebook.files.places import inside_package
from pricebook.files.shop import read_shop
from pricebook.files.stock_rows import (
    changed_stock,
    free_key,
    material_row,
    number_text,
    short_stock,
    stock_row,
)
from pricebook.files.table import Table, read_table, write_all
from pricebook.lengths import MM_PER_INCH, show
from pricebook.money import exact, half_up, share_out
from pricebook.money import show as money
from pricebook.rates import Material, Roll, Sheet, buy
from pricebook.veneer.layout import SheetPlan

AGAIN = "Asked for again, all of this is taken once more."
"""What every summary ends with."""

_MATERIALS = ("adhesive", "filler", "abrasives", "finish", "sundries", "hardware")


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """What changes in a price book when pieces are made, before it is written.

    Parameters
    ----------
    tables : tuple of Table
        The files as they shall be.
    summary : tuple of str
        What is taken and what is kept, a line each.
    """

    tables: tuple[Table, ...]
    summary: tuple[str, ...]

    def write(self) -> None:
        """Write all files, or none.

        Raises
        ------
        ReportError
            If a file cannot be written, or was changed meanwhile.
        """
        write_all(self.tables)


def take(folder: str | Path, sheets: Sequence[CostSheet], on: date) -> tuple[str, ...]:
    """Draw what pieces use from the stock on hand, and add what is left of it.

    Parameters
    ----------
    folder : str or Path
        The folder of the price book.
    sheets : sequence of CostSheet
        Cost sheets of the pieces, as worked out from this price book.
    on : date
        The day that new rows are dated.

    Returns
    -------
    tuple of str
        What was taken and kept, a line each.

    Raises
    ------
    TableError
        If the stock on file no longer covers what is taken; nothing is written.
    ReportError
        If a file cannot be written; none of the files is changed then.

    Notes
    -----
    Sheets and rolls of the rack go down; usable offcuts and the rests of rolls
    come in as new rows that cannot be bought, worth their share of the sheet or
    roll by area or length, their sizes rounded down. Of materials, what was in the
    rack and what was bought go in, what is used goes out. Of a flitch the leaves cut
    go, and those bought and left whole stay in the rack. Comments and all other rows
    stay as they were written. Taking twice draws twice.
    """
    plan = taking(folder, sheets, on)
    plan.write()
    return plan.summary


def taking(folder: str | Path, sheets: Sequence[CostSheet], on: date) -> Taking:
    """Work out what `take` changes, and write nothing.

    Parameters
    ----------
    folder : str or Path
        The folder of the price book.
    sheets : sequence of CostSheet
        Cost sheets of the pieces, as worked out from this price book.
    on : date
        The day that new rows are dated.

    Returns
    -------
    Taking
        The changed files and a summary.

    Raises
    ------
    TableError
        If the stock on file no longer covers what is taken.
    """
    base = Path(folder)
    if inside_package(base):
        raise TableError(
            f"{base} ships with the package and stays as it is; make your own copy: "
            "pricebook new FOLDER."
        )
    shop = read_shop(base)
    used = _Used(sheets=tuple(sheets), shop=shop, on=on)
    raise_all(TableError, used.faults())
    names = ("sheets", "rolls", "materials", "flitches")
    tables = [read_table(base / f"{name}.csv") for name in names]
    summary: list[str] = []
    changed = (
        used.on_sheets(tables[0], summary),
        used.on_rolls(tables[1], summary),
        used.on_materials(tables[2], summary),
        leaves_taken(tables[3], used.leaves, summary),
    )
    return Taking(
        tables=tuple(t for t in changed if str(t) != t.text),
        summary=(*summary, AGAIN) if summary else ("Nothing is taken.",),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Used:
    """What some cost sheets use of a price book."""

    sheets: tuple[CostSheet, ...]
    shop: Shop
    on: date

    @property
    def plans(self) -> list[SheetPlan]:
        """Sheets of veneer, those of a shared layout once."""
        layouts = {id(sheet.layout): sheet.layout for sheet in self.sheets}
        return [plan for layout in layouts.values() for plan in layout.sheets]

    @property
    def rolls(self) -> list[tuple[Roll, bool, float, str]]:
        """Row, whether from the rack, length left, and pieces of each roll."""
        plans = {id(s.banding): s.banding for s in self.sheets if s.banding}
        names = " and ".join(sheet.piece for sheet in self.sheets)
        return [
            (one.roll, one.from_rack, one.left_mm, names)
            for plan in plans.values()
            for one in plan.rolls
        ]

    @property
    def leaves(self) -> list[RackedLeaves]:
        """Plans of raw leaves, those of a shared flitch once."""
        return list({id(p): p for s in self.sheets for p in s.leaves}.values())

    @property
    def materials(self) -> dict[str, tuple[float, int]]:
        """Quantity used and cash paid by key."""
        found: dict[str, tuple[float, int]] = {}
        for sheet in self.sheets:
            for line in sheet.lines:
                if line.group in _MATERIALS:
                    quantity, cents = found.get(line.key, (0.0, 0))
                    found[line.key] = (
                        quantity + line.quantity,
                        cents + line.bought_cents,
                    )
        return found

    def faults(self) -> Iterator[str]:
        """Yield what the stock on file does not cover."""
        racked = Counter(p.sheet.key for p in self.plans if p.from_rack)
        yield from short_stock(racked, self.shop.sheets, "sheets")
        rolled = Counter(roll.key for roll, rack, *_ in self.rolls if rack)
        yield from short_stock(rolled, self.shop.rolls, "rolls")
        yield from leaf_faults(self.leaves, self.shop.flitches)
        for key, (quantity, cents) in self.materials.items():
            try:
                row = self.shop.material(key)
            except TableError as error:
                yield from error.faults
                continue
            if buy(row, quantity).bought_cents != cents:
                yield (
                    f'what is on hand of "{key}", or its price, is no longer what the '
                    "cost sheet was worked out from; price the piece again."
                )

    def on_sheets(self, table: Table, summary: list[str]) -> Table:
        """Take sheets from the rack and bring usable offcuts in."""
        racked = Counter(p.sheet.key for p in self.plans if p.from_rack)
        table = changed_stock(table, racked, "sheet", summary)
        kept: Counter[tuple[Sheet, str, str, int, str]] = Counter()
        for plan in self.plans:
            pieces = dict.fromkeys(placed.face.piece for placed in plan.placed)
            for along, across, cents in self._offcuts(plan):
                kept[plan.sheet, along, across, cents, " and ".join(pieces)] += 1
        for (sheet, along, across, cents, names), count in kept.items():
            key = free_key(table, f"{_plain(sheet.species)}-offcut")
            table = table.with_row(
                key=key, species=sheet.species, form=sheet.form, veneer=sheet.veneer,
                along=along, across=across, on_hand=str(count), value=money(cents),
                to_buy="no", offcut="yes", date=self.on.isoformat(),
                source=f"offcut of {names}",
            )  # fmt: skip
            summary.append(
                f"{key}: {count} of {along} x {across} kept of {sheet.key}, worth "
                f"{money(cents)} each"
            )
        return table

    def _offcuts(self, plan: SheetPlan) -> Iterator[tuple[str, str, int]]:
        rests = [rest for rest in plan.rests if rest.usable]
        if not rests:
            return
        areas = [exact(rest.along_mm) * exact(rest.across_mm) for rest in rests]
        gone = 1 - exact(plan.kept_m2) / exact(plan.m2)
        kept_cents = plan.worth_cents - half_up(plan.worth_cents * gone)
        for rest, cents in zip(rests, share_out(kept_cents, areas), strict=True):
            along, across = self._down(rest.along_mm), self._down(rest.across_mm)
            yield along, across, cents

    def on_rolls(self, table: Table, summary: list[str]) -> Table:
        """Take rolls from the rack and bring their rests in."""
        racked = Counter(roll.key for roll, rack, *_ in self.rolls if rack)
        table = changed_stock(table, racked, "roll", summary)
        smallest = self.shop.allowance("smallest offcut side")
        for roll, rack, left_mm, names in self.rolls:
            if left_mm < smallest:
                continue
            worth = roll.value_cents if rack else roll.price_cents
            cents = half_up(worth * exact(left_mm) / exact(roll.length_mm))
            key = free_key(table, f"{_plain(roll.species)}-band-rest")
            table = table.with_row(
                key=key, species=roll.species, form=roll.form,
                width=_as_written(table, roll), length=self._down(left_mm),
                on_hand="1", value=money(cents), to_buy="no",
                date=self.on.isoformat(), source=f"rest of a roll for {names}",
            )  # fmt: skip
            summary.append(
                f"{key}: {self._down(left_mm)} kept of {roll.key}, worth {money(cents)}"
            )
        return table

    def on_materials(self, table: Table, summary: list[str]) -> Table:
        """Take what is used of each material, and bring in what was bought."""
        for key, (quantity, _) in self.materials.items():
            row: Material = self.shop.material(key)
            stock = buy(row, quantity).stock
            table = material_row(table, key, stock)
            summary.append(
                f"{key}: {number_text(row.on_hand)} -> "
                f"{counted(number_text(stock), row.unit)} on hand "
                f"({number_text(quantity)} used)"
            )
        return table

    def _down(self, length_mm: float) -> str:
        """Print a length in the shop's unit, never more than there is."""
        if self.shop.settings.lengths == "mm":
            return show(math.floor(length_mm), "mm")
        sixteenth = Fraction(exact(MM_PER_INCH), 16)
        whole = math.floor(exact(length_mm) / sixteenth)
        return show(float(whole * sixteenth), "in")


def _plain(species: str) -> str:
    return "-".join(species.lower().split())


def _as_written(table: Table, roll: Roll) -> str:
    """Return the width of a roll as its own row has it."""
    return table.cells(stock_row(table, roll.key))["width"]
