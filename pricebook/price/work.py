"""Hours and overhead: what a price pays for an hour, what an hour must carry."""

from __future__ import annotations

from fractions import Fraction

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up
from pricebook.price.fees import Shares, check_sum, read_shares


def pay_per_hour_cents(
    hammer_cents: int,
    shares: Shares,
    material_cents: int,
    hours: Number,
    fixed_cents: int = 0,
) -> int:
    """Return what a hammer price pays for an hour of the work.

    Parameters
    ----------
    hammer_cents : int
        The hammer price, 0 or more. [cents]
    shares : number or sequence of numbers
        Fees that are shares of it, summing to less than 1. [-]
    material_cents : int
        Material to be repaid from it. [cents]
    hours : number
        Hours of work, above 0. [h]
    fixed_cents : int
        Fees that are the same at every price. [cents]

    Returns
    -------
    int
        (hammer less fees less material)/hours, rounded half up; below 0 when the
        price does not even repay the material. [cents an hour]

    Raises
    ------
    MoneyError
        If an amount, a share or the hours cannot be.

    Examples
    --------
    >>> pay_per_hour_cents(32_000, 0.05, 7_200, 6.5)
    3569
    """
    faults = [
        *cents_faults("hammer_cents", hammer_cents),
        *cents_faults("material_cents", material_cents),
        *cents_faults("fixed_cents", fixed_cents),
        *number_faults("hours", hours, above=0),
    ]
    raise_all(MoneyError, faults)
    parts = read_shares(shares)
    check_sum(parts)
    left = hammer_cents * (1 - sum(parts, Fraction(0))) - material_cents - fixed_cents
    return half_up(left / exact(hours))


def overhead_per_hour_cents(overhead_cents: int, hours: Number) -> int:
    """Return the overhead that each hour of work carries.

    Parameters
    ----------
    overhead_cents : int
        Rent, insurance, sharpening and the like over a period. [cents]
    hours : number
        Hours of work in the same period, above 0. [h]

    Returns
    -------
    int
        Overhead/hours, rounded half up. [cents an hour]

    Raises
    ------
    MoneyError
        If the amount is below 0 or there are no hours.

    Notes
    -----
    For the board. Whether to take on a piece, or to let it go at a price, is a
    matter of the costs that the piece itself causes.

    Examples
    --------
    >>> overhead_per_hour_cents(250_000_000, 1_250_000)
    200
    """
    faults = cents_faults("overhead_cents", overhead_cents)
    raise_all(MoneyError, faults + number_faults("hours", hours, above=0))
    return half_up(overhead_cents / exact(hours))


def job_cost_cents(
    material_cents: int, labour_cents: int, overhead_on_labour: Number
) -> int:
    """Return what a job costs with overhead charged on its labour.

    Parameters
    ----------
    material_cents, labour_cents : int
        What the job took. [cents]
    overhead_on_labour : number
        Overhead for each unit of labour money, 0 or more; 250 % is 2.5. [-]

    Returns
    -------
    int
        Material, labour and overhead. [cents]

    Raises
    ------
    MoneyError
        If an amount or the rate cannot be; one sentence each.

    Examples
    --------
    >>> job_cost_cents(70_000, 6_600, 2.5)
    93100
    """
    faults = [
        *cents_faults("material_cents", material_cents),
        *cents_faults("labour_cents", labour_cents),
        *number_faults("overhead_on_labour", overhead_on_labour, least=0),
    ]
    raise_all(MoneyError, faults)
    overhead_cents = half_up(labour_cents * exact(overhead_on_labour))
    return material_cents + labour_cents + overhead_cents
