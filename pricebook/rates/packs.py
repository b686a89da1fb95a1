"""The cheapest packs that hold a quantity, after what lies in the rack."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from pricebook.errors import TableError
from pricebook.money import exact, half_up
from pricebook.rates.custom import Material, Pack

_Taken = tuple[tuple[Pack, int], ...]
_Rank = tuple[int, Fraction, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What to buy of one material, and what it costs.

    Parameters
    ----------
    packs : tuple of (Pack, int)
        The packs to buy and how many of each.
    bought_cents : int
        What they cost. [cents]
    used_cents : int
        What the quantity used is worth, pro rata. [cents]
    left : float
        What is left over of the packs bought. [unit]
    left_cents : int
        What that is worth. [cents]
    stock : float
        What lies in the rack afterwards, old and new. [unit]
    """

    packs: tuple[tuple[Pack, int], ...]
    bought_cents: int
    used_cents: int
    left: float
    left_cents: int
    stock: float


def unit_price_cents(material: Material) -> Fraction:
    """Return what one unit costs in the shop's usual pack.

    Parameters
    ----------
    material : Material
        A row of the price book; its first pack is the usual one.

    Returns
    -------
    Fraction
        The exact price of one unit. [cents]

    Examples
    --------
    >>> from datetime import date
    >>> glue = Material(key="glue", name="glue", group="adhesive", unit="l",
    ...     packs=(Pack(quantity=0.5, price_cents=900),),
    ...     dated=date(2026, 1, 1), source="invented")
    >>> unit_price_cents(glue)
    Fraction(1800, 1)
    """
    usual = material.packs[0]
    return Fraction(usual.price_cents) / exact(usual.quantity)


def buy(material: Material, quantity: float) -> Purchase:
    """Find the cheapest packs that cover a quantity, the rack first.

    Parameters
    ----------
    material : Material
        The row, with its packs and what is on hand.
    quantity : float
        What the job uses, 0 or more. [unit of the material]

    Returns
    -------
    Purchase
        Packs, cost, value used and value left.

    Notes
    -----
    Least cost first, then the least left over, then the fewest packs; exact for
    any mix of packs and quantity breaks. What comes from the rack is valued at
    the usual pack's price, what is bought at the price paid, both pro rata.

    Examples
    --------
    >>> from datetime import date
    >>> row = Material(key="alcohol", name="alcohol", group="finish", unit="l",
    ...     packs=(Pack(quantity=1, price_cents=900), Pack(quantity=4,
    ...     price_cents=2500)), dated=date(2026, 1, 1), source="invented")
    >>> found = buy(row, 2.5)
    >>> found.bought_cents, found.used_cents, found.left
    (2500, 1563, 1.5)
    """
    need, rack = exact(quantity), exact(material.on_hand)
    from_rack = min(need, rack)
    rest = need - from_rack
    packs = cheapest_packs(rest, material.packs) if rest else ()
    bought_cents = sum(pack.price_cents * count for pack, count in packs)
    held = sum((exact(pack.quantity) * n for pack, n in packs), Fraction(0))
    usual = unit_price_cents(material)
    paid = Fraction(bought_cents) / held if held else usual
    return Purchase(
        packs=packs,
        bought_cents=bought_cents,
        used_cents=half_up(from_rack * usual + rest * paid),
        left=float(held - rest) if held else 0.0,
        left_cents=half_up((held - rest) * paid) if held else 0,
        stock=float(rack - from_rack + (held - rest if held else 0)),
    )


def cheapest_packs(
    need: Fraction, packs: tuple[Pack, ...]
) -> tuple[tuple[Pack, int], ...]:
    """Return the cheapest packs that hold at least a quantity.

    Parameters
    ----------
    need : Fraction
        The quantity, more than 0. [unit]
    packs : tuple of Pack
        What is sold; several rows of one size are its quantity breaks.

    Returns
    -------
    tuple of (Pack, int)
        Packs and counts, largest pack first.

    Notes
    -----
    Sizes are tried from the largest down with every count that could still pay;
    a count never exceeds what covers the need alone or its next quantity break.

    Examples
    --------
    >>> single = Pack(quantity=1, price_cents=45)
    >>> twelve = Pack(quantity=12, price_cents=300)
    >>> [(p.quantity, n) for p, n in cheapest_packs(Fraction(13), (single, twelve))]
    [(12, 1), (1, 1)]
    """
    sizes = sorted({exact(pack.quantity) for pack in packs}, reverse=True)
    rows = [[pack for pack in packs if exact(pack.quantity) == size] for size in sizes]
    floors = [_least_unit_price(rows[number:]) for number in range(len(rows))]
    floors.append(Fraction(0))
    best: tuple[_Rank, _Taken] | None = None

    def search(number: int, rest: Fraction, cost: int, taken: _Taken) -> None:
        nonlocal best
        if rest <= 0:
            rank = (cost, -rest, sum(count for _, count in taken))
            if best is None or rank < best[0]:
                best = (rank, taken)
        floor = cost + max(rest, Fraction(0)) * floors[number]
        if number == len(rows) or (best and floor > best[0][0]):
            return
        for count, pack in _counts(rest, sizes[number], rows[number]):
            left = rest - count * sizes[number]
            price = cost + count * pack.price_cents
            search(number + 1, left, price, (*taken, (pack, count)))
        if rest > 0:
            search(number + 1, rest, cost, taken)

    search(0, need, 0, ())
    if best is None:
        raise TableError("no pack is given; give a pack and its price.")
    return best[1]


def _least_unit_price(rows: list[list[Pack]]) -> Fraction:
    """Return the least price of one unit in any of these packs."""
    packs = [pack for row in rows for pack in row]
    return min(Fraction(p.price_cents) / exact(p.quantity) for p in packs)


def _counts(rest: Fraction, size: Fraction, row: list[Pack]) -> list[tuple[int, Pack]]:
    """List the counts of one size worth trying, each at its price."""
    enough = max(0, math.ceil(rest / size))
    breaks = sorted(pack.from_packs for pack in row if pack.from_packs > enough)
    found = []
    for count in [*range(enough, 0, -1), *breaks]:
        open_packs = [pack for pack in row if pack.from_packs <= count]
        if open_packs:
            found.append((count, min(open_packs, key=lambda pack: pack.price_cents)))
    return found
