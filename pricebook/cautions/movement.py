"""How a wood moves with moisture, and its hardness in newtons."""

from __future__ import annotations

from pricebook.cautions.checks import is_number, not_above_zero
from pricebook.errors import SpecError, raise_all, shown

N_PER_LBF = 4.4482216152605
"""Exact by definition (nist_sp_811)."""

_LEAST_MOISTURE, _MOST_MOISTURE = 6.0, 14.0


def newtons(hardness_lbf: float) -> float:
    """Convert a hardness from pounds-force.

    Parameters
    ----------
    hardness_lbf : float
        Hardness, more than 0. [lbf]

    Returns
    -------
    float
        The same hardness. [N]

    Raises
    ------
    SpecError
        If it is not above 0.

    Notes
    -----
    1 lbf = 4.4482216152605 N exactly. Source: nist_sp_811.

    Examples
    --------
    >>> round(newtons(1010))
    4493
    """
    raise_all(SpecError, not_above_zero("hardness", hardness_lbf, "lbf"))
    return float(hardness_lbf) * N_PER_LBF


def movement_mm(width_mm: float, coefficient: float, change_percent: float) -> float:
    """Return how much a width moves as its moisture changes.

    Parameters
    ----------
    width_mm : float
        Width across the grain, more than 0. [mm]
    coefficient : float
        Dimensional change coefficient, above 0 and below 0.01. [1/%]
    change_percent : float
        Change of moisture content, below 0 for drying. [percent points]

    Returns
    -------
    float
        Change of the width, below 0 where it shrinks. [mm]

    Raises
    ------
    SpecError
        If a number is out of range.

    Notes
    -----
    width x coefficient x change. The coefficients hold from 6 to 14 % moisture
    content, so a change of more than 8 points is refused. They are measured on
    solid wood: veneer glued to a board is held back by it. Source:
    wood_handbook_2010, Table 13-5.

    Examples
    --------
    >>> round(movement_mm(457.2, 0.00274, 4), 2)
    5.01
    """
    faults = not_above_zero("width", width_mm, "mm")
    if not is_number(coefficient) or not 0 < coefficient < 0.01:
        faults.append(
            f"coefficient is {shown(coefficient)}; it must be above 0 and below 0.01."
        )
    most = _MOST_MOISTURE - _LEAST_MOISTURE
    if not is_number(change_percent) or abs(change_percent) > most:
        faults.append(
            f"change of moisture is {shown(change_percent)}; the coefficients hold "
            "from 6 to 14 %, so it must be at most 8 points."
        )
    raise_all(SpecError, faults)
    return float(width_mm) * float(coefficient) * float(change_percent)
