"""What can hurt someone or break a rule for this very piece, with its source."""

from pricebook.cautions.boards import Board, boards_from_rows
from pricebook.cautions.facts import OLD_FINISHES, PieceFacts
from pricebook.cautions.movement import N_PER_LBF, movement_mm, newtons
from pricebook.cautions.notes import Caution, cautions_for
from pricebook.cautions.panels import (
    KG_M3_PER_LB_FT3,
    KG_PER_LB,
    Panel,
    density_class,
    panel_mass_kg,
    total_mass_kg,
    unbalanced,
)
from pricebook.cautions.species import Figure, Species, species_from_rows
from pricebook.cautions.tip_over import (
    CLOTHING_KINDS,
    OTHER_KINDS,
    tip_over_by_size,
    tip_over_scope,
)
from pricebook.cautions.volume import drawer_volume_l, enclosed_volume_l

__all__ = [
    "CLOTHING_KINDS",
    "KG_M3_PER_LB_FT3",
    "KG_PER_LB",
    "N_PER_LBF",
    "OLD_FINISHES",
    "OTHER_KINDS",
    "Board",
    "Caution",
    "Figure",
    "Panel",
    "PieceFacts",
    "Species",
    "boards_from_rows",
    "cautions_for",
    "density_class",
    "drawer_volume_l",
    "enclosed_volume_l",
    "movement_mm",
    "newtons",
    "panel_mass_kg",
    "species_from_rows",
    "tip_over_by_size",
    "tip_over_scope",
    "total_mass_kg",
    "unbalanced",
]
