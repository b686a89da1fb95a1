"""What the bench works from: faces, edges, steps and days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.frames.building import (
    CENTS,
    COUNT,
    DAY,
    NUMBER,
    TEXT,
    YES_NO,
    frame_of,
)
from pricebook.frames.sheets import size_words
from pricebook.labour import ElapsedPlan, LabourPlan
from pricebook.takeoff import TakeOff

if TYPE_CHECKING:
    import pandas as pd


def faces_frame(take_off: TakeOff, lengths: str = "in") -> pd.DataFrame:
    """Return the faces to veneer, in numbers and in the reader's lengths.

    Parameters
    ----------
    take_off : TakeOff
        What was measured.
    lengths : str
        "in" or "mm", the reader's choice, for `net` and `as_cut`.

    Returns
    -------
    pandas.DataFrame
        A row a face. Columns: `face` (string), `count` (int64), `along_mm`,
        `across_mm` (float64, net), `net`, `as_cut` (string, with overhang),
        `cut_m2` (float64, all of the row), `veneer`, `species`, `run` (string),
        `centred` (bool).
    """
    columns = {
        "face": TEXT,
        "count": COUNT,
        "along_mm": NUMBER,
        "across_mm": NUMBER,
        "net": TEXT,
        "as_cut": TEXT,
        "cut_m2": NUMBER,
        "veneer": TEXT,
        "species": TEXT,
        "run": TEXT,
        "centred": YES_NO,
    }
    rows = [
        [
            *(face.name, face.count, face.along_mm, face.across_mm),
            size_words(face.along_mm, face.across_mm, lengths),
            size_words(face.cut_along_mm, face.cut_across_mm, lengths),
            *(face.cut_m2, face.veneer, face.species, face.run or "", face.centred),
        ]
        for face in take_off.faces
    ]
    return frame_of(columns, rows)


def edges_frame(take_off: TakeOff) -> pd.DataFrame:
    """Return the edges to band.

    Parameters
    ----------
    take_off : TakeOff
        What was measured.

    Returns
    -------
    pandas.DataFrame
        A row an edge. Columns: `edge` (string), `count` (int64), `length_mm`,
        `width_mm`, `end_allowance_mm` (float64), `species` (string).
    """
    columns = {
        "edge": TEXT,
        "count": COUNT,
        "length_mm": NUMBER,
        "width_mm": NUMBER,
        "end_allowance_mm": NUMBER,
        "species": TEXT,
    }
    rows = [
        [e.name, e.count, e.length_mm, e.width_mm, e.end_allowance_mm, e.species]
        for e in take_off.edges
    ]
    return frame_of(columns, rows)


def labour_frame(plan: LabourPlan) -> pd.DataFrame:
    """Return the steps at the bench.

    Parameters
    ----------
    plan : LabourPlan
        The steps.

    Returns
    -------
    pandas.DataFrame
        A row a step. Columns: `step` (string), `quantity` (float64), `unit`
        (string), `people` (int64), `person_min`, `drying_min` (float64), `pay`
        (string), `amount_cents` (int64), `how`, `source` (string).
    """
    columns = {
        "step": TEXT,
        "quantity": NUMBER,
        "unit": TEXT,
        "people": COUNT,
        "person_min": NUMBER,
        "drying_min": NUMBER,
        "pay": TEXT,
        "amount_cents": CENTS,
        "how": TEXT,
        "source": TEXT,
    }
    rows = [
        [
            *(line.name, line.quantity, line.unit, line.people, line.person_min),
            *(line.drying_min, line.pay, line.amount_cents, line.how, line.source),
        ]
        for line in plan.lines
    ]
    return frame_of(columns, rows)


def elapsed_frame(plan: ElapsedPlan) -> pd.DataFrame:
    """Return the steps with their days: the numbers of the plan's picture.

    Parameters
    ----------
    plan : ElapsedPlan
        Sessions and drying.

    Returns
    -------
    pandas.DataFrame
        A row a step. Columns: `step` (string), `work_min`, `drying_min` (float64),
        `sessions` (int64), `starts_on`, `ends_on`, `dry_on` (datetime64[s]).
    """
    columns = {
        "step": TEXT,
        "work_min": NUMBER,
        "drying_min": NUMBER,
        "sessions": COUNT,
        "starts_on": DAY,
        "ends_on": DAY,
        "dry_on": DAY,
    }
    rows = [
        [
            *(one.step.name, one.step.work_min, one.step.drying_min, len(one.stints)),
            *(one.starts, one.ends, one.dry),
        ]
        for one in plan.steps
    ]
    return frame_of(columns, rows)


def labour_sentence(plan: LabourPlan) -> str:
    """Say in one sentence how long the work takes, and what takes longest.

    Parameters
    ----------
    plan : LabourPlan
        The steps.

    Returns
    -------
    str
        Hours, and the longest step.
    """
    if not plan.person_min:
        return "There is no work to do."
    longest = max(plan.lines, key=lambda line: line.person_min)
    return (
        f"The work takes {plan.hours:.1f} hours of everybody together, most of it to "
        f"{longest.name} ({longest.person_min / 60:.1f} hours)."
    )
