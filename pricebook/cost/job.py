"""A piece with everything planned but what it shares with others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from pricebook.cost.bench import BenchPlan, plan_bench
from pricebook.cost.facts import in_tip_over_scope, mass_kg
from pricebook.cost.purchases import Wanted, wanted
from pricebook.cost.shop import Shop
from pricebook.cost.veneering import joint_m, jointed, tape
from pricebook.errors import PricebookError, SpecError
from pricebook.finish import FinishPlan, FinishSystem, plan_finish
from pricebook.piece import FinishWishes, Piece
from pricebook.rates import Need, Sheet
from pricebook.takeoff import TakeOff, take_off
from pricebook.veneer.leaf_match import LeafPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A piece with everything planned but what it shares.

    Parameters
    ----------
    piece : Piece
        The piece.
    measured : TakeOff
        Its take-off.
    finish : FinishPlan or None
        Its finish; None where it gets none.
    bench : BenchPlan
        What it asks of the bench.
    wanted : tuple of Wanted
        What it asks of the price book beside sheets and rolls.
    """

    piece: Piece
    measured: TakeOff
    finish: FinishPlan | None
    bench: BenchPlan
    wanted: tuple[Wanted, ...]


def planned(pieces: Sequence[Piece], shop: Shop) -> list[Job]:
    """Plan every piece: take-off, finish, bench, and things to have.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces.
    shop : Shop
        The price book.

    Returns
    -------
    list of Job
        One a piece.

    Raises
    ------
    SpecError
        If something is not in the price book; with the faults of all pieces.
    """
    faults: list[str] = []
    jobs: list[Job] = []
    for piece in pieces:
        try:
            jobs.append(_job(piece, shop))
        except PricebookError as error:
            faults += [f"{piece.name}: {fault}" for fault in error.faults]
    if faults:
        raise SpecError(*faults)
    return jobs


def _job(piece: Piece, shop: Shop) -> Job:
    faults: list[str] = []

    def tried(plan: Callable[[], object]) -> None:
        try:
            plan()
        except PricebookError as error:
            faults.extend(error.faults)

    measured = take_off(piece)
    for plan in _lookups(piece, measured, shop):
        tried(plan)
    if faults:
        raise SpecError(*faults)
    finish = _finish(piece.finish, measured, shop)
    bench = plan_bench(piece, measured, finish, shop)
    needs = (*bench.needs, *_anti_tip(piece, measured, shop))
    return Job(
        piece=piece,
        measured=measured,
        finish=finish,
        bench=bench,
        wanted=wanted(needs, shop),
    )


def _lookups(
    piece: Piece, measured: TakeOff, shop: Shop
) -> Iterator[Callable[[], object]]:
    """Yield every look-up that a piece asks of the price book."""
    form = piece.veneer.form
    for veneer, species in sorted({(f.veneer, f.species) for f in measured.faces}):
        own = form if veneer == "show" else None
        if own == "raw":
            yield partial(shop.flitches_of, species)
        else:
            yield partial(shop.sheets_of, species, veneer, own)
    for species in sorted({edge.species for edge in measured.edges}):
        yield partial(shop.rolls_of, species)
    for fitting in piece.hardware:
        yield partial(shop.material, fitting.item)
    if piece.finish:
        yield partial(shop.finish, piece.finish.system)


def _finish(
    wishes: FinishWishes | None, measured: TakeOff, shop: Shop
) -> FinishPlan | None:
    if wishes is None or not measured.coated_m2:
        return None
    system = shop.finish(wishes.system)
    if wishes.coats is not None:
        system = _with_coats(system, wishes.coats)
    return plan_finish(measured.coated_m2, system, lengths=shop.settings.lengths)


def _with_coats(system: FinishSystem, coats: int) -> FinishSystem:
    """Return a system whose last kind of coat goes on so many times."""
    last = replace(system.coats[-1], times=coats)
    return replace(system, coats=(*system.coats[:-1], last))


def _anti_tip(piece: Piece, measured: TakeOff, shop: Shop) -> tuple[Need, ...]:
    mass = mass_kg(measured, shop)
    named = any(row.item == "anti-tip kit" for row in piece.hardware)
    if named or not in_tip_over_scope(piece, measured, mass):
        return ()
    limits = "27 in, 30 lb and 3.2 cu ft"
    if shop.settings.lengths == "mm":
        limits = "686 mm, 13.6 kg and 90.6 L"
    how = f"by its size this {piece.form} can tip: {limits} are reached"
    return (
        Need(item="anti-tip kit", quantity=1, unit="each", group="hardware", how=how),
    )


def with_joints(job: Job, plans: Sequence[LeafPlan], shop: Shop) -> Job:
    """Return a piece with the joints between its raw leaves taped and scraped.

    Parameters
    ----------
    job : Job
        The piece, planned.
    plans : sequence of LeafPlan
        Which leaf goes where.
    shop : Shop
        The price book.

    Returns
    -------
    Job
        The same where no leaves are joined.
    """
    joints_m = joint_m(plans, job.piece.name)
    if not joints_m:
        return job
    tasks = jointed(job.bench.tasks, joints_m, shop.settings.lengths)
    return replace(
        job,
        bench=replace(job.bench, tasks=tasks),
        wanted=(*job.wanted, *wanted((tape(joints_m, shop),), shop)),
    )


def stock_of(jobs: Iterable[Job], form: str | None, shop: Shop) -> tuple[Sheet, ...]:
    """Return the sheets that faces of one form may be cut from.

    Parameters
    ----------
    jobs : iterable of Job
        The pieces.
    form : str or None
        The form of their show veneer; None: their backing veneer.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of Sheet
        Each row once.
    """
    veneer = "backing" if form is None else "show"
    species = dict.fromkeys(
        face.species
        for job in jobs
        for face in job.measured.faces
        if face.veneer == veneer and (form is None or job.piece.veneer.form == form)
    )
    return tuple(
        sheet for name in species for sheet in shop.sheets_of(name, veneer, form)
    )
