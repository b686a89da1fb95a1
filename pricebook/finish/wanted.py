"""What a planned finish asks for: items to have and operations to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pricebook.finish import words
from pricebook.finish.rows import CoatRow
from pricebook.finish.system import FinishSystem
from pricebook.rates import Need, Work

GROUP = "finish"
_Part = tuple[str, float, str, str]


def needs(
    rows: tuple[CoatRow, ...], system: FinishSystem, sessions: int, lengths: str
) -> tuple[Need, ...]:
    """Add up what all coats ask for, one row for each item and unit."""
    totals: dict[tuple[str, str], tuple[float, list[str]]] = {}
    for item, quantity, unit, how in _parts(rows, system, sessions, lengths):
        sum_so_far, hows = totals.get((item, unit), (0.0, []))
        totals[item, unit] = (sum_so_far + quantity, [*hows, how])
    return tuple(
        Need(item=item, quantity=quantity, unit=unit, group=GROUP, how="; ".join(hows))
        for (item, unit), (quantity, hows) in totals.items()
    )


def _parts(
    rows: tuple[CoatRow, ...], system: FinishSystem, sessions: int, lengths: str
) -> Iterator[_Part]:
    for row in rows:
        yield from _mixture(row, lengths)
    if system.cleaner is not None and system.cleaning_ml:
        litres = sessions * system.cleaning_ml / 1000
        how = f"cleaning: {sessions} x {system.cleaning_ml:g} ml"
        yield system.cleaner, litres, "l", how


def _mixture(row: CoatRow, lengths: str) -> Iterator[_Part]:
    """Yield what one kind of coat is mixed from."""
    coat = row.coat
    if row.from_flakes is not None:
        yield coat.material, row.from_flakes.flakes_kg, "kg", row.how(lengths)
    else:
        yield coat.material, row.from_can_l, "l", row.how(lengths)
    if coat.thinner is not None and row.thinner_l:
        makes = words.volume(row.mixed_l, lengths)
        taken = words.volume(row.thinner_l, lengths)
        yield coat.thinner, row.thinner_l, "l", f"{coat.name}: {taken} in {makes} mixed"
    if coat.dye is not None and row.dye_ml:
        makes = words.volume(row.mixed_l, lengths)
        how = f"{coat.name}: {coat.dye_ml_per_l:g} ml a litre in {makes} mixed"
        yield coat.dye, row.dye_ml, "ml", how


def work(
    rows: tuple[CoatRow, ...],
    scuffs: Iterable[tuple[int, float]],
    sessions: int,
    lengths: str,
) -> tuple[Work, ...]:
    """List the operations: a set-up a session, every coat, every scuff."""
    found = [
        Work(
            operation="finish set-up",
            quantity=sessions,
            unit="each",
            how=words.counted(sessions, "session"),
        )
    ]
    for row in rows:
        times = words.counted(row.coat.times, "coat")
        found.append(
            Work(
                operation=f"{row.coat.method} coat",
                quantity=row.coat.times * row.area_m2,
                unit="m2",
                how=f"{row.coat.name}: {times} x {words.area(row.area_m2, lengths)}",
            )
        )
    found += [
        Work(
            operation="scuff between coats",
            quantity=area_m2,
            unit="m2",
            how=f"{grit} grit over {words.area(area_m2, lengths)}",
        )
        for grit, area_m2 in scuffs
    ]
    return tuple(found)
