"""The plan that the bench works from: sheets, named faces, cuts and rests."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pricebook.errors import LayoutError, shown
from pricebook.lengths import show
from pricebook.rates import Sheet
from pricebook.takeoff import Face


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
        What any plan costs at the least that pays no more for sheets: the least to
        pay, and `least_rack_cents`. [cents]
    least_rack_cents : int
        The value that a plan which pays no more takes from the rack at the least;
        0 as long as the least to pay is not proven. [cents]
    """

    sheets: tuple[SheetPlan, ...]
    least_possible_cents: int
    least_rack_cents: int = 0

    @property
    def cost_cents(self) -> int:
        """What the sheets cost or are worth together. [cents]."""
        return sum(plan.worth_cents for plan in self.sheets)

    @property
    def cash_cents(self) -> int:
        """What there is to pay for sheets. [cents]."""
        return sum(p.sheet.price_cents for p in self.sheets if not p.from_rack)

    @property
    def least_cash_cents(self) -> int:
        """What any plan pays for sheets at the least. [cents]."""
        return self.least_possible_cents - self.least_rack_cents

    @property
    def proven(self) -> bool:
        """Whether no plan can cost less: less to pay, or as much and less rack."""
        return self.cost_cents == self.least_possible_cents

    @property
    def verdict(self) -> str:
        """How close the plan is to the least possible cost, in words."""
        if all(not plan.from_rack for plan in self.sheets):
            if self.proven:
                return "least possible cost, proven"
            return _within(self.cost_cents, self.least_possible_cents)
        if self.cash_cents > self.least_cash_cents:
            return f"{_within(self.cash_cents, self.least_cash_cents)} purchase"
        if self.proven:
            return "least possible purchase, then least from the rack, proven"
        return "least possible purchase, proven; the least from the rack is not proven"


def _within(cents: int, least_cents: int) -> str:
    """Say by how much an amount is above the least possible."""
    if not least_cents:
        return "no proof yet of the least possible"
    over = math.ceil((cents / least_cents - 1) * 1000) / 10
    return f"within {over:g} % of the least possible"


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

    Raises
    ------
    LayoutError
        If it is given no layout.
    """
    if not isinstance(layout, Layout):
        raise LayoutError(f"cut_list takes a layout, not {shown(layout)}.")
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
