"""A small integer programme solved exactly: whole counts, gains, limits to keep."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from operator import add, mul, sub
from typing import NamedTuple

from pricebook.errors import SpecError

_PRECISION = 2**40
_MOST_STEPS = 2_000_000
_MOST_KEPT = 300_000


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

    def bound(self, at: int) -> int:
        """Return how many of one piece could be done, were it alone."""
        if self.uplifts[at] <= 0:
            return 0
        rows = zip(self.needs, self.limits, strict=True)
        return min([self.most[at], *(b // row[at] for row, b in rows if row[at])])


@dataclass(frozen=True, slots=True)
class _Bundle:
    """Some copies of one piece, done together or not at all."""

    piece: int
    copies: int
    gain: int
    needs: tuple[int, ...]
    saving: int  # gain beyond what its needs are worth at the limits' rates


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
    rows = [
        ([float(need) for need in needs], float(limit))
        for needs, limit in zip(programme.needs, programme.limits, strict=True)
    ]
    return _duals(programme.uplifts, rows, programme.most)


def best_counts(programme: Programme, known: Sequence[int] = ()) -> tuple[int, ...]:
    """Return the counts of the best choice, proven.

    Parameters
    ----------
    programme : Programme
        What is to be chosen from.
    known : sequence of int
        Counts that keep the limits, from which to look for better; none unless
        given.

    Returns
    -------
    tuple of int
        One count a piece. Of equal gains the one with fewest pieces, then the one
        with most of the earlier pieces.

    Raises
    ------
    SpecError
        If the search is not over after two million steps.

    Notes
    -----
    With any rates y >= 0 and needs a, no choice gains more than y b + sum(max(0,
    u - y a)): each piece left out in spite of a saving u - y a, or done in spite of
    a loss, lowers that by as much. The dual values of the limits are good rates. The
    search leaves a branch when what remains cannot beat the best found. All numbers
    are whole, so nothing hangs on rounding; the order among equals is written into
    the low digits of each gain.
    """
    high = [programme.bound(at) for at in range(len(programme.uplifts))]
    rows = [
        _whole_row(needs, limit)
        for needs, limit in zip(programme.needs, programme.limits, strict=True)
    ]
    fewest = [uplift * (sum(high) + 1) - 1 for uplift in programme.uplifts]
    unit = math.prod(count + 1 for count in high)
    gains = _in_order(fewest, high, unit)
    prices = [round(rate * _PRECISION) * unit for rate in _duals(fewest, rows, high)]
    bundles = list(_bundles(gains, rows, high, prices))
    beaten = sum(map(mul, gains, known))
    limits = [limit for _, limit in rows]
    found = _search(bundles, limits, prices, beaten)
    if known and not found:
        return tuple(known)
    counts = [0] * len(high)
    for bundle in found:
        counts[bundle.piece] += bundle.copies
    return tuple(counts)


def _duals(
    gains: Sequence[int],
    rows: Sequence[tuple[Sequence[float], float]],
    most: Sequence[int],
) -> tuple[float, ...]:
    from scipy.optimize import linprog

    if not rows:
        return ()
    found = linprog(
        [-gain for gain in gains],
        A_ub=[needs for needs, _ in rows],
        b_ub=[limit for _, limit in rows],
        bounds=[(0, count) for count in most],
        method="highs",
    )
    if found.status != 0:
        raise SpecError(f"no value of one more was found: {found.message}")
    return tuple(abs(float(rate)) for rate in found.ineqlin.marginals)


def _whole_row(needs: Sequence[Fraction], limit: Fraction) -> tuple[list[int], int]:
    """Return a limit in whole numbers, less what no sum of needs can use."""
    scale = math.lcm(*(need.denominator for need in needs))
    shared = math.gcd(*(int(need * scale) for need in needs)) or 1
    return [int(need * scale) // shared for need in needs], limit * scale // shared


def _in_order(gains: Sequence[int], high: Sequence[int], unit: int) -> list[int]:
    """Add the order to the gains: one more of a piece beats all of those after it."""
    weights, weight = [], unit
    for count in high:
        weight //= count + 1
        weights.append(weight)
    return [gain * unit + weight for gain, weight in zip(gains, weights, strict=True)]


def _bundles(
    gains: list[int],
    rows: list[tuple[list[int], int]],
    high: list[int],
    prices: list[int],
) -> Iterator[_Bundle]:
    """Split each piece's copies into 1, 2, 4 ... and the rest: any count is a sum."""
    for at, gain in enumerate(gains):
        needs = [row[at] for row, _ in rows]
        saving = gain * _PRECISION - _worth(prices, needs)
        left, copies = high[at], 1
        while left > 0:
            copies = min(copies, left)
            taken = tuple(need * copies for need in needs)
            yield _Bundle(at, copies, gain * copies, taken, saving * copies)
            left, copies = left - copies, copies * 2


def _search(
    bundles: list[_Bundle], limits: list[int], prices: list[int], best: int
) -> tuple[_Bundle, ...]:
    """Try each bundle done and not done, the likelier first, for more than `best`."""
    bundles = sorted(bundles, key=lambda bundle: -abs(bundle.saving))
    after = _needs_from(bundles, limits)
    seen: dict[tuple[int, tuple[int, ...]], int] = {}
    chosen: tuple[_Bundle, ...] = ()
    bound = _worth(prices, limits) + sum(max(0, b.saving) for b in bundles)
    stack = [_Branch(0, bound, 0, tuple(limits), chosen)]
    steps = 0
    while stack:
        branch = stack.pop()
        steps += 1
        if steps > _MOST_STEPS:
            raise SpecError(
                f"the pieces are too alike to prove a best choice in {_MOST_STEPS} "
                "steps; offer fewer, or round their numbers."
            )
        if branch.gain > best:
            best, chosen = branch.gain, branch.done
        useful = tuple(map(min, branch.left, after[branch.at]))
        idle = _worth(prices, branch.left) - _worth(prices, useful)
        if branch.at == len(bundles) or branch.bound - idle <= best * _PRECISION:
            continue
        key = branch.at, useful
        if seen.get(key, -1) >= branch.gain:
            continue
        if len(seen) < _MOST_KEPT:
            seen[key] = branch.gain
        stack += _grow(branch, bundles[branch.at])
    return chosen


class _Branch(NamedTuple):
    """A choice made as far as one bundle, and the most that it may gain."""

    at: int
    bound: int
    gain: int
    left: tuple[int, ...]
    done: tuple[_Bundle, ...]


def _grow(branch: _Branch, bundle: _Bundle) -> list[_Branch]:
    """Return the branches without and with a bundle, the likelier last."""
    at, bound, gain, left, done = branch
    skipped = _Branch(at + 1, bound - max(0, bundle.saving), gain, left, done)
    rest = tuple(map(sub, left, bundle.needs))
    if any(amount < 0 for amount in rest):
        return [skipped]
    bound += min(0, bundle.saving)
    kept = _Branch(at + 1, bound, gain + bundle.gain, rest, (*done, bundle))
    return [skipped, kept] if bundle.saving >= 0 else [kept, skipped]


def _needs_from(bundles: list[_Bundle], limits: list[int]) -> list[tuple[int, ...]]:
    """Return what all bundles from each one on would take together."""
    needs = [tuple(0 for _ in limits)]
    for bundle in reversed(bundles):
        needs.append(tuple(map(add, needs[-1], bundle.needs)))
    return needs[::-1]


def _worth(prices: Sequence[int], amounts: Sequence[int]) -> int:
    return sum(map(mul, prices, amounts))
