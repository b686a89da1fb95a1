"""New minutes for an operation, moved from the standard by what was observed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import number_fault

STANDARD_COUNTS_AS = 5.0
"""How many observations the standard in the price book counts for: with five of our
own, half way. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SuggestedMinutes:
    """What an operation may be given next time, and on what grounds.

    Parameters
    ----------
    operation : str
        What is done.
    standard_min : float
        Minutes a unit in the price book. [min]
    observed_min : float or None
        Minutes a unit as observed; None without observations. [min]
    observations : int
        How many pieces or sessions stand behind it.
    weight : float
        Share of the suggestion that comes from them. [-]
    """

    operation: str
    standard_min: float
    observed_min: float | None
    observations: int
    weight: float

    @property
    def suggested_min(self) -> float:
        """Minutes a unit to plan with next time."""
        if self.observed_min is None:
            return self.standard_min
        moved = self.observed_min - self.standard_min
        return self.standard_min + self.weight * moved

    @property
    def sentence(self) -> str:
        """The suggestion in words."""
        if self.observed_min is None:
            return (
                f"{self.operation}: nothing was observed, so {self.standard_min:g} min "
                "a unit stays."
            )
        times = "observation" if self.observations == 1 else "observations"
        return (
            f"{self.operation}: {self.suggested_min:.3g} min a unit instead of "
            f"{self.standard_min:g}, from {self.observations} {times} at "
            f"{self.observed_min:.3g}; the old figure keeps "
            f"{100 * (1 - self.weight):.0f} % of the say."
        )


def suggest_minutes(
    operation: str,
    standard_min: float,
    observed: Sequence[tuple[float, float]],
    standard_counts_as: float = STANDARD_COUNTS_AS,
) -> SuggestedMinutes:
    """Suggest minutes a unit from the standard and from what work really took.

    Parameters
    ----------
    operation : str
        What is done.
    standard_min : float
        Minutes a unit in the price book. [min]
    observed : sequence of (float, float)
        For each piece or session the units done and the minutes they took.
    standard_counts_as : float
        How many observations the standard counts for, above 0. [-]

    Returns
    -------
    SuggestedMinutes
        The suggestion with the number of observations behind it.

    Raises
    ------
    SpecError
        If a number is below 0, or none, or units done are 0.

    Notes
    -----
    With n observations and the standard counting as k, the observed minutes a unit
    (all minutes over all units) have weight n / (n + k): one bad afternoon moves a
    rate a little, twenty pieces nearly replace it. Common practice, no source.

    Examples
    --------
    >>> found = suggest_minutes("lay a face", 12, [(4, 60), (6, 84), (5, 66)])
    >>> found.observed_min, round(found.suggested_min, 2), found.observations
    (14.0, 12.75, 3)
    >>> suggest_minutes("lay a face", 12, []).suggested_min
    12
    """
    faults = [
        *number_fault(f"{operation}: standard_min", standard_min),
        *number_fault(
            f"{operation}: standard_counts_as", standard_counts_as, above=True
        ),
    ]
    for number, (units, minutes) in enumerate(observed, 1):
        place = f"{operation}, observation {number}"
        faults += number_fault(f"{place}: units", units, above=True)
        faults += number_fault(f"{place}: minutes", minutes)
    raise_all(SpecError, faults)
    count = len(observed)
    units_done = math.fsum(units for units, _ in observed)
    return SuggestedMinutes(
        operation=operation,
        standard_min=standard_min,
        observed_min=math.fsum(m for _, m in observed) / units_done if count else None,
        observations=count,
        weight=count / (count + standard_counts_as),
    )
