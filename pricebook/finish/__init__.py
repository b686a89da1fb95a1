"""Finish: coats to volumes, flakes and alcohol, and the film that they leave."""

from pricebook.finish.cut import (
    Batch,
    batch,
    cut_solids_share,
    dilute,
    dye_ml,
    flakes_kg,
    mixed_l,
)
from pricebook.finish.film import (
    coverage_m2_per_l,
    dry_film_um,
    litres,
    mils,
    thinned_solids_share,
    wet_film_um,
)
from pricebook.finish.plan import FinishPlan, plan_finish
from pricebook.finish.rows import CoatRow
from pricebook.finish.steps import FinishStep
from pricebook.finish.system import KINDS, METHODS, Coat, FinishSystem
from pricebook.finish.table import finish_system, finish_systems

__all__ = [
    "KINDS",
    "METHODS",
    "Batch",
    "Coat",
    "CoatRow",
    "FinishPlan",
    "FinishStep",
    "FinishSystem",
    "batch",
    "coverage_m2_per_l",
    "cut_solids_share",
    "dilute",
    "dry_film_um",
    "dye_ml",
    "finish_system",
    "finish_systems",
    "flakes_kg",
    "litres",
    "mils",
    "mixed_l",
    "plan_finish",
    "thinned_solids_share",
    "wet_film_um",
]
