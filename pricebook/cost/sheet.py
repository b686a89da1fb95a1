"""The cost sheet of a piece, or of a batch that shares what it buys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import TypeVar

from pricebook.banding import BandingPlan, band
from pricebook.cautions import cautions_for
from pricebook.cost.banding_lines import banding_lines
from pricebook.cost.facts import mass_kg, piece_facts
from pricebook.cost.job import Job, planned, stock_of, with_joints
from pricebook.cost.labour_lines import (
    gift_lines,
    labour_lines,
    overhead_line,
    piece_labour,
    spoilage_line,
)
from pricebook.cost.laying import joined, laid
from pricebook.cost.leaf_choice import chosen_leaves
from pricebook.cost.leaf_lines import leaf_lines
from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.lines import GROUPS, CostLine, CostSheet
from pricebook.cost.notes import cost_notes
from pricebook.cost.purchases import material_lines
from pricebook.cost.sharing import Account, evened
from pricebook.cost.shop import Shop
from pricebook.cost.veneer_lines import veneer_lines
from pricebook.errors import LayoutError, PricebookError, SpecError
from pricebook.piece import Piece
from pricebook.rates import Row
from pricebook.takeoff import Face
from pricebook.veneer.layout import Layout

_T = TypeVar("_T")
Progress = Callable[[int, int, str], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shared:
    """What the pieces of a batch share."""

    layout: Layout
    leaves: tuple[RackedLeaves, ...]
    banding: BandingPlan | None


def cost_sheet(
    piece: Piece, shop: Shop, on: date, *, stages: int | None = None
) -> CostSheet:
    """Work out what one piece costs.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    CostSheet
        Lines that add up as printed, with the plans behind them.

    Raises
    ------
    PricebookError
        If something is not in the price book, or a face fits no sheet.
    """
    return cost_sheets([piece], shop, on, stages=stages)[0]


def cost_sheets(
    pieces: Sequence[Piece],
    shop: Shop,
    on: date,
    *,
    stages: int | None = None,
    progress: Progress | None = None,
) -> tuple[CostSheet, ...]:
    """Work out what several pieces cost that share sheets, rolls and packs.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces; each needs a name of its own.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.
    progress : callable or None
        Called with steps done, steps in all, and words, on long work.

    Returns
    -------
    tuple of CostSheet
        One a piece. A shared sheet is charged by area, and no piece pays more
        than it would alone.

    Raises
    ------
    PricebookError
        With a sentence for every fault of every piece.
    """
    _refuse_same_names(pieces)
    jobs = _planned(pieces, shop, stages)
    shared = _shared(jobs, shop, stages, progress)
    jobs = [with_joints(job, shared.leaves, shop) for job in jobs]
    alone = [shared]
    if len(jobs) > 1:
        alone = [_shared([job], shop, stages, None) for job in jobs]
    names = [job.piece.name for job in jobs]
    lengths = shop.settings.lengths
    accounts = (Account(len(jobs)), Account(len(jobs)))
    bought = zip(
        veneer_lines(
            shared.layout, [one.layout for one in alone], names, lengths, accounts
        ),
        banding_lines(
            shared.banding,
            [one.banding for one in alone],
            [job.measured for job in jobs],
            shop,
            accounts,
        ),
        leaf_lines(shared.leaves, [one.leaves for one in alone], names, shop, accounts),
        material_lines([job.wanted for job in jobs], accounts, lengths),
        strict=True,
    )
    lines = [[line for part in parts for line in part] for parts in bought]
    if len(jobs) > 1:
        lines = evened(
            lines, [_alone_cents(*one) for one in zip(jobs, alone, strict=True)]
        )
    return tuple(
        _sheet(job, shared, own, shop, on) for job, own in zip(jobs, lines, strict=True)
    )


def _alone_cents(job: Job, alone: _Shared) -> int:
    """Return what a piece would pay alone, the whole rack its own."""
    return (
        alone.layout.cash_cents
        + sum(plan.cost_cents for plan in alone.leaves)
        + (alone.banding.cash_cents if alone.banding else 0)
        + sum(line.bought_cents for line in material_lines([job.wanted])[0])
    )


def _planned(pieces: Sequence[Piece], shop: Shop, stages: int | None) -> list[Job]:
    """Plan every piece; where one cannot be, say too what the others lack."""
    try:
        return planned(pieces, shop)
    except PricebookError as error:
        faults = list(error.faults)
    for piece in pieces:
        try:
            jobs = planned([piece], shop)
        except PricebookError:
            continue
        try:
            _shared(jobs, shop, stages, None)
        except PricebookError as error:
            faults += error.faults
    raise SpecError(*faults)


def _shared(
    jobs: Sequence[Job], shop: Shop, stages: int | None, told: Progress | None
) -> _Shared:
    """Choose sheets, leaves and rolls, or refuse with the faults of all three."""
    faults: list[str] = []

    def tried(choose: Callable[[], _T], nothing: _T) -> _T:
        try:
            return choose()
        except LayoutError as error:
            faults.extend(error.faults)
            return nothing

    whole = Layout(sheets=(), least_possible_cents=0)
    for form in ("backed", "self-adhesive", None):
        part = tried(partial(_layout, jobs, form, shop, stages, told), whole)
        whole = joined(whole, part) if part.sheets else whole
    none: tuple[RackedLeaves, ...] = ()
    leaves = tried(partial(chosen_leaves, jobs, shop), none)
    edges = [edge for job in jobs for edge in job.measured.edges]
    rolls = tried(lambda: band(edges, shop.rolls) if edges else None, None)
    if faults:
        raise LayoutError(*faults)
    return _Shared(layout=whole, leaves=leaves, banding=rolls)


def _layout(
    jobs: Sequence[Job],
    form: str | None,
    shop: Shop,
    stages: int | None,
    told: Progress | None,
) -> Layout:
    """Lay out one form of show veneer, or the backing veneer, on its own stock."""
    faces = [face for job in jobs for face in _faces_of(job, form)]
    if not faces:
        return Layout(sheets=(), least_possible_cents=0)
    return laid(
        faces,
        stock_of(jobs, form, shop),
        stages=stages,
        smallest_mm=shop.allowance("smallest offcut side"),
        lengths=shop.settings.lengths,
        progress=told,
    )


def _faces_of(job: Job, form: str | None) -> list[Face]:
    if form is None:
        return [face for face in job.measured.faces if face.veneer == "backing"]
    if job.piece.veneer.form != form:
        return []
    return [face for face in job.measured.faces if face.veneer == "show"]


def _refuse_same_names(pieces: Sequence[Piece]) -> None:
    names = [piece.name for piece in pieces]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise SpecError(
            *(f'two pieces are called "{n}"; give each its own name.' for n in twice)
        )


def _sheet(
    job: Job,
    shared: _Shared,
    bought: list[CostLine],
    shop: Shop,
    on: date,
) -> CostSheet:
    labour = piece_labour(job, shared.layout, shop)
    lines = [
        *bought,
        *labour_lines(labour, shop.settings),
        *overhead_line(labour, shop.settings),
        *spoilage_line(bought, shop),
        *gift_lines(job.piece),
    ]
    lines.sort(key=lambda line: GROUPS.index(line.group))
    keys = [line.key for line in lines]
    old: tuple[Row, ...] = tuple(shop.old_rows(keys, on))
    facts = piece_facts(job.piece, job.measured, job.finish, job.bench.needs, shop)
    return CostSheet(
        piece=job.piece.name,
        on=on,
        settings=shop.settings,
        lines=tuple(lines),
        take_off=job.measured,
        layout=shared.layout,
        leaves=shared.leaves,
        banding=shared.banding,
        finish=job.finish,
        labour=labour,
        mass_kg=mass_kg(job.measured, shop),
        cautions=cautions_for(facts),
        old_rows=old,
        notes=tuple(cost_notes(job, lines, shop, on)),
        tasks=job.bench.tasks,
    )
