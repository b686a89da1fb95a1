"""The plan of a finish: every coat's litres and films, what to have, what to do."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pricebook.errors import SpecError
from pricebook.finish import words
from pricebook.finish._numbers import check, positive
from pricebook.finish.rows import CoatRow
from pricebook.finish.steps import FinishStep, steps
from pricebook.finish.system import FinishSystem
from pricebook.finish.wanted import needs, work
from pricebook.rates import Need, Work

_AREA = positive("area to finish", "m2")


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishPlan:
    """What a finish takes on an area, coat by coat and in total.

    Parameters
    ----------
    system : FinishSystem
        The finish.
    rows : tuple of CoatRow
        Its coats on this area.
    sessions : int
        How often gun, brush or pad is cleaned. [-]
    lengths : str
        "in" or "mm": how areas, volumes and films are printed.
    dates : tuple of two dates, or None
        When the finish is mixed and when the auction is.
    """

    system: FinishSystem
    rows: tuple[CoatRow, ...]
    sessions: int
    lengths: str
    dates: tuple[date, date] | None = None

    @property
    def mixed_l(self) -> float:
        """Finish as applied, losses included. [L]."""
        return sum(row.mixed_l for row in self.rows)

    @property
    def flakes_kg(self) -> float:
        """Dry flakes. [kg]."""
        return sum(row.from_flakes.flakes_kg for row in self.rows if row.from_flakes)

    @property
    def thinner_l(self) -> float:
        """Alcohol or thinner to mix in, without cleaning. [L]."""
        return sum(row.thinner_l for row in self.rows)

    @property
    def cleaner_l(self) -> float:
        """Cleaner for all sessions; 0 where water will do. [L]."""
        if self.system.cleaner is None:
            return 0.0
        return self.sessions * self.system.cleaning_ml / 1000

    @property
    def dry_um(self) -> float:
        """Dry film in total. [um]."""
        return sum(row.dry_um for row in self.rows)

    @property
    def build(self) -> str:
        """The word for it, by the limits: thin, usual or heavy; or none stated."""
        if self.system.usual_film_um is None:
            return "none stated"
        least, most = self.system.usual_film_um
        if self.dry_um < least:
            return "thin"
        return "heavy" if self.dry_um > most else "usual"

    @property
    def needs(self) -> tuple[Need, ...]:
        """What to have, one row for each item of the price book."""
        return needs(self.rows, self.system, self.sessions, self.lengths)

    @property
    def work(self) -> tuple[Work, ...]:
        """What to do, for the minutes of it."""
        return work(self.rows, self.scuffs, self.sessions, self.lengths)

    @property
    def scuffs(self) -> tuple[tuple[int, float], ...]:
        """Grit and area of each light sanding between coats. [-, m2]."""
        last = len(self.rows) - 1
        found = []
        for number, row in enumerate(self.rows):
            times = row.coat.times - (number == last)
            if row.coat.scuff_grit is not None and times:
                found.append((row.coat.scuff_grit, times * row.area_m2))
        return tuple(found)

    @property
    def steps(self) -> tuple[FinishStep, ...]:
        """Set-ups, coats and scuffs one by one, in bench order, with their drying."""
        return steps(self.rows, self.system, self.lengths)

    @property
    def notes(self) -> tuple[str, ...]:
        """Sentences for the finisher: a thin or heavy build, a mix grown too old."""
        return tuple(note for note in (self._build_note(), self._age_note()) if note)

    def _build_note(self) -> str:
        limits = self.system.usual_film_um
        if limits is None or self.build == "usual":
            return ""
        least, most = (words.film(limit, self.lengths) for limit in limits)
        advice = (
            "another coat brings it up"
            if self.build == "thin"
            else ("fewer or thinner coats keep it from cracking")
        )
        return (
            f"{self.system.name} builds {words.film(self.dry_um, self.lengths)} dry, "
            f"which is {self.build}: {least} to {most} is usual "
            f"({self.system.source}); {advice}."
        )

    def _age_note(self) -> str:
        keeps = self.system.shelf_life_days
        if self.dates is None or keeps is None:
            return ""
        mixed_on, auction_on = self.dates
        age = (auction_on - mixed_on).days
        if age <= keeps:
            return ""
        return (
            f"{self.system.name} mixed on {mixed_on} will be {age} days old at the "
            f"auction on {auction_on}, and keeps {keeps} days ({self.system.source}); "
            "mix it later, and try old stock on a test board before the piece."
        )


def plan_finish(
    area_m2: float,
    system: FinishSystem,
    *,
    lengths: str = "mm",
    mixed_on: date | None = None,
    auction_on: date | None = None,
) -> FinishPlan:
    """Plan a finish on an area: every coat's litres and films, and what to have.

    Parameters
    ----------
    area_m2 : float
        Area of one coat. [m2]
    system : FinishSystem
        The finish.
    lengths : str
        "in" prints square feet, mils and fluid ounces; "mm" metric alone.
    mixed_on, auction_on : date or None
        When the finish is mixed or opened, and the auction; with both, a note says
        when it will have grown older than it keeps.

    Returns
    -------
    FinishPlan
        The plan.

    Raises
    ------
    SpecError
        If the area is not more than 0, or the auction is before the mixing.
    UnitError
        If the unit to print in is neither "in" nor "mm".

    Notes
    -----
    Each coat takes area / (spread * share on the work). Like coats are filled for
    once every `coats_per_session` coats, and each filling leaves `cup_ml` in cup,
    brush or pad; each session takes `cleaning_ml` of cleaner.
    Films do not count what misses the work. Sources: spreading_rate_note;
    shellac_dilution_table for cuts; losses are common practice, no source.

    Examples
    --------
    >>> from pricebook.finish import Coat
    >>> coat = Coat(name="build", times=3, method="spray", share_on_work=0.65,
    ...     material="flakes", thinner="alcohol", cut_lb=1.5, spread_m2_per_l=8.1)
    >>> system = FinishSystem(key="sprayed", name="Sprayed shellac", kind="shellac",
    ...     coats=(coat,), dated=date(2026, 11, 1), source="common practice, no source")
    >>> plan = plan_finish(3.42, system)
    >>> round(plan.mixed_l, 3), round(plan.flakes_kg, 3), round(plan.dry_um, 1)
    (1.949, 0.305, 48.3)
    >>> print(plan.needs[0].how)
    build 1 1/2-lb cut: 3 coats x 3.42 m2 over 8.1 m2/L, 65 % on the work, makes
    1.95 L: 305 g of flakes in 1.69 L of alcohol
    """
    check((_AREA, area_m2))
    words.in_inches(lengths)  # refuses any other unit now, not when printed
    dates = _dates(mixed_on, auction_on)
    size = system.coats_per_session
    rows = tuple(
        CoatRow(coat=coat, area_m2=float(area_m2), fillings=-(-coat.times // size))
        for coat in system.coats
    )
    sessions = -(-sum(coat.times for coat in system.coats) // size)
    return FinishPlan(
        system=system, rows=rows, sessions=sessions, lengths=lengths, dates=dates
    )


def _dates(mixed_on: date | None, auction_on: date | None) -> tuple[date, date] | None:
    if mixed_on is None or auction_on is None:
        return None
    if auction_on < mixed_on:
        raise SpecError(
            f"the auction is on {auction_on}, before the finish is mixed on "
            f"{mixed_on}; give the dates in order."
        )
    return mixed_on, auction_on
