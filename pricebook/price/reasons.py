"""The sentences under the advice, and the warnings where theory is thin."""

from __future__ import annotations

from collections.abc import Iterator

from pricebook.bidding import Outlook
from pricebook.money import half_up, show
from pricebook.price.belief import Evidence
from pricebook.price.comparables import middle_cents
from pricebook.price.features import together
from pricebook.price.figures import Amount, Figure
from pricebook.price.policy import PricePolicy

FEW = 5
RETAIL_BAND = (0.4, 1.0)
BIDDERS_FIXED = (
    "The number of bidders is held fixed whatever the opening bid or the reserve; in "
    "a real room a high one keeps bidders away."
)
"""As matched sales in the field showed: R. Katkar, D. Reiley, Advances in Economic
Analysis & Policy 6(2), 2006 (secret_reserves_2006)."""

BENEFIT = (
    "Published figures from benefit auctions are for new or standard goods, none for "
    "refinished furniture; no premium for the cause is added."
)

_OF_SALES_ALONE = "; the fair market value is of sales alone and may be high"


def per_cent(share: float) -> str:
    """Print a share as a whole per cent.

    Examples
    --------
    >>> per_cent(0.745)
    '75 %'
    """
    return f"{half_up(share * 100)} %"


def counted(number: int, what: str) -> str:
    """Print a number of things.

    Examples
    --------
    >>> counted(1, "sale"), counted(0, "sale")
    ('1 sale', '0 sales')
    """
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def chosen_words(advised: Amount | Figure) -> str:
    """Say that a figure was chosen, with the advised one and its reason beside it.

    Examples
    --------
    >>> chosen_words(Figure(16_000, "At most this."))
    'Chosen, not advised; the advice itself is 160.00: at most this.'
    >>> chosen_words(Figure(None, "No reserve: nothing asks for one."))
    'Chosen, not advised; the advice itself is no reserve: nothing asks for one.'
    """
    figure = "" if advised.cents is None else f"{show(advised.cents)}: "
    reason = advised.reason[0].lower() + advised.reason[1:]
    return f"Chosen, not advised; the advice itself is {figure}{reason}"


def room(policy: PricePolicy) -> str:
    """Say how many bid, and how far apart they value a piece."""
    people = "bidder" if policy.bidders == 1 else "bidders"
    count = f"{float(policy.bidders):g} likely {people}"
    if policy.crowd == "fixed":
        count = f"exactly {float(policy.bidders):g} {people}"
    return f"{count} and values spread by {float(policy.sigma):g}"


def value_reason(evidence: Evidence, is_aged: bool) -> str:
    """Say how the fair market value was found: who, when, how."""
    sales = evidence.sales
    if not sales:
        return (
            "No comparable sale is given, so no fair market value is stated; it never "
            "comes from cost or from the estimate."
        )
    days = sorted(row.date for row in sales)
    when = f"of {days[0]}" if days[0] == days[-1] else f"from {days[0]} to {days[-1]}"
    brought = "this piece's condition" + (" and to that day" if is_aged else "")
    judged = f"judged by {evidence.by}" if evidence.by else "nobody is named behind it"
    if len(sales) == 1:
        first = f"The price of 1 comparable sale, {when}, brought to {brought}"
    else:
        first = f"The middle of {len(sales)} comparable sales {when}, each brought to "
        first += brought
    return f"{first}; {judged}, {evidence.valued_on}."


def basis(evidence: Evidence, policy: PricePolicy) -> str:
    """Name what the estimate was judged by."""
    parts = []
    sold, whole = len(evidence.sales), len(evidence.comparables)
    if sold:
        parts.append(f"{sold} sold")
    if whole > sold:
        parts.append(f"{whole - sold} unsold")
    if evidence.by_features is not None and evidence.by_features.anchors:
        parts.append(f"{evidence.by_features.sales} sales by their features")
    if evidence.retail_cents is not None:
        parts.append(f"retail {show(evidence.retail_cents)}")
    if policy.cost_sigma is not None and evidence.full_cost_cents > 0:
        parts.append(f"cost {show(evidence.full_cost_cents)}")
    return ", ".join(parts)


def warnings(
    evidence: Evidence,
    policy: PricePolicy,
    lot: Outlook,
    median_cents: int,
    break_even_cents: int | None,
) -> Iterator[str]:
    """Yield a sentence wherever the advice stands on thin ground."""
    yield BIDDERS_FIXED
    yield BENEFIT
    yield (
        f"The spread of bidders' values of {float(policy.sigma):g} is a modelling "
        "assumption, no source."
    )
    yield from _comparable_warnings(evidence, policy)
    if evidence.by_features is not None:
        yield evidence.by_features.said
    if evidence.retail_cents:
        share = lot.mean / evidence.retail_cents
        if not RETAIL_BAND[0] <= share <= RETAIL_BAND[1]:
            yield (
                f"The expected hammer price is {share:.2f} of the retail price of a "
                f"comparable new piece, outside {RETAIL_BAND[0]} to {RETAIL_BAND[1]}; "
                "check both."
            )
    if policy.unsold_value_cents > lot.mean:
        yield (
            f"An unsold piece is said to be worth {show(policy.unsold_value_cents)}, "
            "more than the expected hammer price; think of keeping it for its next "
            "sale."
        )
    yield from _at_odds(evidence, policy, lot, median_cents)
    high = lot.quantile(policy.high_share)
    if break_even_cents is not None and break_even_cents > high:
        yield (
            f"Even the high estimate does not repay what is used up, which takes "
            f"{show(break_even_cents)}."
        )


def _at_odds(
    evidence: Evidence, policy: PricePolicy, lot: Outlook, median_cents: int
) -> Iterator[str]:
    """Say where the figures of an advice do not sit well beside each other."""
    lowest, _ = lot.rungs[0]
    if lowest > median_cents:
        yield (
            f"Bidding begins at {show(lowest)}, above the believed median value of "
            f"{show(median_cents)}: {per_cent(lot.chance_of_sale)} of such lots sell."
        )
    sold = evidence.prices(policy, is_sold=True)
    low, high = (lot.quantile(q) for q in (policy.low_share, policy.high_share))
    if sold and not low <= middle_cents(sold) <= high:
        yield (
            f"The fair market value of {show(middle_cents(sold))} lies outside the "
            f"estimate of {show(low)} to {show(high)}; look at the comparables, at the "
            "other anchors and at the number of bidders again."
        )


def _leaning(evidence: Evidence, policy: PricePolicy) -> str:
    """Say what the advice leans on besides sales."""
    others = []
    if evidence.by_features is not None and evidence.by_features.anchors:
        others.append("other sales")
    if evidence.retail_cents is not None:
        others.append("the retail price of a new piece")
    if policy.cost_sigma is not None and evidence.full_cost_cents > 0:
        others.append("what this one cost")
    return f", so the advice leans on {together(others)}" if others else ""


def _comparable_warnings(evidence: Evidence, policy: PricePolicy) -> Iterator[str]:
    sold = len(evidence.sales)
    if sold and not evidence.by:
        yield (
            "The fair market value has nobody's name to it; name who judged it, and "
            "when, before it is printed."
        )
    if sold < FEW:
        yield (
            f"It rests on {counted(sold, 'comparable sale')}; fewer than {FEW} say "
            f"little{_leaning(evidence, policy)}."
        )
    unsold = len(evidence.comparables) - sold
    if unsold:
        yield (
            f"It counts {counted(unsold, 'comparable')} that stayed unsold, which "
            f"lowers the estimate{_OF_SALES_ALONE if sold else ''}."
        )
    days = sorted(row.date for row in evidence.comparables)
    old = [day for day in days if (evidence.on - day).days > policy.comparable_age_days]
    if old:
        yield (
            f"It rests on {counted(len(old), 'comparable')} older than "
            f"{policy.comparable_age_days} days, the oldest of {old[0]}; look for "
            "newer ones."
        )
