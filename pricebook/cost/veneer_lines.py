"""Sheets to cost lines: whole sheets bought, area used, a batch shares by area."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from fractions import Fraction

from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.purchases import capped_shares
from pricebook.finish.words import area as area_words
from pricebook.lengths import show
from pricebook.money import exact, half_up, share_out
from pricebook.veneer.layout import Layout, SheetPlan

_Key = tuple[str, bool]


def veneer_lines(
    layout: Layout, alone: Sequence[Layout], pieces: Sequence[str], lengths: str
) -> tuple[tuple[CostLine, ...], ...]:
    """Share the sheets of a layout out among the pieces on them.

    Parameters
    ----------
    layout : Layout
        The sheets of the whole batch.
    alone : sequence of Layout
        The sheets that each piece would take alone.
    pieces : sequence of str
        The pieces' names, in the order of `alone`.
    lengths : str
        "in" or "mm", for sizes in words.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the sheets' price.

    Notes
    -----
    A shared sheet is charged by the area cut from it, and no piece pays more than
    it would alone; what is cut from its share is paid by the others, by area.
    """
    worth = _weights(layout, pieces, kept=True)
    used = _weights(layout, pieces, kept=False)
    cash = _by_piece(layout, pieces)
    bought = _capped(layout.cash_cents, cash, [one.cash_cents for one in alone])
    spent = _capped(_used_cents(layout), used, [_used_cents(one) for one in alone])
    return tuple(
        tuple(_lines(layout, piece, bought[i], spent[i], worth[piece], lengths))
        for i, piece in enumerate(pieces)
    )


def _used_cents(layout: Layout) -> int:
    return sum(half_up(_used_worth(plan)) for plan in layout.sheets)


def _used_worth(plan: SheetPlan) -> Fraction:
    """Return what is used of a sheet: all of it but the rests worth keeping."""
    kept = exact(plan.kept_m2) / exact(plan.m2)
    return plan.worth_cents * (1 - kept)


def _key(plan: SheetPlan) -> _Key:
    return (plan.sheet.key, plan.from_rack)


def _weights(
    layout: Layout, pieces: Sequence[str], *, kept: bool
) -> dict[str, dict[_Key, Fraction]]:
    """Weigh each piece's part in each size of sheet, by area and worth."""
    found: dict[str, dict[_Key, Fraction]] = {p: defaultdict(Fraction) for p in pieces}
    for plan in layout.sheets:
        areas = _areas(plan)
        whole = sum(areas.values())
        worth = Fraction(plan.worth_cents) if kept else _used_worth(plan)
        for piece, area in areas.items():
            found[piece][_key(plan)] += worth * area / whole
    return found


def _by_piece(layout: Layout, pieces: Sequence[str]) -> dict[str, dict[_Key, Fraction]]:
    bought = Layout(
        sheets=tuple(plan for plan in layout.sheets if not plan.from_rack),
        least_possible_cents=0,
    )
    return _weights(bought, pieces, kept=True)


def _areas(plan: SheetPlan) -> dict[str, Fraction]:
    areas: dict[str, Fraction] = defaultdict(Fraction)
    for placed in plan.placed:
        areas[placed.face.piece] += exact(placed.along_mm) * exact(placed.across_mm)
    return areas


def _capped(
    total_cents: int,
    weights: dict[str, dict[_Key, Fraction]],
    caps: Sequence[int],
) -> tuple[int, ...]:
    sums = [sum(row.values(), Fraction(0)) for row in weights.values()]
    fair = caps if sum(caps) >= total_cents else [total_cents] * len(sums)
    return capped_shares(total_cents, sums, fair)


def _lines(
    layout: Layout,
    piece: str,
    bought_cents: int,
    used_cents: int,
    worth: dict[_Key, Fraction],
    lengths: str,
) -> Iterator[CostLine]:
    keys = list(worth)
    if not keys:
        return
    cash = [worth[key] if not key[1] else Fraction(0) for key in keys]
    bought = share_out(bought_cents, cash) if any(cash) else (0,) * len(keys)
    used = share_out(used_cents, [worth[key] or Fraction(1) for key in keys])
    for place, key in enumerate(keys):
        plans = [plan for plan in layout.sheets if _key(plan) == key]
        mine = [p for p in plans if piece in {q.face.piece for q in p.placed}]
        first = mine[0] is plans[0] and _first_on(plans[0]) == piece
        rests = [rest for plan in plans for rest in plan.rests if rest.usable]
        shared = any(len({q.face.piece for q in p.placed}) > 1 for p in mine)
        yield CostLine(
            group="veneer",
            item=_item(plans[0], lengths),
            key=key[0],
            quantity=len(mine),
            unit="sheet",
            packs=_packs(len(mine), rack=key[1], shared=shared),
            bought_cents=bought[place],
            used_cents=used[place],
            left=_rest_words(plans, lengths) if first and rests else "",
            left_cents=sum(_kept_cents(plan) for plan in plans) if first else 0,
            basis=PAID,
            how=_how(mine, piece, lengths),
            source=plans[0].sheet.source,
        )


def _first_on(plan: SheetPlan) -> str:
    return plan.placed[0].face.piece


def _kept_cents(plan: SheetPlan) -> int:
    return plan.worth_cents - half_up(_used_worth(plan))


def _item(plan: SheetPlan, lengths: str) -> str:
    sheet = plan.sheet
    size = f"{show(sheet.along_mm, lengths)} x {show(sheet.across_mm, lengths)}"
    kind = "offcut" if sheet.offcut else sheet.form
    return f"{sheet.species}, {kind} {size}"


def _packs(count: int, *, rack: bool, shared: bool) -> str:
    if rack:
        return "in the rack"
    words = f"{count} sheet" + ("s" if count > 1 else "")
    return f"{words}, shared" if shared else words


def _rest_words(plans: Sequence[SheetPlan], lengths: str) -> str:
    sizes = Counter(
        f"{show(rest.along_mm, lengths)} x {show(rest.across_mm, lengths)}"
        for plan in plans
        for rest in plan.rests
        if rest.usable
    )
    return "; ".join(f"{n} of {s}" if n > 1 else s for s, n in sizes.items())


def _how(plans: Sequence[SheetPlan], piece: str, lengths: str) -> str:
    mine = [q for plan in plans for q in plan.placed if q.face.piece == piece]
    m2 = sum(q.along_mm * q.across_mm for q in mine) / 1e6
    whole = sum(plan.m2 for plan in plans)
    kept = sum(plan.kept_m2 for plan in plans)
    faces = f"{len(mine)} face" + ("s" if len(mine) != 1 else "")
    words = f"{faces}, {area_words(m2, lengths)} of {area_words(whole, lengths)}"
    return f"{words}; {area_words(kept, lengths)} kept as offcuts" if kept else words
