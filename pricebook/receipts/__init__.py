"""What a buyer and a maker may be told, and the lines of the public return."""

from pricebook.receipts.buying import Receipt, buyer
from pricebook.receipts.calls import Triggers, tie_out, triggers
from pricebook.receipts.figures import Figure, in_force, of_year, read_figures
from pricebook.receipts.lines import LABELS, EventLines, SoldLot, event_lines
from pricebook.receipts.thresholds import AS_OF, PRACTITIONER, THRESHOLDS

__all__ = [
    "AS_OF",
    "LABELS",
    "PRACTITIONER",
    "THRESHOLDS",
    "EventLines",
    "Figure",
    "Receipt",
    "SoldLot",
    "Triggers",
    "buyer",
    "event_lines",
    "in_force",
    "of_year",
    "read_figures",
    "tie_out",
    "triggers",
]
