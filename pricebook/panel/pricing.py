"""The shop's deductions as controls, and the advice on a price that was chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from pricebook.commands.advising import advise
from pricebook.cost import CostSheet
from pricebook.errors import SpecError
from pricebook.files.market import Market
from pricebook.money import exact
from pricebook.panel.boxes import money_box, number_box
from pricebook.panel.controls import Control, Track
from pricebook.piece import Piece
from pricebook.price import Advice
from pricebook.proceeds import CardFee, Fixed, Repay, Rules, Share, read_rules
from pricebook.receipts import PRACTITIONER, buyer

_PERCENT = Track(
    low=0, high=100, value_at=lambda n: n / 2, position_of=lambda v: round(2 * v)
)


def rule_controls(rules: Rules, sign: str) -> dict[str, Control]:
    """Return a control for each share, fee and cap among the deductions.

    Parameters
    ----------
    rules : Rules
        The deductions, in their order.
    sign : str
        The currency sign.

    Returns
    -------
    dict of str to Control
        By the number of the rule; a deduction by tiers has none.
    """
    made: dict[str, Control] = {}
    for number, rule in enumerate(rules.deductions):
        name, key = (rule.label or rule.payee or "").capitalize(), f"rule {number}"
        if isinstance(rule, Share) and rule.share is not None:
            label = f"{name} (% of {_BASES.get(rule.of, rule.of)})"
            made[key] = _percent(label, rule.share)
        elif isinstance(rule, CardFee):
            made[key] = _percent(f"{name} (% charged)", rule.rate)
        elif isinstance(rule, Repay):
            made[key] = money_box(f"{name}, at most", rule.cap_cents, sign, empty="all")
        elif isinstance(rule, Fixed):
            made[key] = money_box(name, rule.amount_cents, sign)
    return made


_BASES = {"left": "what is left", "hammer_plus_premium": "hammer and premium"}


def _percent(label: str, share: Any) -> Control:  # noqa: ANN401 - any number
    value = float(100 * exact(share))
    return number_box(label, value, unit="%", most=100, track=_PERCENT)


def rules_with(rules: Rules, values: Mapping[str, Any]) -> Rules:
    """Return the deductions with the figures of their controls.

    Parameters
    ----------
    rules : Rules
        The deductions, in their order.
    values : mapping of str to object
        A value for every control of `rule_controls`.

    Returns
    -------
    Rules
        Read and checked anew.

    Raises
    ------
    MoneyError
        If they cannot stand together.
    """
    changed = [
        _with_figure(rule, values.get(f"rule {number}"))
        for number, rule in enumerate(rules.deductions)
    ]
    return read_rules([*changed, rules.final])


def _with_figure(rule: Any, figure: Any) -> Any:  # noqa: ANN401 - any kind of rule
    if isinstance(rule, Share) and rule.share is not None:
        return replace(rule, share=exact(figure) / 100)
    if isinstance(rule, CardFee):
        return replace(rule, rate=exact(figure) / 100)
    if isinstance(rule, Repay):
        return replace(rule, cap_cents=figure)
    if isinstance(rule, Fixed):
        return replace(rule, amount_cents=figure)
    return rule


def advised(
    piece: Piece,
    sheet: CostSheet,
    market: Market,
    on: date,
    *,
    opening_cents: int | None = None,
    reserve_cents: int | None = None,
) -> Advice:
    """Return the command line's advice, with an opening bid or a reserve of one's own.

    Parameters
    ----------
    piece, sheet, market, on
        As for `pricebook.commands.advising.advise`.
    opening_cents, reserve_cents : int or None
        Chosen in place of the advised ones. [cents]

    Returns
    -------
    Advice
        Each figure with its reason.

    Raises
    ------
    SpecError
        If nobody said how many are likely to bid, or a figure cannot be.
    """
    found = advise(
        piece,
        sheet,
        market,
        on,
        opening_bid_cents=opening_cents,
        reserve_cents=reserve_cents,
    )
    if found is None:
        raise SpecError(
            "How many people are likely to bid? Write a number; it is asked, never "
            "inferred."
        )
    return found


def receipt_words(advice: Advice, paid_cents: int) -> tuple[str, ...]:
    """Return what the buyer of a piece may be told about the gift in its price.

    Parameters
    ----------
    advice : Advice
        The advice, with the value that the catalogue is to print before bidding.
    paid_cents : int
        The hammer price paid. [cents]

    Returns
    -------
    tuple of str
        Sentences; none of them replaces a practitioner's word.
    """
    stated = advice.fair_market_value
    value = None if stated is None else stated.cents
    told = buyer(paid_cents, value, published_before_bidding=value is not None)
    return (*told.words, PRACTITIONER)
