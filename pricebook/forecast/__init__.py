"""The evening as a whole, which pieces to do, and what drives a result.

Three questions asked before anything is sold: what may the evening raise and how
sure is that (`evening`), which pieces are worth the hours, sheets and money there
are (`choose`), and which of the figures that went in moves the answer most
(`swings`, `elasticities`, `grid`).
"""

from pricebook.forecast.choice import Choice, choose
from pricebook.forecast.drivers import Grid, Swing, elasticities, grid, swings
from pricebook.forecast.evening_total import Evening, LotForecast
from pricebook.forecast.lots import Lot, read_lots
from pricebook.forecast.simulation import evening

__all__ = [
    "Choice",
    "Evening",
    "Grid",
    "Lot",
    "LotForecast",
    "Swing",
    "choose",
    "elasticities",
    "evening",
    "grid",
    "read_lots",
    "swings",
]
