"""The table of predictors of a regression: read, checked and put to one scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from pricebook.bidding.arguments import number_faults
from pricebook.errors import SpecError, raise_all, shown

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array: TypeAlias = NDArray[np.float64]

LARGEST = 1e100
"""The largest number that a regression takes; its inverse is the least step. [-]"""

SAME = 1e-12
"""What differs by no more than this share of its size counts as the same. [-]"""

ALONG = 1e-9
"""A predictor of which no more than this share is its own is collinear. [-]"""


def numbers(name: str, given: object) -> tuple[float, ...]:
    """Return a row of numbers of either sign as floats.

    Parameters
    ----------
    name : str
        What the numbers are.
    given : iterable
        The numbers. [any unit]

    Returns
    -------
    tuple of float
        The same numbers. [same unit]

    Raises
    ------
    SpecError
        If it is no row of numbers, or one of them is no number of ordinary size.

    Examples
    --------
    >>> numbers("values", [0, -2.5])
    (0.0, -2.5)
    """
    if isinstance(given, (str, bytes)) or not isinstance(given, Iterable):
        raise SpecError(f"{name} is {shown(given)}; it must be a row of numbers.")
    row = list(given)
    raise_all(
        SpecError,
        (
            fault
            for i, number in enumerate(row, 1)
            for fault in number_faults(
                f"{name}, number {i},", number, least=-LARGEST, most=LARGEST
            )
        ),
    )
    return tuple(float(number) for number in row)


def table(features: object, rows: int) -> tuple[tuple[float, ...], ...]:
    """Return a table of predictors, one row a value, all rows of one width.

    Parameters
    ----------
    features : iterable of iterable
        The table; its rows may be empty, for a constant alone. [any units]
    rows : int
        How many values there are. [-]

    Returns
    -------
    tuple of tuple of float
        The same table. [same units]

    Raises
    ------
    SpecError
        If it is no table of numbers, or its shape is another one.

    Examples
    --------
    >>> table([[1, 2], [3, 4]], 2)
    ((1.0, 2.0), (3.0, 4.0))
    """
    if isinstance(features, (str, bytes)) or not isinstance(features, Iterable):
        raise SpecError(
            f"features is {shown(features)}; it must be a table: a row a value."
        )
    read: list[tuple[float, ...]] = []
    faults: list[str] = []
    for i, row in enumerate(features, 1):
        try:
            read.append(numbers(f"features, row {i}", row))
        except SpecError as error:
            faults += error.faults
    raise_all(SpecError, faults)
    if len(read) != rows:
        faults.append(
            f"features has {len(read)} rows beside {rows} values; give a row a value."
        )
    faults += [
        f"features, row {i} has {len(row)} predictors and row 1 has {len(read[0])}; "
        "give every row the same ones."
        for i, row in enumerate(read, 1)
        if len(row) != len(read[0])
    ]
    raise_all(SpecError, faults)
    return tuple(read)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How predictors are centred and shrunk before a fit, to -1 up to 1.

    Parameters
    ----------
    means, reach : array of float
        Middle of each predictor, and how far from it the farthest lies. [any units]
    """

    means: Array
    reach: Array

    def apply(self, features: Array) -> Array:
        """Return a table with a constant of 1 first, its predictors scaled [-]."""
        import numpy as np

        ones = np.ones((len(features), 1))
        return np.hstack([ones, (features - self.means) / self.reach])


def scale_of(features: Array, names: Sequence[str], which: str) -> Scale:
    """Return the scale of a table of predictors, or refuse what cannot be told apart.

    Parameters
    ----------
    features : array of float
        The table, a row a value; more rows than predictors. [any units]
    names : sequence of str
        What a sentence calls each predictor.
    which : str
        What a sentence calls the rows.

    Returns
    -------
    Scale
        Middle and reach of each predictor.

    Raises
    ------
    SpecError
        If a predictor is the same in all rows, or follows from those before it.

    Notes
    -----
    A predictor follows from the others when no more than 1e-9 of its length is
    left after taking off what they explain (the diagonal of R in X = QR).

    Examples
    --------
    >>> import numpy as np
    >>> scale_of(np.array([[1.0], [5.0]]), ["height"], "rows").reach
    array([2.])
    """
    import numpy as np

    means = features.mean(axis=0)
    gaps = np.abs(features - means).max(axis=0)
    sizes = np.abs(features).max(axis=0)
    raise_all(
        SpecError,
        (
            f"{name} is the same in all {which}, so it is collinear with the "
            "constant; leave it out."
            for name, gap, size in zip(names, gaps, sizes, strict=True)
            if gap <= max(SAME * size, 1 / LARGEST)
        ),
    )
    scale = Scale(means=means, reach=gaps)
    scaled = scale.apply(features)
    own = np.abs(np.diagonal(np.linalg.qr(scaled, mode="r")))
    shares = (own / np.linalg.norm(scaled, axis=0))[1:]
    raise_all(
        SpecError,
        (
            f"{name} follows from the predictors before it in {which} (they are "
            "collinear); leave it out."
            for name, share in zip(names, shares, strict=True)
            if share <= ALONG
        ),
    )
    return scale
