"""Results of an event as comparables for the next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import whole_fault

_OUTCOMES = ("sold", "passed", "withdrawn", "void")


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparableRow:
    """One piece that was offered, and at what price.

    Parameters
    ----------
    date : datetime.date
        When it was offered.
    form, species : str
        What it was and in which veneer.
    price_cents : int
        The hammer price; of an unsold piece the lowest price that nobody bid. [cents]
    sold : bool
        Whether it sold; an unsold piece only says that its price lay below.
    source : str
        Where the row comes from.
    """

    date: date
    form: str
    species: str
    price_cents: int
    sold: bool
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LotRecord:
    """One lot as the event left it.

    Parameters
    ----------
    lot : str
        The lot.
    form, species : str
        What it was and in which veneer.
    outcome : {"sold", "passed", "withdrawn", "void"}
        What became of it.
    hammer_cents : int, optional
        What it sold for. [cents]
    least_cents : int, optional
        Opening bid, or the reserve where higher: what would have bought it. [cents]

    Raises
    ------
    SpecError
        If the outcome is none of these, or the price that it needs is missing.
    """

    lot: str
    form: str
    species: str
    outcome: str
    hammer_cents: int | None = None
    least_cents: int | None = None

    def __post_init__(self) -> None:
        place = f"lot {self.lot}"
        faults = []
        if self.outcome not in _OUTCOMES:
            known = ", ".join(_OUTCOMES)
            faults.append(f"{place}: outcome is {self.outcome!r}; use one of {known}.")
        needed = {"sold": "hammer_cents", "passed": "least_cents"}.get(self.outcome)
        if needed:
            faults += whole_fault(f"{place}: {needed}", getattr(self, needed), least=1)
        raise_all(SpecError, faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparables:
    """Rows for the list of comparables, and the lots that make none.

    Parameters
    ----------
    rows : tuple of ComparableRow
        One for each lot sold or passed, in the order of the lots.
    left_out : tuple of (str, str)
        Lot and reason of each of the others.
    """

    rows: tuple[ComparableRow, ...]
    left_out: tuple[tuple[str, str], ...]


def comparables(lots: Iterable[LotRecord], *, on: date, source: str) -> Comparables:
    """Turn the lots of an event into rows for the list of comparables.

    Parameters
    ----------
    lots : iterable of LotRecord
        The lots as the event left them.
    on : datetime.date
        When the event was held.
    source : str
        What the rows are to name as their source.

    Returns
    -------
    Comparables
        The rows to append, and which lots were left out and why.

    Notes
    -----
    A passed lot is kept: leaving it out would make the list too dear. It stands
    with the price that nobody bid, as a value below that price
    (`bidding.fit_sold_and_unsold` takes it so).

    Examples
    --------
    >>> found = comparables(
    ...     [LotRecord(lot="1", form="chest", species="walnut", outcome="sold",
    ...                hammer_cents=32000),
    ...      LotRecord(lot="2", form="bookcase", species="cherry", outcome="void")],
    ...     on=date(2026, 4, 18), source="spring_bench_auction")
    >>> found.rows[0].price_cents, found.left_out
    (32000, (('2', 'void: no price was made'),))
    """
    rows, left_out = [], []
    for lot in lots:
        if lot.outcome in {"withdrawn", "void"}:
            left_out.append((lot.lot, f"{lot.outcome}: no price was made"))
            continue
        is_sold = lot.outcome == "sold"
        price = lot.hammer_cents if is_sold else lot.least_cents
        rows.append(
            ComparableRow(
                date=on,
                form=lot.form,
                species=lot.species,
                price_cents=int(price or 0),
                sold=is_sold,
                source=source,
            )
        )
    return Comparables(rows=tuple(rows), left_out=tuple(left_out))
