"""The finish of a piece as plain text: coats, wet and dry films, and a word."""

from __future__ import annotations

from pricebook.cost.printing import text_table
from pricebook.finish import FinishPlan
from pricebook.finish.words import area, film, pounds, volume

COAT_HEADS = (
    "coat",
    "times",
    "laid on by",
    "wet, each",
    "dry, each",
    "dry, all",
    "mixed",
)


def finish_text(plan: FinishPlan | None) -> str:
    """Print every kind of coat with its film, and what they build together.

    Parameters
    ----------
    plan : FinishPlan or None
        The finish of a piece; None where it gets none.

    Returns
    -------
    str
        Plain text; empty without a finish.
    """
    if plan is None:
        return ""
    table = text_table(COAT_HEADS, coat_rows(plan), right=(1, 3, 4, 5))
    title = (
        f"Finish: {plan.system.name}, {area(plan.rows[0].area_m2, plan.lengths)} a coat"
    )
    return f"{title}\n{table}\n  {build_words(plan)}"


def coat_rows(plan: FinishPlan) -> list[tuple[str, ...]]:
    """Return a row of words a kind of coat, in the order they are laid on.

    Parameters
    ----------
    plan : FinishPlan
        The finish.

    Returns
    -------
    list of tuple of str
        As `COAT_HEADS` says, in the reader's units.
    """
    lengths = plan.lengths
    rows = []
    for row in plan.rows:
        coat = row.coat
        cut = "" if coat.cut_lb is None else f", {pounds(coat.cut_lb)}"
        films = (coat.wet_um, coat.dry_um, row.dry_um)
        rows.append(
            (
                f"{coat.name}{cut}",
                str(coat.times),
                coat.method,
                *(film(thickness, lengths) for thickness in films),
                volume(row.mixed_l, lengths),
            )
        )
    return rows


def build_words(plan: FinishPlan) -> str:
    """Say what all coats build dry, and whether that is thin, usual or heavy.

    Parameters
    ----------
    plan : FinishPlan
        The finish.

    Returns
    -------
    str
        A sentence.
    """
    whole = f"in all {film(plan.dry_um, plan.lengths)} dry"
    limits = plan.system.usual_film_um
    if limits is None:
        return f"{whole}; no usual film is stated for it."
    least, most = (film(limit, plan.lengths) for limit in limits)
    if plan.build == "usual":
        return f"{whole}, within the usual {least} to {most} ({plan.system.source})."
    return f"{whole}, {plan.build}: {least} to {most} is usual ({plan.system.source})."
