"""What a buyer and a maker may be told, and the lines of the public return."""

from pricebook.receipts.books import (
    card_report_due,
    missed_disclosures_cents,
    payee_report_due,
    remeasured_cents,
    service_is_recorded,
)
from pricebook.receipts.buying import Receipt, buyer
from pricebook.receipts.calls import Triggers, tie_out, triggers
from pricebook.receipts.figures import Figure, in_force, of_year, read_figures
from pricebook.receipts.letters import expense_statement, letter_for_gift, receipt_text
from pricebook.receipts.lines import LABELS, EventLines, SoldLot, event_lines
from pricebook.receipts.making import MakerBasis, maker_basis, noncash_form
from pricebook.receipts.raising import (
    CostToRaise,
    hours_cents,
    miles_cents,
    whole_units,
)
from pricebook.receipts.thresholds import AS_OF, PRACTITIONER, THRESHOLDS, TOKENS
from pricebook.receipts.tokens import TokenLimits, token_limits

__all__ = [
    "AS_OF",
    "LABELS",
    "PRACTITIONER",
    "THRESHOLDS",
    "TOKENS",
    "CostToRaise",
    "EventLines",
    "Figure",
    "MakerBasis",
    "Receipt",
    "SoldLot",
    "TokenLimits",
    "Triggers",
    "buyer",
    "card_report_due",
    "event_lines",
    "expense_statement",
    "hours_cents",
    "in_force",
    "letter_for_gift",
    "maker_basis",
    "miles_cents",
    "missed_disclosures_cents",
    "noncash_form",
    "of_year",
    "payee_report_due",
    "read_figures",
    "receipt_text",
    "remeasured_cents",
    "service_is_recorded",
    "tie_out",
    "token_limits",
    "triggers",
    "whole_units",
]
