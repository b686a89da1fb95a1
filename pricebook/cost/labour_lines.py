"""Labour, overhead, spoilage and gifts as cost lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from pricebook.cost.job import Job
from pricebook.cost.lines import GIFT, PAID, TIME, CostLine
from pricebook.cost.shop import Shop
from pricebook.cost.veneering import LAYS
from pricebook.labour import (
    LabourLine,
    LabourPlan,
    Learning,
    people_for,
    plan_labour,
)
from pricebook.money import exact, show, times
from pricebook.piece import Piece
from pricebook.rates import Minutes, Settings
from pricebook.veneer.layout import Layout

_STATED = "for the"
_BASIS = {"paid": PAID, "given": TIME, "none": TIME}


def piece_labour(job: Job, layout: Layout, shop: Shop) -> LabourPlan:
    """Return the work of a piece with its minutes, crew and learning.

    Parameters
    ----------
    job : Job
        The piece, planned.
    layout : Layout
        Its sheets; a large one takes two people to cut.
    shop : Shop
        The price book.

    Returns
    -------
    LabourPlan
        The steps.
    """
    wishes, settings = job.piece.labour, shop.settings
    learning = None
    if wishes.learning_rate is not None:
        learning = Learning(
            rate=wishes.learning_rate,
            convention=wishes.learning_convention,
            pieces=1,
            made_before=wishes.made_before,
        )
    plan = plan_labour(
        [task.work for task in job.bench.tasks],
        _minutes(job, shop),
        paid_cents_per_hour=settings.paid_cents_per_hour,
        given_cents_per_hour=settings.given_cents_per_hour,
        rework_share=shop.allowance("rework"),
        teaching_min=wishes.teaching_min,
        learning=learning,
        crew=_crew(job, layout),
        lengths=settings.lengths,
    )
    return plan if wishes.hours is None else _stated(plan, wishes.hours, settings)


def _stated(plan: LabourPlan, hours: float, settings: Settings) -> LabourPlan:
    """Stretch or shrink every step so that all take the hours the maker states."""
    factor = exact(hours) * 60 / exact(plan.person_min)
    words = f"x {float(factor):.2f} {_STATED} {hours:g} h stated in all"
    hourly = _hourly(settings)
    lines = [
        replace(
            line,
            person_min=float(exact(line.person_min) * factor),
            amount_cents=times(hourly[line.pay], exact(line.person_min) * factor / 60),
            how=f"{line.how}; {words}",
        )
        for line in plan.lines
    ]
    return replace(plan, lines=tuple(lines))


def _hourly(settings: Settings) -> dict[str, int]:
    return {
        "paid": settings.paid_cents_per_hour,
        "given": settings.given_cents_per_hour,
        "none": 0,
    }


def _minutes(job: Job, shop: Shop) -> tuple[Minutes, ...]:
    pay = job.piece.labour.pay
    if pay is None:
        return shop.minutes
    return tuple(replace(row, pay=pay) for row in shop.minutes)


def _crew(job: Job, layout: Layout) -> dict[str, int]:
    """Two people cut a sheet, and lay a face, that is too large for one."""
    faces = job.measured.faces
    if not faces:
        return {}
    mine = [
        plan.sheet
        for plan in layout.sheets
        if any(placed.face.piece == job.piece.name for placed in plan.placed)
    ]
    return {
        "cut veneer": max(
            (people_for(s.along_mm, s.across_mm) for s in mine), default=1
        ),
        **{
            task.work.operation: max(
                people_for(f.cut_along_mm, f.cut_across_mm) for f in faces
            )
            for task in job.bench.tasks
            if task.work.operation in LAYS
        },
    }


def hours_words(minutes: float) -> str:
    """Return minutes as hours and minutes: "2 h 15 min"."""
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d} min" if rest else f"{hours} h"


def labour_lines(labour: LabourPlan, settings: Settings) -> Iterator[CostLine]:
    """Yield a line an operation, its steps added up and rounded once.

    Parameters
    ----------
    labour : LabourPlan
        The steps.
    settings : Settings
        Rates of an hour that is paid, given, or not counted.

    Yields
    ------
    CostLine
        Hours paid are cash; hours given are time at their stated value.
    """
    steps: dict[tuple[str, str], list[LabourLine]] = {}
    for line in labour.lines:
        steps.setdefault((line.operation, line.pay), []).append(line)
    hourly = _hourly(settings)
    for (operation, pay), lines in steps.items():
        minutes = sum(line.person_min for line in lines)
        if not minutes:
            continue
        cents = times(hourly[pay], exact(minutes) / 60)
        yield CostLine(
            group="labour",
            item=lines[0].name,
            key=operation,
            quantity=minutes / 60,
            unit="h",
            packs="",
            bought_cents=cents if pay == "paid" else 0,
            used_cents=cents,
            left="",
            left_cents=0,
            basis=_BASIS[pay],
            how=_how(lines, minutes, pay),
            source=lines[0].source,
        )


def _how(lines: Sequence[LabourLine], minutes: float, pay: str) -> str:
    words = {"paid": "paid", "given": "given", "none": "not counted"}[pay]
    if len(lines) == 1:
        return f"{lines[0].how}; {hours_words(minutes)}, {words}"
    stated = [line.how.split("; ")[-1] for line in lines if _STATED in line.how][:1]
    steps = Counter(line.how.split("; ")[0] for line in lines)
    each = [how if n == 1 else f"{n} times {how}" for how, n in steps.items()]
    return "; ".join([*each, *stated, f"{hours_words(minutes)}, {words}"])


def overhead_line(labour: LabourPlan, settings: Settings) -> Iterator[CostLine]:
    """Yield the shop's overhead for the hours at the bench; no cash changes hands."""
    rate = settings.overhead_cents_per_hour
    if not rate or not labour.person_min:
        return
    hours = labour.person_min / 60
    yield CostLine(
        group="overhead",
        item="rent, light and machines",
        key="",
        quantity=hours,
        unit="h",
        packs="",
        bought_cents=0,
        used_cents=times(rate, exact(labour.person_min) / 60),
        left="",
        left_cents=0,
        basis=PAID,
        how=f"{hours_words(labour.person_min)} at {show(rate, settings.currency)}/h",
        source="the shop's settings",
    )


def spoilage_line(lines: Iterable[CostLine], shop: Shop) -> Iterator[CostLine]:
    """Yield the allowance for material spoiled at the bench."""
    share = shop.allowance("spoilage")
    rows = [line for line in lines if line.group in ("veneer", "edge banding")]
    base_cents = sum(line.used_cents for line in rows)
    if not share or not base_cents:
        return
    yield CostLine(
        group="spoilage",
        item="veneer and banding spoiled",
        key="spoilage",
        quantity=100 * share,
        unit="%",
        packs="",
        bought_cents=0,
        used_cents=times(base_cents, share),
        left="",
        left_cents=0,
        basis=PAID,
        how=f"{100 * share:g} % of the veneer and banding used",
        source="common practice, no source",
    )


def gift_lines(piece: Piece) -> Iterator[CostLine]:
    """Yield what was given for the piece, at its stated value."""
    for gift in piece.gifts:
        yield CostLine(
            group="gifts",
            item=gift.item,
            key="",
            quantity=1,
            unit="each",
            packs="",
            bought_cents=0,
            used_cents=gift.value_cents,
            left="",
            left_cents=0,
            basis=GIFT,
            how=f"given by {gift.given_by}, at its stated value",
            source="stated by the giver or the charity",
        )
