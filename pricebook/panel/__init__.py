"""Controls for the notebooks: a change, one call, a picture and a table.

This is the only part that loads ipywidgets.
"""

from pricebook.panel.cost import CostPanel, cost_panel
from pricebook.panel.evening import EveningPanel, evening_panel
from pricebook.panel.frame import Panel
from pricebook.panel.gallery import Gallery, pictures
from pricebook.panel.price import PricePanel, price_panel
from pricebook.panel.report import BoardPanel, board_panel, settled_event
from pricebook.panel.report_tables import board_tables, outcomes
from pricebook.panel.veneer import VeneerPanel, veneer_panel

__all__ = [
    "BoardPanel",
    "CostPanel",
    "EveningPanel",
    "Gallery",
    "Panel",
    "PricePanel",
    "VeneerPanel",
    "board_panel",
    "board_tables",
    "cost_panel",
    "evening_panel",
    "outcomes",
    "pictures",
    "price_panel",
    "settled_event",
    "veneer_panel",
]
