"""Runs of grits: from coarse to fine, without leaving scratches."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from numbers import Integral

from pricebook.consumables._checks import refuse
from pricebook.errors import SpecError, shown

GRITS = (40, 60, 80, 100, 120, 150, 180, 220, 240, 320, 400, 600)
"""Grits that a furniture bench keeps (common practice, no source)."""


def grit_run(grits: Sequence[int], *, coarsest: int | None = None) -> tuple[int, ...]:
    """Return a run of grits, or say why it is none.

    Parameters
    ----------
    grits : sequence of int
        The grits in the order of use.
    coarsest : int or None
        Nothing coarser may be used: 120 on factory veneer.

    Returns
    -------
    tuple of int
        The same run.

    Raises
    ------
    SpecError
        If the run is empty, names a grit that is not kept, goes backwards, skips
        more than one grit, or begins coarser than the surface bears.

    Notes
    -----
    Each step may skip one grit of `GRITS`, not two: 80-120-180-240 is a run, 80-150
    is none. Sources: grit_rule_2009 for the rule, veneer_sanding_thread for 120.

    Examples
    --------
    >>> grit_run((80, 120, 180, 240))
    (80, 120, 180, 240)
    >>> grit_run((80, 150))
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: grit run 80-150 goes from 80 to 150 and skips 100, ...
    """
    run = _as_run(grits)
    refuse(_coarsest_faults(coarsest), run_faults(run))
    refuse(run_faults(run, coarsest))
    return run


def shortest_run(coarse: int, fine: int) -> tuple[int, ...]:
    """Return the run of fewest grits from a coarse one to a fine one.

    Parameters
    ----------
    coarse, fine : int
        First and last grit.

    Returns
    -------
    tuple of int
        The run; one grit where both are the same.

    Raises
    ------
    SpecError
        If a grit is not kept, or the last is coarser than the first.

    Notes
    -----
    Skips one grit wherever it may. Source: grit_rule_2009.

    Examples
    --------
    >>> shortest_run(80, 240), shortest_run(120, 180), shortest_run(60, 60)
    ((80, 120, 180, 240), (120, 180), (60,))
    """
    refuse(grit_faults((coarse, fine)))
    if fine < coarse:
        refuse(_step_faults(f"{coarse}-{fine}", coarse, fine))
    first, last = GRITS.index(coarse), GRITS.index(fine)
    between = GRITS[first:last:2]
    return (*between, fine)


def _as_run(grits: Sequence[int]) -> tuple[int, ...]:
    try:
        if not isinstance(grits, (str, bytes)):
            return tuple(grits)
    except TypeError:  # no iterable, or an array without a length
        pass
    raise SpecError(
        f"the grit run is {shown(grits)}; give grits in a row, as 120, 150."
    )


def _coarsest_faults(coarsest: object) -> list[str]:
    return [] if coarsest is None else grit_faults([coarsest])


def run_faults(run: Sequence[int], coarsest: int | None = None) -> list[str]:
    """Return a sentence for everything that keeps a run from being one."""
    if not run:
        return ["the grit run is empty; name at least one grit."]
    unknown = grit_faults(run)
    if unknown:
        return unknown
    name = "-".join(map(str, run))
    faults = [
        fault
        for one, other in pairwise(run)
        for fault in _step_faults(name, one, other)
    ]
    if coarsest is not None and min(run) < coarsest:
        faults.append(
            f"grit run {name} begins at {min(run)}; this surface bears nothing "
            f"coarser than {coarsest}."
        )
    return faults


def grit_faults(grits: Iterable[object]) -> list[str]:
    """Return a sentence for each grit that no bench keeps."""
    kept = ", ".join(map(str, GRITS))
    return [
        f"grit {shown(grit)} is not one that a bench keeps; use one of {kept}."
        for grit in grits
        if not isinstance(grit, Integral) or grit not in GRITS
    ]


def _step_faults(name: str, one: int, other: int) -> list[str]:
    """Return the sentence for a step that goes backwards or too far."""
    if other <= one:
        return [
            f"grit run {name} goes from {one} to {other}; each grit must be finer "
            "than the one before."
        ]
    skipped = GRITS[GRITS.index(one) + 1 : GRITS.index(other)]
    if len(skipped) <= 1:
        return []
    words = ", ".join(map(str, skipped))
    return [
        f"grit run {name} goes from {one} to {other} and skips {words}; skip one grit "
        "at most, or the scratches stay."
    ]
