"""A piece as it was planned against what it really took, row by row."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from pricebook.cost import CostSheet, Shop
from pricebook.errors import PricebookError, SpecError, nearest, raise_all
from pricebook.files.used import MaterialUsed, PieceUsed, WorkUsed
from pricebook.labour import LabourLine
from pricebook.money import exact
from pricebook.rates import Minutes
from pricebook.records import SuggestedMinutes, Usage, suggest_minutes

_NOT_MATERIALS = ("labour", "overhead", "spoilage", "gifts")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedUsed:
    """One piece as planned and as used.

    Parameters
    ----------
    lot : str
        Its lot.
    rows : tuple of Usage
        A row a material and an operation that was noted; hours for work.
    not_noted : tuple of str
        What was planned and stands in no row.
    observed : tuple of (str, float, float)
        Operation, units of it, and the minutes that these took beside set-up.
    under_setup : tuple of str
        Operations that took no longer than their set-up is planned.
    """

    lot: str
    rows: tuple[Usage, ...]
    not_noted: tuple[str, ...]
    observed: tuple[tuple[str, float, float], ...]
    under_setup: tuple[str, ...]


def planned_used(sheet: CostSheet, shop: Shop, used: PieceUsed) -> PlannedUsed:
    """Set what a piece took against its cost sheet.

    Parameters
    ----------
    sheet : CostSheet
        The plan.
    shop : Shop
        The price book, for what was used and not planned.
    used : PieceUsed
        What it took.

    Returns
    -------
    PlannedUsed
        Materials first, then work.

    Raises
    ------
    SpecError
        With a sentence for each key that neither the plan nor the price book has.

    Notes
    -----
    A sheet counts whole, at its price; every other material at what its cost line
    charges for a unit. What was not planned has a planned quantity of 0.

    Minutes are compared as planned, rework and learning included. For a new rate
    the planned set-up is taken off, and what is left is set against the plan's
    minutes beside set-up.
    """
    rows: list[Usage] = []
    faults: list[str] = []
    makers: list[Callable[[], Usage]] = [
        *(lambda m=one: _material(sheet, shop, m) for one in used.materials),
        *(lambda w=one: _work(sheet, shop, w) for one in used.work),
    ]
    for make in makers:
        try:
            rows.append(make())
        except PricebookError as error:
            faults += [f"lot {used.lot}: {fault}" for fault in error.faults]
    raise_all(SpecError, faults)
    noted = {row.name for row in rows}
    planned = [*_materials(sheet), *dict.fromkeys(x.operation for x in _steps(sheet))]
    observed = [_observed(sheet, shop, work) for work in used.work]
    return PlannedUsed(
        lot=used.lot,
        rows=tuple(rows),
        not_noted=tuple(key for key in planned if key not in noted),
        observed=tuple(one for one in observed if one and one[2] > 0),
        under_setup=tuple(one[0] for one in observed if one and one[2] <= 0),
    )


def suggestions(
    pieces: Iterable[PlannedUsed], shop: Shop, counts_as: Callable[[Minutes], float]
) -> tuple[SuggestedMinutes, ...]:
    """Suggest new minutes for every operation that was timed.

    Parameters
    ----------
    pieces : iterable of PlannedUsed
        The pieces.
    shop : Shop
        The price book.
    counts_as : callable
        How many observations a row of minutes stands for.

    Returns
    -------
    tuple of SuggestedMinutes
        In the order of the price book.
    """
    seen: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for piece in pieces:
        for operation, units, minutes in piece.observed:
            seen[operation].append((units, minutes))
    return tuple(
        suggest_minutes(row.key, row.rate_min, seen[row.key], counts_as(row))
        for row in shop.minutes
        if row.key in seen
    )


def _materials(sheet: CostSheet) -> dict[str, tuple[Fraction, Fraction, str]]:
    """Return quantity, cost and unit of each planned material, by key."""
    found: dict[str, tuple[Fraction, Fraction, str]] = {}
    for line in sheet.lines:
        if line.group in _NOT_MATERIALS:
            continue
        before = found.get(line.key, (Fraction(0), Fraction(0), line.unit))
        found[line.key] = (
            before[0] + exact(line.quantity),
            before[1] + line.used_cents,
            line.unit,
        )
    return found


def _material(sheet: CostSheet, shop: Shop, used: MaterialUsed) -> Usage:
    quantity, cost, unit = _materials(sheet).get(used.key, (Fraction(0), 0, ""))
    rate = Fraction(cost) / quantity if quantity else None
    if rate is None or unit == "sheet":
        rate, unit = _price(shop, used.key)
    paid = rate
    if used.paid_cents is not None and used.bought is not None:
        paid = used.paid_cents / exact(used.bought)
    return Usage(
        name=used.key,
        kind="material",
        unit=unit,
        standard_rate_cents=rate,
        standard_quantity=quantity,
        actual_rate_cents=paid,
        actual_quantity=exact(used.used),
    )


def _price(shop: Shop, key: str) -> tuple[Fraction, str]:
    """Return the price of a unit in the price book, and the unit."""
    for sheet in shop.sheets:
        if sheet.key == key:
            return Fraction(sheet.price_cents), "sheet"
    for roll in shop.rolls:
        if roll.key == key:
            return roll.price_cents * 1000 / exact(roll.length_mm), "m"
    if shop.has_material(key):
        material = shop.material(key)
        pack = min(material.packs, key=lambda one: one.quantity)
        return pack.price_cents / exact(pack.quantity), material.unit
    known = [row.key for row in (*shop.sheets, *shop.rolls, *shop.materials)]
    raise SpecError(
        f'material "{key}" is neither planned nor in the price book; '
        f"{nearest(key, known)}"
    )


def _steps(sheet: CostSheet, operation: str = "") -> list[LabourLine]:
    return [
        line
        for line in sheet.labour.lines
        if line.person_min and operation in ("", line.operation)
    ]


def _row(shop: Shop, operation: str) -> Minutes:
    for row in shop.minutes:
        if row.key == operation:
            return row
    known = [row.key for row in shop.minutes]
    raise SpecError(
        f'operation "{operation}" has no row of minutes; {nearest(operation, known)}'
    )


def _work(sheet: CostSheet, shop: Shop, used: WorkUsed) -> Usage:
    steps = _steps(sheet, used.operation)
    pay = steps[0].pay if steps else _row(shop, used.operation).pay
    hour = {
        "paid": shop.settings.paid_cents_per_hour,
        "given": shop.settings.given_cents_per_hour,
        "none": 0,
    }[pay]
    return Usage(
        name=used.operation,
        kind="labour",
        unit="h",
        standard_rate_cents=hour,
        standard_quantity=sum((exact(s.person_min) for s in steps), Fraction(0)) / 60,
        actual_rate_cents=hour if used.hour_cents is None else used.hour_cents,
        actual_quantity=exact(used.minutes) / 60,
    )


def _observed(
    sheet: CostSheet, shop: Shop, used: WorkUsed
) -> tuple[str, float, float] | None:
    """Return units done and minutes beside set-up; None where there is no rate."""
    steps = _steps(sheet, used.operation)
    units = sum(step.quantity for step in steps)
    if not units or not all(step.rate_min for step in steps):
        return None
    again = 1 + shop.allowance("rework")
    setup = sum(step.setup_min for step in steps)
    planned = sum(step.person_min for step in steps) / again - setup
    share = (used.minutes / again - setup) / planned
    return used.operation, units, share * units * steps[0].rate_min
