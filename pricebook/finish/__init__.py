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

__all__ = [
    "Batch",
    "batch",
    "coverage_m2_per_l",
    "cut_solids_share",
    "dilute",
    "dry_film_um",
    "dye_ml",
    "flakes_kg",
    "litres",
    "mils",
    "mixed_l",
    "thinned_solids_share",
    "wet_film_um",
]
