"""Cost lines and the sheet that they add up to."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from pricebook.banding import BandingPlan
from pricebook.cautions import Caution
from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.veneering import Task
from pricebook.finish import FinishPlan
from pricebook.labour import LabourPlan
from pricebook.rates import Row, Settings
from pricebook.takeoff import TakeOff
from pricebook.veneer.layout import Layout

PAID = "paid"
GIFT = "gift in kind"
TIME = "time given"
BASES = (PAID, GIFT, TIME)
GROUPS = (
    "veneer",
    "edge banding",
    "adhesive",
    "filler",
    "abrasives",
    "finish",
    "sundries",
    "hardware",
    "labour",
    "overhead",
    "spoilage",
    "gifts",
)
"""Headings of the cost sheet, in the order in which it prints them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One line of a cost sheet.

    Parameters
    ----------
    group : str
        One of `GROUPS`.
    item : str
        What it is.
    key : str
        The row of the price book behind it; empty where there is none.
    quantity : float
        How much is used. [unit]
    unit : str
        What it is counted in.
    packs : str
        What to buy, in words; empty when nothing is.
    bought_cents : int
        What there is to pay for it. [cents]
    used_cents : int
        What the quantity used is worth. [cents]
    left : str
        What is left over, in words; empty when nothing is.
    left_cents : int
        What the left-over is worth. [cents]
    basis : str
        One of `BASES`.
    how : str
        The working, in words a person can follow.
    source : str
        Where the price is from.
    """

    group: str
    item: str
    key: str
    quantity: float
    unit: str
    packs: str
    bought_cents: int
    used_cents: int
    left: str
    left_cents: int
    basis: str
    how: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CostSheet:
    """What a piece costs, line by line, with the plans behind the lines.

    Parameters
    ----------
    piece : str
        The piece's name.
    on : date
        The day for which prices are taken.
    settings : Settings
        How the shop reads, prints and reckons.
    lines : tuple of CostLine
        The lines, in the order of `GROUPS`.
    take_off : TakeOff
        What was measured.
    layout : Layout
        Sheets and cuts; shared with other pieces of the batch.
    leaves : tuple of RackedLeaves
        Raw leaves; shared with other pieces of the batch.
    banding : BandingPlan or None
        Rolls; shared with other pieces of the batch.
    finish : FinishPlan or None
        Coats.
    labour : LabourPlan
        Operations.
    mass_kg : float or None
        Weight of the panels; None for a plain list. [kg]
    cautions : tuple of Caution
        What can hurt someone or break a rule.
    old_rows : tuple of Row
        Rows used that are past the shop's age limit.
    notes : tuple of str
        What the reader should know about the figures.
    tasks : tuple of Task
        Work in bench order, with the drying of each coat.
    """

    piece: str
    on: date
    settings: Settings
    lines: tuple[CostLine, ...]
    take_off: TakeOff
    layout: Layout
    leaves: tuple[RackedLeaves, ...] = ()
    banding: BandingPlan | None
    finish: FinishPlan | None
    labour: LabourPlan
    mass_kg: float | None
    cautions: tuple[Caution, ...]
    old_rows: tuple[Row, ...] = field(default=())
    notes: tuple[str, ...] = ()
    tasks: tuple[Task, ...] = ()

    @property
    def cash_to_buy_cents(self) -> int:
        """What there is to pay: whole packs, less what is on hand. [cents]."""
        return sum(line.bought_cents for line in self.lines)

    @property
    def used_up_cents(self) -> int:
        """What is used up of what was paid for. [cents]."""
        return self._used(PAID)

    @property
    def gifts_in_kind_cents(self) -> int:
        """Stated value of what was given. [cents]."""
        return self._used(GIFT)

    @property
    def time_given_cents(self) -> int:
        """Stated value of the hours given. [cents]."""
        return self._used(TIME)

    @property
    def full_cost_cents(self) -> int:
        """Used up, gifts and time given together. [cents]."""
        return self.used_up_cents + self.gifts_in_kind_cents + self.time_given_cents

    @property
    def left_cents(self) -> int:
        """What is left over as stock. [cents]."""
        return sum(line.left_cents for line in self.lines)

    @property
    def hours(self) -> float:
        """Hours of all people, whatever their pay. [h]."""
        return self.labour.person_min / 60

    def _used(self, basis: str) -> int:
        return sum(line.used_cents for line in self.lines if line.basis == basis)
