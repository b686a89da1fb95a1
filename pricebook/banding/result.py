"""The answer for one kind of banding, and a checker that knows no solver."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook.errors import LayoutError, raise_all


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolls:
    """Which rolls to take, and which edges are cut from each.

    Parameters
    ----------
    cost_cents : int
        Price of all rolls of the plan. [cents]
    plan : tuple of (int, tuple of int)
        One entry a roll: which kind, as a place in the list of rolls given, and
        which edges, as places in the list of lengths given. Places count from 0.
    least_possible_cents : int
        No set of rolls that carries all edges costs less. [cents]
    left_mm : tuple of float
        What is left on each roll of the plan, in one piece: stock. [mm]

    Examples
    --------
    >>> answer = Rolls(
    ...     cost_cents=1200,
    ...     plan=((0, (0, 1)),),
    ...     least_possible_cents=1200,
    ...     left_mm=(500.0,),
    ... )
    >>> answer.proven
    True
    """

    cost_cents: int
    plan: tuple[tuple[int, tuple[int, ...]], ...]
    least_possible_cents: int
    left_mm: tuple[float, ...]

    @property
    def proven(self) -> bool:
        """Whether it is proven that no set of rolls costs less."""
        return self.cost_cents == self.least_possible_cents

    @property
    def bought(self) -> dict[int, int]:
        """How many rolls of each kind the plan takes. [-]."""
        return dict(sorted(Counter(kind for kind, _ in self.plan).items()))


def check(
    answer: Rolls,
    lengths_mm: Sequence[float],
    rolls: Sequence[Sequence[float | None]],
) -> None:
    """Raise if a plan does not carry every edge once on rolls that there are.

    Parameters
    ----------
    answer : Rolls
        The plan to check.
    lengths_mm : sequence of float
        Length to cut for each edge. [mm]
    rolls : sequence of (length_mm, price_cents) or (length_mm, price_cents, at_most)
        The kinds of rolls. [mm, cents, -]

    Raises
    ------
    LayoutError
        If an edge is missing, doubled or unknown, a roll is unknown, too full or
        taken more often than there are, or the cost, the rest of a roll or the
        bound does not fit the plan; one sentence for each.

    Notes
    -----
    Lengths count to the millionth of a millimetre.

    Examples
    --------
    >>> wrong = Rolls(
    ...     cost_cents=900, plan=((0, (0,)),), least_possible_cents=900, left_mm=(0.0,)
    ... )
    >>> check(wrong, [500.0, 500.0], [(500.0, 900)])
    Traceback (most recent call last):
        ...
    pricebook.errors.LayoutError: edge 2 is on no roll; every edge is cut once.
    """
    faults = _edge_faults(answer, len(lengths_mm))
    unknown = sorted({k for k, _ in answer.plan if not 0 <= k < len(rolls)})
    faults += [f"roll {k + 1} of the plan is not among the rolls." for k in unknown]
    raise_all(LayoutError, faults)
    faults = _roll_faults(answer, lengths_mm, rolls)
    cost = sum(int(rolls[kind][1] or 0) for kind, _ in answer.plan)
    if cost != answer.cost_cents:
        faults.append(
            f"the rolls of the plan cost {cost} cents, the answer says "
            f"{answer.cost_cents}."
        )
    if not 0 <= answer.least_possible_cents <= cost:
        faults.append(
            f"the least possible cost is given as {answer.least_possible_cents} "
            f"cents; it lies between 0 and the cost, {cost}."
        )
    raise_all(LayoutError, faults)


def _edge_faults(answer: Rolls, edges: int) -> list[str]:
    cut = Counter(edge for _, part in answer.plan for edge in part)
    faults = [
        f"edge {i + 1} is on no roll; every edge is cut once."
        for i in range(edges)
        if not cut[i]
    ]
    for i, times in sorted(cut.items()):
        if not 0 <= i < edges:
            faults.append(f"edge {i + 1} of the plan is not among the edges.")
        elif times > 1:
            faults.append(f"edge {i + 1} is cut {times} times; every edge is cut once.")
    return faults


def _roll_faults(
    answer: Rolls,
    lengths_mm: Sequence[float],
    rolls: Sequence[Sequence[float | None]],
) -> list[str]:
    faults = []
    if len(answer.left_mm) != len(answer.plan):
        return ["the rest must be given once for each roll of the plan."]
    for number, (kind, part) in enumerate(answer.plan, 1):
        rest = _exact(rolls[kind][0]) - sum(_exact(lengths_mm[i]) for i in part)
        if rest < 0:
            faults.append(
                f"roll {number} of the plan is too full by {float(-rest):g} mm."
            )
        elif abs(float(rest) - answer.left_mm[number - 1]) > 1e-5:
            faults.append(
                f"roll {number} of the plan has {float(rest):g} mm left, the answer "
                f"says {answer.left_mm[number - 1]:g}."
            )
    for kind, times in sorted(Counter(kind for kind, _ in answer.plan).items()):
        most = rolls[kind][2] if len(rolls[kind]) > 2 else None
        if most is not None and times > most:
            faults.append(
                f"roll {kind + 1} is taken {times} times; there are {most:g} at most."
            )
    return faults


def _exact(length_mm: float | None) -> Fraction:
    return Fraction(round(Fraction(length_mm or 0) * 1_000_000), 1_000_000)
