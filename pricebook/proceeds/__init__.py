"""The order of deductions, to the cent: who gets what of a hammer price."""

from pricebook.proceeds.asking import hammer_for_net, net_to_charity, what_if
from pricebook.proceeds.charges import Premium, SalesTax, sales_tax_cents
from pricebook.proceeds.deductions import CardFee, Fixed, Repay, Share
from pricebook.proceeds.reading import Rules, read_rules
from pricebook.proceeds.rest import Rest, RestByWeight
from pricebook.proceeds.splitting import (
    Split,
    SplitLine,
    split,
)
from pricebook.proceeds.tiers import premium_cents

__all__ = [
    "CardFee",
    "Fixed",
    "Premium",
    "Repay",
    "Rest",
    "RestByWeight",
    "Rules",
    "SalesTax",
    "Share",
    "Split",
    "SplitLine",
    "hammer_for_net",
    "net_to_charity",
    "premium_cents",
    "read_rules",
    "sales_tax_cents",
    "split",
    "what_if",
]
