"""By how much sheets must fall in price for their wood to be the cheapest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from pricebook.cost.options import PriceFall, SpeciesOption
from pricebook.cost.species_bench import SpeciesBench
from pricebook.money import times
from pricebook.rates import Sheet


def price_fall(
    second: SpeciesOption, target_cents: int, bench: SpeciesBench
) -> PriceFall | None:
    """Find the highest sheet price at which the runner-up costs no more to buy.

    Parameters
    ----------
    second : SpeciesOption
        The runner-up.
    target_cents : int
        What the cheapest costs to buy. [cents]
    bench : SpeciesBench
        Lays the piece out anew at other prices.

    Returns
    -------
    PriceFall or None
        The price; None where no sheet of it is bought.
    """
    bought = [(s, n) for s, rack, n in second.show_sheets if not rack]
    if not bought:
        return None
    lead = max(bought, key=lambda one: one[0].price_cents * one[1])[0]
    shown_cents = sum(sheet.price_cents * n for sheet, n in bought)
    rest_cents = second.cash_to_buy_cents - second.layout.cash_cents
    behind_cents = second.layout.cash_cents - shown_cents

    def same_sheets(price_cents: int) -> bool:
        share = Fraction(price_cents, lead.price_cents)
        now = sum(_at(sheet, share).price_cents * n for sheet, n in bought)
        return rest_cents + behind_cents + now <= target_cents

    def laid_anew(price_cents: int) -> bool:
        share = Fraction(price_cents, lead.price_cents)
        rows = [_at(sheet, share) for sheet in second.offered]
        layout = bench.layout(second.species, rows)
        return rest_cents + layout.cash_cents <= target_cents

    low = _highest(same_sheets, 0, lead.price_cents)  # another layout only costs less
    step = 1
    while low + step <= lead.price_cents and laid_anew(low + step):
        low, step = low + step, 2 * step
    high = min(low + step - 1, lead.price_cents)
    return PriceFall(sheet=lead, to_cents=_highest(laid_anew, low, high) or None)


def _highest(passes: Callable[[int], bool], low: int, high: int) -> int:
    """Return the highest number that passes, where all below it do; low if none."""
    while low < high:
        middle = (low + high + 1) // 2
        if passes(middle):
            low = middle
        else:
            high = middle - 1
    return low


def _at(sheet: Sheet, share: Fraction) -> Sheet:
    if not sheet.to_buy:
        return sheet
    return replace(sheet, price_cents=max(1, times(sheet.price_cents, share)))
