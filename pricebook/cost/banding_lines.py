"""Rolls to cost lines: whole rolls bought, length used, a batch shares by length."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from pricebook.banding import BandingPlan, RollPlan
from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.purchases import capped_shares
from pricebook.cost.shop import Shop
from pricebook.lengths import show
from pricebook.money import exact, half_up, share_out
from pricebook.takeoff import TakeOff

_Key = tuple[str, bool]


def banding_lines(
    plan: BandingPlan | None,
    alone: Sequence[BandingPlan | None],
    measured: Sequence[TakeOff],
    shop: Shop,
) -> tuple[tuple[CostLine, ...], ...]:
    """Share rolls out among the pieces whose edges are cut from them.

    Parameters
    ----------
    plan : BandingPlan or None
        The rolls of the whole batch; None where nothing is banded.
    alone : sequence of BandingPlan or None
        The rolls that each piece would take alone.
    measured : sequence of TakeOff
        The take-offs of the pieces.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the rolls' price.
    """
    lines: list[list[CostLine]] = [[] for _ in measured]
    rolls = plan.rolls if plan else ()
    shares_of = _capped(rolls, alone, measured)
    for key in dict.fromkeys((p.roll.key, p.from_rack) for p in rolls):
        same = [p for p in rolls if (p.roll.key, p.from_rack) == key]
        takers = [
            (place, used_mm)
            for place, one in enumerate(measured)
            if (used_mm := _used_mm(same, one.piece))
        ]
        shares = [used_mm for _, used_mm in takers]
        used = share_out(_used_cents(same), shares)
        for number, (place, used_mm) in enumerate(takers):
            bought = shares_of[place].get(key, 0)
            line = _line(same, used_mm, bought, used[number], number == 0, shop)
            lines[place].append(line)
    return tuple(tuple(piece) for piece in lines)


def _capped(
    rolls: Sequence[RollPlan],
    alone: Sequence[BandingPlan | None],
    measured: Sequence[TakeOff],
) -> list[dict[_Key, int]]:
    """Share what the rolls cost by length, no piece paying more than alone."""
    owed: list[dict[_Key, Fraction]] = [{} for _ in measured]
    for key in dict.fromkeys((p.roll.key, p.from_rack) for p in rolls):
        same = [p for p in rolls if (p.roll.key, p.from_rack) == key]
        lengths = [_used_mm(same, one.piece) for one in measured]
        for place, used_mm in enumerate(lengths):
            if used_mm:
                owed[place][key] = _price(same) * used_mm / sum(lengths)
    sums = [sum(row.values(), Fraction(0)) for row in owed]
    caps = [one.cash_cents if one else 0 for one in alone]
    total = _price(rolls)
    fair = caps if sum(caps) >= total else [total] * len(caps)
    pays = capped_shares(total, sums, fair)
    return [
        dict(zip(row, share_out(cents, list(row.values())), strict=True))
        if sum(row.values())
        else {}
        for row, cents in zip(owed, pays, strict=True)
    ]


def _used_mm(rolls: Sequence[RollPlan], piece: str) -> Fraction:
    return sum(
        (exact(e.cut_mm) for p in rolls for e in p.edges if e.piece == piece),
        Fraction(0),
    )


def _price(rolls: Sequence[RollPlan]) -> int:
    return sum(0 if p.from_rack else p.roll.price_cents for p in rolls)


def _used_cents(rolls: Sequence[RollPlan]) -> int:
    return sum(p.worth_cents for p in rolls) - _left_cents(rolls)


def _left_cents(rolls: Sequence[RollPlan]) -> int:
    return sum(
        half_up(p.worth_cents * exact(p.left_mm) / exact(p.roll.length_mm))
        for p in rolls
    )


def _line(
    rolls: Sequence[RollPlan],
    used_mm: Fraction,
    bought_cents: int,
    used_cents: int,
    first: bool,
    shop: Shop,
) -> CostLine:
    row, lengths = rolls[0].roll, shop.settings.lengths
    size = f"{show(row.width_mm, lengths)} x {_long(row.length_mm, lengths)}"
    count = f"{len(rolls)} roll" + ("s" if len(rolls) > 1 else "")
    pieces = {e.piece for p in rolls for e in p.edges}
    edges = sum(1 for p in rolls for _ in p.edges)
    words = f"{edges} edge" + ("s" if edges != 1 else "")
    lefts = "; ".join(_long(p.left_mm, lengths) for p in rolls if p.left_mm > 0)
    return CostLine(
        group="edge banding",
        item=f"{row.species}, {row.form} {size}",
        key=row.key,
        quantity=float(used_mm) / 1000,
        unit="m",
        packs="in the rack"
        if rolls[0].from_rack
        else count + (", shared" if len(pieces) > 1 else ""),
        bought_cents=bought_cents,
        used_cents=used_cents,
        left=lefts if first else "",
        left_cents=_left_cents(rolls) if first else 0,
        basis=PAID,
        how=f"{_long(float(used_mm), lengths)} of banding, end allowances included"
        + (f"; {words} on {count}" if len(pieces) > 1 else f", {words}"),
        source=row.source,
    )


def _long(length_mm: float, lengths: str) -> str:
    """Print a long length in feet or metres."""
    if lengths == "in":
        return f"{length_mm / 304.8:.2f}".rstrip("0").rstrip(".") + " ft"
    return f"{length_mm / 1000:.2f} m"
