"""One coat of a planned finish: what it takes from the can, and what it leaves."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.finish import words
from pricebook.finish.cut import Batch, batch, dilute, dye_ml
from pricebook.finish.film import litres
from pricebook.finish.system import Coat

LEFT_IN = {"brush": "brush", "pad": "pad", "spray": "cup", "wipe": "cloth"}


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatRow:
    """Like coats on a piece, and what they take.

    Parameters
    ----------
    coat : Coat
        The coats.
    area_m2 : float
        Area of one coat. [m2]
    fillings : int
        How often cup, brush or pad is filled for them. [-]
    """

    coat: Coat
    area_m2: float
    fillings: int

    @property
    def loss_ml(self) -> float:
        """Left in cup, brush or pad over all of these coats. [ml]."""
        return self.fillings * self.coat.cup_ml

    @property
    def mixed_l(self) -> float:
        """Finish as applied, losses included. [L]."""
        coat = self.coat
        return litres(
            self.area_m2,
            coat.times,
            coat.on_work_m2_per_l,
            coat.share_on_work,
            self.loss_ml,
        )

    @property
    def dry_um(self) -> float:
        """Dry film of all of these coats. [um]."""
        return self.coat.times * self.coat.dry_um

    @property
    def from_flakes(self) -> Batch | None:
        """The batch to mix from dry flakes; None where it comes in a can."""
        if self.coat.cut_lb is None or self.coat.stock_cut_lb is not None:
            return None
        return batch(self.coat.cut_lb, self.mixed_l)

    @property
    def from_can_l(self) -> float:
        """Finish to take from the can. [L]."""
        coat = self.coat
        if coat.cut_lb is None:
            return self.mixed_l / (1 + coat.thinner_parts)
        if coat.stock_cut_lb is None:
            return 0.0
        # alcohol joins a mixed cut without further shrinking or swelling
        return self.mixed_l / (1 + dilute(coat.stock_cut_lb, coat.cut_lb))

    @property
    def thinner_l(self) -> float:
        """Alcohol or thinner to mix in. [L]."""
        if self.from_flakes is not None:
            return self.from_flakes.alcohol_l
        return self.mixed_l - self.from_can_l

    @property
    def dye_ml(self) -> float:
        """Dye concentrate. [ml]."""
        return dye_ml(self.coat.dye_ml_per_l, self.mixed_l)

    def how(self, lengths: str) -> str:
        """Say how the amount was worked out, in words a person can follow."""
        coat = self.coat
        cut = "" if coat.cut_lb is None else f" {words.pounds(coat.cut_lb)}"
        text = (
            f"{coat.name}{cut}: {words.counted(coat.times, 'coat')} x "
            f"{words.area(self.area_m2, lengths)} over "
            f"{words.spread(coat.on_work_m2_per_l, lengths)}, "
            f"{100 * coat.share_on_work:.3g} % on the work"
        )
        if self.loss_ml:
            place = LEFT_IN[coat.method]
            text += f", {self.fillings} x {coat.cup_ml:g} ml left in the {place}"
        text += f", makes {words.volume(self.mixed_l, lengths)}"
        if self.from_flakes is None:
            return text
        flakes = words.mass(self.from_flakes.flakes_kg, lengths)
        alcohol = words.volume(self.from_flakes.alcohol_l, lengths)
        return f"{text}: {flakes} of flakes in {alcohol} of alcohol"
