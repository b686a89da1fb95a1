"""Price advice, its rungs, and where the money goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.bidding import Outlook
from pricebook.frames.building import CENTS, NUMBER, PERHAPS_CENTS, TEXT, frame_of
from pricebook.money import show
from pricebook.price import Advice, Amount, Figure
from pricebook.proceeds import Split

if TYPE_CHECKING:
    import pandas as pd


def advice_frame(advice: Advice) -> pd.DataFrame:
    """Return the figures of an advice in money, each with its reason.

    Parameters
    ----------
    advice : Advice
        What to ask for a piece.

    Returns
    -------
    pandas.DataFrame
        A row a figure. Columns: `figure` (string), `amount_cents` (Int64, missing
        where there is none to give), `reason` (string).
    """
    figures: list[tuple[str, Figure | Amount]] = [
        ("fair market value", advice.fair_market_value),
        ("low estimate", advice.estimate_low),
        ("high estimate", advice.estimate_high),
        ("opening bid", advice.opening_bid),
        ("reserve", advice.reserve),
        ("loss from a reserve half too high", advice.reserve_too_high),
        ("expected hammer", advice.expected_hammer),
        ("expected net to the charity", advice.expected_net),
        ("pay per hour", advice.pay_per_hour),
        *((f"break-even, {name}", x) for name, x in advice.break_even.items()),
    ]
    columns = {"figure": TEXT, "amount_cents": PERHAPS_CENTS, "reason": TEXT}
    return frame_of(columns, [[name, one.cents, one.reason] for name, one in figures])


def rungs_frame(outlook: Outlook) -> pd.DataFrame:
    """Return the chance of each rung: the numbers of the price picture.

    Parameters
    ----------
    outlook : Outlook
        The chance of each rung, and of no sale.

    Returns
    -------
    pandas.DataFrame
        A row a rung, from the opening bid up, after one for no sale. Columns:
        `price_cents` (Int64, missing for no sale), `chance_share`,
        `reached_share` (float64: the chance that the hammer reaches the rung).
    """
    columns = {
        "price_cents": PERHAPS_CENTS,
        "chance_share": NUMBER,
        "reached_share": NUMBER,
    }
    rows: list[list[float | int | None]] = [[None, outlook.no_sale, 1.0]]
    reached = outlook.chance_of_sale
    for price, chance in outlook.rungs:
        rows.append([price, chance, max(reached, 0.0)])
        reached -= chance
    return frame_of(columns, rows)


def advice_sentence(advice: Advice, currency: str = "") -> str:
    """Say in one sentence what may come of a piece at the auction.

    Parameters
    ----------
    advice : Advice
        What to ask for a piece.
    currency : str
        The sign of the money.

    Returns
    -------
    str
        Chance of sale, estimate, opening bid, and the chance to cover what is used.
    """
    low, high = advice.estimate_low.cents, advice.estimate_high.cents
    words = (
        f"Opened at {show(advice.opening_bid.cents, currency)}, it sells with a chance "
        f"of {100 * advice.chance_of_sale.share:.0f} %, with an estimate of "
        f"{show(low, currency)} to {show(high, currency)}"
    )
    used = advice.break_even.get("used up")
    if used is None or used.cents is None:
        return f"{words}."
    covers = 100 * advice.outlook.chance_at_least(used.cents)
    return (
        f"{words}; the chance that it brings back what is used up, "
        f"{show(used.cents, currency)}, is {covers:.0f} %."
    )


def split_frame(split: Split) -> pd.DataFrame:
    """Return who gets what of one price: the numbers of its picture.

    Parameters
    ----------
    split : Split
        Who gets what.

    Returns
    -------
    pandas.DataFrame
        A row a rule, in order, the rest last. Columns: `line`, `payee` (string),
        `base_cents`, `claim_cents`, `amount_cents`, `short_cents` (int64),
        `charged_share` (float64, of what was charged; 0 when nothing was), `how`
        (string).
    """
    columns = {
        "line": TEXT,
        "payee": TEXT,
        "base_cents": CENTS,
        "claim_cents": CENTS,
        "amount_cents": CENTS,
        "short_cents": CENTS,
        "charged_share": NUMBER,
        "how": TEXT,
    }
    charged = split.charged_cents
    rows = [
        [
            *(line.label, line.payee, line.base_cents, line.claim_cents),
            *(line.amount_cents, line.short_cents),
            *(line.amount_cents / charged if charged else 0.0, line.how),
        ]
        for line in split.lines
    ]
    return frame_of(columns, rows)


def split_sentence(split: Split, currency: str = "") -> str:
    """Say in one sentence how much of a price reaches the charity.

    Parameters
    ----------
    split : Split
        Who gets what.
    currency : str
        The sign of the money.

    Returns
    -------
    str
        The charity's part, and what could not be paid.
    """
    charged, left = split.charged_cents, split.charity_cents
    if not charged:
        return "Nothing was charged, so there is nothing to share out."
    words = (
        f"Of {show(charged, currency)} charged, {show(left, currency)} "
        f"({100 * left / charged:.1f} %) goes to {split.charity}"
    )
    short = f"; {show(split.short_cents, currency)} of claims could not be paid"
    return f"{words}{short if split.short_cents else ''}."
