"""A piece of furniture as its maker measures it; one that exists is valid."""

from pricebook.piece.extras import Arrival, Gift, Hardware, Holes
from pricebook.piece.groups import (
    EDGE_GROUPS,
    FACE_GROUPS,
    FORMS,
    group_faults,
    head_faults,
)
from pricebook.piece.listed import ListedEdge, ListedFace
from pricebook.piece.parts import (
    Base,
    Doors,
    Drawers,
    Shelves,
    Size,
    Top,
    Underframe,
)
from pricebook.piece.spec import Piece
from pricebook.piece.wishes import (
    BandingWishes,
    FinishWishes,
    LabourWishes,
    PriceWishes,
    VeneerWishes,
)

__all__ = [
    "EDGE_GROUPS",
    "FACE_GROUPS",
    "FORMS",
    "Arrival",
    "BandingWishes",
    "Base",
    "Doors",
    "Drawers",
    "FinishWishes",
    "Gift",
    "Hardware",
    "Holes",
    "LabourWishes",
    "ListedEdge",
    "ListedFace",
    "Piece",
    "PriceWishes",
    "Shelves",
    "Size",
    "Top",
    "Underframe",
    "VeneerWishes",
    "group_faults",
    "head_faults",
]
