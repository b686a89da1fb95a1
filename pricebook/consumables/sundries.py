"""Cloths, blades, tape, rags, gloves and filters."""

from __future__ import annotations

from pricebook.consumables._checks import (
    above_zero,
    area,
    counted,
    not_below_zero,
    percent,
    pieces,
    refuse,
    run_length,
    whole,
)
from pricebook.rates import Need

GROUP = "sundries"


def tack_cloths(
    area_m2: float,
    wipes: int,
    *,
    area_each_m2: float,
    uses: int,
    item: str = "tack cloth",
    lengths: str = "mm",
) -> tuple[Need, ...]:
    """Return the tack cloths that wiping an area before each coat takes.

    Parameters
    ----------
    area_m2 : float
        Area. [m2]
    wipes : int
        How often it is wiped: once a coat. [-]
    area_each_m2 : float
        Area that a cloth wipes clean in one use. [m2]
    uses : int
        How often a cloth serves. [-]
    item : str
        Row of the price book.
    lengths : str
        "in" prints square feet, "mm" square metres.

    Returns
    -------
    tuple of Need
        One row, or none when there is nothing to wipe.

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    cloths = area * wipes / (area a use * uses), up to the next whole one. One cloth
    for 3.7 to 5.6 m2 (40 to 60 sq ft), three to four uses: common practice, no
    source.

    Examples
    --------
    >>> tack_cloths(3.42, 4, area_each_m2=4.6, uses=3)[0].quantity
    1
    """
    refuse(
        not_below_zero(area_m2=area_m2),
        whole(wipes=wipes),
        above_zero(area_each_m2=area_each_m2, uses=uses),
    )
    cloths = pieces(area_m2 * wipes / (area_each_m2 * uses))
    how = (
        f"{counted(wipes, 'wipe')} x {area(area_m2, lengths)}, a cloth for "
        f"{area(area_each_m2, lengths)}, {counted(uses, 'use')} each"
    )
    return _needs(item, cloths, "each", how)


def blades(
    cut_m: float,
    *,
    life_m: float,
    item: str = "knife blade",
    lengths: str = "mm",
    where: str = "",
) -> tuple[Need, ...]:
    """Return the blades that cutting and trimming a length takes.

    Parameters
    ----------
    cut_m : float
        Length cut or trimmed, all passes together. [m]
    life_m : float
        Length that a blade stays sharp for. [m]
    item : str
        Row of the price book.
    lengths : str
        "in" prints feet, "mm" metres.
    where : str
        What is cut, in words.

    Returns
    -------
    tuple of Need
        One row, or none when nothing is cut.

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    blades = length / life, up to the next whole one; lives are common practice, no
    source.

    Examples
    --------
    >>> blades(37.0, life_m=15)[0].quantity
    3
    """
    refuse(not_below_zero(cut_m=cut_m), above_zero(life_m=life_m))
    cut = f"{run_length(cut_m, lengths)} cut{where and f' {where}'}"
    how = f"{cut}, {run_length(life_m, lengths)} a blade"
    return _needs(item, pieces(cut_m / life_m), "each", how)


def masking(
    length_m: float,
    *,
    waste_share: float = 0.0,
    item: str = "masking tape",
    lengths: str = "mm",
) -> tuple[Need, ...]:
    """Return the tape that masks a length.

    Parameters
    ----------
    length_m : float
        Length to mask. [m]
    waste_share : float
        Ends and overlaps, as a share. [-]
    item : str
        Row of the price book.
    lengths : str
        "in" prints feet, "mm" metres.

    Returns
    -------
    tuple of Need
        One row, or none when nothing is masked.

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    tape = length * (1 + waste); common practice, no source.

    Examples
    --------
    >>> masking(10, waste_share=0.1)[0].quantity
    11.0
    """
    refuse(not_below_zero(length_m=length_m, waste_share=waste_share))
    how = run_length(length_m, lengths)
    how += f", and {percent(waste_share)} for ends" if waste_share else ""
    return _needs(item, length_m * (1 + waste_share), "m", how)


def rags(sessions: int, *, each: int, item: str = "rag") -> tuple[Need, ...]:
    """Return the rags that all finishing sessions take.

    Parameters
    ----------
    sessions : int
        Sessions. [-]
    each : int
        Rags a session. [-]
    item : str
        Row of the price book.

    Returns
    -------
    tuple of Need
        One row, or none.

    Raises
    ------
    SpecError
        If a number is out of range.

    Examples
    --------
    >>> rags(3, each=2)[0].how
    '3 sessions x 2'
    """
    return _each_session(sessions, each, "each", item)


def gloves(sessions: int, *, each: int, item: str = "gloves") -> tuple[Need, ...]:
    """Return the pairs of gloves that all sessions take.

    Parameters
    ----------
    sessions : int
        Sessions with finish, adhesive or stripper. [-]
    each : int
        Pairs a session. [-]
    item : str
        Row of the price book.

    Returns
    -------
    tuple of Need
        One row, or none.

    Raises
    ------
    SpecError
        If a number is out of range.

    Examples
    --------
    >>> gloves(3, each=1)[0].unit
    'pair'
    """
    return _each_session(sessions, each, "pair", item)


def filters(
    hours: float, *, life_h: float, item: str = "respirator filter"
) -> tuple[Need, ...]:
    """Return the part of a pair of respirator filters that some hours use up.

    Parameters
    ----------
    hours : float
        Hours of spraying, stripping or sanding under the mask. [h]
    life_h : float
        Hours that a pair lasts; the maker's own limit holds where it is shorter.
        [h]
    item : str
        Row of the price book.

    Returns
    -------
    tuple of Need
        One row in pairs, not rounded up since a pair serves the next piece too.

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    pairs = hours / life; common practice, no source. Which filter and when to
    change it: follow its maker and local rules.

    Examples
    --------
    >>> filters(2, life_h=8)[0].quantity
    0.25
    """
    refuse(not_below_zero(hours=hours), above_zero(life_h=life_h))
    return _needs(item, hours / life_h, "pair", f"{hours:.3g} h, {life_h:g} h a pair")


def _each_session(sessions: int, each: int, unit: str, item: str) -> tuple[Need, ...]:
    refuse(whole(sessions=sessions, each=each))
    how = f"{counted(sessions, 'session')} x {each}"
    return _needs(item, sessions * each, unit, how)


def _needs(item: str, quantity: float, unit: str, how: str) -> tuple[Need, ...]:
    if not quantity:
        return ()
    return (Need(item=item, quantity=quantity, unit=unit, group=GROUP, how=how),)
