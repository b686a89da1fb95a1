"""Raw veneer: numbered leaves of a flitch, matched over faces.

`leaves` counts for one face; `lay_leaves` says which leaf of a flitch goes where, and
`check_leaves` proves its plan sound.
"""

from pricebook.veneer.leaf_match.checking import check_leaves
from pricebook.veneer.leaf_match.counts import MATCHES, leaves
from pricebook.veneer.leaf_match.flitch import Flitch, LaidLeaf, LeafPlan
from pricebook.veneer.leaf_match.laying import lay_leaves

__all__ = [
    "MATCHES",
    "Flitch",
    "LaidLeaf",
    "LeafPlan",
    "check_leaves",
    "lay_leaves",
    "leaves",
]
