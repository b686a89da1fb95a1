"""Consumables: adhesive, filler, abrasives, sundries, and undoing an old surface."""

from pricebook.consumables.abrasives import (
    Pass,
    abrasives,
    disc_area_m2,
    life_of_other_m2,
    passes,
)
from pricebook.consumables.adhesive import Adhesive, adhesive
from pricebook.consumables.filler import (
    Fill,
    Holes,
    counterbore_ml,
    countersink_ml,
    filler,
)
from pricebook.consumables.grits import GRITS, grit_run
from pricebook.consumables.sundries import (
    blades,
    filters,
    gloves,
    masking,
    rags,
    tack_cloths,
)

__all__ = [
    "GRITS",
    "Adhesive",
    "Fill",
    "Holes",
    "Pass",
    "abrasives",
    "adhesive",
    "blades",
    "counterbore_ml",
    "countersink_ml",
    "disc_area_m2",
    "filler",
    "filters",
    "gloves",
    "grit_run",
    "life_of_other_m2",
    "masking",
    "passes",
    "rags",
    "tack_cloths",
]
