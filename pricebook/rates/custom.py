"""Materials, minutes, allowances and settings: what the shop keeps and its custom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import TableError, raise_all
from pricebook.rates.rows import PAYS, UNITS, Row, not_negative, one_of, positive


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
        yield from one_of("unit", self.unit, UNITS)
        yield from not_negative("quantity on hand", self.on_hand)
        if not self.packs:
            yield "no pack is given; give a pack and its price."
        for pack in self.packs:
            yield from positive("pack", pack.quantity, f" {self.unit}")
            yield from positive("price", pack.price_cents, " cents")
            yield from positive("price from packs", pack.from_packs)


MINUTES_UNITS = {
    **dict.fromkeys(("mark out", "fill holes", "fill dents", "patch"), "each"),
    **dict.fromkeys(("finish set-up", "fit hardware"), "each"),
    **dict.fromkeys(("rough board", "cut veneer", "lay veneer", "sand"), "m2"),
    **dict.fromkeys(("lay self-adhesive", "extra glue coat"), "m2"),
    **dict.fromkeys(("press veneer", "iron veneer", "flatten leaves"), "m2"),
    **dict.fromkeys(("joint leaves", "scrape tape", "band edges"), "m"),
    **dict.fromkeys(("brush coat", "pad coat", "spray coat", "wipe coat"), "m2"),
    **dict.fromkeys(("scuff between coats", "strip", "sand back"), "m2"),
    **dict.fromkeys(("scuff old coat", "seal"), "m2"),
}
"""What the bench counts each operation in."""


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
        yield from one_of("unit", self.unit, UNITS)
        unit = MINUTES_UNITS.get(self.key)
        if self.unit in UNITS and unit not in (None, self.unit):
            yield f'unit is "{self.unit}"; it is counted in {unit}, so give it so.'
        yield from one_of("pay", self.pay, PAYS)
        yield from not_negative("set-up", self.setup_min, " min")
        yield from not_negative("rate", self.rate_min, " min")
        yield from not_negative("drying", self.drying_min, " min")
        yield from positive("people", self.people)


ALLOWANCE_UNITS = {
    "adhesive waste": "share",
    "filler waste": "share",
    "dent volume": "ml",
    "sanding disc life": "m2",
    "tack cloth area": "m2",
    "tack cloth uses": "each",
    "blade life": "m",
    "masking for spraying": "m/m2",
    "masking waste": "share",
    "veneer tape on joints": "m/m",
    "rags each session": "each",
    "gloves each session": "pair",
    "filter life": "h",
    "rework": "share",
    "spoilage": "share",
    "smallest offcut side": "mm",
    "acclimatise": "min",
    "session": "min",
    "stripper coats": "each",
    "rag area for stripping": "m2",
    "wear on an old coating": "each",
    "patch glue": "ml",
}
"""What each figure of the shop's custom is counted in; a spread is in m2/l."""
_ABOVE_ZERO = frozenset(
    {
        "sanding disc life",
        "tack cloth area",
        "tack cloth uses",
        "blade life",
        "filter life",
        "session",
        "rag area for stripping",
    }
)
_WHOLE = frozenset(
    {"tack cloth uses", "rags each session", "gloves each session", "stripper coats"}
)


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
        spread = self.key.endswith(" spread")
        bound = positive if spread or self.key in _ABOVE_ZERO else not_negative
        yield from bound("value", self.value)
        unit = "m2/l" if spread else ALLOWANCE_UNITS.get(self.key)
        if unit and self.unit != unit:
            yield f'unit is "{self.unit}"; it is counted in {unit}, so give it so.'
        if self.key in _WHOLE and self.value != int(self.value):
            yield f"value is {self.value:g}; it must be a whole number."
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
        yield from one_of("lengths", self.lengths, ("in", "mm"))
        yield from one_of("paper", self.paper, ("A4", "Letter"))
        yield from not_negative("paid_per_hour", self.paid_cents_per_hour)
        yield from not_negative("given_per_hour", self.given_cents_per_hour)
        yield from not_negative("overhead_per_hour", self.overhead_cents_per_hour)
        yield from positive("price_age_days", self.price_age_days)
