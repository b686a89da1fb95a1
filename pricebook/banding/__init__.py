"""Edge banding: edges to rolls, at the least possible cost.

`rolls` answers for lengths and rolls alone, and `check` proves its plan sound;
`band` answers for the edges of a job and the rolls of the price book.
"""

from pricebook.banding.bands import band
from pricebook.banding.door import rolls
from pricebook.banding.plan import Band, BandingPlan, RollPlan
from pricebook.banding.result import Rolls, check

__all__ = [
    "Band",
    "BandingPlan",
    "RollPlan",
    "Rolls",
    "band",
    "check",
    "rolls",
]
