"""A flitch of numbered leaves, and the plan that lays them on faces."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import TableError, raise_all
from pricebook.lengths import show


@dataclass(frozen=True, slots=True, kw_only=True)
class Flitch:
    """Leaves of one log in the order in which they were sliced.

    Parameters
    ----------
    key : str
        The name that other files call the flitch by.
    species : str
        The wood, as piece files name it.
    length_mm : float
        Usable length of every leaf. [mm]
    widths_mm : tuple of float
        Usable width of each leaf, in order; widths drift through a flitch. [mm]
    price_cents : int
        Price of one leaf, or of one bundle. [cents]
    bundle : int
        How many leaves, one after another, are sold together. [-]
    first_number : int
        The number written on the first leaf. [-]

    Examples
    --------
    >>> flitch = Flitch.even(
    ...     24, 152.4, key="log 7", species="walnut", length_mm=2438.4, price_cents=900
    ... )
    >>> len(flitch.widths_mm), flitch.number(3)
    (24, 4)
    """

    key: str
    species: str
    length_mm: float
    widths_mm: tuple[float, ...]
    price_cents: int
    bundle: int = 1
    first_number: int = 1

    @classmethod
    def even(
        cls,
        leaves: int,
        usable_mm: float,
        *,
        key: str,
        species: str,
        length_mm: float,
        price_cents: int,
        bundle: int = 1,
        first_number: int = 1,
    ) -> Flitch:
        """Return a flitch whose leaves all have one usable width.

        Parameters
        ----------
        leaves : int
            How many leaves there are. [-]
        usable_mm : float
            Usable width of each. [mm]
        key, species, length_mm, price_cents, bundle, first_number
            As for the class.

        Returns
        -------
        Flitch
            The flitch.
        """
        return cls(
            key=key,
            species=species,
            length_mm=length_mm,
            widths_mm=(usable_mm,) * leaves,
            price_cents=price_cents,
            bundle=bundle,
            first_number=first_number,
        )

    def __post_init__(self) -> None:
        """Refuse a flitch that cannot exist, with every fault of it."""
        raise_all(TableError, (f'"{self.key}": {fault}' for fault in self._faults()))

    def _faults(self) -> Iterator[str]:
        if not (math.isfinite(self.length_mm) and self.length_mm > 0):
            yield f"the leaves are {self.length_mm:g} mm long; that is more than 0."
        if not self.widths_mm:
            yield "there is no leaf; give the usable width of each leaf in order."
        for place, width in enumerate(self.widths_mm):
            if not (math.isfinite(width) and width > 0):
                yield (
                    f"leaf {self.number(place)} is {width:g} mm wide; a usable width "
                    "is more than 0."
                )
        if self.price_cents <= 0:
            yield f"the price is {self.price_cents} cents; it is more than 0."
        if self.bundle < 1:
            yield f"a bundle has {self.bundle} leaves; it has 1 or more."

    def number(self, place: int) -> int:
        """Return the number written on the leaf at a place, counted from 0."""
        return self.first_number + place


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidLeaf:
    """One piece of a leaf on a face.

    Parameters
    ----------
    leaf : int
        Number of the leaf. [-]
    face, piece : str
        The face, numbered where several share a name, and the piece it is of.
    turned : bool
        Whether the leaf is turned over, so that its joint mirrors its neighbour.
    end_turned : bool
        Whether it is turned end for end, above a leaf whose end it mirrors.
    across_at_mm, along_at_mm : float
        Where it lies on the blank of the face, overhang included. [mm]
    width_mm, length_mm : float
        Its size, overhang included. [mm]
    leaf_across_at_mm, leaf_along_at_mm : float
        Where it is cut from the leaf. [mm]
    """

    leaf: int
    face: str
    piece: str
    turned: bool
    end_turned: bool
    across_at_mm: float
    along_at_mm: float
    width_mm: float
    length_mm: float
    leaf_across_at_mm: float
    leaf_along_at_mm: float

    @property
    def area_mm2(self) -> float:
        """Its area, overhang included. [mm²]."""
        return self.width_mm * self.length_mm

    def words(self, unit: str = "in") -> str:
        """Return what to cut and how to lay it, as a sentence for the bench."""
        laid = " turned over" if self.turned else " face up"
        ends = ", end for end" if self.end_turned else ""
        return (
            f"Leaf {self.leaf}: cut {show(self.length_mm, unit)} long and "
            f"{show(self.width_mm, unit)} wide for {self.face}, "
            f"{show(self.across_at_mm, unit)} from its left,{laid}{ends}."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafPlan:
    """Which leaf goes where, how many to buy, and what is trimmed off.

    Parameters
    ----------
    flitch : Flitch
        The leaves.
    match : str
        The matching rule.
    laid : tuple of LaidLeaf
        Every piece of every leaf, in the order in which faces are laid.
    net_mm2 : float
        Net area of all faces, without overhang. [mm²]
    """

    flitch: Flitch
    match: str
    laid: tuple[LaidLeaf, ...]
    net_mm2: float

    @property
    def leaves_used(self) -> tuple[int, ...]:
        """Numbers of the leaves that are cut, in flitch order. [-]."""
        return tuple(sorted({piece.leaf for piece in self.laid}))

    @property
    def bundles(self) -> int:
        """How many bundles to buy, from the first leaf on. [-]."""
        if not self.laid:
            return 0
        reach = self.leaves_used[-1] - self.flitch.first_number + 1
        return -(-reach // self.flitch.bundle)

    @property
    def leaves_to_buy(self) -> int:
        """How many leaves those bundles hold. [-]."""
        return min(self.bundles * self.flitch.bundle, len(self.flitch.widths_mm))

    @property
    def cost_cents(self) -> int:
        """What the leaves cost. [cents]."""
        return self.bundles * self.flitch.price_cents

    @property
    def laid_mm2(self) -> float:
        """Area of all pieces laid, overhang included. [mm²]."""
        return sum(piece.area_mm2 for piece in self.laid)

    @property
    def cut_into_mm2(self) -> float:
        """Area of the leaves that are cut. [mm²]."""
        return sum(self._area_mm2(number) for number in self.leaves_used)

    @property
    def trimmed_share(self) -> float:
        """Share of the leaves cut that does not stay on a face. [-]."""
        return 1 - self.net_mm2 / self.cut_into_mm2 if self.laid else 0.0

    @property
    def ends_mm2(self) -> float:
        """Area beyond the last cut across each leaf that is cut. [mm²]."""
        reach: dict[int, float] = {}
        for piece in self.laid:
            end = piece.leaf_along_at_mm + piece.length_mm
            reach[piece.leaf] = max(reach.get(piece.leaf, 0.0), end)
        length = self.flitch.length_mm
        return sum(
            self._area_mm2(number) * (1 - end / length) for number, end in reach.items()
        )

    def _area_mm2(self, number: int) -> float:
        place = number - self.flitch.first_number
        return self.flitch.widths_mm[place] * self.flitch.length_mm

    @property
    def waste(self) -> str:
        """What is trimmed off, in words."""
        if not self.laid:
            return "No leaf is cut."
        used, all_mm2 = len(self.leaves_used), self.cut_into_mm2
        parts = {
            "ends": self.ends_mm2,
            "sides and joints": all_mm2 - self.ends_mm2 - self.laid_mm2,
            "overhang": self.laid_mm2 - self.net_mm2,
        }
        listed = ", ".join(
            f"{name} {100 * part / all_mm2:.0f} %" for name, part in parts.items()
        )
        whole = self.leaves_to_buy - used
        over = f"{whole or 'no'} {'leaves are' if whole > 1 else 'leaf is'} left whole"
        return (
            f"{self.trimmed_share * used:.1f} of {used} leaves' area, "
            f"{100 * self.trimmed_share:.0f} %, is trimmed off: {listed}; {over}."
        )

    def words(self, unit: str = "in") -> tuple[str, ...]:
        """Return one sentence a piece of leaf, lengths in "in" or "mm"."""
        return tuple(piece.words(unit) for piece in self.laid)
