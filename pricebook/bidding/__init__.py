"""The hammer price as a distribution: values, number of bidders, ladder of bids.

Any one unit of money goes in and the same comes out; the ladder's own functions
take whole cents.
"""

from pricebook.bidding.anchors import (
    Belief,
    blend,
    from_quantiles,
    shrink,
)
from pricebook.bidding.crowd import Crowd, FixedCrowd, PoissonCrowd, crowd_of
from pricebook.bidding.fitting import fit_sold_and_unsold, log_likelihood
from pricebook.bidding.hammer import Hammer
from pricebook.bidding.hedonic import HedonicFit, hedonic
from pricebook.bidding.ladder import Ladder
from pricebook.bidding.ladders import (
    LADDERS,
    PLAIN_STEPS,
    TEN_PERCENT,
    ladder_of,
    next_bid,
)
from pricebook.bidding.lot import (
    best_reserve,
    chance_of_sale,
    expected_hammer,
    hammer_quantile,
)
from pricebook.bidding.outlook import Outlook, outlook, value_with_reserve
from pricebook.bidding.regression import CensoredFit, censored_regression
from pricebook.bidding.rungs import climb, expected_on_ladder, rung_chances, rungs
from pricebook.bidding.sampling import simulate
from pricebook.bidding.spread import StudentBelief, shrink_with_unknown_spread
from pricebook.bidding.values import Exponential, LogNormal, Uniform, Values

__all__ = [
    "LADDERS",
    "PLAIN_STEPS",
    "TEN_PERCENT",
    "Belief",
    "CensoredFit",
    "Crowd",
    "Exponential",
    "FixedCrowd",
    "Hammer",
    "HedonicFit",
    "Ladder",
    "LogNormal",
    "Outlook",
    "PoissonCrowd",
    "StudentBelief",
    "Uniform",
    "Values",
    "best_reserve",
    "blend",
    "censored_regression",
    "chance_of_sale",
    "climb",
    "crowd_of",
    "expected_hammer",
    "expected_on_ladder",
    "fit_sold_and_unsold",
    "from_quantiles",
    "hammer_quantile",
    "hedonic",
    "ladder_of",
    "log_likelihood",
    "next_bid",
    "outlook",
    "rung_chances",
    "rungs",
    "shrink",
    "shrink_with_unknown_spread",
    "simulate",
    "value_with_reserve",
]
