"""What an event teaches for next time: planned against used, estimate against hammer.

Nothing here is written anywhere: every function returns what it found, with how
many observations stand behind it.
"""

from pricebook.records.comparables import (
    ComparableRow,
    Comparables,
    LotRecord,
    comparables,
)
from pricebook.records.estimates import (
    HitRate,
    LotOutcome,
    Ratios,
    hammer_ratios,
    hit_rate,
)
from pricebook.records.minutes import (
    STANDARD_COUNTS_AS,
    SuggestedMinutes,
    suggest_minutes,
)
from pricebook.records.scoring import (
    PinballScores,
    crps_log_normal,
    pinball,
    pinball_scores,
)
from pricebook.records.variances import (
    Usage,
    Variances,
    rate_and_quantity_variance,
    total_variances,
)
from pricebook.records.year import EventTotals, Year, roll_up

__all__ = [
    "STANDARD_COUNTS_AS",
    "ComparableRow",
    "Comparables",
    "EventTotals",
    "HitRate",
    "LotOutcome",
    "LotRecord",
    "PinballScores",
    "Ratios",
    "SuggestedMinutes",
    "Usage",
    "Variances",
    "Year",
    "comparables",
    "crps_log_normal",
    "hammer_ratios",
    "hit_rate",
    "pinball",
    "pinball_scores",
    "rate_and_quantity_variance",
    "roll_up",
    "suggest_minutes",
    "total_variances",
]
