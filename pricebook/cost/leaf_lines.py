"""Raw leaves to cost lines: whole bundles bought, leaves cut used."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.printing import counted, packs_in_words
from pricebook.cost.sharing import Account
from pricebook.cost.shop import Shop
from pricebook.finish.words import area
from pricebook.lengths import show
from pricebook.money import exact


def leaf_lines(
    found: Sequence[RackedLeaves],
    alone: Sequence[Sequence[RackedLeaves]],
    pieces: Sequence[str],
    shop: Shop,
    accounts: tuple[Account, Account] | None = None,
) -> tuple[tuple[CostLine, ...], ...]:
    """Share leaves out among the pieces that they are laid on.

    Parameters
    ----------
    found : sequence of RackedLeaves
        The leaves of the whole batch, one plan a flitch.
    alone : sequence of sequences of RackedLeaves
        The leaves that each piece would take alone.
    pieces : sequence of str
        The pieces' names, in the order of `alone`.
    shop : Shop
        The price book.
    accounts : (Account, Account) or None
        What was shared before of cash and of what is used up; None: nothing.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the bundles' price.

    Notes
    -----
    Bundles are charged by the area laid, no piece paying more than alone.
    """
    lines: list[list[CostLine]] = [[] for _ in pieces]
    cash, spent = accounts or (Account(len(pieces)), Account(len(pieces)))
    for plan in found:
        laid = [_laid_mm2(plan, piece) for piece in pieces]
        same = [
            [one for one in mine if one.flitch.species == plan.flitch.species]
            for mine in alone
        ]
        bought = cash.share(
            plan.cost_cents, laid, [sum(o.cost_cents for o in mine) for mine in same]
        )
        used = spent.share(
            plan.used_cents, laid, [sum(o.used_cents for o in mine) for mine in same]
        )
        first = next(place for place, mm2 in enumerate(laid) if mm2)
        for place, mm2 in enumerate(laid):
            if mm2:
                cents = (bought[place], used[place])
                line = _line(plan, pieces[place], cents, place == first, shop)
                lines[place].append(line)
    return tuple(tuple(piece) for piece in lines)


def _laid_mm2(plan: RackedLeaves, piece: str) -> Fraction:
    return sum(
        (exact(part.width_mm) * exact(part.length_mm) for part in plan.laid
         if part.piece == piece),
        Fraction(0),
    )  # fmt: skip


def _line(
    plan: RackedLeaves, piece: str, cents: tuple[int, int], first: bool, shop: Shop
) -> CostLine:
    flitch, lengths = plan.flitch, shop.settings.lengths
    mine = {part.leaf for part in plan.laid if part.piece == piece}
    laid = area(float(_laid_mm2(plan, piece)) / 1e6, lengths)
    packs = packs_in_words(plan.bundles, flitch.bundle, "leaf") if plan.bundles else ""
    shared = len({part.piece for part in plan.laid}) > 1
    words = packs or "in the rack"
    return CostLine(
        group="veneer",
        item=f"{flitch.species}, raw leaves {show(flitch.length_mm, lengths)} long",
        key=flitch.key,
        quantity=len(mine),
        unit="leaf",
        packs=f"{words}, shared" if shared else words,
        bought_cents=cents[0],
        used_cents=cents[1],
        left=counted(str(plan.left), "leaf") if plan.left and first else "",
        left_cents=plan.left_cents if first else 0,
        basis=PAID,
        how=f"leaves {min(mine)} to {max(mine)}, {plan.match} match, {laid} laid; "
        f"{'of all pieces ' if shared else ''}{plan.waste}",
        source=next(row.source for row in shop.flitches if row.key == flitch.key),
    )
