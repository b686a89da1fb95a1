"""Veneer layout: faces and sheets to the cheapest plan that a person can cut.

`fit` takes plain numbers, `lay_out` faces and the price book; `check` trusts neither.
`leaves` counts the leaves of a flitch for one face.
"""

from pricebook.veneer.checking import check
from pricebook.veneer.fitting import fit
from pricebook.veneer.layout import Layout, cut_list, lay_out
from pricebook.veneer.leaf_match import leaves
from pricebook.veneer.model import Cut, Fit, Offcut

__all__ = [
    "Cut",
    "Fit",
    "Layout",
    "Offcut",
    "check",
    "cut_list",
    "fit",
    "lay_out",
    "leaves",
]
