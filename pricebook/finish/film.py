"""Films: how far a litre goes, how thick it lies wet and dry."""

from __future__ import annotations

from pricebook.finish._numbers import (
    MOST,
    Quantity,
    check,
    from_zero,
    positive,
    share,
)

UM_PER_MIL = 25.4
"""One thousandth of an inch, exact by definition (NIST SP 811, Appendix B)."""
M2_UM_PER_L = 1000.0
"""One litre covers 1000 m2 at 1 micrometre; 1604.17 sq ft a gallon at 1 mil."""

SOLIDS = share("solids")
TRANSFER = share("share on the work")
DRY_FILM = Quantity("dry film", "um", 1e-3, MOST, "more than 0")
SPREAD = positive("spread", "m2/L")
_WET_FILM = positive("wet film", "um")
_AREA = from_zero("area", "m2")
_FILM = from_zero("film", "um")
_LOSS = from_zero("loss", "ml")
_THINNER = from_zero("thinner", "parts")
_COATS = Quantity("coats", "", 1, 1000, "1 or more")


def coverage_m2_per_l(
    solids_share: float, dry_film_um: float, transfer_share: float = 1.0
) -> float:
    """Return the area that a litre covers at a wanted dry film.

    Parameters
    ----------
    solids_share : float
        Volume solids, above 0 and at most 1. [-]
    dry_film_um : float
        Dry film wanted. [um]
    transfer_share : float
        Share of the material that lands on the work, above 0 and at most 1. [-]

    Returns
    -------
    float
        Area for a litre taken from the can. [m2/L]

    Raises
    ------
    SpecError
        If a share or the film is out of range or not a number.

    Notes
    -----
    coverage = 1000 * solids * share on the work / film, the metric twin of
    1604 * solids * transfer / mils. Sources: coverage_qa_2003; spreading_rate_note.

    Examples
    --------
    >>> coverage_m2_per_l(0.65, 125, 1)
    5.2
    >>> coverage_m2_per_l(0.65, 125, 0)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: share on the work is 0; it must be a share above 0 ...
    """
    solids, film_um, transfer = check(
        (SOLIDS, solids_share), (DRY_FILM, dry_film_um), (TRANSFER, transfer_share)
    )
    return M2_UM_PER_L * solids * transfer / film_um


def wet_film_um(spread_m2_per_l: float) -> float:
    """Return the wet film of finish that is spread over the work.

    Parameters
    ----------
    spread_m2_per_l : float
        Area that a litre on the work covers. [m2/L]

    Returns
    -------
    float
        Wet film. [um]

    Raises
    ------
    SpecError
        If the spread is out of range or not a number.

    Notes
    -----
    wet film = 1000 / spread. Source: spreading_rate_note.

    Examples
    --------
    >>> wet_film_um(8)
    125.0
    """
    (spread_m2_per_l,) = check((SPREAD, spread_m2_per_l))
    return M2_UM_PER_L / spread_m2_per_l


def dry_film_um(wet_film_um: float, solids_share: float) -> float:
    """Return what is left of a wet film once it has dried.

    Parameters
    ----------
    wet_film_um : float
        Wet film. [um]
    solids_share : float
        Volume solids as applied, above 0 and at most 1. [-]

    Returns
    -------
    float
        Dry film. [um]

    Raises
    ------
    SpecError
        If the film or the solids are out of range or not a number.

    Notes
    -----
    dry = wet * solids. Source: film_thickness_bulletin.

    Examples
    --------
    >>> dry_film_um(125, 0.4)
    50.0
    """
    wet_um, solids = check((_WET_FILM, wet_film_um), (SOLIDS, solids_share))
    return wet_um * solids


def thinned_solids_share(solids_share: float, thinner_parts: float) -> float:
    """Return the volume solids of a finish after thinning.

    Parameters
    ----------
    solids_share : float
        Volume solids from the can, above 0 and at most 1. [-]
    thinner_parts : float
        Thinner to one part of finish, by volume. [-]

    Returns
    -------
    float
        Volume solids as applied. [-]

    Raises
    ------
    SpecError
        If the solids or the parts are out of range or not a number.

    Notes
    -----
    solids / (1 + thinner). Source: film_thickness_bulletin.

    Examples
    --------
    >>> round(thinned_solids_share(0.35, 0.10), 3)
    0.318
    """
    solids, parts = check((SOLIDS, solids_share), (_THINNER, thinner_parts))
    return solids / (1 + parts)


def mils(film_um: float) -> float:
    """Return a film in mils, for a reader who works in inches.

    Parameters
    ----------
    film_um : float
        Film, 0 or more. [um]

    Returns
    -------
    float
        The same film. [mil]

    Raises
    ------
    SpecError
        If the film is below 0 or not a number.

    Notes
    -----
    1 mil = 25.4 um exactly (NIST SP 811, Appendix B).

    Examples
    --------
    >>> mils(50.8)
    2.0
    """
    (film_um,) = check((_FILM, film_um))
    return film_um / UM_PER_MIL


def litres(
    area_m2: float,
    coats: int,
    spread_m2_per_l: float,
    share_on_work: float = 1.0,
    loss_ml: float = 0.0,
) -> float:
    """Return the finish that a number of like coats takes from the can.

    Parameters
    ----------
    area_m2 : float
        Area of one coat. [m2]
    coats : int
        How many coats. [-]
    spread_m2_per_l : float
        Area that a litre on the work covers. [m2/L]
    share_on_work : float
        Share of the finish that lands on the work, above 0 and at most 1. [-]
    loss_ml : float
        Left in cup, hose, brush or pad over all coats. [ml]

    Returns
    -------
    float
        Finish. [L]

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    litres = coats * area / (spread * share on the work) + loss / 1000.
    Source of the spread: spreading_rate_note; losses are common practice, no source.

    Examples
    --------
    >>> round(litres(3.42, 3, 8.1, 0.65), 3)
    1.949
    """
    area_m2, times, spread, share, loss_ml = check(
        (_AREA, area_m2),
        (_COATS, coats),
        (SPREAD, spread_m2_per_l),
        (TRANSFER, share_on_work),
        (_LOSS, loss_ml),
    )
    return times * area_m2 / (spread * share) + loss_ml / 1000
