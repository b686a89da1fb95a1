"""The rows themselves: frozen, checked when they are made."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.errors import TableError, raise_all

UNITS = ("each", "ml", "l", "g", "kg", "mm", "m", "m2", "sheet", "pair")
VENEERS = ("show", "backing")
SHEET_FORMS = ("backed", "self-adhesive", "raw")
ROLL_FORMS = ("iron-on", "self-adhesive", "glue-on")
PAYS = ("paid", "given", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What the bench needs of one item, and how that was worked out.

    Parameters
    ----------
    item : str
        Key of a row of the price book.
    quantity : float
        How much. [unit]
    unit : str
        One of `UNITS`.
    group : str
        Heading of the cost sheet, such as "finish".
    how : str
        The working, in words a person can follow.
    """

    item: str
    quantity: float
    unit: str
    group: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """How much of one operation a piece asks for, and how that was worked out.

    Parameters
    ----------
    operation : str
        Key of a row of `Minutes`.
    quantity : float
        How much. [unit]
    unit : str
        One of `UNITS`.
    how : str
        The working, in words a person can follow.
    """

    operation: str
    quantity: float
    unit: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What every row of the price book has.

    Parameters
    ----------
    key : str
        The name that other files call the row by.
    dated : date
        When the figure was true.
    source : str
        Where the figure is from.
    """

    key: str
    dated: date
    source: str

    def __post_init__(self) -> None:
        """Refuse a row that cannot be true, with every fault of it."""
        raise_all(TableError, (f'"{self.key}": {fault}' for fault in self.faults()))

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        if not self.key.strip():
            yield "the key is empty; name the row."
        if not self.source.strip():
            yield "the source is empty; say where the figure is from."

    def age_days(self, on: date) -> int:
        """Return how old the figure is on a day, in whole days."""
        return (on - self.dated).days


def _positive(name: str, value: float, unit: str = "") -> Iterator[str]:
    if not (math.isfinite(value) and value > 0):
        yield f"{name} is {value:g}{unit}; it must be more than 0."


def _not_negative(name: str, value: float, unit: str = "") -> Iterator[str]:
    if not (math.isfinite(value) and value >= 0):
        yield f"{name} is {value:g}{unit}; it must be 0 or more."


def _one_of(name: str, value: str, known: tuple[str, ...]) -> Iterator[str]:
    if value not in known:
        yield f'{name} is "{value}"; use one of {", ".join(known)}.'


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
        yield from _one_of("form", self.form, SHEET_FORMS)
        yield from _one_of("veneer", self.veneer, VENEERS)
        yield from _positive("length along the grain", self.along_mm, " mm")
        yield from _positive("width across the grain", self.across_mm, " mm")
        if self.to_buy:
            yield from _positive("price", self.price_cents, " cents")
        yield from _not_negative("sheets on hand", self.on_hand)
        yield from _not_negative("value", self.value_cents, " cents")
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
        yield from _one_of("form", self.form, ROLL_FORMS)
        yield from _positive("width", self.width_mm, " mm")
        yield from _positive("length", self.length_mm, " mm")
        if self.to_buy:
            yield from _positive("price", self.price_cents, " cents")
        yield from _not_negative("rolls on hand", self.on_hand)
        yield from _not_negative("value", self.value_cents, " cents")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """A pack as it is sold.

    Parameters
    ----------
    quantity : float
        What it holds. [unit of the material]
    price_cents : int
        Price of one pack. [cents]
    from_packs : int
        The price holds from this many packs on. [-]
    """

    quantity: float
    price_cents: int
    from_packs: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(Row):
    """A consumable, a finish or a piece of hardware, in the packs it is sold in.

    Parameters
    ----------
    name : str
        What the cost sheet calls it.
    group : str
        Heading of the cost sheet.
    unit : str
        One of `UNITS`.
    packs : tuple of Pack
        The packs, the shop's usual one first.
    on_hand : float
        What lies in the rack. [unit]
    shelf_life_days : int or None
        How long an opened or mixed pack keeps. [days]
    """

    name: str
    group: str
    unit: str
    packs: tuple[Pack, ...]
    on_hand: float = 0.0
    shelf_life_days: int | None = None

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        yield from _one_of("unit", self.unit, UNITS)
        yield from _not_negative("quantity on hand", self.on_hand)
        if not self.packs:
            yield "no pack is given; give a pack and its price."
        for pack in self.packs:
            yield from _positive("pack", pack.quantity, f" {self.unit}")
            yield from _positive("price", pack.price_cents, " cents")
            yield from _positive("price from packs", pack.from_packs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Minutes(Row):
    """How long an operation takes at this bench.

    Parameters
    ----------
    name : str
        What the cost sheet calls it.
    setup_min : float
        Set-up and clean-up, once. [min]
    rate_min : float
        Time for each unit. [min]
    unit : str
        One of `UNITS`.
    people : int
        How many work on it at once. [-]
    pay : str
        "paid", "given" or "none".
    drying_min : float
        Waiting time before the next step may start. [min]
    """

    name: str
    setup_min: float
    rate_min: float
    unit: str
    people: int = 1
    pay: str = "given"
    drying_min: float = 0.0

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        yield from _one_of("unit", self.unit, UNITS)
        yield from _one_of("pay", self.pay, PAYS)
        yield from _not_negative("set-up", self.setup_min, " min")
        yield from _not_negative("rate", self.rate_min, " min")
        yield from _not_negative("drying", self.drying_min, " min")
        yield from _positive("people", self.people)


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance(Row):
    """One figure of the shop's custom: an overhang, a spread, a share.

    Parameters
    ----------
    value : float
        The figure. [unit]
    unit : str
        What it is counted in, such as "mm", "m2/l" or "share".
    note : str
        What it is for.
    """

    value: float
    unit: str
    note: str = ""

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        yield from _not_negative("value", self.value)
        if self.unit == "share" and self.value > 1:
            yield f"a share is {self.value:g}; it must be 0 to 1."


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How a shop reads, prints and reckons.

    Parameters
    ----------
    shop : str
        The shop's name.
    currency : str
        The sign printed before totals.
    lengths : str
        "in" or "mm".
    paper : str
        "A4" or "Letter".
    paid_cents_per_hour : int
        What an hour costs that is paid. [cents]
    given_cents_per_hour : int
        The stated value of an hour that is given. [cents]
    overhead_cents_per_hour : int
        Rent, light and machines for each hour at the bench. [cents]
    price_age_days : int
        A price older than this is named on the cost sheet. [days]
    """

    shop: str
    currency: str
    lengths: str
    paper: str
    paid_cents_per_hour: int
    given_cents_per_hour: int
    overhead_cents_per_hour: int
    price_age_days: int

    def __post_init__(self) -> None:
        """Refuse settings that cannot be used, with every fault."""
        raise_all(TableError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from _one_of("lengths", self.lengths, ("in", "mm"))
        yield from _one_of("paper", self.paper, ("A4", "Letter"))
        yield from _not_negative("paid_per_hour", self.paid_cents_per_hour)
        yield from _not_negative("given_per_hour", self.given_cents_per_hour)
        yield from _not_negative("overhead_per_hour", self.overhead_cents_per_hour)
        yield from _positive("price_age_days", self.price_age_days)
