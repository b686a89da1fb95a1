"""What a piece asks of the bench: things to have, and work in bench order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.consumables import (
    Pass,
    RefinishRates,
    RefinishStep,
    abrasives,
    blades,
    filler,
    filters,
    gloves,
    masking,
    passes,
    rags,
    refinish_steps,
    tack_cloths,
)
from pricebook.cost.shop import Shop
from pricebook.cost.veneering import Laid, Task, laid_forms, task, veneering_tasks
from pricebook.finish import FinishPlan
from pricebook.finish.words import area, counted
from pricebook.piece import Piece
from pricebook.rates import Need
from pricebook.takeoff import TakeOff


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPlan:
    """What a piece asks of the bench.

    Parameters
    ----------
    needs : tuple of Need
        Things to have, hardware included.
    tasks : tuple of Task
        Work in bench order.
    notes : tuple of str
        Sentences for whoever does it.
    """

    needs: tuple[Need, ...]
    tasks: tuple[Task, ...]
    notes: tuple[str, ...]


def plan_bench(
    piece: Piece, measured: TakeOff, finish: FinishPlan | None, shop: Shop
) -> BenchPlan:
    """Plan everything beside sheets and rolls: consumables, hardware and work.

    Parameters
    ----------
    piece : Piece
        The piece.
    measured : TakeOff
        Its take-off.
    finish : FinishPlan or None
        Its finish; None where it gets none.
    shop : Shop
        The price book.

    Returns
    -------
    BenchPlan
        Needs and work, each with how it was worked out.
    """
    readied = _readied(piece, measured, finish, shop)
    bare = piece.arrival.condition == "bare board" or any(
        step.name in ("strip", "sand back") for step in readied
    )
    laid = laid_forms(piece, measured, shop, bare=bare)
    sanded = _passes(measured, finish, shop)
    needs = (
        *(need for one in laid for need in one.adhesive.needs),
        *filler(piece.holes, waste_share=shop.allowance("filler waste")),
        *(need for step in readied for need in step.needs),
        *abrasives(
            [*(one for step in readied for one in step.sanded), *sanded],
            life_m2=shop.allowance("sanding disc life"),
            lengths=shop.settings.lengths,
        ),
        *(finish.needs if finish else ()),
        *_sundries(measured, finish, shop),
        *_hardware(piece),
    )
    notes = (
        *(note for one in laid for note in one.adhesive.notes),
        *(finish.notes if finish else ()),
    )
    return BenchPlan(
        needs=needs,
        tasks=tuple(_tasks(piece, measured, (readied, laid, sanded), finish, shop)),
        notes=notes,
    )


def _readied(
    piece: Piece, measured: TakeOff, finish: FinishPlan | None, shop: Shop
) -> tuple[RefinishStep, ...]:
    """List what makes the old surface ready for veneer, and for the finish alone."""
    arrival = piece.arrival
    veneered = {face.name for face in measured.faces} | {"banded edges"}
    bare_m2 = sum(row.m2 for row in measured.coated if row.name not in veneered)
    areas = {"veneer": measured.veneered_m2, "coat": bare_m2}
    sealed = finish is not None and finish.rows[0].coat.name == "sealer"
    found: list[RefinishStep] = []
    for ready_for, area_m2 in areas.items():
        if area_m2:
            found += refinish_steps(
                arrival.condition,
                area_m2,
                ready_for=ready_for,
                rates=_refinish_rates(shop),
                treatment=arrival.treatment,
                made_before_1978=piece.coated_before_1978,
                lead_free=arrival.lead_free,
                dents=0 if found else arrival.dents,
                patches=0 if found else arrival.patches,
                seal=not sealed,
                lengths=shop.settings.lengths,
            )
    return tuple(found)


def _refinish_rates(shop: Shop) -> RefinishRates:
    custom, figure = shop.bench, shop.allowance
    return RefinishRates(
        rough_run=custom.roughing_grits,
        scuff_grit=custom.scuff_grit,
        back_run=custom.back_grits,
        fine_run=custom.fine_grits,
        old_coat_wear=figure("wear on an old coating"),
        strip_m2_per_l=figure("stripper spread"),
        strip_times=int(figure("stripper coats")),
        rag_m2=figure("rag area for stripping"),
        seal_m2_per_l=figure("sealer spread"),
        dent_ml=figure("dent volume"),
        filler_waste_share=figure("filler waste"),
        patch_glue_ml=figure("patch glue"),
    )


def _passes(
    measured: TakeOff, finish: FinishPlan | None, shop: Shop
) -> tuple[Pass, ...]:
    """List what is sanded after the veneer is on: faces, banding, coats."""
    found: list[Pass] = []
    grits = shop.bench
    if measured.faces:
        found += passes(grits.veneer_grits, measured.veneered_m2, "veneer")
    edges_m2 = sum(e.count * e.length_mm * e.width_mm for e in measured.edges) / 1e6
    if edges_m2:
        found += passes(grits.banding_grits, edges_m2, "banded edges")
    scuffed: dict[int, float] = {}
    for grit, area_m2 in finish.scuffs if finish else ():
        scuffed[grit] = scuffed.get(grit, 0.0) + area_m2
    for grit, area_m2 in scuffed.items():
        found += passes((grit,), area_m2, "between coats")
    return tuple(found)


def _sundries(
    measured: TakeOff, finish: FinishPlan | None, shop: Shop
) -> Iterator[Need]:
    lengths = shop.settings.lengths
    round_faces = (f.count * (f.cut_along_mm + f.cut_across_mm) for f in measured.faces)
    cut_m = (2 * sum(round_faces) + 2 * measured.banded_mm) / 1e3
    if cut_m:
        yield from blades(
            2 * cut_m,
            life_m=shop.allowance("blade life"),
            lengths=lengths,
            where="(round each face and along both sides of each edge, twice)",
        )
    if finish is None:
        return
    coats = sum(row.coat.times for row in finish.rows)
    yield from tack_cloths(
        measured.coated_m2,
        coats,
        area_each_m2=shop.allowance("tack cloth area"),
        uses=int(shop.allowance("tack cloth uses")),
        lengths=lengths,
    )
    yield from rags(finish.sessions, each=int(shop.allowance("rags each session")))
    yield from gloves(finish.sessions, each=int(shop.allowance("gloves each session")))
    if any(row.coat.method == "spray" for row in finish.rows):
        yield from masking(
            measured.coated_m2 * shop.allowance("masking for spraying"),
            waste_share=shop.allowance("masking waste"),
            lengths=lengths,
        )
        hours = _spraying_h(finish, shop)
        yield from filters(hours, life_h=shop.allowance("filter life"))


def _spraying_h(finish: FinishPlan, shop: Shop) -> float:
    rates = {row.key: row.rate_min for row in shop.minutes}
    return (
        sum(
            row.coat.times * row.area_m2 * rates.get("spray coat", 0.0)
            for row in finish.rows
            if row.coat.method == "spray"
        )
        / 60
    )


def _hardware(piece: Piece) -> Iterator[Need]:
    for row in piece.hardware:
        yield Need(
            item=row.item,
            quantity=row.count,
            unit="each",
            group="hardware",
            how=f"{row.count} on the piece",
        )


def _tasks(
    piece: Piece,
    measured: TakeOff,
    parts: tuple[tuple[RefinishStep, ...], tuple[Laid, ...], tuple[Pass, ...]],
    finish: FinishPlan | None,
    shop: Shop,
) -> Iterator[Task]:
    readied, laid, sanded = parts
    lengths = shop.settings.lengths
    yield task("mark out", 1, "each", "1 piece")
    yield from _counted("fill holes", sum(row.count for row in piece.holes), "hole")
    yield from (Task(work=work) for step in readied for work in step.work)
    yield from veneering_tasks(laid, lengths)
    if measured.edges:
        banded_m = measured.banded_mm / 1e3
        edges = sum(edge.count for edge in measured.edges)
        yield task("band edges", banded_m, "m", counted(edges, "edge"))
    for one in sanded:
        if one.where in ("veneer", "banded edges"):
            how = f"{one.where}, {one.grit} grit, {area(one.area_m2, lengths)}"
            yield task("sand", one.area_m2, "m2", how)
    for step in finish.steps if finish else ():
        yield Task(work=step.work, drying_min=step.drying_min, step=step.name)
    fittings = sum(row.count for row in piece.hardware)
    yield from _counted("fit hardware", fittings, "fitting")


def _counted(operation: str, number: int, word: str) -> Iterator[Task]:
    if number:
        yield task(operation, number, "each", counted(number, word))
