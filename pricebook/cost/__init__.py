"""Cost lines that add up as printed; cash, gifts and time kept apart."""

from pricebook.cost.lines import BASES, GIFT, GROUPS, PAID, TIME, CostLine, CostSheet
from pricebook.cost.sheet import cost_sheet, cost_sheets
from pricebook.cost.shop import Shop

__all__ = [
    "BASES",
    "GIFT",
    "GROUPS",
    "PAID",
    "TIME",
    "CostLine",
    "CostSheet",
    "Shop",
    "cost_sheet",
    "cost_sheets",
]
