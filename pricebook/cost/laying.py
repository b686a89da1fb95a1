"""Layouts remembered, and those of one set of faces under many price lists."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.layout import Layout, SheetPlan, lay_out

MOST_KEPT = 128
"""Layouts remembered; the oldest goes first, so that memory stays flat."""

MOST_STEPS = 20_000
"""Beyond so many sets of sheets to rule out, a new search is quicker."""

_Shape = tuple[tuple[float, float, float | None], ...]
"""Sizes of sheets, and where the figure's centre line runs."""


_KEPT: dict[object, Layout] = {}


def laid(
    faces: Sequence[Face],
    stock: Sequence[Sheet],
    *,
    smallest_mm: float,
    stages: int | None = None,
    lengths: str = "in",
    progress: Callable[[int, int, str], None] | None = None,
) -> Layout:
    """Lay faces out on sheets, and remember the answer.

    Parameters
    ----------
    faces : sequence of Face
        Faces of one piece or of several that share sheets.
    stock : sequence of Sheet
        What can be bought and what lies in the rack.
    smallest_mm : float
        A rest with a side shorter than this is waste. [mm]
    stages : int or None
        Most cuts in a row, 2 or 3; None: any number. [-]
    lengths : str
        "in" or "mm": how a refusal prints sizes.
    progress : callable or None
        Called with steps done, steps in all, and words.

    Returns
    -------
    Layout
        What `lay_out` answers; the same for the same faces and rows.
    """
    key = (tuple(faces), tuple(stock), smallest_mm, stages)
    if key not in _KEPT:
        found = lay_out(
            faces,
            stock,
            smallest_mm=smallest_mm,
            stages=stages,
            lengths=lengths,
            progress=progress,
        )
        if len(_KEPT) >= MOST_KEPT:
            del _KEPT[next(iter(_KEPT))]
        _KEPT[key] = found
    return _KEPT[key]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Solved:
    """A layout as it was found for some prices: of each size how many sheets."""

    prices: tuple[int, ...]
    counts: tuple[int, ...]
    faces: tuple[Face, ...]
    places: tuple[int, ...]
    layout: Layout

    @property
    def least_cents(self) -> int:
        return self.layout.least_possible_cents

    def least_at(self, prices: tuple[int, ...]) -> int:
        """Return the bound at prices in step with its own."""
        return -(-self.least_cents * prices[0] // self.prices[0])


class Layouts:
    """Layouts of the same faces in other woods, sizes and prices.

    Parameters
    ----------
    faces : sequence of Face
        The faces, all of one kind of veneer; their wood is changed as asked.
    smallest_mm : float
        A rest with a side shorter than this is waste. [mm]
    stages : int or None
        Most cuts in a row, 2 or 3; None: any number. [-]

    Notes
    -----
    Which sets of sheets hold the faces does not depend on prices. Every layout
    found is such a set, and every proven bound rules sets out: a set that costs
    less than the bound at the prices of its proof does not hold the faces. Where
    these rule out every set that is cheaper, or as cheap with fewer sheets, at
    new prices, the cheapest known layout is proven for them without a search. Where
    sheets lie in the rack the least to pay comes first, so that one sum of prices
    no longer ranks the plans: then each is laid out by itself.
    """

    def __init__(
        self, faces: Sequence[Face], *, smallest_mm: float, stages: int | None
    ) -> None:
        self._faces = tuple(faces)
        self._smallest_mm = smallest_mm
        self._stages = stages
        self._known: dict[_Shape, list[_Solved]] = {}

    def of(self, species: str, stock: Sequence[Sheet]) -> Layout:
        """Return the cheapest layout in a wood from some rows of the price book.

        Parameters
        ----------
        species : str
            The wood.
        stock : sequence of Sheet
            Rows to cut from, all of this wood.

        Returns
        -------
        Layout
            As `lay_out` would prove it.

        Raises
        ------
        LayoutError
            If a face fits none of the sheets.
        """
        faces = tuple(replace(face, species=species) for face in self._faces)
        if any(sheet.on_hand for sheet in stock):
            return self._laid(faces, stock)
        offers = sorted((sheet for sheet in stock if sheet.to_buy), key=_order)
        known = self._known.setdefault(tuple(map(_shape, offers)), [])
        prices = tuple(sheet.price_cents for sheet in offers)
        found = next((one for one in known if _in_step(one.prices, prices)), None)
        best = found or _cheapest_of(known, prices)
        if best is None:
            best = found = self._solved(faces, offers)
            known.append(best)
        least = found.least_at(prices) if found else _cost(best.counts, prices)
        sheets = tuple(_dressed(best, offers, faces))
        return Layout(sheets=sheets, least_possible_cents=least)

    def _solved(self, faces: tuple[Face, ...], offers: Sequence[Sheet]) -> _Solved:
        layout = self._laid(faces, offers)
        keys = [sheet.key for sheet in offers]
        places = tuple(keys.index(plan.sheet.key) for plan in layout.sheets)
        return _Solved(
            prices=tuple(sheet.price_cents for sheet in offers),
            counts=tuple(places.count(place) for place in range(len(offers))),
            faces=faces,
            places=places,
            layout=layout,
        )

    def _laid(self, faces: tuple[Face, ...], stock: Sequence[Sheet]) -> Layout:
        return laid(
            faces, tuple(stock), smallest_mm=self._smallest_mm, stages=self._stages
        )


def _shape(sheet: Sheet) -> tuple[float, float, float | None]:
    return sheet.along_mm, sheet.across_mm, sheet.figure_centre_mm


def _order(sheet: Sheet) -> tuple[float, float, float, int, str]:
    centre = sheet.figure_centre_mm or 0.0
    return (sheet.along_mm, sheet.across_mm, centre, sheet.price_cents, sheet.key)


def _cost(counts: Sequence[int], prices: Sequence[int]) -> int:
    return sum(n * price for n, price in zip(counts, prices, strict=True))


def _cheapest_of(known: Sequence[_Solved], prices: tuple[int, ...]) -> _Solved | None:
    """Return the known layout that is proven cheapest, or None."""
    if not known:
        return None

    def rank(counts: Sequence[int]) -> tuple[int, int]:
        return _cost(counts, prices), sum(counts)

    best = min(known, key=lambda one: rank(one.counts))
    bar = rank(best.counts)
    for step, counts in enumerate(_up_to(bar[0], prices)):
        if step > MOST_STEPS or (rank(counts) < bar and _may_hold(counts, known)):
            return None
    return best


def _up_to(cost_cents: int, prices: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Yield every set of sheets that costs no more than an amount."""
    if not prices:
        yield ()
        return
    for count in range(1 + cost_cents // prices[0]):
        left = cost_cents - count * prices[0]
        for rest in _up_to(left, prices[1:]):
            yield (count, *rest)


def _in_step(prices: tuple[int, ...], others: tuple[int, ...]) -> bool:
    """Tell whether all prices differ by the same factor, so that nothing is new."""
    pairs = zip(prices, others, strict=True)
    return all(price * others[0] == other * prices[0] for price, other in pairs)


def _may_hold(counts: Sequence[int], known: Sequence[_Solved]) -> bool:
    """Tell whether no proof so far says that these sheets are too few."""
    return all(_cost(counts, one.prices) >= one.least_cents for one in known)


def _dressed(
    solved: _Solved, offers: Sequence[Sheet], faces: Sequence[Face]
) -> Iterator[SheetPlan]:
    """Yield the same sheets in another wood at other prices."""
    new = dict(zip(solved.faces, faces, strict=True))
    for plan, place in zip(solved.layout.sheets, solved.places, strict=True):
        placed = tuple(replace(one, face=new[one.face]) for one in plan.placed)
        yield replace(plan, sheet=offers[place], placed=placed)


def joined(first: Layout, second: Layout) -> Layout:
    """Return two layouts as one, the sheets numbered on.

    Parameters
    ----------
    first, second : Layout
        Layouts of different faces.

    Returns
    -------
    Layout
        All sheets.
    """
    plans = (*first.sheets, *second.sheets)
    return Layout(
        sheets=tuple(replace(p, number=n) for n, p in enumerate(plans, start=1)),
        least_possible_cents=first.least_possible_cents + second.least_possible_cents,
        least_rack_cents=first.least_rack_cents + second.least_rack_cents,
    )
