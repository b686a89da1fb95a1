"""A small integer programme: whole counts, a gain each, limits not to exceed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pricebook.errors import SpecError

_SECONDS = 60.0
_DIGITS = 2**24

Row = tuple[tuple[int, ...], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """Gains, bounds and needs of the pieces, in exact numbers.

    Parameters
    ----------
    uplifts : tuple of int
        Gain of one of each piece. [cents]
    most : tuple of int
        How many of each there are.
    needs : tuple of tuple of Fraction
        For each limit, what one of each piece takes of it.
    limits : tuple of Fraction
        What there is of each.
    """

    uplifts: tuple[int, ...]
    most: tuple[int, ...]
    needs: tuple[tuple[Fraction, ...], ...]
    limits: tuple[Fraction, ...]

    def uplift(self, counts: Sequence[int]) -> int:
        """Return the gain of a choice, in cents."""
        return sum(u * n for u, n in zip(self.uplifts, counts, strict=True))

    def used(self, counts: Sequence[int]) -> tuple[Fraction, ...]:
        """Return what a choice takes of each limit."""
        return tuple(
            sum((need * n for need, n in zip(row, counts, strict=True)), Fraction(0))
            for row in self.needs
        )

    def bounds(self) -> tuple[int, ...]:
        """Return how many of each piece could be done at most, were it alone."""
        return tuple(self._bound(at) for at in range(len(self.uplifts)))

    def _bound(self, at: int) -> int:
        if self.uplifts[at] <= 0:
            return 0
        rows = zip(self.needs, self.limits, strict=True)
        fits = [limit // row[at] for row, limit in rows if row[at]]
        return min([self.most[at], *fits])


def best_counts(programme: Programme, *, in_order: bool) -> tuple[int, ...]:
    """Return the counts of the best choice.

    Parameters
    ----------
    programme : Programme
        What is to be chosen from.
    in_order : bool
        Whether equal choices are settled: fewest pieces, then more of the earlier.

    Returns
    -------
    tuple of int
        One count a piece.

    Raises
    ------
    SpecError
        If the best choice is not proven within a minute.
    """
    high = programme.bounds()
    rows = _whole_rows(programme)
    if not any(high):
        return high
    if not in_order:
        return _solve(programme.uplifts, rows, high)
    many = sum(high) + 1
    gains = tuple(many * uplift - 1 for uplift in _reduced(programme.uplifts))
    counts = _solve(gains, rows, high)
    best = sum(g * n for g, n in zip(gains, counts, strict=True))
    rows = [*rows, (tuple(-gain for gain in gains), -best)]
    return _earliest(rows, high)


def limit_rates(programme: Programme) -> tuple[float, ...]:
    """Return the dual value of each limit, parts of pieces allowed.

    Parameters
    ----------
    programme : Programme
        What is to be chosen from.

    Returns
    -------
    tuple of float
        Gain for a unit of each limit, 0 for one that does not bind. [cents a unit]
    """
    from scipy.optimize import linprog

    if not programme.limits or not programme.uplifts:
        return tuple(0.0 for _ in programme.limits)
    found = linprog(
        [-uplift for uplift in programme.uplifts],
        A_ub=[[float(need) for need in row] for row in programme.needs],
        b_ub=[float(limit) for limit in programme.limits],
        bounds=[(0, most) for most in programme.most],
        method="highs",
    )
    if found.status != 0:
        raise SpecError(f"no value of one more was found: {found.message}")
    return tuple(abs(float(rate)) for rate in found.ineqlin.marginals)


def _whole_rows(programme: Programme) -> list[Row]:
    """Return the limits in whole numbers, each row by the smallest that will do."""
    rows = []
    for needs, limit in zip(programme.needs, programme.limits, strict=True):
        scale = math.lcm(*(need.denominator for need in needs))
        whole = [int(need * scale) for need in needs]
        shared = math.gcd(*whole) or 1
        rows.append((tuple(need // shared for need in whole), limit * scale // shared))
    return rows


def _reduced(uplifts: Sequence[int]) -> tuple[int, ...]:
    shared = math.gcd(*uplifts) or 1
    return tuple(uplift // shared for uplift in uplifts)


def _earliest(rows: list[Row], high: Sequence[int]) -> tuple[int, ...]:
    """Return the counts, of those that satisfy the rows, with most of the first."""
    low, top = [0] * len(high), list(high)
    at = 0
    while at < len(high):
        digits = [0] * len(high)
        weight, start = 1, at
        while at < len(high) and weight * (high[at] + 1) <= _DIGITS:
            weight *= high[at] + 1
            at += 1
        at = max(at, start + 1)
        for number in range(start, at):
            weight = weight // (high[number] + 1) or 1
            digits[number] = weight if high[number] else 0
        counts = _solve(digits, rows, top, low)
        low[start:at] = top[start:at] = counts[start:at]
    return tuple(low)


def _solve(
    gains: Sequence[int],
    rows: Sequence[Row],
    high: Sequence[int],
    low: Sequence[int] | None = None,
) -> tuple[int, ...]:
    """Maximise the gains in whole counts, and add the answer up again exactly."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    limits = (
        # half a unit of room: whole numbers cannot use it, float arithmetic may
        LinearConstraint([needs for needs, _ in rows], ub=[b + 0.5 for _, b in rows])
        if rows
        else ()
    )
    found: Any = milp(
        [-gain for gain in gains],
        integrality=[1] * len(gains),
        bounds=Bounds(low or [0] * len(gains), high),
        constraints=limits,
        options={"mip_rel_gap": 0.0, "time_limit": _SECONDS},
    )
    if found.status != 0:
        raise SpecError(
            f"no best choice is proven within {_SECONDS:.0f} s; offer fewer pieces or "
            "round their needs."
        )
    counts = tuple(round(float(count)) for count in found.x)
    for needs, limit in rows:
        if sum(n * count for n, count in zip(needs, counts, strict=True)) > limit:
            raise SpecError(
                "a limit is missed by less than the solver can tell; round the needs "
                "of the pieces to fewer digits."
            )
    return counts
