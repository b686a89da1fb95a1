"""Needs to cost lines: whole packs bought, pro rata used, shares of a batch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.printing import amount_text, packs_in_words
from pricebook.cost.sharing import Account, spread
from pricebook.cost.shop import Shop
from pricebook.errors import TableError
from pricebook.money import exact
from pricebook.rates import Material, Need, Purchase, buy

_bought = lru_cache(maxsize=1024)(buy)
"""A purchase asked for again is not worked out again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What one piece wants of one material, all its needs together.

    Parameters
    ----------
    material : Material
        The row of the price book.
    group : str
        Heading of the cost sheet.
    quantity : float
        How much. [unit of the material]
    how : str
        The working, in words.
    """

    material: Material
    group: str
    quantity: float
    how: str


def wanted(needs: Iterable[Need], shop: Shop) -> tuple[Wanted, ...]:
    """Add up needs by material, each checked against the price book.

    Parameters
    ----------
    needs : iterable of Need
        What the bench asks for.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of Wanted
        One a material, in the order first asked for.

    Raises
    ------
    TableError
        If an item is not in the price book or is counted in another unit; one
        sentence for each.
    """
    faults: list[str] = []
    sums: dict[str, Wanted] = {}
    for need in needs:
        try:
            material = shop.material(need.item)
        except TableError as error:
            faults += error.faults
            continue
        if material.unit != need.unit:
            faults.append(
                f'"{need.item}" is counted in {need.unit} at the bench and in '
                f"{material.unit} in the price book; use {need.unit} there."
            )
            continue
        before = sums.get(need.item)
        sums[need.item] = Wanted(
            material=material,
            group=need.group,
            quantity=need.quantity + (before.quantity if before else 0),
            how=f"{before.how}; {need.how}" if before else need.how,
        )
    if faults:
        raise TableError(*dict.fromkeys(faults))
    return tuple(sums.values())


def material_lines(
    of_pieces: Sequence[tuple[Wanted, ...]],
    accounts: tuple[Account, Account] | None = None,
    lengths: str = "mm",
) -> tuple[tuple[CostLine, ...], ...]:
    """Buy for all pieces together and share the purchase out among them.

    Parameters
    ----------
    of_pieces : sequence of tuples of Wanted
        What each piece wants.
    accounts : (Account, Account) or None
        What was shared before of cash and of what is used up; None: nothing.
    lengths : str
        "in" or "mm", for tape in words.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the purchases.

    Notes
    -----
    Packs are bought once for the batch. What they cost is shared by quantity, no
    piece paying more than it would alone. Where each alone would have had the whole
    rack and all cannot, no piece pays more than alone with its share of the rack.
    """
    keys = dict.fromkeys(w.material.key for piece in of_pieces for w in piece)
    lines: list[list[CostLine]] = [[] for _ in of_pieces]
    shares = accounts or (Account(len(of_pieces)), Account(len(of_pieces)))
    for key in keys:
        takers = [
            next((one for one in piece if one.material.key == key), None)
            for piece in of_pieces
        ]
        for place, line in _shared(takers, shares, lengths):
            lines[place].append(line)
    return tuple(tuple(piece) for piece in lines)


def _shared(
    takers: Sequence[Wanted | None], accounts: tuple[Account, Account], lengths: str
) -> Iterator[tuple[int, CostLine]]:
    """Yield the place and the line of every piece that wants a material."""
    material = next(one.material for one in takers if one)
    wants = [one.quantity if one else 0.0 for one in takers]
    exactly = [exact(quantity) for quantity in wants]
    whole = _bought(material, float(sum(exactly)))
    alone = [_bought(material, quantity) for quantity in wants]
    parted = _parted(material, exactly)
    caps = (alone, parted)
    bought = accounts[0].share(
        whole.bought_cents, exactly, *([p.bought_cents for p in c] for c in caps)
    )
    used = accounts[1].share(
        whole.used_cents, exactly, *([p.used_cents for p in c] for c in caps)
    )
    left = spread(whole.left_cents, exactly)
    first = next(place for place, one in enumerate(takers) if one)
    shared = sum(1 for one in takers if one) > 1
    for place, one in enumerate(takers):
        if one is None:
            continue
        yield (
            place,
            CostLine(
                group=one.group,
                item=material.name,
                key=material.key,
                quantity=one.quantity,
                unit=material.unit,
                packs=_packs(whole, material, shared=shared),
                bought_cents=bought[place],
                used_cents=used[place],
                left=_left(whole, material, lengths) if place == first else "",
                left_cents=left[place],
                basis=PAID,
                how=one.how,
                source=material.source,
            ),
        )


def _parted(material: Material, quantities: Sequence[Fraction]) -> list[Purchase]:
    """Return what each would buy alone, with its share of what lies in the rack."""
    rack, whole = exact(material.on_hand), sum(quantities) or Fraction(1)
    return [
        _bought(replace(material, on_hand=float(rack * one / whole)), float(one))
        for one in quantities
    ]


def _packs(purchase: Purchase, material: Material, *, shared: bool) -> str:
    if not purchase.packs:
        return ""
    words = " + ".join(
        packs_in_words(count, pack.quantity, material.unit)
        for pack, count in purchase.packs
    )
    return f"{words}, shared" if shared else words


def _left(purchase: Purchase, material: Material, lengths: str) -> str:
    if purchase.left < 1e-9:
        return ""
    return amount_text(purchase.left, material.unit, lengths)
