"""The rows of a comparison: one a species, form and choice of sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.cautions import Caution
from pricebook.lengths import show as length
from pricebook.money import show as money
from pricebook.rates import Settings, Sheet
from pricebook.veneer.layout import Layout

ALL_SIZES = "all sizes"


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesOption:
    """A piece in one species and form, cut from one choice of sheets.

    Parameters
    ----------
    species, form : str
        Wood of the faces that are seen, and "backed", "self-adhesive" or "raw".
    size : str
        The one size of sheet that it is cut from, or `ALL_SIZES`.
    offered : tuple of Sheet
        The rows it may be cut from, bought or in the rack.
    banding_species : str
        Wood of the edge banding; empty where nothing is banded.
    cash_to_buy_cents, used_up_cents, full_cost_cents : int
        Totals of its cost sheet. [cents]
    left_cents : int
        What is left over as stock. [cents]
    hours : float
        Hours of everybody. [h]
    layout : Layout
        Sheets and cuts, backing veneer included.
    movement_mm : float or None
        How much a solid board as wide as the widest face moves between the two
        moisture contents; None where no coefficient is published. [mm]
    hardness_n : float or None
        Side hardness; None where none is published. [N]
    restrictions : tuple of Caution
        Limits on the trade of the wood.
    notes : tuple of str
        What else to know of this row.
    leaves : int
        How many raw leaves it cuts; 0 where it is cut from sheets. [-]
    """

    species: str
    form: str
    size: str
    offered: tuple[Sheet, ...]
    banding_species: str
    cash_to_buy_cents: int
    used_up_cents: int
    full_cost_cents: int
    left_cents: int
    hours: float
    layout: Layout
    movement_mm: float | None
    hardness_n: float | None
    restrictions: tuple[Caution, ...] = ()
    notes: tuple[str, ...] = ()
    leaves: int = 0

    @property
    def name(self) -> str:
        """What a table and a picture call it."""
        return f"{self.species}, {self.form}, {self.size}"

    @property
    def show_sheets(self) -> tuple[tuple[Sheet, bool, int], ...]:
        """Rows of the face veneer, whether from the rack, and how many of each."""
        found = Counter(
            (plan.sheet, plan.from_rack)
            for plan in self.layout.sheets
            if plan.sheet.veneer == "show"
        )
        return tuple((sheet, rack, count) for (sheet, rack), count in found.items())

    @property
    def sheet_count(self) -> int:
        """How many sheets of face veneer it takes, rack included. [-]."""
        return sum(count for _, _, count in self.show_sheets)


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceFall:
    """How far sheets must fall in price for their species to be the cheapest.

    Parameters
    ----------
    sheet : Sheet
        The row on which most is spent; other sizes fall by the same share.
    to_cents : int or None
        The highest price of that row at which the piece costs no more to buy than
        in the cheapest species; None where no price is low enough. [cents]
    """

    sheet: Sheet
    to_cents: int | None

    @property
    def fall_cents(self) -> int | None:
        """By how much one sheet must fall. [cents]."""
        if self.to_cents is None:
            return None
        return self.sheet.price_cents - self.to_cents

    @property
    def fall_share(self) -> float | None:
        """The fall as a share of the price. [-]."""
        if self.fall_cents is None:
            return None
        return self.fall_cents / self.sheet.price_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The same piece in every species, form and size of sheet of the price book.

    Parameters
    ----------
    piece : str
        The piece's name.
    own_species, own_form : str
        What its file asks for.
    on : date
        The day for which prices are taken.
    settings : Settings
        How the shop reads, prints and reckons.
    moisture_percent : (float, float)
        The two moisture contents of the movement. [%]
    widest : str
        The face whose movement is told.
    widest_mm : float
        Its width across the grain. [mm]
    options : tuple of SpeciesOption
        Ranked: least cash to buy first, then least used up.
    runner_up : SpeciesOption or None
        The best row of the next species.
    fall : PriceFall or None
        What would make the runner-up the cheapest; None where it has no sheets to
        buy or there is no runner-up.
    left_out : tuple of str
        What could not be compared, and why.
    """

    piece: str
    own_species: str
    own_form: str
    on: date
    settings: Settings
    moisture_percent: tuple[float, float]
    widest: str
    widest_mm: float
    options: tuple[SpeciesOption, ...]
    runner_up: SpeciesOption | None
    fall: PriceFall | None
    left_out: tuple[str, ...] = ()

    @property
    def cheapest(self) -> SpeciesOption:
        """The first row."""
        return self.options[0]

    @property
    def own(self) -> SpeciesOption | None:
        """The best row of the species and form that the piece's file asks for."""
        asked = (self.own_species, self.own_form)
        for option in self.options:
            if (option.species, option.form) == asked:
                return option
        return None

    @property
    def best_of_species(self) -> tuple[SpeciesOption, ...]:
        """The best row of each species, ranked."""
        found: dict[str, SpeciesOption] = {}
        for option in self.options:
            found.setdefault(option.species, option)
        return tuple(found.values())

    @property
    def sentences(self) -> tuple[str, ...]:
        """Which species is cheapest, and what would change that."""
        return tuple(text[0].upper() + text[1:] for text in self._sentences())

    def _sentences(self) -> Iterator[str]:
        sign, best, own = self.settings.currency, self.cheapest, self.own
        yield (
            f"{best.name} is the cheapest to buy, at "
            f"{money(best.cash_to_buy_cents, sign)}."
        )
        if self.runner_up is None:
            yield "no other species could be compared."
        else:
            yield self._fall_sentence(self.runner_up)
        if own is not None and own.species != best.species:
            more = own.cash_to_buy_cents - best.cash_to_buy_cents
            yield (
                f"{own.name}, the best of the wood and form that its own file asks "
                f"for, costs {money(more, sign)} more to buy."
            )

    def _fall_sentence(self, second: SpeciesOption) -> str:
        sign, best = self.settings.currency, self.cheapest
        cash = money(second.cash_to_buy_cents, sign)
        lead = f"{second.name} is next, at {cash}"
        if self.fall is None:
            return f"{lead}; all its sheets lie in the rack, so no price changes that."
        if self.fall.to_cents is None:
            return f"{lead}; it would stay dearer even if its sheets cost nothing."
        if not self.fall.fall_cents:
            return f"{lead}, the same cash; it uses up more, or is listed later."
        sheet, share = self.fall.sheet, 100 * (self.fall.fall_share or 0)
        size = size_words(sheet, self.settings.lengths)
        others = len([one for one in second.offered if one.to_buy]) > 1
        same = ", other sizes by the same share," if others else ""
        return (
            f"{lead}: its {size} sheets must fall by "
            f"{money(self.fall.fall_cents, sign)} ({share:.1f} %), from "
            f"{money(sheet.price_cents, sign)} to {money(self.fall.to_cents, sign)}"
            f"{same} before the piece costs no more to buy than in {best.species}; "
            "the sheets are laid out anew at every price tried."
        )


def size_words(sheet: Sheet, lengths: str) -> str:
    """Return a sheet's size along and across the grain: "96 in x 48 in".

    Parameters
    ----------
    sheet : Sheet
        The row.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        The size.
    """
    return f"{length(sheet.along_mm, lengths)} x {length(sheet.across_mm, lengths)}"
