"""Which of the figures that went in moves a result most, and what two of them do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.forecast.faults import finite_fault

Result = Callable[[Mapping[str, float]], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """How far a result moves when one figure goes from low to high.

    Parameters
    ----------
    name : str
        The figure.
    low, high : float
        The two ends of its range. [its unit]
    at_low, at_high : float
        The result at each end, all else as it was. [the result's unit]
    """

    name: str
    low: float
    high: float
    at_low: float
    at_high: float

    @property
    def swing(self) -> float:
        """Width of the move, in the result's unit."""
        return abs(self.at_high - self.at_low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A result at every pair of two figures.

    Parameters
    ----------
    row_name, column_name : str
        The two figures.
    row_values, column_values : tuple of float
        Their values. [their units]
    results : tuple of tuple of float
        One row for each row value, one result for each column value in it.
    """

    row_name: str
    column_name: str
    row_values: tuple[float, ...]
    column_values: tuple[float, ...]
    results: tuple[tuple[float, ...], ...]


def swings(
    base: Mapping[str, float],
    ranges: Mapping[str, tuple[float, float]],
    result: Result,
) -> tuple[Swing, ...]:
    """Rank figures by how far each alone moves a result over its range.

    Parameters
    ----------
    base : mapping of str to float
        The figures as they stand. [any units]
    ranges : mapping of str to (float, float)
        A low and a high for each figure to vary. [its unit]
    result : callable
        Takes the figures, returns the result.

    Returns
    -------
    tuple of Swing
        Widest first; equal ones as in `ranges`. The bars of a tornado chart.

    Raises
    ------
    SpecError
        If a range is for no figure, is not two numbers, lowest first, or the result
        is not a finite number.

    Notes
    -----
    One figure moves at a time: what two do together shows in `grid`.
    Method: one-way sensitivity, common practice, no source.

    Examples
    --------
    >>> left = lambda x: x["hammer"] * (1 - x["fee"]) - x["material"]
    >>> ranked = swings(
    ...     {"hammer": 320, "fee": 0.05, "material": 72},
    ...     {"fee": (0.0, 0.1), "hammer": (220, 420)},
    ...     left,
    ... )
    >>> [(swing.name, swing.swing) for swing in ranked]
    [('hammer', 190.0), ('fee', 32.0)]
    """
    faults = [*_base_faults(base)]
    for name, ends in ranges.items():
        faults += _unknown(name, base)
        faults += _range_faults(name, ends)
    raise_all(SpecError, faults)
    moved = [
        Swing(
            name=name,
            low=low,
            high=high,
            at_low=_at(base, {name: low}, result),
            at_high=_at(base, {name: high}, result),
        )
        for name, (low, high) in ranges.items()
    ]
    return tuple(sorted(moved, key=lambda swing: -swing.swing))


def elasticities(
    base: Mapping[str, float], names: Sequence[str], result: Result
) -> dict[str, float]:
    """Return by how many per cent a result moves for 1 % more of each figure.

    Parameters
    ----------
    base : mapping of str to float
        The figures as they stand. [any units]
    names : sequence of str
        The figures to vary, none of them 0.
    result : callable
        Takes the figures, returns the result.

    Returns
    -------
    dict of str to float
        In the order of `names`. [% for 1 %]

    Raises
    ------
    SpecError
        If a name is no figure, a figure or the result is 0 (1 % of 0 is no step),
        or the result is not a finite number.

    Notes
    -----
    (f(1.01 x) - f(0.99 x)) / (0.02 f(x)), a central difference.

    Examples
    --------
    >>> area = lambda x: x["along"] * x["across"] ** 2
    >>> elasticities({"along": 3, "across": 2}, ["along", "across"], area)
    {'along': 1.0, 'across': 2.0}
    """
    faults = [*_base_faults(base)]
    for name in names:
        faults += _unknown(name, base)
        if name in base and base[name] == 0:
            faults.append(f"{name} is 0, of which 1 % is no step; leave it out.")
    raise_all(SpecError, faults)
    middle = _at(base, {}, result)
    if middle == 0:
        raise SpecError(
            "the result is 0, of which no per cent can be told; use swings."
        )
    return {
        name: (
            _at(base, {name: base[name] * 1.01}, result)
            - _at(base, {name: base[name] * 0.99}, result)
        )
        / (0.02 * middle)
        for name in names
    }


def grid(
    base: Mapping[str, float],
    row_name: str,
    row_values: Sequence[float],
    column_name: str,
    column_values: Sequence[float],
    result: Result,
) -> Grid:
    """Work out a result at every pair of two figures, all else as it stands.

    Parameters
    ----------
    base : mapping of str to float
        The figures as they stand. [any units]
    row_name, column_name : str
        The two figures to vary.
    row_values, column_values : sequence of float
        Their values. [their units]
    result : callable
        Takes the figures, returns the result.

    Returns
    -------
    Grid
        The results, row by row.

    Raises
    ------
    SpecError
        If a name is no figure, both are one, there are no values, or a value or the
        result is not a finite number.

    Examples
    --------
    >>> left = lambda x: x["hammer"] - x["hours"] * 22
    >>> at = grid({"hammer": 320, "hours": 6}, "hammer", [300, 400],
    ...           "hours", [5, 6, 7], left)
    >>> at.results
    ((190, 168, 146), (290, 268, 246))
    """
    faults = [*_base_faults(base), *_unknown(row_name, base)]
    faults += _unknown(column_name, base)
    if row_name == column_name:
        faults.append(f"both figures are {row_name}; vary two different ones.")
    for name, values in ((row_name, row_values), (column_name, column_values)):
        if not values:
            faults.append(f"{name} has no values; give at least one.")
        faults += [fault for value in values for fault in finite_fault(name, value)]
    raise_all(SpecError, faults)
    return Grid(
        row_name=row_name,
        column_name=column_name,
        row_values=tuple(row_values),
        column_values=tuple(column_values),
        results=tuple(
            tuple(
                _at(base, {row_name: row, column_name: column}, result)
                for column in column_values
            )
            for row in row_values
        ),
    )


def _at(base: Mapping[str, float], moved: dict[str, float], result: Result) -> float:
    value = result({**base, **moved})
    if finite_fault("", value):
        said = ", ".join(f"{name} {figure}" for name, figure in moved.items())
        raise SpecError(f"the result at {said or 'the base'} is {value!r}, no number.")
    return value


def _base_faults(base: Mapping[str, float]) -> Iterable[str]:
    return (fault for name, x in base.items() for fault in finite_fault(name, x))


def _unknown(name: str, base: Mapping[str, float]) -> list[str]:
    if name in base:
        return []
    return [f'"{name}" is not one of the figures; {nearest(str(name), base)}']


def _range_faults(name: str, ends: Sequence[float]) -> list[str]:
    if not isinstance(ends, Sequence) or len(ends) != 2:
        return [f"the range of {name} is {ends!r}; give a low and a high."]
    faults = [fault for end in ends for fault in finite_fault(name, end)]
    if not faults and ends[0] > ends[1]:
        faults.append(f"the range of {name} is {ends!r}; give the low end first.")
    return faults
