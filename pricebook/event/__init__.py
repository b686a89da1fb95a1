"""Lots, results, settlement, control totals: the auction evening as values."""

from pricebook.event.candidates import Candidate
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
from pricebook.event.plan import Event
from pricebook.event.results import METHODS, STATES, Counted, Result
from pricebook.event.rules import rules_for

__all__ = [
    "GIFT_KINDS",
    "IF_UNSOLD",
    "METHODS",
    "RETURN_LINES",
    "STATES",
    "Candidate",
    "Cost",
    "Counted",
    "Demand",
    "Event",
    "Gift",
    "Lot",
    "LotAdvice",
    "LotCost",
    "NetPaysFor",
    "Result",
    "Ticket",
    "Value",
    "choice_pieces",
    "evening_lots",
    "rules_for",
    "settlement_name",
    "with_advice",
    "with_candidates",
    "with_costs",
]
