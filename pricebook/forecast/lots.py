"""Lots of an evening as the forecast needs them: value, spread, bidders, opening."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from numbers import Integral
from typing import Any

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.forecast.faults import number_fault

CROWDS = ("poisson", "fixed")
_UNNAMED = "the lot"
_ORDER = ("median_cents", "sigma", "bidders", "opening_cents", "crowd")
_BIDDING_NAMES = {"median": "median_cents", "opening": "opening_cents"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One lot of an evening, seen by its bidders.

    Parameters
    ----------
    median_cents : float
        Median of what a bidder would pay. [cents]
    sigma : float
        Standard deviation of the logarithm of that value, above 0. [-]
    bidders : float
        How many bid: the mean when the crowd is "poisson", else the number. [-]
    opening_cents : float
        Opening bid; 0 for none. [cents]
    crowd : {"poisson", "fixed"}
        Whether the number of bidders is uncertain ("poisson") or known.
    name : str
        What the lot is called in a table.
    weight : float
        What part of the hammer price counts in the total, above 0. [-]

    Raises
    ------
    SpecError
        If a number is not one that a lot can have: a sentence for each.

    Examples
    --------
    >>> Lot(median_cents=30000, sigma=0.5, bidders=4, opening_cents=15000).crowd
    'poisson'
    """

    median_cents: float
    sigma: float
    bidders: float
    opening_cents: float
    crowd: str = "poisson"
    name: str = _UNNAMED
    weight: float = 1.0

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterable[str]:
        for key in ("median_cents", "sigma", "bidders", "weight"):
            yield from number_fault(
                f"{self.name}: {key}", getattr(self, key), above=True
            )
        yield from number_fault(f"{self.name}: opening_cents", self.opening_cents)
        if self.crowd not in CROWDS:
            yield (
                f"{self.name}: crowd is {self.crowd!r}; write "
                '"poisson" when the number of bidders is a mean, "fixed" when known.'
            )
        if self.crowd == "fixed" and not _whole(self.bidders):
            yield (
                f"{self.name}: bidders is {self.bidders!r}; a fixed crowd is a whole "
                'number, use crowd "poisson" for a mean.'
            )


def _whole(number: float) -> bool:
    return isinstance(number, Integral) or (
        isinstance(number, float) and number.is_integer()
    )


def read_lots(lots: Sequence[object]) -> tuple[Lot, ...]:
    """Take lots in the forms callers have them and return them checked.

    Parameters
    ----------
    lots : sequence
        Each a mapping or an object with `median_cents`, `sigma`, `bidders`,
        `opening_cents` and, if wanted, `crowd`, `name` and `weight`; or a row
        `(median_cents, sigma, bidders, opening_cents)` with `crowd` as a fifth. A
        mapping may say `median` and `opening`, as the bidding functions do, still
        in cents.

    Returns
    -------
    tuple of Lot
        In the same order; a lot without a name is called by its number.

    Raises
    ------
    SpecError
        If there are no lots, or a lot cannot be: a sentence for each fault.

    Notes
    -----
    A lot that states no crowd has a Poisson one: `bidders` is then how many are
    likely, which is what an organiser can say.

    Examples
    --------
    >>> read_lots([(30000, 0.5, 4, 15000)])[0].name
    'lot 1'
    >>> read_lots([(30000, 0, 4, 15000)])
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: lot 1: sigma is 0; it must be more than 0.
    """
    if isinstance(lots, (str, bytes, Mapping)) or not isinstance(lots, Iterable):
        raise SpecError(f"lots are {lots!r}; give a list with one entry a lot.")
    read: list[Lot] = []
    faults: list[str] = []
    for number, entry in enumerate(lots, 1):
        try:
            read.append(_read_lot(entry, f"lot {number}"))
        except SpecError as error:
            faults += error.faults
    if not read and not faults:
        raise SpecError("an evening has no lots; it must have at least one.")
    raise_all(SpecError, faults)
    return tuple(read)


def _read_lot(entry: object, place: str) -> Lot:
    if isinstance(entry, Lot):
        return replace(entry, name=place) if entry.name == _UNNAMED else entry
    values = _values(entry, place)
    values["name"] = str(values.get("name") or place)
    missing = [key for key in _ORDER[:4] if key not in values]
    if missing:
        verb, it = ("is", "it") if len(missing) == 1 else ("are", "them")
        raise SpecError(
            f"{values['name']}: {', '.join(missing)} {verb} missing; state {it}."
        )
    return Lot(**values)


def _values(entry: object, place: str) -> dict[str, Any]:
    """Return a lot's values by name, whatever form they came in."""
    known: list[str] = [field.name for field in fields(Lot)]
    if isinstance(entry, Mapping):
        values = {_BIDDING_NAMES.get(str(key), str(key)): entry[key] for key in entry}
        unknown = [key for key in values if key not in known]
        raise_all(
            SpecError,
            [
                f'{place}: "{key}" is not known; {nearest(key, known)}'
                for key in unknown
            ],
        )
        return values
    if isinstance(entry, Sequence) and not isinstance(entry, (str, bytes)):
        if len(entry) not in {4, 5}:
            raise SpecError(
                f"{place} has {len(entry)} values; write {', '.join(_ORDER[:4])} and, "
                "if wanted, crowd."
            )
        return dict(zip(_ORDER, entry, strict=False))
    values = {key: getattr(entry, key) for key in known if hasattr(entry, key)}
    if not values:
        raise SpecError(f"{place} is {entry!r}; give its {', '.join(_ORDER[:4])}.")
    return values
