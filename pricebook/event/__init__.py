"""Lots, results, settlement, control totals: the auction evening as values."""

from pricebook.event.board import BoardReport, board_report, to_totals
from pricebook.event.board_values import (
    Amount,
    Compared,
    PaysFor,
    PieceRow,
    ReturnRow,
)
from pricebook.event.candidates import Candidate
from pricebook.event.control import Control
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
    with_advice,
    with_candidates,
    with_costs,
)
from pricebook.event.lot_parts import Demand, LotCost, Value
from pricebook.event.lots import IF_UNSOLD, Lot
from pricebook.event.naming import settlement_name
from pricebook.event.papers import (
    Invoice,
    LedgerRow,
    PaddleReceipt,
    Payout,
    say_unpaid,
)
from pricebook.event.plan import Event
from pricebook.event.questions import choice_pieces, evening_lots
from pricebook.event.results import METHODS, STATES, Counted, Result
from pricebook.event.rules import rules_for
from pricebook.event.settled import SettledLot
from pricebook.event.settlement import Settlement
from pricebook.event.settling import settle

__all__ = [
    "GIFT_KINDS",
    "IF_UNSOLD",
    "METHODS",
    "RETURN_LINES",
    "STATES",
    "Amount",
    "BoardReport",
    "Candidate",
    "Compared",
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
    "PaysFor",
    "PieceRow",
    "Result",
    "ReturnRow",
    "SettledLot",
    "Settlement",
    "Ticket",
    "Value",
    "board_report",
    "choice_pieces",
    "evening_lots",
    "rules_for",
    "say_unpaid",
    "settle",
    "settlement_name",
    "to_totals",
    "with_advice",
    "with_candidates",
    "with_costs",
]
