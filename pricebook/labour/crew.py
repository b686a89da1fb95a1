"""How many people a sheet takes."""

from __future__ import annotations

from numbers import Real

from pricebook.errors import SpecError, finite, raise_all, shown

ONE_PERSON_M2 = 0.74322432
"""Largest sheet that one person lays: 8 square feet (common practice, no source)."""

ONE_PERSON_MM = 1500.0
"""Longest sheet within one person's arms (common practice, no source)."""


def people_for(
    along_mm: float,
    across_mm: float,
    *,
    one_person_m2: float = ONE_PERSON_M2,
    one_person_mm: float = ONE_PERSON_MM,
) -> int:
    """Tell how many people it takes to lay a sheet.

    Parameters
    ----------
    along_mm, across_mm : float
        Size of the sheet or the face. [mm]
    one_person_m2, one_person_mm : float
        What one person can hold. [m2], [mm]

    Returns
    -------
    int
        1, or 2 where the sheet is larger or longer than one person's reach.

    Raises
    ------
    SpecError
        If a size is not above 0.

    Notes
    -----
    Default reach: 8 square feet and 1.5 m (common practice, no source).

    Examples
    --------
    >>> people_for(2438.4, 1219.2), people_for(900.0, 450.0)
    (2, 1)
    """
    faults = [
        f"the sheet is {shown(size)} mm {way} the grain; it must be more than 0."
        for way, size in (("along", along_mm), ("across", across_mm))
        if (number := finite(size)) is None or not 0 < number <= 1e6
    ]
    raise_all(SpecError, faults)
    area_m2 = float(along_mm) / 1e3 * float(across_mm) / 1e3
    longest_mm = max(along_mm, across_mm)
    return 2 if area_m2 > one_person_m2 or longest_mm > one_person_mm else 1


def is_not_number(amount: object) -> bool:
    """Tell whether a value is none of the finite numbers."""
    return not isinstance(amount, Real) or finite(amount) is None
