"""Shellac by its cut: pounds of dry flakes added to one US gallon of alcohol."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.errors import SpecError
from pricebook.finish._numbers import CUT, check, from_zero, positive

KG_PER_LB = 0.45359237
"""Exact by definition (NIST SP 811, Appendix B)."""
L_PER_US_GAL = 3.785411784
"""231 cubic inches, exact by definition (NIST Handbook 44, Appendix C)."""
GAL_PER_LB = 0.1
"""Room that dissolved flakes take up: 2 lb in 1 gal make 1.2 gal. [gal/lb]"""

_ALCOHOL = positive("alcohol", "L")
_MIXED = positive("mixed shellac", "L")
_DOSE = from_zero("dye dose", "ml/L", 1000)
_LITRES = from_zero("litres", "L")


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """What to weigh and to measure for one batch of mixed shellac.

    Parameters
    ----------
    cut_lb : float
        Cut. [lb of flakes per US gal of alcohol]
    flakes_kg : float
        Dry flakes. [kg]
    alcohol_l : float
        Alcohol. [L]
    mixed_l : float
        What the batch comes to. [L]
    """

    cut_lb: float
    flakes_kg: float
    alcohol_l: float
    mixed_l: float


def flakes_kg(cut_lb: float, alcohol_l: float) -> float:
    """Return the dry flakes to add to an amount of alcohol for a cut.

    Parameters
    ----------
    cut_lb : float
        Cut, above 0 and at most 6. [lb of flakes per US gal of alcohol]
    alcohol_l : float
        Alcohol that the flakes are added to. [L]

    Returns
    -------
    float
        Flakes. [kg]

    Raises
    ------
    SpecError
        If the cut or the alcohol is out of range or not a number.

    Notes
    -----
    flakes = cut * alcohol * 0.45359237 / 3.785411784. A cut counts flakes to a
    gallon of alcohol, not to a gallon of product: see `batch` for the latter.
    Sources: shellac_mixing_chart_2013; nist_hb_44 for the units.

    Examples
    --------
    >>> round(flakes_kg(2, 1), 5)
    0.23965
    >>> flakes_kg(7, 1)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: cut is 7 lb; it must be more than 0 and at most 6 lb.
    """
    cut_lb, alcohol_l = check((CUT, cut_lb), (_ALCOHOL, alcohol_l))
    return cut_lb * alcohol_l * KG_PER_LB / L_PER_US_GAL


def mixed_l(cut_lb: float, alcohol_l: float) -> float:
    """Return what a batch comes to once the flakes have dissolved.

    Parameters
    ----------
    cut_lb : float
        Cut, above 0 and at most 6. [lb of flakes per US gal of alcohol]
    alcohol_l : float
        Alcohol that the flakes are added to. [L]

    Returns
    -------
    float
        Mixed shellac. [L]

    Raises
    ------
    SpecError
        If the cut or the alcohol is out of range or not a number.

    Notes
    -----
    mixed = alcohol * (1 + 0.1 * cut): each pound takes up a tenth of a gallon.
    Source: shellac_dilution_table.

    Examples
    --------
    >>> round(mixed_l(2, 1), 6), round(mixed_l(3, 1), 6)
    (1.2, 1.3)
    """
    cut_lb, alcohol_l = check((CUT, cut_lb), (_ALCOHOL, alcohol_l))
    return alcohol_l * (1 + GAL_PER_LB * cut_lb)


def batch(cut_lb: float, wanted_l: float) -> Batch:
    """Return the flakes and the alcohol that make a wanted amount of mixed shellac.

    Parameters
    ----------
    cut_lb : float
        Cut, above 0 and at most 6. [lb of flakes per US gal of alcohol]
    wanted_l : float
        Mixed shellac wanted. [L]

    Returns
    -------
    Batch
        Flakes, alcohol and the volume they come to.

    Raises
    ------
    SpecError
        If the cut or the amount is out of range or not a number.

    Notes
    -----
    The inverse of `mixed_l`: alcohol = wanted / (1 + 0.1 * cut).
    Source: shellac_dilution_table.

    Examples
    --------
    >>> quart = batch(2, 0.946353)
    >>> round(quart.flakes_kg * 1000, 1), round(quart.alcohol_l, 4)
    (189.0, 0.7886)
    """
    cut_lb, wanted_l = check((CUT, cut_lb), (_MIXED, wanted_l))
    alcohol_l = wanted_l / (1 + GAL_PER_LB * cut_lb)
    return Batch(
        cut_lb=cut_lb,
        flakes_kg=cut_lb * alcohol_l * KG_PER_LB / L_PER_US_GAL,
        alcohol_l=alcohol_l,
        mixed_l=wanted_l,
    )


def dilute(from_cut: float, to_cut: float) -> float:
    """Return the parts of alcohol to add to one part of shellac of a heavier cut.

    Parameters
    ----------
    from_cut : float
        Cut at hand, above 0 and at most 6. [lb/gal]
    to_cut : float
        Cut wanted, no heavier than the one at hand. [lb/gal]

    Returns
    -------
    float
        Alcohol to one part of mixed shellac, by volume. [-]

    Raises
    ------
    SpecError
        If a cut is out of range or the one wanted is heavier: alcohol only thins.

    Notes
    -----
    parts = (from / to - 1) / (1 + 0.1 * from), by the mass of flakes and the room
    that they take up. Thinning in two steps takes as much as in one. The table of
    shellac_dilution_table is printed in quarters; some of its cells do not follow.

    Examples
    --------
    >>> round(dilute(4, 2), 4), dilute(2, 2)
    (0.7143, 0.0)
    >>> dilute(1, 2)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: a 1-lb cut cannot be thinned to a 2-lb cut; ...
    """
    from_cut, to_cut = check((CUT, from_cut), (CUT, to_cut))
    if to_cut > from_cut:
        raise SpecError(
            f"a {from_cut:g}-lb cut cannot be thinned to a {to_cut:g}-lb cut; "
            "alcohol only makes a cut lighter, so add flakes or mix a new batch."
        )
    return (from_cut / to_cut - 1) / (1 + GAL_PER_LB * from_cut)


def cut_solids_share(cut_lb: float) -> float:
    """Return the share of mixed shellac, by volume, that stays as dry film.

    Parameters
    ----------
    cut_lb : float
        Cut, above 0 and at most 6. [lb/gal]

    Returns
    -------
    float
        Volume solids. [-]

    Raises
    ------
    SpecError
        If the cut is out of range or not a number.

    Notes
    -----
    solids = 0.1 * cut / (1 + 0.1 * cut): a tenth of a gallon a pound, all of which
    stays. Source: shellac_dilution_table (its displacement). Dry densities of 1.14
    to 1.21 g/ml in other pages move it by about 4 % of itself.

    Examples
    --------
    >>> round(cut_solids_share(2), 4)
    0.1667
    """
    (cut_lb,) = check((CUT, cut_lb))
    return GAL_PER_LB * cut_lb / (1 + GAL_PER_LB * cut_lb)


def dye_ml(dose_ml_per_l: float, litres: float) -> float:
    """Return the dye concentrate that tints an amount of finish.

    Parameters
    ----------
    dose_ml_per_l : float
        Dose. [ml of concentrate per L of mixed finish]
    litres : float
        Mixed finish. [L]

    Returns
    -------
    float
        Concentrate. [ml]

    Raises
    ------
    SpecError
        If the dose or the amount is below 0 or not a number.

    Notes
    -----
    dye = dose * litres. Doses of 8 to 20 ml/L are common practice, no source: try
    them on a test board.

    Examples
    --------
    >>> dye_ml(12, 0.5)
    6.0
    """
    dose_ml_per_l, litres = check((_DOSE, dose_ml_per_l), (_LITRES, litres))
    return dose_ml_per_l * litres
