"""What it cost to raise the money, and the board's own ways of showing it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, is_cents
from pricebook.receipts.figures import Figure, in_force
from pricebook.receipts.thresholds import AS_OF, THRESHOLDS


def need_cents(**amounts: object) -> None:
    """Refuse amounts that are not whole cents of 0 or more."""
    raise_all(
        MoneyError,
        [
            f"{name} is {amount!r}; it must be whole cents, 0 or more."
            for name, amount in amounts.items()
            if not is_cents(amount)
        ],
    )


@dataclass(frozen=True, slots=True)
class CostToRaise:
    """What it cost to raise money, each figure with what it is divided by.

    Parameters
    ----------
    cost_cents : int
        Money spent on raising it. [cents]
    gross_cents : int
        Money raised before that. [cents]

    Notes
    -----
    Cost to raise one = cost / gross; net margin = 1 - that; return for one spent =
    gross / cost; return on investment = (gross - cost) / cost. None where the
    denominator is 0. Report cash alone, and once more with gifts in kind and time
    at their stated value; never mix.

    Examples
    --------
    >>> raised = CostToRaise(5000, 10000)
    >>> float(raised.for_one), float(raised.return_for_one)
    (0.5, 2.0)
    >>> raised.words
    '0.50 spent to raise 1.00: 50.00 spent / 100.00 raised, gross'
    >>> CostToRaise(5000, 0).for_one is None
    True
    """

    cost_cents: int
    gross_cents: int

    def __post_init__(self) -> None:
        need_cents(cost=self.cost_cents, gross=self.gross_cents)
        object.__setattr__(self, "cost_cents", int(self.cost_cents))
        object.__setattr__(self, "gross_cents", int(self.gross_cents))

    @property
    def net_cents(self) -> int:
        """What is left; below 0 when it cost more than it raised [cents]."""
        return self.gross_cents - self.cost_cents

    @property
    def for_one(self) -> Fraction | None:
        """Spent for each one raised; None when nothing was raised."""
        if self.gross_cents == 0:
            return None
        return Fraction(self.cost_cents, self.gross_cents)

    @property
    def net_margin(self) -> Fraction | None:
        """Kept of each one raised; None when nothing was raised."""
        return None if self.for_one is None else 1 - self.for_one

    @property
    def return_for_one(self) -> Fraction | None:
        """Raised for each one spent; None when nothing was spent."""
        if self.cost_cents == 0:
            return None
        return Fraction(self.gross_cents, self.cost_cents)

    @property
    def return_on_investment(self) -> Fraction | None:
        """Net for each one spent; None when nothing was spent."""
        return None if self.return_for_one is None else self.return_for_one - 1

    @property
    def words(self) -> str:
        """The figure with its denominator."""
        cost, gross = money.show(self.cost_cents), money.show(self.gross_cents)
        if self.for_one is None:
            return f"no figure: {cost} spent, and nothing was raised to divide it by"
        rate = money.show(money.half_up(100 * self.for_one))
        return f"{rate} spent to raise 1.00: {cost} spent / {gross} raised, gross"


def whole_units(amount_cents: int) -> int:
    """Round an amount to whole units for a page that shows no cents.

    Parameters
    ----------
    amount_cents : int
        The amount, exact; below 0 for a loss. [cents]

    Returns
    -------
    int
        Whole units, half up. [unit]

    Raises
    ------
    MoneyError
        If it is not whole cents.

    Notes
    -----
    Add in cents and round the total once: rounded rows need not add up to it.
    Source: irs_whole_dollars.

    Examples
    --------
    >>> whole_units(250), whole_units(149), whole_units(-150)
    (3, 1, -2)
    """
    if not isinstance(amount_cents, int) or isinstance(amount_cents, bool):
        raise MoneyError(f"the amount is {amount_cents!r:.40}; give whole cents.")
    return money.half_up(Fraction(amount_cents, 100))


def hours_cents(hours: Number, rate_cents: int) -> int:
    """Value given hours at a stated rate, for the board's eyes only.

    Parameters
    ----------
    hours : number
        Hours given, 0 or more. [h]
    rate_cents : int
        The stated rate. [cents per h]

    Returns
    -------
    int
        Never deductible, never on the public return. [cents]

    Raises
    ------
    MoneyError
        If the hours or the rate are below 0 or no numbers.

    Examples
    --------
    >>> hours_cents(6.5, 3180)
    20670
    """
    need_cents(rate=rate_cents)
    return money.times(rate_cents, _not_below_0("hours", hours))


def miles_cents(
    miles: Number,
    *,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> int:
    """Work out a volunteer's miles at the rate of the law.

    Parameters
    ----------
    miles : number
        Miles driven for the charity, 0 or more. [mile]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year of the driving.

    Returns
    -------
    int
        Parking and tolls not included. [cents]

    Raises
    ------
    MoneyError
        If the miles are not a number of 0 or more.

    Notes
    -----
    14 cents a mile, fixed by law. Source: irc_170.

    Examples
    --------
    >>> miles_cents(240)
    3360
    """
    driven = _not_below_0("miles", miles)
    rate = in_force(thresholds, "volunteer's mile", as_of)
    return money.times(rate.cents, driven)


def _not_below_0(name: str, number: Number) -> Fraction:
    """Return a number of 0 or more as a fraction, or refuse."""
    try:
        found = money.exact(number)
    except MoneyError:
        found = Fraction(-1)
    if found < 0:
        raise MoneyError(f"{name} are {number!r:.40}; give a number of 0 or more.")
    return found
