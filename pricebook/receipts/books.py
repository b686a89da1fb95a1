"""For the charity's books: gifts re-measured at sale, penalties and reports due."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.errors import MoneyError, raise_all
from pricebook.money import is_cents
from pricebook.receipts.figures import Figure, in_force
from pricebook.receipts.raising import need_cents
from pricebook.receipts.thresholds import AS_OF, THRESHOLDS


def remeasured_cents(carried_cents: int, sold_cents: int) -> int:
    """Work out how the gift of a piece changes in the books when it is sold.

    Parameters
    ----------
    carried_cents : int
        The value at which the gift was recorded. [cents]
    sold_cents : int
        What it was sold for. [cents]

    Returns
    -------
    int
        To add to the contribution, below 0 when it sold for less; gift and change
        together are the cash received. [cents]

    Raises
    ------
    MoneyError
        If an amount is not whole cents of 0 or more.

    Notes
    -----
    Sold less carried, whether in the year of the gift or later. A prize that is
    raffled is not re-measured. Source: asc_958_605_25.

    Examples
    --------
    >>> remeasured_cents(400000, 500000), remeasured_cents(400000, 300000)
    (100000, -100000)
    """
    need_cents(carried=carried_cents, sold=sold_cents)
    return sold_cents - carried_cents


def service_is_recorded(
    *, makes_or_betters_an_asset: bool, skilled: bool, would_be_bought: bool
) -> bool:
    """Say whether given work belongs in the charity's books.

    Parameters
    ----------
    makes_or_betters_an_asset : bool
        The work makes or betters a thing that the charity owns.
    skilled : bool
        It needs a skill, and whoever gives it has that skill.
    would_be_bought : bool
        The charity would otherwise pay for it.

    Returns
    -------
    bool
        True when the work is recorded at its fair value.

    Raises
    ------
    MoneyError
        If an answer is neither True nor False.

    Notes
    -----
    The first alone is enough; the other two only together. The public return
    leaves given work out either way. Source: asc_958_605_25.

    Examples
    --------
    >>> service_is_recorded(
    ...     makes_or_betters_an_asset=True, skilled=False, would_be_bought=False
    ... )
    True
    """
    answers = {
        "makes_or_betters_an_asset": makes_or_betters_an_asset,
        "skilled": skilled,
        "would_be_bought": would_be_bought,
    }
    raise_all(
        MoneyError,
        (
            f"{name} is {answer!r:.40}; say True or False."
            for name, answer in answers.items()
            if not isinstance(answer, bool)
        ),
    )
    return makes_or_betters_an_asset or (skilled and would_be_bought)


def missed_disclosures_cents(
    missed: int, *, thresholds: Sequence[Figure] = THRESHOLDS, as_of: int = AS_OF
) -> int:
    """Work out the penalty for disclosures that an event failed to make.

    Parameters
    ----------
    missed : int
        How many, 0 or more. [-]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year of the event.

    Returns
    -------
    int
        The penalty, unless there was reasonable cause. [cents]

    Raises
    ------
    MoneyError
        If the number is not a whole number of 0 or more.

    Notes
    -----
    10.00 each, at most 5,000.00 an event. Source: irc_6714.

    Examples
    --------
    >>> missed_disclosures_cents(3), missed_disclosures_cents(501)
    (3000, 500000)
    """
    if not is_cents(missed):
        raise MoneyError(f"missed is {missed!r}; give a whole number of 0 or more.")
    each = in_force(thresholds, "penalty a missed disclosure", as_of).cents
    return min(
        missed * each, in_force(thresholds, "penalty an event at most", as_of).cents
    )


def payee_report_due(
    paid_cents: int, year: int, *, thresholds: Sequence[Figure] = THRESHOLDS
) -> bool:
    """Say whether a year's pay to one auctioneer or maker must be reported.

    Parameters
    ----------
    paid_cents : int
        Paid to one payee for services in the year, repaid costs not included. [cents]
    year : int
        The year of the payments.
    thresholds : sequence of Figure
        Dated thresholds.

    Returns
    -------
    bool
        True from the year's threshold on.

    Raises
    ------
    MoneyError
        If the amount is not whole cents of 0 or more.

    Notes
    -----
    600.00 up to 2025, 2,000.00 from 2026, indexed from 2027. Source: pl_119_21_70433.

    Examples
    --------
    >>> payee_report_due(100000, 2025), payee_report_due(100000, 2026)
    (True, False)
    """
    need_cents(paid=paid_cents)
    return paid_cents >= in_force(thresholds, "paid for services from", year).cents


def card_report_due(
    gross_cents: int,
    payments: int,
    *,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> bool:
    """Say whether a third-party settlement organisation reports the takings.

    Parameters
    ----------
    gross_cents : int
        Paid through it in the year, before fees and refunds, tax included. [cents]
    payments : int
        How many payments. [-]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year.

    Returns
    -------
    bool
        True above both thresholds. A plain card acquirer reports from the first
        payment on (from memory).

    Raises
    ------
    MoneyError
        If a number is not a whole number of 0 or more.

    Notes
    -----
    Above 20,000.00 and above 200 payments. Source: irs_fs_2025_08.

    Examples
    --------
    >>> card_report_due(2000001, 201), card_report_due(2000001, 200)
    (True, False)
    """
    need_cents(gross=gross_cents, payments=payments)
    money_limit = in_force(thresholds, "paid by third party above", as_of).cents
    count_limit = in_force(thresholds, "payments by third party above", as_of).figure
    return gross_cents > money_limit and payments > count_limit
