"""What the maker wishes for a piece: veneer, banding, finish, hours, price."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.errors import shown
from pricebook.money import is_cents
from pricebook.piece.checks import at_least, counted, not_negative, one_of, refuse

GRAINS = ("horizontal", "vertical", "side to side", "front to back")
_MOST_HOURS = 10_000
VENEER_FORMS = ("backed", "self-adhesive", "raw")
MATCHES = (
    "running",
    "balance",
    "centre balance",
    "slip-centre-book",
    "slip",
    "book",
    "random",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class VeneerWishes:
    """Which faces get which veneer, and how it lies.

    Parameters
    ----------
    species : str
        Wood of the faces that are seen.
    form : str
        "backed", "self-adhesive" or "raw".
    backing_species : str or None
        Wood of the backing veneer; needed when a group gets it.
    match, lie : str
        How raw leaves are matched, and whether neighbours lie as a "book" or a
        "slip" where the match leaves that open.
    end_match : bool
        Whether a face longer than a leaf may have joints across the grain.
    overhang_mm : float
        Left standing on every side of a face. [mm]
    show, backing, plain : tuple of str
        Groups of faces; a group that stands in none of the three stays plain.
    grain : tuple of (str, str)
        Group and direction, where it differs from the form's custom.
    matched : tuple of str
        Groups whose faces are cut one after another from one strip.
    centred : tuple of str
        Groups whose centre line lies on that of the sheet's figure.
    free_grain : tuple of str
        Groups whose faces may be turned.
    """

    species: str
    form: str = "backed"
    backing_species: str | None = None
    match: str = "balance"
    lie: str = "book"
    end_match: bool = False
    overhang_mm: float
    show: tuple[str, ...] = ()
    backing: tuple[str, ...] = ()
    plain: tuple[str, ...] = ()
    grain: tuple[tuple[str, str], ...] = ()
    matched: tuple[str, ...] = ()
    centred: tuple[str, ...] = ()
    free_grain: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse wishes that contradict each other."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from not_negative("veneer.overhang", self.overhang_mm)
        yield from one_of("veneer.form", self.form, VENEER_FORMS)
        yield from one_of("veneer.match", self.match, MATCHES)
        yield from one_of("veneer.lie", self.lie, ("book", "slip"))
        named = [*self.show, *self.backing, *self.plain]
        for group in sorted({g for g in named if named.count(g) > 1}):
            yield f'veneer: "{group}" stands in more than one list; leave it in one.'
        if self.backing and not self.backing_species:
            yield "veneer.backing lists faces; name their wood in backing_species."
        for group, way in self.grain:
            yield from one_of(f"veneer.grain.{group}", way, GRAINS)
        yield from self._idle_wishes()

    def _idle_wishes(self) -> Iterator[str]:
        for word, groups in (
            ("matched", self.matched),
            ("centred", self.centred),
            ("free_grain", self.free_grain),
        ):
            for group in groups:
                if group not in (*self.show, *self.backing):
                    yield (
                        f'veneer.{word} names "{group}", which gets no veneer; '
                        "add it to show or backing."
                    )
        for group in (*self.matched, *self.centred):
            if group in self.free_grain:
                yield (
                    f'veneer.free_grain names "{group}", whose figure is matched or '
                    "centred; its grain cannot be free."
                )

    @property
    def veneered(self) -> tuple[str, ...]:
        """Groups that get veneer, show before backing."""
        return (*self.show, *self.backing)


@dataclass(frozen=True, slots=True, kw_only=True)
class BandingWishes:
    """Which edges are banded.

    Parameters
    ----------
    species : str
        Wood of the banding.
    edges : tuple of str
        Groups of edges.
    end_allowance_mm : float
        Left standing at each end. [mm]
    """

    species: str
    edges: tuple[str, ...]
    end_allowance_mm: float

    def __post_init__(self) -> None:
        """Refuse a negative allowance."""
        refuse(not_negative("banding.end_allowance", self.end_allowance_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishWishes:
    """How the piece is finished.

    Parameters
    ----------
    system : str
        Key of a finish system of the shop.
    coats : int or None
        Build coats, where they differ from the system's. [-]
    groups : tuple of str
        Groups of faces to coat; empty: every face that is veneered.
    """

    system: str
    coats: int | None = None
    groups: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a number of coats that none is."""
        if self.coats is not None:
            refuse(counted("finish.coats", self.coats, most=100))


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourWishes:
    """How the hours of this piece count.

    Parameters
    ----------
    pay : str or None
        "paid", "given" or "none" for all operations; None: as each row says.
    teaching_min : float
        Time spent teaching beside the work. [min]
    hours : float or None
        Hours as the maker knows them, in place of the rates' sum. [h]
    learning_rate : float or None
        What is left of the time at each doubling of like pieces; None: no
        learning is reckoned with. [-]
    learning_convention : str
        "unit" or "cumulative average", as the rate was published.
    made_before : int
        Like pieces made before this one. [-]
    """

    pay: str | None = None
    teaching_min: float = 0.0
    hours: float | None = None
    learning_rate: float | None = None
    learning_convention: str = "unit"
    made_before: int = 0

    def __post_init__(self) -> None:
        """Refuse negative time and unknown pay."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        if self.pay is not None:
            yield from one_of("labour.pay", self.pay, ("paid", "given", "none"))
        yield from at_least("labour.teaching_min", self.teaching_min, 0)
        if self.hours is not None and not 0 < self.hours <= _MOST_HOURS:
            yield (
                f"labour.hours is {self.hours:g}; it must be more than 0 and at most "
                f"{_MOST_HOURS:,}."
            )
        rate = self.learning_rate
        if rate is not None and not 0.5 <= rate <= 1:
            yield (
                f"labour.learning_rate is {rate:g}; it is what is left of the time at "
                "each doubling, from 0.5 to 1: write 80 % as 0.8."
            )
        conventions = ("unit", "cumulative average")
        yield from one_of(
            "labour.learning_convention", self.learning_convention, conventions
        )
        yield from counted("labour.made_before", self.made_before, least=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceWishes:
    """What is known about the market for this piece.

    Parameters
    ----------
    likely_bidders : float or None
        How many people are likely to bid. [-]
    comparables : tuple of str
        Keys of comparable sales in the shop's list.
    retail_new_cents : int or None
        Shop price of a comparable new piece. [cents]
    unsold_value_cents : int
        What the piece is worth to the charity unsold. [cents]
    wanted_net_cents : int or None
        What the charity wishes to keep. [cents]
    opening_bid_cents, reserve_cents : int or None
        Chosen by the maker in place of the advised ones; the advice judges whether
        they are on the ladder and fit each other. [cents]
    appraised_by, appraised_on : str, date or None
        Who set the fair market value, and when.
    """

    likely_bidders: float | None = None
    comparables: tuple[str, ...] = ()
    retail_new_cents: int | None = None
    unsold_value_cents: int = 0
    wanted_net_cents: int | None = None
    opening_bid_cents: int | None = None
    reserve_cents: int | None = None
    appraised_by: str = ""
    appraised_on: date | None = None

    def __post_init__(self) -> None:
        """Refuse a crowd of nobody, and money that is none."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        if self.likely_bidders is not None and not self.likely_bidders > 0:
            yield (
                f"price.likely_bidders is {self.likely_bidders:g}; "
                "it must be more than 0."
            )
        if not is_cents(self.unsold_value_cents):
            yield _no_cents("unsold_value", self.unsold_value_cents)
        for name, cents in (
            ("retail_new", self.retail_new_cents),
            ("wanted_net", self.wanted_net_cents),
            ("opening_bid", self.opening_bid_cents),
            ("reserve", self.reserve_cents),
        ):
            if cents is not None and not is_cents(cents):
                yield _no_cents(name, cents)


def _no_cents(name: str, value: object) -> str:
    return f"price.{name}_cents is {shown(value)}; it must be whole cents, 0 or more."
