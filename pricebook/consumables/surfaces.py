"""The shop's figures for old surfaces, and one step on such a surface."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.consumables._checks import (
    above_zero,
    at_least_one,
    not_below_zero,
    refuse,
    whole,
)
from pricebook.consumables.abrasives import Pass
from pricebook.consumables.grits import grit_faults, run_faults
from pricebook.rates import Need, Work

VENEER_GRIT = 120
"""Nothing coarser on factory veneer (veneer_sanding_thread)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RefinishRates:
    """The shop's figures for old surfaces.

    Parameters
    ----------
    rough_run : tuple of int
        Grits that rough a board before it is veneered; 60 alone is common practice.
        [-]
    scuff_grit : int
        Grit that gives an old coating a tooth. [-]
    back_run : tuple of int
        Grits that sand an old coating back to the board. [-]
    fine_run : tuple of int
        Grits for a surface that will be coated, and for old veneer. [-]
    old_coat_wear : float
        How many times faster a disc wears out on an old coating; 1 or more. [-]
    strip_m2_per_l : float
        Area that a litre of stripper clears in one go. [m2/L]
    strip_times : int
        How often the stripper is laid on. [-]
    rag_m2 : float
        Area that one rag wipes clean of stripper. [m2]
    seal_m2_per_l : float
        Area that a litre of sealer covers, losses included. [m2/L]
    dent_ml : float
        Filler in one dent. [ml]
    filler_waste_share : float
        Shrinkage and waste of filler. [-]
    patch_glue_ml : float
        Glue under one patch or loose spot. [ml]
    """

    rough_run: tuple[int, ...]
    scuff_grit: int
    back_run: tuple[int, ...]
    fine_run: tuple[int, ...]
    old_coat_wear: float
    strip_m2_per_l: float
    strip_times: int
    rag_m2: float
    seal_m2_per_l: float
    dent_ml: float
    filler_waste_share: float
    patch_glue_ml: float

    def __post_init__(self) -> None:
        """Refuse rates that cannot be used, with every fault."""
        refuse(
            grit_faults((self.scuff_grit,)),
            run_faults(self.rough_run),
            run_faults(self.back_run),
            run_faults(self.fine_run, VENEER_GRIT),
            above_zero(
                strip_m2_per_l=self.strip_m2_per_l,
                rag_m2=self.rag_m2,
                seal_m2_per_l=self.seal_m2_per_l,
                dent_ml=self.dent_ml,
                patch_glue_ml=self.patch_glue_ml,
            ),
            at_least_one(
                old_coat_wear=self.old_coat_wear, strip_times=self.strip_times
            ),
            whole(strip_times=self.strip_times),
            not_below_zero(filler_waste_share=self.filler_waste_share),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RefinishStep:
    """One step on an old surface or a bare board.

    Parameters
    ----------
    name : str
        "patch", "strip", "sand back", "scuff", "fill dents", "rough", "sand" or
        "seal".
    why : str
        What it is for, in words.
    work : tuple of Work
        Operations, for their minutes.
    needs : tuple of Need
        What to have, abrasives apart.
    sanded : tuple of Pass
        What is sanded, for `abrasives` to count discs over the whole piece.
    caution_keys : tuple of str
        Cautions that the step calls for, by key.
    """

    name: str
    why: str
    work: tuple[Work, ...]
    needs: tuple[Need, ...] = ()
    sanded: tuple[Pass, ...] = ()
    caution_keys: tuple[str, ...] = ()
