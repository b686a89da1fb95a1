"""Veneer and banding: sheets and rolls that can be bought or lie in the rack."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.rates.rows import (
    ROLL_FORMS,
    SHEET_FORMS,
    VENEERS,
    Row,
    not_negative,
    one_of,
    positive,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet(Row):
    """A size of veneer sheet that can be bought, or that lies in the rack.

    Parameters
    ----------
    species : str
        The wood, as piece files name it.
    form : str
        "backed", "self-adhesive" or "raw".
    veneer : str
        "show" for faces that are seen, "backing" for those that balance them.
    along_mm, across_mm : float
        Size along and across the grain. [mm]
    price_cents : int
        Price of one sheet. [cents]
    on_hand : int
        How many lie in the rack. [-]
    value_cents : int
        What one sheet in the rack is worth. [cents]
    to_buy : bool
        Whether more can be bought.
    figure_centre_mm : float or None
        Where the centre line of the figure runs, from the edge; None: halfway.
        [mm]
    offcut : bool
        Whether it is the rest of an earlier job.
    """

    species: str
    form: str
    veneer: str
    along_mm: float
    across_mm: float
    price_cents: int
    on_hand: int = 0
    value_cents: int = 0
    to_buy: bool = True
    figure_centre_mm: float | None = None
    offcut: bool = False

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        yield from one_of("form", self.form, SHEET_FORMS)
        yield from one_of("veneer", self.veneer, VENEERS)
        yield from positive("length along the grain", self.along_mm, " mm")
        yield from positive("width across the grain", self.across_mm, " mm")
        if self.to_buy:
            yield from positive("price", self.price_cents, " cents")
        yield from not_negative("sheets on hand", self.on_hand)
        yield from not_negative("value", self.value_cents, " cents")
        if self.figure_centre_mm is not None and not (
            0 < self.figure_centre_mm < self.across_mm
        ):
            yield "the centre line of the figure must run inside the sheet."


@dataclass(frozen=True, slots=True, kw_only=True)
class Roll(Row):
    """A roll of edge banding that can be bought, or that lies in the rack.

    Parameters
    ----------
    species : str
        The wood, as piece files name it.
    form : str
        "iron-on", "self-adhesive" or "glue-on".
    width_mm, length_mm : float
        Width and length of a roll. [mm]
    price_cents : int
        Price of one roll. [cents]
    on_hand : int
        How many lie in the rack. [-]
    value_cents : int
        What one roll in the rack is worth. [cents]
    to_buy : bool
        Whether more can be bought.
    """

    species: str
    form: str
    width_mm: float
    length_mm: float
    price_cents: int
    on_hand: int = 0
    value_cents: int = 0
    to_buy: bool = True

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        yield from one_of("form", self.form, ROLL_FORMS)
        yield from positive("width", self.width_mm, " mm")
        yield from positive("length", self.length_mm, " mm")
        if self.to_buy:
            yield from positive("price", self.price_cents, " cents")
        yield from not_negative("rolls on hand", self.on_hand)
        yield from not_negative("value", self.value_cents, " cents")
