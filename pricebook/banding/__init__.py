"""Edge banding: edges to rolls, at the least possible cost.

`rolls` answers for lengths and rolls alone; `check` proves a plan sound.
"""

from pricebook.banding.band import BandingPlan, RollPlan, band
from pricebook.banding.door import rolls
from pricebook.banding.result import Rolls, check

__all__ = ["BandingPlan", "RollPlan", "Rolls", "band", "check", "rolls"]
