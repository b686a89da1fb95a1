"""A planned finish step by step: what is done in which order, and how it dries."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pricebook.finish import words
from pricebook.finish.rows import CoatRow
from pricebook.finish.system import FinishSystem
from pricebook.rates import Work

MIN_PER_DAY = 24 * 60


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishStep:
    """One set-up, one coat or one light sanding.

    Parameters
    ----------
    name : str
        What a plan calls it, such as "build 2".
    work : Work
        The operation and how much of it.
    drying_min : float
        Drying before the next step. [min]
    """

    name: str
    work: Work
    drying_min: float


def steps(
    rows: tuple[CoatRow, ...], system: FinishSystem, lengths: str
) -> tuple[FinishStep, ...]:
    """List every step in bench order; the last coat dries until it has cured."""
    coats = [(row, n) for row in rows for n in range(1, row.coat.times + 1)]
    found: list[FinishStep] = []
    for at, (row, number) in enumerate(coats):
        if at % system.coats_per_session == 0:
            found.append(_set_up(1 + at // system.coats_per_session))
        found.append(_coat(row, number, lengths))
        if row.coat.scuff_grit is not None and at + 1 < len(coats):
            found.append(_scuff(row, number, lengths))
    last = found[-1]
    cured = max(last.drying_min, system.cure_days * MIN_PER_DAY)
    return (*found[:-1], replace(last, drying_min=cured))


def _set_up(session: int) -> FinishStep:
    name = f"session {session}"
    work = Work(operation="finish set-up", quantity=1, unit="each", how=name)
    return FinishStep(name=name, work=work, drying_min=0)


def _name(row: CoatRow, number: int) -> str:
    return f"{row.coat.name} {number}" if row.coat.times > 1 else row.coat.name


def _coat(row: CoatRow, number: int, lengths: str) -> FinishStep:
    work = Work(
        operation=f"{row.coat.method} coat",
        quantity=row.area_m2,
        unit="m2",
        how=f"1 coat x {words.area(row.area_m2, lengths)}",
    )
    name = _name(row, number)
    return FinishStep(name=name, work=work, drying_min=row.coat.recoat_min)


def _scuff(row: CoatRow, number: int, lengths: str) -> FinishStep:
    work = Work(
        operation="scuff between coats",
        quantity=row.area_m2,
        unit="m2",
        how=f"{row.coat.scuff_grit} grit over {words.area(row.area_m2, lengths)}",
    )
    return FinishStep(name=f"{_name(row, number)}, scuff", work=work, drying_min=0)
