"""Finish systems: which coats, of what, how applied, and how long each dries."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from pricebook.errors import SpecError, raise_all
from pricebook.finish._numbers import CUT, Quantity, from_zero
from pricebook.finish.cut import cut_solids_share
from pricebook.finish.film import (
    DRY_FILM,
    M2_UM_PER_L,
    SOLIDS,
    SPREAD,
    TRANSFER,
    thinned_solids_share,
)

KINDS = ("shellac", "waterborne clear", "oil", "lacquer", "paint")
METHODS = ("brush", "pad", "spray", "wipe")

_TIMES = Quantity("times", "", 1, 100, "a whole number from 1 to 100")
_GRIT = Quantity("scuff_grit", "", 60, 3000, "a grit from 60 to 3000")
_FROM_ZERO = {
    "thinner_parts": from_zero("thinner_parts", "parts", 20),
    "recoat_min": from_zero("recoat_min", "min"),
    "cup_ml": from_zero("cup_ml", "ml"),
    "dye_ml_per_l": from_zero("dye_ml_per_l", "ml/L", 1000),
}
_SESSION = Quantity("coats_per_session", "", 1, 100, "a whole number from 1 to 100")
_CLEANING = from_zero("cleaning_ml", "ml")
_CURE = from_zero("cure_days", "days", 365)
_KEEPS = Quantity("shelf_life_days", "days", 1, 36500, "a whole number of days, from 1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Coat:
    """Like coats of one mixture, applied one after another.

    Parameters
    ----------
    name : str
        What the finisher calls it: "sealer", "build".
    times : int
        How many such coats. [-]
    method : str
        One of `METHODS`.
    share_on_work : float
        Share that lands on the work, above 0 and at most 1. [-]
    material : str
        Row of the price book: flakes where `cut_lb` is given, else a finish.
    cut_lb : float or None
        Cut of a shellac. [lb/gal]
    solids_share : float or None
        Volume solids, from the can, of any other finish. [-]
    spread_m2_per_l : float or None
        Area that a litre on the work covers. [m2/L]
    dry_film_um : float or None
        Dry film of one coat; either this or the spread is given. [um]
    thinner : str or None
        Row of the price book for what thins it: alcohol for a shellac.
    thinner_parts : float
        Thinner to one part of finish; a cut needs none. [-]
    stock_cut_lb : float or None
        Cut at which shellac is bought ready mixed, to be thinned. [lb/gal]
    recoat_min : float
        Drying before the next coat. [min]
    scuff_grit : int or None
        Grit for a light sanding before the next coat. [-]
    cup_ml : float
        Left in cup, brush or pad each time it is filled. [ml]
    dye : str or None
        Row of the price book for a dye concentrate.
    dye_ml_per_l : float
        Dose. [ml/L of mixed finish]
    """

    name: str
    times: int
    method: str
    share_on_work: float
    material: str
    cut_lb: float | None = None
    solids_share: float | None = None
    spread_m2_per_l: float | None = None
    dry_film_um: float | None = None
    thinner: str | None = None
    thinner_parts: float = 0.0
    stock_cut_lb: float | None = None
    recoat_min: float = 0.0
    scuff_grit: int | None = None
    cup_ml: float = 0.0
    dye: str | None = None
    dye_ml_per_l: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a coat that cannot be applied, with every fault."""
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from _words(self, "name", "material")
        yield from _whole(_TIMES, self.times)
        if self.method not in METHODS:
            yield f'method is "{self.method}"; use one of {", ".join(METHODS)}.'
        yield from TRANSFER.faults(self.share_on_work, "share_on_work")
        for name, kind in _FROM_ZERO.items():
            yield from kind.faults(getattr(self, name))
        if self.scuff_grit is not None:
            yield from _whole(_GRIT, self.scuff_grit)
        yield from self._mixture_faults()
        yield from _either(self, ("spread_m2_per_l", SPREAD), ("dry_film_um", DRY_FILM))

    def _mixture_faults(self) -> Iterator[str]:
        yield from _either(self, ("cut_lb", CUT), ("solids_share", SOLIDS))
        if self.cut_lb is not None and self.thinner is None:
            yield "thinner is missing; a cut of shellac needs its alcohol named."
        if self.cut_lb is not None and self.thinner_parts:
            yield "thinner_parts stands beside cut_lb; the cut already says how thin."
        if self.thinner_parts and self.thinner is None:
            yield "thinner is missing; name what the finish is thinned with."
        if self.dye_ml_per_l and self.dye is None:
            yield "dye is missing; name the concentrate that is dosed."
        yield from self._stock_faults()

    def _stock_faults(self) -> Iterator[str]:
        if self.stock_cut_lb is None:
            return
        faults = CUT.faults(self.stock_cut_lb, "stock_cut_lb")
        yield from faults
        if self.cut_lb is None:
            yield "stock_cut_lb stands without cut_lb; say which cut is applied."
        elif faults or CUT.faults(self.cut_lb):
            return
        elif self.stock_cut_lb < self.cut_lb:
            yield (
                f"stock_cut_lb is {self.stock_cut_lb:g} lb, below the cut of "
                f"{self.cut_lb:g} lb; alcohol only makes a cut lighter."
            )

    @property
    def applied_solids_share(self) -> float:
        """Volume solids as applied, thinned. [-]."""
        if self.cut_lb is not None:
            return cut_solids_share(self.cut_lb)
        return thinned_solids_share(self.solids_share or 0.0, self.thinner_parts)

    @property
    def on_work_m2_per_l(self) -> float:
        """Area that a litre on the work covers. [m2/L]."""
        if self.spread_m2_per_l is not None:
            return self.spread_m2_per_l
        return M2_UM_PER_L * self.applied_solids_share / (self.dry_film_um or 0.0)

    @property
    def wet_um(self) -> float:
        """Wet film of one coat. [um]."""
        return M2_UM_PER_L / self.on_work_m2_per_l

    @property
    def dry_um(self) -> float:
        """Dry film of one coat. [um]."""
        return self.wet_um * self.applied_solids_share


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishSystem:
    """A finish from the first coat to the last.

    Parameters
    ----------
    key : str
        What piece files call it, such as "brushed shellac".
    name : str
        What the cost sheet calls it.
    kind : str
        One of `KINDS`.
    coats : tuple of Coat
        The coats in the order in which they go on.
    dated : date
        When the shop last looked at these figures.
    source : str
        Where they are from.
    flammable : bool
        Whether the liquid burns: alcohol, lacquer, solvent.
    shelf_life_days : int or None
        How long it keeps once mixed or opened; None: not stated. [days]
    usual_film_um : tuple of two floats, or None
        Dry film in total that counts as neither thin nor heavy; None: the finish
        builds no film, as oil. [um]
    coats_per_session : int
        Coats between one cleaning of gun, brush or pad and the next. [-]
    cleaner : str or None
        Row of the price book for what cleans them; None: water.
    cleaning_ml : float
        Cleaner for each session. [ml]
    cure_days : float
        Drying after the last coat before the piece may be used. [days]
    note : str
        Anything the finisher should read.
    """

    key: str
    name: str
    kind: str
    coats: tuple[Coat, ...]
    dated: date
    source: str
    flammable: bool = False
    shelf_life_days: int | None = None
    usual_film_um: tuple[float, float] | None = None
    coats_per_session: int = 1
    cleaner: str | None = None
    cleaning_ml: float = 0.0
    cure_days: float = 0.0
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse a system that cannot be applied, with every fault."""
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from _words(self, "key", "name", "source")
        if self.kind not in KINDS:
            yield f'kind is "{self.kind}"; use one of {", ".join(KINDS)}.'
        if not self.coats:
            yield "coats are missing; give at least one."
        yield from _whole(_SESSION, self.coats_per_session)
        yield from _CLEANING.faults(self.cleaning_ml)
        yield from _CURE.faults(self.cure_days)
        if self.shelf_life_days is not None:
            yield from _whole(_KEEPS, self.shelf_life_days)
        yield from self._film_faults()

    def _film_faults(self) -> Iterator[str]:
        if self.usual_film_um is None:
            return
        faults = [f for v in self.usual_film_um for f in _limit().faults(v)]
        yield from faults
        if len(self.usual_film_um) != 2 or (
            not faults and self.usual_film_um[0] > self.usual_film_um[1]
        ):
            yield "usual_film_um must be two numbers, the thinner one first."

    def with_build_coats(self, times: int) -> FinishSystem:
        """Return the same finish with another number of its last kind of coat."""
        *first, last = self.coats
        return replace(self, coats=(*first, replace(last, times=times)))

    @property
    def sprayed(self) -> bool:
        """Whether any coat is sprayed."""
        return any(coat.method == "spray" for coat in self.coats)


def _limit() -> Quantity:
    return from_zero("usual_film_um", "um")


def _words(row: object, *names: str) -> Iterator[str]:
    """Yield a sentence for each text field that is empty."""
    for name in names:
        if not str(getattr(row, name)).strip():
            yield f"{name} is empty; give a word for it."


def _whole(kind: Quantity, value: object) -> list[str]:
    """Return the sentence for a value that is no whole number of its kind."""
    if isinstance(value, float):
        return [f"{kind.name} is {value!r}; it must be {kind.rule}."]
    return kind.faults(value)


def _either(row: object, *choices: tuple[str, Quantity]) -> Iterator[str]:
    """Yield what is wrong with two fields of which exactly one is given."""
    given = [(n, kind) for n, kind in choices if getattr(row, n) is not None]
    if len(given) != 1:
        one, other = (name for name, _ in choices)
        count = "both are given" if given else "neither is given"
        yield f"{one} or {other} must be given, and only one; {count}."
    for name, kind in given:
        yield from kind.faults(getattr(row, name), name)
