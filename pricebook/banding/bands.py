"""Edges of a job to the rolls of the price book: the rack first, then least cash."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import count

from pricebook.banding.door import rolls as cheapest_rolls
from pricebook.banding.plan import Band, BandingPlan, RollPlan
from pricebook.errors import LayoutError, raise_all
from pricebook.lengths import show
from pricebook.rates import Roll
from pricebook.takeoff import Edge

LEAST_OVER_MM = 1.5
"""Banding is wider than the panel by 1/16 in or so (common practice, no source)."""

_CLOSE_MM = 1e-6


@dataclass(frozen=True, slots=True)
class _Kind:
    """Rolls of one row, in the rack or in the shop."""

    roll: Roll
    from_rack: bool


def band(
    edges: Iterable[Edge],
    stock: Iterable[Roll],
    *,
    form: str | None = None,
    over_mm: float = LEAST_OVER_MM,
) -> BandingPlan:
    """Return the rolls that band all edges for the least cash.

    Parameters
    ----------
    edges : iterable of Edge
        Edges of one piece or of many.
    stock : iterable of Roll
        Rows of the price book.
    form : str or None
        "iron-on", "self-adhesive" or "glue-on"; None takes, for each species and
        width, the form that costs least.
    over_mm : float
        How much wider than the panel the banding is at the least. [mm]

    Returns
    -------
    BandingPlan
        Rolls to buy, cuts from each roll, what is used and what is left.

    Raises
    ------
    LayoutError
        If no roll of the species is wide or long enough for an edge, or the rolls
        of the rack do not reach and none can be bought; all edges concerned are
        named.

    Notes
    -----
    An edge takes the narrowest banding that can be bought and is wide enough, or
    a roll of the rack that is no wider than that. Rolls of the rack cost no cash;
    among plans of equal cash the one that takes the least value from the rack is
    chosen, then the one with the fewest rolls.

    Examples
    --------
    >>> from datetime import date
    >>> tape = Roll(key="tape", species="walnut", form="iron-on", width_mm=22.225,
    ...     length_mm=7620, price_cents=1100, dated=date(2026, 1, 1), source="invented")
    >>> shelf = Edge(name="shelf", piece="case", length_mm=762, width_mm=19.05,
    ...     end_allowance_mm=25.4, species="walnut", count=2)
    >>> plan = band([shelf], [tape])
    >>> plan.cash_cents, plan.used_cents, plan.bands[0].to_buy
    (1100, 235, (('tape', 1),))
    >>> print(plan.words()[0])
    Roll 1, tape, 300 in (to buy): shelf 32 in, 2 times; 236 in left.
    """
    if not (math.isfinite(over_mm) and over_mm >= 0):
        raise LayoutError(
            f"banding is to be {over_mm} mm wider than the panel; "
            "that is a number, 0 or more."
        )
    offered = [roll for roll in stock if form in {None, roll.form}]
    wanted = list(edges)
    faults, bands = [], []
    for species in dict.fromkeys(edge.species for edge in wanted):
        of_wood = [edge for edge in wanted if edge.species == species]
        found, fault = _of_species(of_wood, _kinds(offered, species), over_mm)
        bands += found
        faults += fault
    raise_all(LayoutError, faults)
    return BandingPlan(bands=_numbered(bands))


def _numbered(bands: Sequence[Band]) -> tuple[Band, ...]:
    """Give the rolls their numbers, through all bands."""
    numbers = count(1)
    return tuple(
        replace(
            band,
            rolls=tuple(replace(roll, number=next(numbers)) for roll in band.rolls),
        )
        for band in bands
    )


def _kinds(stock: Sequence[Roll], species: str) -> list[_Kind]:
    """List the rolls of a species: those of the rack, then those of the shop."""
    own = [roll for roll in stock if roll.species == species]
    rack = [_Kind(roll, True) for roll in own if roll.on_hand]
    return rack + [_Kind(roll, False) for roll in own if roll.to_buy]


def _of_species(
    edges: Sequence[Edge], kinds: Sequence[_Kind], over_mm: float
) -> tuple[list[Band], list[str]]:
    """Band the edges of one species in the form that costs least."""
    faults: list[str] = []
    best: list[Band] | None = None
    for form in dict.fromkeys(kind.roll.form for kind in kinds):
        of_form = [kind for kind in kinds if kind.roll.form == form]
        try:
            found = _of_form(edges, of_form, over_mm)
        except LayoutError as error:
            faults += [fault for fault in error.faults if fault not in faults]
            continue
        if best is None or _worth(found) < _worth(best):
            best = found
    if not kinds:
        names = ", ".join(f'"{edge.name}"' for edge in edges)
        faults = [
            f"there is no banding of {edges[0].species} for {names}; add a roll to "
            "the price book."
        ]
    return (best, []) if best is not None else ([], faults)


def _worth(bands: Sequence[Band]) -> tuple[int, int]:
    return sum(b.cash_cents for b in bands), sum(b.used_cents for b in bands)


def _of_form(
    edges: Sequence[Edge], kinds: Sequence[_Kind], over_mm: float
) -> list[Band]:
    """Band the edges of one species and form, width by width."""
    faults: list[str] = []
    by_width: dict[float, list[Edge]] = {}
    for edge in edges:
        width = _width(kinds, edge.width_mm + over_mm)
        if width is None:
            faults.append(_too_narrow(edge, kinds, edge.width_mm + over_mm))
        else:
            by_width.setdefault(width, []).append(edge)
    bands = []
    for width, group in sorted(by_width.items()):
        need = max(edge.width_mm for edge in group) + over_mm - _CLOSE_MM
        fit = [
            k
            for k in kinds
            if k.roll.width_mm == width
            or (k.from_rack and need < k.roll.width_mm < width)
        ]
        try:
            bands.append(_of_width(group, fit, width))
        except LayoutError as error:
            faults += error.faults
    raise_all(LayoutError, faults)
    return bands


def _width(kinds: Sequence[_Kind], need_mm: float) -> float | None:
    """Return the narrowest width that is wide enough, of the shop if it has one."""
    wide = [kind for kind in kinds if kind.roll.width_mm > need_mm - _CLOSE_MM]
    shop = [kind.roll.width_mm for kind in wide if not kind.from_rack]
    return min(shop or [kind.roll.width_mm for kind in wide], default=None)


def _of_width(edges: Sequence[Edge], kinds: Sequence[_Kind], width_mm: float) -> Band:
    """Band edges from rolls of one species, form and width."""
    single = [edge for edge in edges for _ in range(edge.count)]
    prices = _ranked_prices(kinds)
    found = cheapest_rolls(
        [edge.cut_mm for edge in single],
        [
            (k.roll.length_mm, price, k.roll.on_hand if k.from_rack else None)
            for k, price in zip(kinds, prices, strict=True)
        ],
        [f'"{edge.name}"' for edge in single],
    )
    cut = [
        RollPlan(
            number=number,
            roll=kinds[kind].roll,
            from_rack=kinds[kind].from_rack,
            edges=tuple(single[i] for i in part),
            left_mm=left,
        )
        for number, ((kind, part), left) in enumerate(
            zip(found.plan, found.left_mm, strict=True), 1
        )
    ]
    return Band(
        species=kinds[0].roll.species,
        form=kinds[0].roll.form,
        width_mm=width_mm,
        rolls=tuple(sorted(cut, key=lambda plan: not plan.from_rack)),
        least_possible_cents=found.least_possible_cents // _weight_of_cash(kinds),
        proven=found.proven,
    )


def _weight_of_cash(kinds: Sequence[_Kind]) -> int:
    """Return a number so large that one cent of cash outweighs the whole rack."""
    return 1 + sum(
        (k.roll.value_cents + 1) * k.roll.on_hand for k in kinds if k.from_rack
    )


def _ranked_prices(kinds: Sequence[_Kind]) -> list[int]:
    """Return prices that put cash first and the value taken from the rack next."""
    weight = _weight_of_cash(kinds)
    return [
        k.roll.value_cents + 1 if k.from_rack else k.roll.price_cents * weight
        for k in kinds
    ]


def _too_narrow(edge: Edge, kinds: Sequence[_Kind], need_mm: float) -> str:
    widest = max(kind.roll.width_mm for kind in kinds)
    first = kinds[0].roll
    return (
        f'"{edge.name}" is {_fine(edge.width_mm)} thick and needs {first.form} '
        f"banding of {first.species} at least {_fine(need_mm)} wide; the widest roll "
        f"is {_fine(widest)}; add a wider one."
    )


def _fine(length_mm: float) -> str:
    return f"{show(length_mm)} ({length_mm:.1f} mm)"
