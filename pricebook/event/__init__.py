"""Lots, results, settlement, control totals: the auction evening as values."""

from pricebook.event.candidates import Candidate
from pricebook.event.controls import Control
from pricebook.event.evening_money import (
    GIFT_KINDS,
    RETURN_LINES,
    Cost,
    Gift,
    NetPaysFor,
    Ticket,
)
from pricebook.event.filling import (
    LotAdvice,
    choice_pieces,
    evening_lots,
    with_advice,
    with_candidates,
    with_costs,
)
from pricebook.event.lots import IF_UNSOLD, Demand, Lot, LotCost, Value
from pricebook.event.naming import settlement_name
from pricebook.event.papers import (
    Invoice,
    LedgerRow,
    PaddleReceipt,
    Payout,
    say_unpaid,
)
from pricebook.event.plan import Event
from pricebook.event.results import METHODS, STATES, Counted, Result
from pricebook.event.rules import rules_for
from pricebook.event.settled import SettledLot
from pricebook.event.settling import Settlement, settle

__all__ = [
    "GIFT_KINDS",
    "IF_UNSOLD",
    "METHODS",
    "RETURN_LINES",
    "STATES",
    "Candidate",
    "Control",
    "Cost",
    "Counted",
    "Demand",
    "Event",
    "Gift",
    "Invoice",
    "LedgerRow",
    "Lot",
    "LotAdvice",
    "LotCost",
    "NetPaysFor",
    "PaddleReceipt",
    "Payout",
    "Result",
    "SettledLot",
    "Settlement",
    "Ticket",
    "Value",
    "choice_pieces",
    "evening_lots",
    "rules_for",
    "say_unpaid",
    "settle",
    "settlement_name",
    "with_advice",
    "with_candidates",
    "with_costs",
]
