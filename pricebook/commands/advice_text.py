"""The advice on a price, as plain text and as a JSON answer."""

from __future__ import annotations

from textwrap import wrap
from typing import Any

from pricebook.cost.printing import text_table
from pricebook.money import show
from pricebook.price import Advice
from pricebook.proceeds import SalesTax, Split

_NAMES = {
    "fair_market_value": "fair market value",
    "estimate_low": "estimate, low",
    "estimate_high": "estimate, high",
    "opening_bid": "opening bid",
    "reserve": "reserve",
    "expected_hammer": "expected hammer price",
    "expected_net": "expected net to the charity",
    "pay_per_hour": "pays for an hour",
}
LINE = (
    "Estimates for discussion; a licensed tax practitioner and the charity's "
    "accountant decide."
)

NO_TAX = "No sales tax is counted: no rate and base are set here; an event states them."


def advice_rows(advice: Advice) -> list[tuple[str, int | None, str]]:
    """Return name, amount and reason of every figure of an advice.

    Parameters
    ----------
    advice : Advice
        The advice.

    Returns
    -------
    list of (str, int or None, str)
        In the order in which one decides; break-even prices last. [cents]
    """
    rows = []
    for name, words in _NAMES.items():
        figure = getattr(advice, name)
        rows.append((words, figure.cents, figure.reason))
    too_high = advice.reserve_too_high
    rows.append(("a reserve too high costs", too_high.cents, too_high.reason))
    for name, figure in advice.break_even.items():
        rows.append((f"break-even: {name}", figure.cents, figure.reason))
    return rows


def _reasons(advice: Advice) -> list[tuple[str, str]]:
    """Return the reason of every figure, the chance of a sale among them."""
    reasons = [(name, reason) for name, _, reason in advice_rows(advice)]
    reasons.insert(5, ("chance of a sale", advice.chance_of_sale.reason))
    return reasons


def advice_text(advice: Advice | None, sign: str, width: int = 100) -> str:
    """Print an advice: figures, then each reason, then where theory is thin.

    Parameters
    ----------
    advice : Advice or None
        The advice.
    sign : str
        The currency sign.
    width : int
        Longest line. [characters]

    Returns
    -------
    str
        Plain text.
    """
    if advice is None:
        return (
            "Price advice\n  How many people are likely to bid? Write likely_bidders "
            "under [price] of the piece file; it is asked, never inferred."
        )
    rows = advice_rows(advice)
    figures = [(n, show(c, sign) if c is not None else "none") for n, c, _ in rows]
    chance = f"{100 * advice.chance_of_sale.share:.0f} %"
    figures.insert(5, ("chance of a sale", chance))
    table = text_table(("", ""), figures, right=(1,)).split("\n", 2)[2]
    lines = ["Price advice", table, "", "Why"]
    for name, reason in _reasons(advice):
        lines += wrap(
            f"{name}: {reason}",
            width,
            initial_indent="  ",
            subsequent_indent="      ",
        )
    lines.append("\nWhere theory is thin")
    for warning in (*advice.warnings, LINE):
        lines += wrap(warning, width, initial_indent="  - ", subsequent_indent="    ")
    return "\n".join(lines)


def split_text(split: Split, sign: str) -> str:
    """Print where the money of one hammer price goes.

    Parameters
    ----------
    split : Split
        The split.
    sign : str
        The currency sign.

    Returns
    -------
    str
        Plain text.
    """
    rows = [
        (line.label or line.payee, line.payee, show(line.amount_cents), line.how)
        for line in split.lines
    ]
    rows.append(("in all", "", show(split.charged_cents), _charged(split)))
    head = ("", "to", "amount", "how")
    table = text_table(head, rows, right=(2,))
    text = f"Where a hammer price of {show(split.hammer_cents, sign)} goes\n{table}"
    if any(isinstance(line.rule, SalesTax) for line in split.lines):
        return text
    return f"{text}\n  {NO_TAX}"


def _charged(split: Split) -> str:
    """Say what the buyer is charged, where it is more than the hammer price."""
    if split.charged_cents == split.hammer_cents:
        return ""
    words = f"charged: {show(split.hammer_cents)} hammer price"
    if split.premium_cents:
        words += f" + {show(split.premium_cents)} premium"
    return words + (f" + {show(split.tax_cents)} sales tax" if split.tax_cents else "")


def advice_answer(advice: Advice | None) -> dict[str, Any] | None:
    """Return the `advice` of the JSON answer; None when nothing was asked."""
    if advice is None:
        return None

    def amount(cents: int | None) -> str | None:
        return None if cents is None else show(cents)

    return {
        **{name: amount(getattr(advice, name).cents) for name in _NAMES},
        "chance_of_sale": round(advice.chance_of_sale.share, 6),
        "break_even": {n: amount(f.cents) for n, f in advice.break_even.items()},
        "reasons": dict(_reasons(advice)),
        "warnings": [*advice.warnings, LINE],
    }
