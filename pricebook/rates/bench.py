"""How this shop works: its adhesive, its grits, the board it usually meets."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.errors import TableError, raise_all


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """The shop's custom.

    Parameters
    ----------
    adhesive : str
        What veneer is laid with, unless its sheets carry their own.
    board : str
        What carcases are made of, for their weight.
    roughing_grits, veneer_grits, banding_grits : tuple of int
        Grits in the order of sanding: a board before it is veneered, veneer
        before its finish, banding after it is trimmed.
    scuff_grit : int
        Grit that gives an old coating a tooth.
    back_grits, fine_grits : tuple of int
        Grits that sand an old coating back, and those for a surface to be coated.
    """

    adhesive: str
    board: str
    roughing_grits: tuple[int, ...]
    veneer_grits: tuple[int, ...]
    banding_grits: tuple[int, ...]
    scuff_grit: int
    back_grits: tuple[int, ...]
    fine_grits: tuple[int, ...]

    def __post_init__(self) -> None:
        """Refuse a grit that is none."""
        runs = (
            self.roughing_grits,
            self.veneer_grits,
            self.banding_grits,
            (self.scuff_grit,),
            self.back_grits,
            self.fine_grits,
        )
        raise_all(
            TableError,
            (f"grit {g} is not above 0." for run in runs for g in run if g <= 0),
        )
