"""Sheets to cost lines: whole sheets bought, area used, a batch shares by area."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.sharing import Account, spread
from pricebook.finish.words import area as area_words
from pricebook.lengths import show
from pricebook.money import exact, half_up
from pricebook.veneer.layout import Layout, SheetPlan

_Key = tuple[str, bool]
_Pool = tuple[str, str, str]


def veneer_lines(
    layout: Layout,
    alone: Sequence[Layout],
    pieces: Sequence[str],
    lengths: str,
    accounts: tuple[Account, Account] | None = None,
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
    accounts : (Account, Account) or None
        What was shared before of cash and of what is used up; None: nothing.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the sheets' price.

    Notes
    -----
    All sheets of one wood and form are charged together, by the area cut for each
    piece, so that like pieces pay alike whichever sheet they lie on. No piece pays
    more than it would alone; what is cut from its share is paid by the others.
    """
    lines: list[list[CostLine]] = [[] for _ in pieces]
    cash, spent = accounts or (Account(len(pieces)), Account(len(pieces)))
    for pool in dict.fromkeys(_pool(plan) for plan in layout.sheets):
        plans = _of_pool(layout, pool)
        areas = [_area_mm2(plans, piece) for piece in pieces]
        single = [_of_pool(one, pool) for one in alone]
        caps = [[_cash_cents(p) for p in single], [_used_cents(p) for p in single]]
        bought = cash.share(_cash_cents(plans), areas, caps[0])
        used = spent.share(_used_cents(plans), areas, caps[1])
        for place, piece in enumerate(pieces):
            if areas[place]:
                cents = (bought[place], used[place])
                share = _share_words(areas, place, pool[0], lengths)
                lines[place] += _lines(plans, piece, cents, share, lengths)
    return tuple(tuple(piece) for piece in lines)


def _pool(plan: SheetPlan) -> _Pool:
    """Return what is charged together: all that the same faces may be cut from."""
    sheet = plan.sheet
    form = sheet.form if sheet.veneer == "show" else ""
    return (sheet.species, sheet.veneer, form)


def _of_pool(layout: Layout, pool: _Pool) -> list[SheetPlan]:
    return [plan for plan in layout.sheets if _pool(plan) == pool]


def _area_mm2(plans: Iterable[SheetPlan], piece: str) -> Fraction:
    return sum(
        (
            exact(one.along_mm) * exact(one.across_mm)
            for plan in plans
            for one in plan.placed
            if one.face.piece == piece
        ),
        Fraction(0),
    )


def _cash_cents(plans: Iterable[SheetPlan]) -> int:
    return sum(plan.worth_cents for plan in plans if not plan.from_rack)


def _used_cents(plans: Iterable[SheetPlan]) -> int:
    return sum(half_up(_used_worth(plan)) for plan in plans)


def _used_worth(plan: SheetPlan) -> Fraction:
    """Return what is used of a sheet: all of it but the rests worth keeping."""
    kept = exact(plan.kept_m2) / exact(plan.m2)
    return plan.worth_cents * (1 - kept)


def _key(plan: SheetPlan) -> _Key:
    return (plan.sheet.key, plan.from_rack)


def _share_words(
    areas: Sequence[Fraction], place: int, species: str, lengths: str
) -> str:
    """Say what is paid for where pieces share, or nothing where they do not."""
    if sum(1 for area in areas if area) < 2:
        return ""
    mine, whole = (
        area_words(float(a) / 1e6, lengths) for a in (areas[place], sum(areas))
    )
    return f"; its share of all the {species} is {mine} of {whole} cut"


def _lines(
    plans: Sequence[SheetPlan],
    piece: str,
    cents: tuple[int, int],
    share: str,
    lengths: str,
) -> Iterator[CostLine]:
    """Yield a line a size of sheet, the piece's money split by the worth it covers."""
    cash: dict[_Key, Fraction] = defaultdict(Fraction)
    worth: dict[_Key, Fraction] = defaultdict(Fraction)
    for plan in plans:
        if mine := _area_mm2([plan], piece):
            whole = sum(exact(q.along_mm) * exact(q.across_mm) for q in plan.placed)
            cash[_key(plan)] += _cash_cents([plan]) * mine / whole
            worth[_key(plan)] += _used_worth(plan) * mine / whole
    keys = list(worth)
    bought = spread(cents[0], list(cash.values()))
    used = spread(cents[1], list(worth.values()))
    for place, key in enumerate(keys):
        same = [plan for plan in plans if _key(plan) == key]
        mine_too = [p for p in same if piece in {q.face.piece for q in p.placed}]
        first = mine_too[0] is same[0] and _first_on(same[0]) == piece
        rests = [rest for plan in same for rest in plan.rests if rest.usable]
        yield CostLine(
            group="veneer",
            item=_item(same[0], lengths),
            key=key[0],
            quantity=len(mine_too),
            unit="sheet",
            packs=_packs(len(mine_too), rack=key[1], shared=bool(share)),
            bought_cents=bought[place],
            used_cents=used[place],
            left=_rest_words(same, lengths) if first and rests else "",
            left_cents=sum(_kept_cents(plan) for plan in same) if first else 0,
            basis=PAID,
            how=_how(mine_too, piece, lengths) + share,
            source=same[0].sheet.source,
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
        return "in the rack, shared" if shared else "in the rack"
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
