"""Planned against used, in the textbook sense: a rate and a quantity variance."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import number_fault
from pricebook.money import Number, exact, half_up

_NAMES = {"material": ("price", "quantity"), "labour": ("rate", "time")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Variances:
    """What was spent above plan, split into its two causes.

    Parameters
    ----------
    rate_cents : int
        Because a unit cost more than planned; below 0 when less. [cents]
    quantity_cents : int
        Because more was used than planned; below 0 when less. [cents]

    Examples
    --------
    >>> found = Variances(rate_cents=100, quantity_cents=-175)
    >>> found.rate_mark, found.quantity_mark, found.total_cents, found.total_mark
    ('U', 'F', -75, 'F')
    """

    rate_cents: int
    quantity_cents: int

    @property
    def total_cents(self) -> int:
        """What was spent above plan in all, in cents."""
        return self.rate_cents + self.quantity_cents

    @property
    def rate_mark(self) -> str:
        """F for favourable, U for unfavourable, nothing for none."""
        return _mark(self.rate_cents)

    @property
    def quantity_mark(self) -> str:
        """F for favourable, U for unfavourable, nothing for none."""
        return _mark(self.quantity_cents)

    @property
    def total_mark(self) -> str:
        """F for favourable, U for unfavourable, nothing for none."""
        return _mark(self.total_cents)


@dataclass(frozen=True, slots=True, kw_only=True)
class Usage:
    """One material or operation as planned and as used.

    Parameters
    ----------
    name : str
        What it is.
    kind : {"material", "labour"}
        Which decides what its variances are called.
    unit : str
        Unit of the quantities.
    standard_rate_cents, actual_rate_cents : number
        Price of a unit as planned and as paid. [cents a unit]
    standard_quantity, actual_quantity : number
        Quantity as planned for what was made, and as used. [unit]

    Raises
    ------
    SpecError
        If the kind is neither, or a number is below 0 or none.

    Examples
    --------
    >>> face = Usage(name="lay a face", kind="labour", unit="h",
    ...              standard_rate_cents=800, standard_quantity=0.10,
    ...              actual_rate_cents=950, actual_quantity=0.20)
    >>> face.cause_names, face.variances.rate_cents, face.variances.quantity_cents
    (('rate', 'time'), 30, 80)
    """

    name: str
    kind: str
    unit: str
    standard_rate_cents: Number
    standard_quantity: Number
    actual_rate_cents: Number
    actual_quantity: Number

    def __post_init__(self) -> None:
        faults = []
        if self.kind not in _NAMES:
            faults.append(
                f'{self.name}: kind is {self.kind!r}; write "material" or "labour".'
            )
        for key in ("standard_rate_cents", "standard_quantity"):
            faults += number_fault(f"{self.name}: {key}", getattr(self, key))
        for key in ("actual_rate_cents", "actual_quantity"):
            faults += number_fault(f"{self.name}: {key}", getattr(self, key))
        raise_all(SpecError, faults)

    @property
    def cause_names(self) -> tuple[str, str]:
        """What the two variances are called for this kind."""
        return _NAMES[self.kind]

    @property
    def planned_cents(self) -> int:
        """What the plan allowed, in cents."""
        return half_up(exact(self.standard_rate_cents) * exact(self.standard_quantity))

    @property
    def variances(self) -> Variances:
        """What was spent above plan, by cause."""
        return rate_and_quantity_variance(
            self.standard_rate_cents,
            self.standard_quantity,
            self.actual_rate_cents,
            self.actual_quantity,
        )


def rate_and_quantity_variance(
    standard_rate_cents: Number,
    standard_quantity: Number,
    actual_rate_cents: Number,
    actual_quantity: Number,
) -> Variances:
    """Split what was spent above plan into rate and quantity.

    Parameters
    ----------
    standard_rate_cents : number
        Planned price of a unit. [cents a unit]
    standard_quantity : number
        Quantity planned for what was made. [unit]
    actual_rate_cents : number
        Price paid for a unit. [cents a unit]
    actual_quantity : number
        Quantity used. [unit]

    Returns
    -------
    Variances
        Both in whole cents; above 0 is unfavourable.

    Raises
    ------
    SpecError
        If a number is below 0, or none.

    Notes
    -----
    rate = (actual rate - standard rate) x actual quantity; quantity = (actual
    quantity - standard quantity) x standard rate. Each is rounded half up once, the
    total is their sum, so that a printed table adds up.
    Source: managerial_accounting_2019, sections 8.2 and 8.3.

    Examples
    --------
    >>> found = rate_and_quantity_variance(700, 0.25, 900, 0.50)
    >>> found.rate_cents, found.quantity_cents, found.total_cents, found.total_mark
    (100, 175, 275, 'U')
    """
    given = {
        "standard_rate_cents": standard_rate_cents,
        "standard_quantity": standard_quantity,
        "actual_rate_cents": actual_rate_cents,
        "actual_quantity": actual_quantity,
    }
    raise_all(
        SpecError, [f for key, value in given.items() for f in number_fault(key, value)]
    )
    planned_rate, planned = exact(standard_rate_cents), exact(standard_quantity)
    paid, used = exact(actual_rate_cents), exact(actual_quantity)
    return Variances(
        rate_cents=half_up((paid - planned_rate) * used),
        quantity_cents=half_up((used - planned) * planned_rate),
    )


def total_variances(rows: Iterable[Usage]) -> Variances:
    """Add up the variances of many materials or operations.

    Parameters
    ----------
    rows : iterable of Usage
        What was planned and used.

    Returns
    -------
    Variances
        The sums of the rounded rows.

    Examples
    --------
    >>> total_variances([]).total_cents
    0
    """
    found = [row.variances for row in rows]
    return Variances(
        rate_cents=sum(row.rate_cents for row in found),
        quantity_cents=sum(row.quantity_cents for row in found),
    )


def _mark(cents: int) -> str:
    if cents == 0:
        return ""
    return "U" if cents > 0 else "F"
