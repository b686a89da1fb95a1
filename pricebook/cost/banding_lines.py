"""Rolls to cost lines: whole rolls bought, length used, a batch shares by length."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from pricebook.banding import BandingPlan, RollPlan
from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.sharing import Account, spread
from pricebook.cost.shop import Shop
from pricebook.lengths import show
from pricebook.money import exact, half_up
from pricebook.takeoff import TakeOff

_Key = tuple[str, bool]


def banding_lines(
    plan: BandingPlan | None,
    alone: Sequence[BandingPlan | None],
    measured: Sequence[TakeOff],
    shop: Shop,
    accounts: tuple[Account, Account] | None = None,
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
    accounts : (Account, Account) or None
        What was shared before of cash and of what is used up; None: nothing.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the rolls' price.

    Notes
    -----
    All rolls of one wood are charged together, by the length cut for each piece,
    so that like pieces pay alike whichever roll serves them; no piece pays more
    than it would alone.
    """
    lines: list[list[CostLine]] = [[] for _ in measured]
    names = [one.piece for one in measured]
    cash, spent = accounts or (Account(len(names)), Account(len(names)))
    for species in _woods(plan):
        rolls = _of_wood(plan, species)
        lengths_mm = [_used_mm(rolls, name) for name in names]
        single = [_of_wood(one, species) for one in alone]
        caps = [[_price(one) for one in single], [_used_cents(one) for one in single]]
        bought = cash.share(_price(rolls), lengths_mm, caps[0])
        used = spent.share(_used_cents(rolls), lengths_mm, caps[1])
        for place, name in enumerate(names):
            if lengths_mm[place]:
                cents = (bought[place], used[place])
                lines[place] += _lines(rolls, name, cents, shop)
    return tuple(tuple(piece) for piece in lines)


def _woods(plan: BandingPlan | None) -> list[str]:
    return list(dict.fromkeys(one.roll.species for one in plan.rolls)) if plan else []


def _of_wood(plan: BandingPlan | None, species: str) -> list[RollPlan]:
    return [one for one in (plan.rolls if plan else ()) if one.roll.species == species]


def _lines(
    rolls: Sequence[RollPlan], piece: str, cents: tuple[int, int], shop: Shop
) -> Iterator[CostLine]:
    """Yield a line a kind of roll, the piece's money split by what it covers."""
    kinds: dict[_Key, list[RollPlan]] = {}
    for one in rolls:
        kinds.setdefault((one.roll.key, one.from_rack), []).append(one)
    mine = {key: mm for key, same in kinds.items() if (mm := _used_mm(same, piece))}
    parts = {key: mm / _used_mm(kinds[key], None) for key, mm in mine.items()}
    bought = spread(cents[0], [_price(kinds[k]) * part for k, part in parts.items()])
    used = spread(cents[1], [_used_cents(kinds[k]) * part for k, part in parts.items()])
    for place, key in enumerate(mine):
        first = next(e.piece for one in kinds[key] for e in one.edges) == piece
        money = (bought[place], used[place])
        yield _line(kinds[key], mine[key], money, first, shop)


def _used_mm(rolls: Sequence[RollPlan], piece: str | None) -> Fraction:
    """Return the length cut from rolls for a piece, or for all of them."""
    return sum(
        (exact(e.cut_mm) for p in rolls for e in p.edges if piece in (None, e.piece)),
        Fraction(0),
    )


def _price(rolls: Iterable[RollPlan]) -> int:
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
    cents: tuple[int, int],
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
        bought_cents=cents[0],
        used_cents=cents[1],
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
