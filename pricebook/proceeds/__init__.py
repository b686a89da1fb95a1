"""The order of deductions, to the cent: who gets what of a hammer price.

A list of rules runs from the first claim on the money to the charity's rest. Each rule
is a value of this package or a mapping with its `kind` and fields:

========================  ========================================================
`sales_tax`               payee, rate, base (`none`, `hammer`,
                          `hammer_plus_premium`, `min_hammer_fmv`)
`premium`                 share or tiers; payee, unless it stays in what is split
`share`                   payee, share or tiers, of (`hammer`, `premium`,
                          `hammer_plus_premium`, `charged`, `left`), floor_cents,
                          cap_cents, after (the label of an earlier rule)
`card_fee`                payee, rate, fixed_cents
`fixed`                   payee, amount_cents
`repay`                   payee, cost_cents (or each lot's own), cap_cents
`rest`                    payee
`rest_by_weight`          weights
========================  ========================================================

Each takes a `label`. Shares and rates run from 0 to 1; tiers are pairs (up to cents or
None, share). In a mapping an amount may be typed text under its name without
`_cents`, such as `cap = "180.00"`.
"""

from pricebook.proceeds.asking import hammer_for_net, net_to_charity, what_if
from pricebook.proceeds.charges import Premium, SalesTax, sales_tax_cents
from pricebook.proceeds.checks import Rule
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
    "Rule",
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
