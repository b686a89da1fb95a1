"""Margins, fees, break-evens, and what to ask for a piece."""

from pricebook.price.advice import advise_price
from pricebook.price.book import BothWays, absorbed_and_marginal
from pricebook.price.charged import hammer_for_net_cents
from pricebook.price.comparables import Comparable
from pricebook.price.features import PriceByFeatures, price_by_features
from pricebook.price.fees import (
    gross_up_capped_cents,
    gross_up_cents,
    gross_up_in_turn_cents,
    net_of_fees_cents,
)
from pricebook.price.figures import Advice, Amount, Chance, Costs, Figure, PieceCosts
from pricebook.price.margins import (
    cost_from_markup_cents,
    margin_from_markup,
    margin_of,
    markup_from_margin,
    markup_of,
    price_from_margin_cents,
    price_from_markup_cents,
)
from pricebook.price.policy import PricePolicy
from pricebook.price.reserve import check_reserve
from pricebook.price.volume import (
    Volume,
    break_even_mix,
    break_even_sales_cents,
    break_even_units,
    operating_leverage,
    units_for_profit,
)
from pricebook.price.work import (
    job_cost_cents,
    overhead_per_hour_cents,
    pay_per_hour_cents,
)

__all__ = [
    "Advice",
    "Amount",
    "BothWays",
    "Chance",
    "Comparable",
    "Costs",
    "Figure",
    "PieceCosts",
    "PriceByFeatures",
    "PricePolicy",
    "Volume",
    "absorbed_and_marginal",
    "advise_price",
    "break_even_mix",
    "break_even_sales_cents",
    "break_even_units",
    "check_reserve",
    "cost_from_markup_cents",
    "gross_up_capped_cents",
    "gross_up_cents",
    "gross_up_in_turn_cents",
    "hammer_for_net_cents",
    "job_cost_cents",
    "margin_from_markup",
    "margin_of",
    "markup_from_margin",
    "markup_of",
    "net_of_fees_cents",
    "operating_leverage",
    "overhead_per_hour_cents",
    "pay_per_hour_cents",
    "price_by_features",
    "price_from_margin_cents",
    "price_from_markup_cents",
    "units_for_profit",
]
