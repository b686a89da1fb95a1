"""Needs to cost lines: whole packs bought, pro rata used, shares of a batch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.printing import counted, packs_in_words
from pricebook.cost.shop import Shop
from pricebook.errors import TableError
from pricebook.money import exact, share_out
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
) -> tuple[tuple[CostLine, ...], ...]:
    """Buy for all pieces together and share the purchase out among them.

    Parameters
    ----------
    of_pieces : sequence of tuples of Wanted
        What each piece wants.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the purchases.

    Notes
    -----
    Packs are bought once for the batch. What they cost is shared by quantity, no
    piece paying more than it would alone with its share of what lies in the rack,
    the cents by largest remainder.
    """
    keys = dict.fromkeys(w.material.key for piece in of_pieces for w in piece)
    lines: list[list[CostLine]] = [[] for _ in of_pieces]
    for key in keys:
        takers = [
            (number, one)
            for number, piece in enumerate(of_pieces)
            for one in piece
            if one.material.key == key
        ]
        for (number, _), line in zip(takers, _shared(takers), strict=True):
            lines[number].append(line)
    return tuple(tuple(piece) for piece in lines)


def _shared(takers: Sequence[tuple[int, Wanted]]) -> Iterator[CostLine]:
    material = takers[0][1].material
    quantities = [exact(one.quantity) for _, one in takers]
    whole = _bought(material, float(sum(quantities)))
    alone = _alone(material, quantities)
    bought = _fair(whole.bought_cents, quantities, [p.bought_cents for p in alone])
    used = _fair(whole.used_cents, quantities, [p.used_cents for p in alone])
    left = _spread(whole.left_cents, quantities)
    for place, (_, one) in enumerate(takers):
        yield CostLine(
            group=one.group,
            item=material.name,
            key=material.key,
            quantity=one.quantity,
            unit=material.unit,
            packs=_packs(whole, material, shared=len(takers) > 1),
            bought_cents=bought[place],
            used_cents=used[place],
            left=_left(whole, material) if place == 0 else "",
            left_cents=left[place],
            basis=PAID,
            how=one.how,
            source=material.source,
        )


def _fair(
    total_cents: int, weights: Sequence[Fraction], alone_cents: Sequence[int]
) -> tuple[int, ...]:
    """Share by weight, no share above what it would be alone."""
    if sum(alone_cents) < total_cents:  # by a rounding of the shares of the rack
        return _spread(total_cents, weights)
    return capped_shares(total_cents, weights, alone_cents)


def _alone(material: Material, quantities: Sequence[Fraction]) -> list[Purchase]:
    """Return what each would buy alone, with its share of what lies in the rack."""
    rack, whole = exact(material.on_hand), sum(quantities) or Fraction(1)
    return [
        _bought(replace(material, on_hand=float(rack * one / whole)), float(one))
        for one in quantities
    ]


def _spread(total_cents: int, weights: Sequence[Fraction]) -> tuple[int, ...]:
    if not any(weights):
        return (total_cents,) + (0,) * (len(weights) - 1)
    return share_out(total_cents, list(weights))


def capped_shares(
    total_cents: int, weights: Sequence[Fraction], caps: Sequence[int]
) -> tuple[int, ...]:
    """Share an amount out by weight with no share above its cap.

    Parameters
    ----------
    total_cents : int
        The amount. [cents]
    weights : sequence of Fraction
        One a share. [-]
    caps : sequence of int
        The most that each share may be; together at least the amount. [cents]

    Returns
    -------
    tuple of int
        The shares; they add up to the amount. [cents]

    Notes
    -----
    Shares above their cap are cut to it and the rest is shared out again by
    weight among the others, until none is above.

    Examples
    --------
    >>> capped_shares(240, [Fraction(9), Fraction(7), Fraction(5)], [80, 80, 80])
    (80, 80, 80)
    """
    shares = [0] * len(weights)
    open_ones = list(range(len(weights)))
    rest = total_cents
    while open_ones:
        given = _spread(rest, [weights[i] for i in open_ones])
        over = [i for i, cents in zip(open_ones, given, strict=True) if cents > caps[i]]
        if not over:
            for i, cents in zip(open_ones, given, strict=True):
                shares[i] = cents
            return tuple(shares)
        for i in over:
            shares[i] = caps[i]
            rest -= caps[i]
        open_ones = [i for i in open_ones if i not in over]
    if rest:
        raise TableError("the caps of a shared purchase leave part of it unpaid.")
    return tuple(shares)


def _packs(purchase: Purchase, material: Material, *, shared: bool) -> str:
    if not purchase.packs:
        return ""
    words = " + ".join(
        packs_in_words(count, pack.quantity, material.unit)
        for pack, count in purchase.packs
    )
    return f"{words}, shared" if shared else words


def _left(purchase: Purchase, material: Material) -> str:
    if purchase.left < 1e-9:
        return ""
    return counted(f"{float(f'{purchase.left:.3g}'):g}", material.unit)
