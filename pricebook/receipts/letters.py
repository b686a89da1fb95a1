"""Letters and receipts in plain words, ready to print and sign."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from pricebook import money
from pricebook.errors import ReportError, raise_all
from pricebook.money import is_cents
from pricebook.receipts.buying import Receipt
from pricebook.receipts.thresholds import PRACTITIONER

_VALUE = re.compile(r"[$£€]|\b(?:usd|dollars?|worth|valued?)\b", re.IGNORECASE)


def _day(day: date) -> str:
    return f"{day.day} {day:%B %Y}"


def _gap_faults(texts: Mapping[str, object], **days: object) -> list[str]:
    """Find texts that are empty and days that are no dates."""
    faults = [
        f"{name} is {text!r}; write it out."
        for name, text in texts.items()
        if not isinstance(text, str) or not text.strip()
    ]
    faults += [
        f"{name} is {day!r}; give a date."
        for name, day in days.items()
        if not isinstance(day, date)
    ]
    return faults


def _return_faults(goods: str, value_cents: object) -> list[str]:
    """Find something given in return without its value, or the other way round."""
    if value_cents is not None and not is_cents(value_cents):
        return [f"goods_value_cents is {value_cents!r}; it must be whole cents."]
    if bool(goods) != (value_cents is not None):
        return ["what was given in return needs both its description and its value."]
    return []


def _in_return(charity: str, goods: str, value_cents: int | None) -> str:
    if not goods or value_cents is None:
        return f"{charity} gave no goods or services in return."
    return (
        f"In return {charity} gave: {goods}. "
        f"Our good-faith estimate of its value is {money.show(value_cents)}."
    )


def letter_for_gift(
    *,
    charity: str,
    giver: str,
    description: str,
    received_on: date,
    goods_in_return: str = "",
    goods_value_cents: int | None = None,
) -> str:
    """Write the letter to whoever gave a carcase, material or a finished piece.

    Parameters
    ----------
    charity, giver : str
        The two names, as they wish to be named.
    description : str
        What was given, in words, without any value.
    received_on : date
        The day on which the charity received it.
    goods_in_return : str
        What the giver got in return, if anything.
    goods_value_cents : int, optional
        Its value in good faith; needed when something was. [cents]

    Returns
    -------
    str
        The letter. It describes the gift and states no value: that is the giver's.

    Raises
    ------
    ReportError
        If a text is empty, the day is no date, the description states a value, or
        what was given in return has none.

    Notes
    -----
    Sources: irs_pub_1771, irc_170.

    Examples
    --------
    >>> print(letter_for_gift(
    ...     charity="Quillback Bay Furniture Share",
    ...     giver="A. Maker",
    ...     description="one plain five-drawer chest, particle board",
    ...     received_on=date(2026, 3, 7),
    ... ))
    Dear A. Maker,
    <BLANKLINE>
    Thank you. On 7 March 2026 Quillback Bay Furniture Share received from you:
    one plain five-drawer chest, particle board.
    <BLANKLINE>
    Quillback Bay Furniture Share gave no goods or services in return.
    This letter states no value; the value of the gift is for you to determine.
    Please keep this letter. A licensed tax practitioner can say what it means for you.
    <BLANKLINE>
    For Quillback Bay Furniture Share: ____________________  Date: ____________
    """
    texts = {"charity": charity, "giver": giver, "description": description}
    faults = _gap_faults(texts, received_on=received_on)
    faults += _return_faults(goods_in_return, goods_value_cents)
    if isinstance(description, str) and _VALUE.search(description):
        faults.append(
            "description states a value; describe what was given and leave the "
            "value to the giver."
        )
    raise_all(ReportError, faults)
    return "\n".join(
        (
            f"Dear {giver},",
            "",
            f"Thank you. On {_day(received_on)} {charity} received from you:",
            f"{description.strip().rstrip('.')}.",
            "",
            _in_return(charity, goods_in_return, goods_value_cents),
            "This letter states no value; the value of the gift is for you to "
            "determine.",
            *_closing(charity),
        )
    )


def _closing(charity: str) -> tuple[str, ...]:
    return (
        "Please keep this letter. A licensed tax practitioner can say what it means "
        "for you.",
        "",
        f"For {charity}: ____________________  Date: ____________",
    )


def expense_statement(
    *,
    charity: str,
    volunteer: str,
    services: str,
    first_day: date,
    last_day: date,
    repaid_cents: int = 0,
    goods_in_return: str = "",
    goods_value_cents: int | None = None,
) -> str:
    """Write the statement for a volunteer who bore costs of the charity's work.

    Parameters
    ----------
    charity, volunteer : str
        The two names, as they wish to be named.
    services : str
        What the volunteer did.
    first_day, last_day : date
        When.
    repaid_cents : int
        What the charity repaid of the costs. [cents]
    goods_in_return : str
        What the volunteer got in return, if anything.
    goods_value_cents : int, optional
        Its value in good faith; needed when something was. [cents]

    Returns
    -------
    str
        The statement: the services, not the costs, which the volunteer documents.

    Raises
    ------
    ReportError
        If a text is empty, a day is no date, the days run backwards, or what was
        given in return has no value.

    Notes
    -----
    Called for when unrepaid costs come to 250.00 or more. Source: irc_170.

    Examples
    --------
    >>> text = expense_statement(
    ...     charity="Quillback Bay Furniture Share",
    ...     volunteer="A. Maker",
    ...     services="veneered and finished a chest of drawers of ours",
    ...     first_day=date(2026, 3, 7),
    ...     last_day=date(2026, 4, 2),
    ... )
    >>> text.splitlines()[2]
    'Thank you. From 7 March 2026 to 2 April 2026 you gave Quillback Bay ...'
    """
    texts = {"charity": charity, "volunteer": volunteer, "services": services}
    faults = _gap_faults(texts, first_day=first_day, last_day=last_day)
    faults += _return_faults(goods_in_return, goods_value_cents)
    if not is_cents(repaid_cents):
        faults.append(f"repaid_cents is {repaid_cents!r}; it must be whole cents.")
    if not faults and last_day < first_day:
        faults.append(
            f"last day {_day(last_day)} is before first day {_day(first_day)}; "
            "turn them round."
        )
    raise_all(ReportError, faults)
    repaid = money.show(repaid_cents) if repaid_cents else "none"
    return "\n".join(
        (
            f"Dear {volunteer},",
            "",
            f"Thank you. From {_day(first_day)} to {_day(last_day)} you gave {charity} "
            "your services without pay:",
            f"{services.strip().rstrip('.')}.",
            "",
            f"{charity} repaid {repaid} of your costs.",
            _in_return(charity, goods_in_return, goods_value_cents),
            "The time itself is not deductible. Keep your own receipts for what you "
            "spent.",
            *_closing(charity),
        )
    )


def receipt_text(
    receipt: Receipt, *, charity: str, lot: str, title: str, paddle: str, paid_on: date
) -> str:
    """Write the receipt for the buyer of a lot.

    Parameters
    ----------
    receipt : Receipt
        As `buyer` returns it.
    charity, lot, title, paddle : str
        Names and numbers, as the catalogue gives them.
    paid_on : date
        The day of payment; there is no receipt before it.

    Returns
    -------
    str
        The receipt.

    Raises
    ------
    ReportError
        If a text is empty or the day is no date.

    Examples
    --------
    >>> from pricebook.receipts import buyer
    >>> print(receipt_text(
    ...     buyer(55000, 40000, True),
    ...     charity="Quillback Bay Furniture Share",
    ...     lot="12",
    ...     title="Chest of drawers in walnut",
    ...     paddle="31",
    ...     paid_on=date(2026, 5, 16),
    ... ))
    Quillback Bay Furniture Share: receipt
    Lot 12, Chest of drawers in walnut; paddle 31; paid 16 May 2026
    <BLANKLINE>
    Paid 550.00 for goods worth 400.00: 150.00 of it is a gift.
    At most 150.00 may be deductible, if the buyer meant it as a gift.
    The deduction is limited to what was paid above the value of the goods; the
    value, 400.00, is our good-faith estimate.
    Sales tax, where it was charged, is not in these figures; it is never a gift.
    Estimate for discussion; a licensed tax practitioner or the charity's
    accountant decides.
    """
    texts = {"charity": charity, "lot": lot, "title": title, "paddle": paddle}
    raise_all(ReportError, _gap_faults(texts, paid_on=paid_on))
    lines = [
        f"{charity}: receipt",
        f"Lot {lot}, {title}; paddle {paddle}; paid {_day(paid_on)}",
        "",
        *receipt.words[:2],
    ]
    if receipt.fair_market_value_cents is not None:
        value = money.show(receipt.fair_market_value_cents)
        lines.append(
            "The deduction is limited to what was paid above the value of the goods; "
            f"the value, {value}, is our good-faith estimate."
        )
    lines.append(
        "Sales tax, where it was charged, is not in these figures; it is never a gift."
    )
    return "\n".join((*lines, PRACTITIONER))
