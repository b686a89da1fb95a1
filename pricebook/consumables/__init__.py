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
from pricebook.consumables.grits import GRITS, grit_run, shortest_run
from pricebook.consumables.refinish import READY_FOR, TREATMENTS, refinish_steps
from pricebook.consumables.sundries import (
    blades,
    filters,
    gloves,
    masking,
    rags,
    tack_cloths,
)
from pricebook.consumables.surfaces import RefinishRates, RefinishStep

__all__ = [
    "GRITS",
    "READY_FOR",
    "TREATMENTS",
    "Adhesive",
    "Fill",
    "Holes",
    "Pass",
    "RefinishRates",
    "RefinishStep",
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
    "refinish_steps",
    "shortest_run",
    "tack_cloths",
]
