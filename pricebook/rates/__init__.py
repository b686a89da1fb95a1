"""Rows of the shop's price book: stock, packs, minutes and allowances.

Every row carries its date and its source; nothing here opens a file.
"""

from pricebook.rates.bench import Bench
from pricebook.rates.custom import Allowance, Material, Minutes, Pack, Settings
from pricebook.rates.leaves import Leaves
from pricebook.rates.packs import Purchase, buy, unit_price_cents
from pricebook.rates.rows import Need, Row, Work
from pricebook.rates.stock import Roll, Sheet

__all__ = [
    "Allowance",
    "Bench",
    "Leaves",
    "Material",
    "Minutes",
    "Need",
    "Pack",
    "Purchase",
    "Roll",
    "Row",
    "Settings",
    "Sheet",
    "Work",
    "buy",
    "unit_price_cents",
]
