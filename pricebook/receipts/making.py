"""What a maker or a volunteer may be told about the cost of what they gave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook import money
from pricebook.errors import MoneyError, nearest, raise_all
from pricebook.money import is_cents
from pricebook.receipts.figures import Figure, in_force
from pricebook.receipts.thresholds import AS_OF, PRACTITIONER, THRESHOLDS

OWNERS = ("maker", "charity")


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerBasis:
    """What the maker's gift comes to for the maker, at most.

    Parameters
    ----------
    owned_by : str
        Who owned the piece while it was worked on: `maker` or `charity`.
    cost_cents : int
        Documented cost, not repaid and not deducted elsewhere. [cents]
    to_sale_cents : int
        The part of that cost which belongs to what the maker was paid. [cents]
    deductible_cents : int or None
        At most this may be deductible; None when that cannot be said. [cents]
    noncash_form : str
        `none`, `section A` or `section B and appraisal`.
    statement_needed : bool
        Whether the maker needs the charity's written statement.
    words : tuple of str
        A sentence for each finding, the practitioner's line last.

    Examples
    --------
    >>> maker_basis("maker", materials_cents=10000).deductible_cents
    10000
    """

    owned_by: str
    cost_cents: int
    to_sale_cents: int
    deductible_cents: int | None
    noncash_form: str
    statement_needed: bool
    words: tuple[str, ...]


def maker_basis(
    owned_by: str,
    *,
    materials_cents: int,
    carcase_cents: int = 0,
    repaid_cents: int = 0,
    expensed_cents: int = 0,
    received_cents: int = 0,
    fair_market_value_cents: int | None = None,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> MakerBasis:
    """Work out what a maker's gift comes to for the maker, at most.

    Parameters
    ----------
    owned_by : str
        Who owned the piece while it was worked on: `maker` or `charity`.
    materials_cents : int
        Documented cost of material that the maker bought. [cents]
    carcase_cents : int
        What the maker paid for the plain piece; 0 when the charity owned it. [cents]
    repaid_cents : int
        What the charity repaid of it. [cents]
    expensed_cents : int
        What the maker's business has deducted of it already. [cents]
    received_cents : int
        What the maker is paid for the piece, or as a share of its price. [cents]
    fair_market_value_cents : int, optional
        The piece's value; needed when the maker is paid. [cents]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year of the gift.

    Returns
    -------
    MakerBasis
        The cost, its deductible part at most, and the papers called for.

    Raises
    ------
    MoneyError
        If the owner is neither, an amount is not whole cents of 0 or more, or the
        value is needed and missing.

    Notes
    -----
    Hours count for nothing, whoever owned the piece. The maker's own piece: a gift
    of self-made property, cost of material and carcase, never above the value.
    The charity's piece: out-of-pocket costs, a gift of money. A maker who is paid
    for an own piece sells it in part: cost x received / value goes to the sale
    (from memory). Cost = documented - repaid - expensed, never below 0.
    Sources: irc_170, irc_1011, irs_pub_526.

    Examples
    --------
    >>> maker_basis(
    ...     "maker",
    ...     materials_cents=12000,
    ...     received_cents=6500,
    ...     fair_market_value_cents=65000,
    ... ).to_sale_cents
    1200
    """
    value = fair_market_value_cents
    amounts = {
        "materials": materials_cents,
        "carcase": carcase_cents,
        "repaid": repaid_cents,
        "expensed": expensed_cents,
        "received": received_cents,
    }
    raise_all(MoneyError, _basis_faults(owned_by, amounts, value))
    amounts = {name: int(amount) for name, amount in amounts.items()}
    received_cents = amounts["received"]
    cost = amounts["materials"] + amounts["carcase"]
    cost = max(cost - amounts["repaid"] - amounts["expensed"], 0)
    to_sale = 0
    most: int | None = cost
    if owned_by == "maker" and value is not None:
        to_sale = _part_sold(cost, received_cents, value)
        most = min(cost - to_sale, max(value - received_cents, 0))
    elif received_cents:
        most = None
    limit = in_force(thresholds, "acknowledgment from", as_of).cents
    things = (most or 0) if owned_by == "maker" else 0
    return MakerBasis(
        owned_by=owned_by,
        cost_cents=cost,
        to_sale_cents=to_sale,
        deductible_cents=most,
        noncash_form=noncash_form(things, thresholds=thresholds, as_of=as_of),
        statement_needed=most is None or most >= limit,
        words=(*_basis_words(owned_by, most, to_sale, amounts), _as_of(as_of)),
    )


def _part_sold(cost: int, received: int, value: int) -> int:
    """Share of the cost that belongs to what the maker was paid [cents]."""
    if not received:
        return 0
    return min(money.half_up(Fraction(cost * received, value)), cost)


def _basis_faults(
    owned_by: object, amounts: dict[str, int], value: int | None
) -> list[str]:
    stated = {**amounts, "fair market value": 0 if value is None else value}
    faults = [
        f"{name} is {amount!r}; it must be whole cents, 0 or more."
        for name, amount in stated.items()
        if not is_cents(amount)
    ]
    if not isinstance(owned_by, str) or owned_by not in OWNERS:
        faults.append(f'owned by is "{owned_by}"; {nearest(str(owned_by), OWNERS)}')
    if faults:
        return faults
    if owned_by == "charity" and amounts["carcase"]:
        faults.append(
            "the charity owned the piece, so its carcase is no cost of the work; "
            "a carcase that the maker gave has a letter of its own."
        )
    if owned_by == "maker" and amounts["received"] and not value:
        faults.append(
            "the maker is paid for the piece; give its fair market value, above 0, "
            "to tell the sale from the gift."
        )
    return faults


def _basis_words(
    owned_by: str, most: int | None, to_sale: int, amounts: dict[str, int]
) -> tuple[str, ...]:
    received = amounts["received"]
    above = amounts["repaid"] - amounts["materials"] - amounts["carcase"]
    if owned_by == "maker":
        first = "A gift of the maker's own work: at most its cost counts, never hours."
    else:
        first = "Work on the charity's piece: hours count for nothing, costs as money."
    words = [first]
    if most is None:
        words.append(
            f"The maker is paid {money.show(received)} for the work, so whether the "
            "costs are still a gift is not for this package to say."
        )
    else:
        words.append(f"At most {money.show(most)} may be deductible.")
    if to_sale:
        words.append(
            f"Paid {money.show(received)}, so part was sold: {money.show(to_sale)} of "
            "the cost belongs to the sale."
        )
    if above > 0:
        words.append(f"Repaid {money.show(above)} above cost: that much is pay.")
    return tuple(words)


def _as_of(year: int) -> str:
    return f"Rules as of {year}: irc_170, irs_pub_526, form_8283_2021. {PRACTITIONER}"


def noncash_form(
    deduction_cents: int,
    *,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> str:
    """Say which part of the giver's form for noncash gifts a deduction calls for.

    Parameters
    ----------
    deduction_cents : int
        The deduction claimed, after it was brought down to cost. [cents]
    thresholds : sequence of Figure
        Dated thresholds.
    as_of : int
        The year of the gift.

    Returns
    -------
    str
        `none`, `section A` or `section B and appraisal`.

    Raises
    ------
    MoneyError
        If the deduction is not whole cents of 0 or more.

    Notes
    -----
    Above 500.00 section A, above 5,000.00 section B with a qualified appraisal.
    Source: form_8283_2021.

    Examples
    --------
    >>> noncash_form(50000), noncash_form(50001), noncash_form(500001)
    ('none', 'section A', 'section B and appraisal')
    """
    if not is_cents(deduction_cents):
        raise MoneyError(
            f"deduction is {deduction_cents!r}; it must be whole cents, 0 or more."
        )
    if deduction_cents > in_force(thresholds, "appraisal above", as_of).cents:
        return "section B and appraisal"
    if deduction_cents > in_force(thresholds, "noncash form above", as_of).cents:
        return "section A"
    return "none"
