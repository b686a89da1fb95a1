"""Controls for the notebooks: a change, one call, a picture and a table.

This is the only part that loads ipywidgets. In a running notebook it also lets
cost sheets, advice and the like be shown as tables.
"""

from pricebook.panel.cost import CostPanel, cost_panel
from pricebook.panel.cost_views import layout_tables
from pricebook.panel.driver_rows import driver_table
from pricebook.panel.evening import EveningPanel, evening_panel
from pricebook.panel.evening_views import choice_sentence, choice_tables
from pricebook.panel.frame import Panel
from pricebook.panel.gallery import Gallery, Said, pictures, say
from pricebook.panel.library import html_formatter
from pricebook.panel.looks import show_as_tables
from pricebook.panel.price import PricePanel, price_panel
from pricebook.panel.report import BoardPanel, board_panel, settled_event
from pricebook.panel.report_tables import board_sentence, board_tables, outcomes
from pricebook.panel.rung_rows import rung_table
from pricebook.panel.species_rows import species_table, trade_limits
from pricebook.panel.veneer import VeneerPanel, veneer_panel

__all__ = [
    "BoardPanel",
    "CostPanel",
    "EveningPanel",
    "Gallery",
    "Panel",
    "PricePanel",
    "Said",
    "VeneerPanel",
    "board_panel",
    "board_sentence",
    "board_tables",
    "choice_sentence",
    "choice_tables",
    "cost_panel",
    "driver_table",
    "evening_panel",
    "layout_tables",
    "outcomes",
    "pictures",
    "price_panel",
    "rung_table",
    "say",
    "settled_event",
    "show_as_tables",
    "species_table",
    "trade_limits",
    "veneer_panel",
]

if (_formatter := html_formatter()) is not None:
    show_as_tables(_formatter)
