"""Faces by name on sheets by name: the plan that the bench works from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from pricebook.errors import LayoutError
from pricebook.lengths import show
from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.fitting import fit
from pricebook.veneer.model import Fit

PER_MM = 10
"""Whole tenths of a millimetre inside: parts rounded up, sheets rounded down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedFace:
    """One face with its place on a sheet, overhang included.

    Parameters
    ----------
    face : Face
        The face.
    copy : int
        Which one of its count, from 1. [-]
    along_at_mm, across_at_mm : float
        Offset of its corner on the sheet. [mm]
    along_mm, across_mm : float
        Size as cut, in the sheet's grain. [mm]
    turned : bool
        Whether its free grain was used to turn it.
    """

    face: Face
    copy: int
    along_at_mm: float
    across_at_mm: float
    along_mm: float
    across_mm: float
    turned: bool = False

    @property
    def name(self) -> str:
        """What the picture and the cut list call it."""
        return (
            self.face.name if self.face.count == 1 else f"{self.face.name} {self.copy}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCut:
    """One cut from edge to edge of what lies on the bench.

    Parameters
    ----------
    direction : str
        "across" the grain or "along" it.
    at_mm : float
        Where, from the sheet's corner. [mm]
    start_mm, end_mm : float
        Where it begins and ends, measured the other way. [mm]
    """

    direction: str
    at_mm: float
    start_mm: float
    end_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """A rectangle that is left of a sheet.

    Parameters
    ----------
    along_at_mm, across_at_mm : float
        Offset of its corner on the sheet. [mm]
    along_mm, across_mm : float
        Its size. [mm]
    usable : bool
        Whether it is large enough to keep.
    """

    along_at_mm: float
    across_at_mm: float
    along_mm: float
    across_mm: float
    usable: bool

    @property
    def m2(self) -> float:
        """Its area. [m²]."""
        return self.along_mm * self.across_mm / 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """One sheet with its faces, cuts and rests.

    Parameters
    ----------
    number : int
        Which sheet of the whole plan, from 1. [-]
    sheet : Sheet
        The row of the price book.
    from_rack : bool
        Whether it lies in the rack already.
    placed : tuple of PlacedFace
        What is cut from it.
    cuts : tuple of SheetCut
        In bench order.
    rests : tuple of Rest
        What is left.
    """

    number: int
    sheet: Sheet
    from_rack: bool
    placed: tuple[PlacedFace, ...]
    cuts: tuple[SheetCut, ...]
    rests: tuple[Rest, ...]

    @property
    def worth_cents(self) -> int:
        """What the sheet costs, or is worth in the rack. [cents]."""
        return self.sheet.value_cents if self.from_rack else self.sheet.price_cents

    @property
    def m2(self) -> float:
        """Area of the sheet. [m²]."""
        return self.sheet.along_mm * self.sheet.across_mm / 1e6

    @property
    def kept_m2(self) -> float:
        """Area of the rests worth keeping. [m²]."""
        return sum(rest.m2 for rest in self.rests if rest.usable)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """All sheets of a plan, show and backing, of one piece or a batch.

    Parameters
    ----------
    sheets : tuple of SheetPlan
        The sheets, numbered.
    least_possible_cents : int
        What any plan costs at the least. [cents]
    """

    sheets: tuple[SheetPlan, ...]
    least_possible_cents: int

    @property
    def cost_cents(self) -> int:
        """What the sheets cost or are worth together. [cents]."""
        return sum(plan.worth_cents for plan in self.sheets)

    @property
    def cash_cents(self) -> int:
        """What there is to pay for sheets. [cents]."""
        return sum(p.sheet.price_cents for p in self.sheets if not p.from_rack)

    @property
    def proven(self) -> bool:
        """Whether no plan can cost less."""
        return self.cost_cents == self.least_possible_cents

    @property
    def verdict(self) -> str:
        """How close the plan is to the least possible cost, in words."""
        if self.proven:
            return "least possible cost, proven"
        over = self.cost_cents / self.least_possible_cents - 1
        return f"within {math.ceil(over * 1000) / 10:g} % of the least possible"


def lay_out(
    faces: Sequence[Face],
    stock: Sequence[Sheet],
    *,
    smallest_mm: float = 150.0,
    stages: int | None = None,
    progress: Callable[[int, int, str], None] | None = None,
) -> Layout:
    """Lay faces out on the sheets of the price book at the least cost.

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
    progress : callable or None
        Called with steps done, steps in all, and words.

    Returns
    -------
    Layout
        Sheets, faces, cuts and rests, with the proof of the cost.

    Raises
    ------
    LayoutError
        If a face or a run fits no sheet of its species and veneer, by name.
    """
    plans: list[SheetPlan] = []
    least = 0
    for veneer, species in sorted({(f.veneer, f.species) for f in faces}, reverse=True):
        own = [f for f in faces if (f.veneer, f.species) == (veneer, species)]
        sheets = [s for s in stock if (s.veneer, s.species) == (veneer, species)]
        offers = list(_offers(sheets))
        if not offers:
            raise LayoutError(
                f'no sheet of {veneer} veneer "{species}" is on offer for '
                f'"{own[0].name}"; add one to the price book.'
            )
        answer = _fitted(own, offers)
        least += answer.least_possible_cents
        plans += _plans(answer, own, offers, len(plans), smallest_mm)
    return Layout(sheets=tuple(plans), least_possible_cents=least)


def _offers(sheets: Iterable[Sheet]) -> Iterator[tuple[Sheet, bool]]:
    for sheet in sheets:
        if sheet.on_hand:
            yield sheet, True
        if sheet.to_buy:
            yield sheet, False


def _fitted(faces: Sequence[Face], offers: Sequence[tuple[Sheet, bool]]) -> Fit:
    parts = [(_up(f.cut_along_mm), _up(f.cut_across_mm), f.count) for f in faces]
    sheets = [
        (_down(s.along_mm), _down(s.across_mm), s.value_cents or 1, s.on_hand)
        if rack
        else (_down(s.along_mm), _down(s.across_mm), s.price_cents)
        for s, rack in offers
    ]
    runs = []
    for name in dict.fromkeys((f.piece, f.run) for f in faces if f.run):
        members = [i for i, f in enumerate(faces) if (f.piece, f.run) == name]
        runs.append((*members, faces[members[0]].run_direction))
    try:
        return fit(parts, sheets, runs)
    except LayoutError as error:
        raise LayoutError(*(_named(fault, faces) for fault in error.faults)) from None


def _named(fault: str, faces: Sequence[Face]) -> str:
    for number in reversed(range(len(faces))):
        fault = fault.replace(f"part {number}", f'"{faces[number].name}"')
    return fault


def _up(length_mm: float) -> int:
    return math.ceil(round(length_mm * PER_MM, 4))


def _down(length_mm: float) -> int:
    return math.floor(round(length_mm * PER_MM, 4))


def _plans(
    answer: Fit,
    faces: Sequence[Face],
    offers: Sequence[tuple[Sheet, bool]],
    before: int,
    smallest_mm: float,
) -> Iterator[SheetPlan]:
    copies = [0] * len(faces)
    for number, (offer, placements) in enumerate(answer.sheets):
        sheet, rack = offers[offer]
        placed = []
        for part, along, across in placements:
            copies[part] += 1
            face = faces[part]
            placed.append(
                PlacedFace(
                    face=face,
                    copy=copies[part],
                    along_at_mm=along / PER_MM,
                    across_at_mm=across / PER_MM,
                    along_mm=face.cut_along_mm,
                    across_mm=face.cut_across_mm,
                )
            )
        cuts = [
            SheetCut(
                direction=cut.direction,
                at_mm=cut.at / PER_MM,
                start_mm=cut.start / PER_MM,
                end_mm=cut.end / PER_MM,
            )
            for cut in answer.cuts
            if cut.sheet == number
        ]
        rests = [
            Rest(
                along_at_mm=left.along_at / PER_MM,
                across_at_mm=left.across_at / PER_MM,
                along_mm=left.along / PER_MM,
                across_mm=left.across / PER_MM,
                usable=min(left.along, left.across) >= smallest_mm * PER_MM,
            )
            for left in answer.offcuts
            if left.sheet == number
        ]
        yield SheetPlan(
            number=before + number + 1,
            sheet=sheet,
            from_rack=rack,
            placed=tuple(placed),
            cuts=tuple(cuts),
            rests=tuple(rests),
        )


def cut_list(layout: Layout, lengths: str) -> tuple[str, ...]:
    """Return the cuts of a layout in bench order, in words.

    Parameters
    ----------
    layout : Layout
        The plan.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    tuple of str
        A line a cut, each with its sheet and number.
    """
    found = []
    for plan in layout.sheets:
        for number, cut in enumerate(plan.cuts, start=1):
            at, start = show(cut.at_mm, lengths), show(cut.start_mm, lengths)
            end = show(cut.end_mm, lengths)
            found.append(
                f"sheet {plan.number}, cut {number}: {cut.direction} at {at}, "
                f"from {start} to {end}"
            )
    return tuple(found)
