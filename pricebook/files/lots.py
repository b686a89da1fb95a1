"""Read the lots of an event file, and the rules that lots and event share."""

from __future__ import annotations

from datetime import datetime, time
from typing import Any

from pricebook.errors import PricebookError
from pricebook.event import Demand, Lot, LotCost, Value
from pricebook.files.taking import Taker
from pricebook.proceeds import read_rules
from pricebook.proceeds.checks import Rule


def moment(t: Taker, key: str, bare: time, *default: Any) -> datetime | None:
    """Take a date with a time; a bare date stands for `bare` on that day."""
    text = t.text(key, *default)
    if text is None:
        return None
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        t.fault(key, f'is "{text}"; write date and time: "2027-04-17 18:00".')
        return None
    is_bare = len(text) == len("2027-04-17")
    return datetime.combine(found.date(), bare) if is_bare else found


def rules(t: Taker, key: str) -> tuple[Rule, ...]:
    """Take an order of deductions; a repayment's cost is left to each lot."""
    rows = [dict(row) for row in t.tables(key)]
    for row in rows:
        if row.get("kind") == "repay":
            row.setdefault("cost_cents", 0)
    if not rows:
        return ()
    try:
        read = read_rules(rows)
    except PricebookError as error:
        for sentence in error.faults:
            t.fault(key, sentence)
        return ()
    return (*read.deductions, read.final)


def lot(t: Taker) -> Lot | None:
    """Take one lot of the catalogue."""
    return t.build(
        Lot,
        key=t.text("lot"),
        title=t.text("title"),
        opening_cents=t.money("opening"),
        piece=t.text("piece", ""),
        story=t.text("story", ""),
        maker=t.text("maker", ""),
        payee=t.text("payee", ""),
        giver=t.text("giver", ""),
        owner=t.text("owner", "maker"),
        value=_part(t, "value", _value),
        donated_cents=t.money("donated", None),
        estimate_low_cents=t.money("estimate_low", None),
        estimate_high_cents=t.money("estimate_high", None),
        reserve_cents=t.money("reserve", None),
        demand=_part(t, "demand", _demand),
        cost=_part(t, "cost", _cost),
        repay_cents=t.money("repay", 0),
        deductions=rules(t, "deductions"),
        if_unsold=t.text("if_unsold", "next sale"),
        unsold_cents=t.money("unsold_value", 0),
        picture=t.text("picture", ""),
    )


def _part(t: Taker, key: str, read: Any) -> Any:
    """Take a table within a lot, its faults named with the lot's place."""
    table = t.table(key)
    if table is None:
        return None
    faults: list[str] = []
    made = read(Taker(f"{t.where}: {key}", table, faults))
    for sentence in faults:
        t.fault(key, sentence.removeprefix(f"{t.where}: {key}: "))
    return made


def _value(t: Taker) -> Value | None:
    return t.build(
        Value,
        cents=t.money("amount"),
        method=t.text("method"),
        by=t.text("by"),
        on=t.day("on"),
        published=moment(t, "published", time.max, None),
    )


def _demand(t: Taker) -> Demand | None:
    return t.build(
        Demand,
        median_cents=t.money("median"),
        sigma=t.number("sigma"),
        bidders=t.number("bidders"),
        crowd=t.text("crowd", "poisson"),
    )


def _cost(t: Taker) -> LotCost | None:
    return t.build(
        LotCost,
        cash_spent_cents=t.money("cash_spent", 0),
        used_up_cents=t.money("used_up", 0),
        gifts_cents=t.money("gifts", 0),
        time_cents=t.money("time_given", 0),
        hours=t.number("hours", 0.0),
    )
