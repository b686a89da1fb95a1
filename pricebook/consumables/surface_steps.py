"""Each step on an old surface: its work, what it needs, what it sands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pricebook.consumables._checks import area, counted, pieces, spread
from pricebook.consumables.abrasives import Pass
from pricebook.consumables.filler import Fill, filler
from pricebook.consumables.surfaces import RefinishRates, RefinishStep
from pricebook.rates import Need, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A surface, and what is to become of it."""

    condition: str
    area_m2: float
    ready_for: str
    treatment: str
    rates: RefinishRates
    lengths: str

    @property
    def words(self) -> str:
        """Return the area for the working."""
        return area(self.area_m2, self.lengths)

    def passes(self, grits: Iterable[int], wear: float = 1.0) -> tuple[Pass, ...]:
        """Return one pass a grit over the whole area."""
        return tuple(
            Pass(grit=grit, area_m2=self.area_m2, where=self.condition, wear=wear)
            for grit in grits
        )


def patching(patches: int, rates: RefinishRates) -> RefinishStep:
    """Glue down or let in loose and missing spots."""
    words = "1 patch" if patches == 1 else f"{patches} patches"
    how = f"{words} x {rates.patch_glue_ml:g} ml"
    litres = patches * rates.patch_glue_ml / 1000
    glue = Need(item="PVA glue", quantity=litres, unit="l", group="adhesive", how=how)
    return RefinishStep(
        name="patch",
        why="what is loose is glued down, what is missing is let in",
        work=(Work(operation="patch", quantity=patches, unit="each", how=words),),
        needs=(glue,),
    )


def old_coating(job: Job, lead: tuple[str, ...]) -> RefinishStep:
    """Take an old coating off, or keep it and give it a tooth."""
    if job.treatment == "strip":
        return _strip(job, lead)
    rates = job.rates
    back = rates.fine_run if job.condition == "old veneer" else rates.back_run
    scuffed = job.treatment == "scuff"
    sanded = job.passes((rates.scuff_grit,) if scuffed else back, rates.old_coat_wear)
    why = "the old coat gets a tooth" if scuffed else "the old coat comes off dry"
    return RefinishStep(
        name=job.treatment,
        why=why,
        work=_sanding("scuff old coat" if scuffed else "sand back", sanded, job),
        sanded=sanded,
        caution_keys=(*lead, "wood dust"),
    )


def _strip(job: Job, lead: tuple[str, ...]) -> RefinishStep:
    rates = job.rates
    times, wiped_m2 = rates.strip_times, rates.strip_times * job.area_m2
    how = job.words if times == 1 else f"{counted(times, 'time')} x {job.words}"
    goes = spread(rates.strip_m2_per_l, job.lengths)
    rags, each = pieces(wiped_m2 / rates.rag_m2), area(rates.rag_m2, job.lengths)
    return RefinishStep(
        name="strip",
        why="the old coat comes off wet" + (", since it may hold lead" * bool(lead)),
        work=(Work(operation="strip", quantity=wiped_m2, unit="m2", how=how),),
        needs=(
            Need(
                item="paint stripper",
                quantity=wiped_m2 / rates.strip_m2_per_l,
                unit="l",
                group="sundries",
                how=f"{how}, over {goes}",
            ),
            Need(
                item="rag",
                quantity=rags,
                unit="each",
                group="sundries",
                how=f"{how}, {each} a rag",
            ),
        ),
        caution_keys=(*lead, "stripper"),
    )


def filling(dents: int, rates: RefinishRates) -> RefinishStep:
    """Fill dents and chips."""
    fill = Fill(name="dents", count=dents, volume_ml=rates.dent_ml)
    words = counted(dents, "dent")
    return RefinishStep(
        name="fill dents",
        why="a dent shows through veneer and finish alike",
        work=(Work(operation="fill dents", quantity=dents, unit="each", how=words),),
        needs=filler([fill], waste_share=rates.filler_waste_share),
    )


def roughing(job: Job) -> RefinishStep:
    """Roughen what will be veneered."""
    sanded = job.passes(job.rates.rough_run)
    return RefinishStep(
        name="rough",
        why="adhesive needs a tooth over the whole field",
        work=_sanding("rough board", sanded, job),
        sanded=sanded,
        caution_keys=("wood dust",),
    )


def ready_to_coat(job: Job) -> Iterator[RefinishStep]:
    """Yield the last sanding of a surface that is coated, if it needs one."""
    rates = job.rates
    grits: tuple[int, ...]
    if job.treatment == "scuff":
        return
    if job.condition == "laminated board":
        grits, operation = (rates.scuff_grit,), "scuff old coat"
    elif job.treatment == "sand back":
        done = rates.fine_run if job.condition == "old veneer" else rates.back_run
        grits, operation = tuple(g for g in rates.fine_run if g > done[-1]), "sand"
    else:
        grits, operation = rates.fine_run, "sand"
    if grits:
        sanded = job.passes(grits)
        yield RefinishStep(
            name="scuff" if operation == "scuff old coat" else "sand",
            why="the coat lies as smooth as the board under it",
            work=_sanding(operation, sanded, job),
            sanded=sanded,
            caution_keys=("wood dust",),
        )


def sealing(job: Job) -> RefinishStep:
    """Seal what will be coated."""
    goes = spread(job.rates.seal_m2_per_l, job.lengths)
    seal = Need(
        item="sealer",
        quantity=job.area_m2 / job.rates.seal_m2_per_l,
        unit="l",
        group="finish",
        how=f"{job.words}, over {goes}",
    )
    return RefinishStep(
        name="seal",
        why="what is left of the old surface stays under the new coats",
        work=(Work(operation="seal", quantity=job.area_m2, unit="m2", how=job.words),),
        needs=(seal,),
    )


def _sanding(operation: str, sanded: tuple[Pass, ...], job: Job) -> tuple[Work, ...]:
    """Return the work of sanding: one grit after another over the area."""
    grits = "-".join(str(one.grit) for one in sanded)
    return (
        Work(
            operation=operation,
            quantity=len(sanded) * job.area_m2,
            unit="m2",
            how=f"{grits} grit over {job.words}",
        ),
    )
