"""Undoing an old surface, or readying a new board: the steps before the veneer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pricebook.consumables._checks import not_below_zero, refuse, whole
from pricebook.consumables.surface_steps import (
    Job,
    filling,
    old_coating,
    patching,
    ready_to_coat,
    roughing,
    sealing,
)
from pricebook.consumables.surfaces import RefinishRates, RefinishStep
from pricebook.errors import nearest
from pricebook.piece.extras import CONDITIONS

READY_FOR = ("veneer", "coat")
"""What a surface is made ready for."""
COATED = ("clear finish", "painted", "old veneer")
"""Conditions under which an old coating is met."""
TREATMENTS = ("strip", "sand back", "scuff")
"""Ways to deal with an old coating: off wet, off dry, or kept and given a tooth."""


def refinish_steps(
    condition: str,
    area_m2: float,
    *,
    ready_for: str,
    rates: RefinishRates,
    treatment: str | None = None,
    made_before_1978: bool | None = None,
    lead_free: bool = False,
    dents: int = 0,
    patches: int = 0,
    seal: bool = True,
    lengths: str = "mm",
) -> tuple[RefinishStep, ...]:
    """List the steps from a surface as it comes to one that takes veneer or a coat.

    Parameters
    ----------
    condition : str
        One of the conditions in which a piece may arrive.
    area_m2 : float
        Area of the surfaces that are made ready. [m2]
    ready_for : str
        "veneer" or "coat".
    rates : RefinishRates
        The shop's figures.
    treatment : str or None
        One of `TREATMENTS` for an old coating; None: see Notes.
    made_before_1978 : bool or None
        Whether the coating may be that old; None: not known.
    lead_free : bool
        Whether a test found no lead in it.
    dents : int
        Dents and chips to fill. [-]
    patches : int
        Loose or missing spots of veneer or board to glue or patch. [-]
    seal : bool
        Whether a surface made ready for a coat gets a sealer; False where the
        finish begins with one.
    lengths : str
        "in" prints square feet, "mm" square metres.

    Returns
    -------
    tuple of RefinishStep
        The steps in bench order; none where there is nothing to do.

    Raises
    ------
    SpecError
        If a word is not known, a number is out of range, or an old coating that
        may hold lead would be sanded dry.

    Notes
    -----
    In order: patch; strip, sand back or scuff an old coating; fill dents; then
    rough a surface that is veneered (60 grit), or sand and seal one that is coated.
    A coating that may hold lead is stripped; one that holds none is sanded back
    under veneer and scuffed under a coat. Factory veneer is sanded with the fine
    run, nothing coarser than 120. Sources: cfr_16_1303 for lead;
    veneer_sanding_thread; the rest is common practice, no source.

    Examples
    --------
    >>> rates = RefinishRates(rough_run=(60,), scuff_grit=220, back_run=(80, 120),
    ...     fine_run=(120, 150, 180), old_coat_wear=2, strip_m2_per_l=2.0,
    ...     strip_times=1, rag_m2=0.5, seal_m2_per_l=9, dent_ml=0.5,
    ...     filler_waste_share=0.3, patch_glue_ml=5)
    >>> [s.name for s in refinish_steps("painted", 3.4, ready_for="veneer",
    ...     rates=rates, dents=6)]
    ['strip', 'fill dents', 'rough']
    """
    refuse(
        _known("condition", condition, CONDITIONS),
        _known("ready for", ready_for, READY_FOR),
        _known("treatment", treatment, (*TREATMENTS, None)),
        not_below_zero(area_m2=area_m2),
        whole(dents=dents, patches=patches),
    )
    may_hold_lead = (
        condition in COATED and not lead_free and made_before_1978 is not False
    )
    refuse(_treatment_faults(condition, treatment, may_hold_lead))
    job = Job(
        condition=condition,
        area_m2=float(area_m2),
        ready_for=ready_for,
        treatment=treatment or _usual(condition, ready_for, may_hold_lead),
        rates=rates,
        lengths=lengths,
    )
    return tuple(_steps(job, dents, patches, seal=seal, may_hold_lead=may_hold_lead))


def _known(name: str, value: str | None, known: Iterable[str | None]) -> list[str]:
    if value in list(known):
        return []
    hint = nearest(str(value), [word for word in known if word])
    return [f'{name} is "{value}"; {hint}']


def _treatment_faults(
    condition: str, treatment: str | None, may_hold_lead: bool
) -> list[str]:
    if treatment and condition not in COATED:
        return [
            f'treatment is "{treatment}", but {condition} has no old coating; leave '
            "the treatment out."
        ]
    if may_hold_lead and treatment in ("sand back", "scuff"):
        return [
            f'treatment is "{treatment}", but the coating may be from before 1978 and '
            "hold lead; test it first, or strip it wet."
        ]
    return []


def _usual(condition: str, ready_for: str, may_hold_lead: bool) -> str:
    """Choose how to deal with an old coating where nobody said."""
    if condition not in COATED:
        return ""
    if may_hold_lead:
        return "strip"
    return "sand back" if ready_for == "veneer" else "scuff"


def _steps(
    job: Job, dents: int, patches: int, *, seal: bool, may_hold_lead: bool
) -> Iterator[RefinishStep]:
    if patches:
        yield patching(patches, job.rates)
    if job.area_m2 and job.treatment:
        yield old_coating(job, ("lead",) if may_hold_lead else ())
    if dents:
        yield filling(dents, job.rates)
    if job.area_m2 and job.ready_for == "veneer":
        yield roughing(job)
    elif job.area_m2:
        yield from ready_to_coat(job)
        if seal:
            yield sealing(job)
