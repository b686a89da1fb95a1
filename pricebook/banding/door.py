"""The door: edges to the cheapest rolls."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.banding.demand import Demand, read_demand
from pricebook.banding.packing import Cut
from pricebook.banding.purchase import purchase
from pricebook.banding.result import Rolls, check
from pricebook.errors import LayoutError
from pricebook.lengths import show


def rolls(
    lengths_mm: Sequence[float],
    rolls: Sequence[Sequence[float | None]],
    names: Sequence[str] = (),
) -> Rolls:
    """Return the cheapest rolls that carry all edges, each edge without a splice.

    Parameters
    ----------
    lengths_mm : sequence of float
        Length to cut for each edge, allowance at both ends included. [mm]
    rolls : sequence of (length_mm, price_cents) or (length_mm, price_cents, at_most)
        The kinds of rolls; a third member says how many there are at most, None
        that there is no limit. [mm, cents, -]
    names : sequence of str
        What to call the edges in a refusal; "edge 1", "edge 2" unless given.

    Returns
    -------
    Rolls
        The plan, its cost and the least possible cost. No edges need no rolls.

    Raises
    ------
    LayoutError
        If a length, a price or a count makes no sense, an edge is longer than
        every roll, or the rolls there are cannot carry all edges.

    Notes
    -----
    Sets of rolls are tried in the order of their cost, so the first that can be cut
    is the cheapest. A set is ruled out by total length, by the linear programme of
    Gilmore and Gomory (Operations Research 9, 1961), whose dual values are turned
    into whole numbers first, or by an exhaustive search. Where the search stops
    before its end (it counts steps, not seconds), `proven` is False and
    `least_possible_cents` is the bound. Among equal costs come the fewest rolls,
    then the greatest length, then the longest piece left on one roll.

    Examples
    --------
    Edges of 30, 30, 18 and 18 in with 1 in at each end, 104 in of banding in all:

    >>> cut = [inches * 25.4 for inches in (32, 32, 20, 20)]
    >>> answer = rolls(cut, [(2438.4, 600), (7620.0, 1100)])
    >>> answer.cost_cents, answer.proven, answer.plan
    (1100, True, ((1, (0, 1, 2, 3)),))
    >>> round(answer.left_mm[0] / 25.4, 6)
    196.0
    """
    demand = read_demand(lengths_mm, rolls, names)
    if not demand.edges:
        return Rolls(cost_cents=0, plan=(), least_possible_cents=0, left_mm=())
    found = purchase(demand)
    if not found.cuts:
        raise LayoutError(_too_few(demand, rolls, found.least_cents is None))
    cost = sum(demand.prices_cents[kind] for kind, _ in found.cuts)
    plan = _with_edges(demand, found.cuts)
    answer = Rolls(
        cost_cents=cost,
        plan=plan,
        least_possible_cents=cost if found.least_cents is None else found.least_cents,
        left_mm=tuple(
            (demand.capacities[kind] - sum(demand.edges[i] for i in part))
            * demand.unit_mm
            for kind, part in plan
        ),
    )
    check(answer, lengths_mm, rolls)
    return answer


def _with_edges(
    demand: Demand, cuts: Sequence[Cut]
) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Give each roll its edges, earliest first; the roll with the most left last."""
    waiting: dict[int, list[int]] = {size: [] for size in demand.sizes}
    for i, size in enumerate(demand.edges):
        waiting[size].append(i)
    plan = []
    for kind, load in cuts:
        part: list[int] = []
        for size, taken in zip(demand.sizes, load, strict=True):
            part += waiting[size][:taken]
            del waiting[size][:taken]
        plan.append((kind, tuple(sorted(part))))
    return tuple(plan)


def _too_few(
    demand: Demand, rolls: Sequence[Sequence[float | None]], proven: bool
) -> str:
    have = sum(n * c for n, c in zip(demand.at_most, demand.capacities, strict=True))
    need_mm, have_mm = demand.total * demand.unit_mm, have * demand.unit_mm
    edges = f"{len(demand.edges)} edges need {show(need_mm)} ({need_mm:,.0f} mm)"
    if have < demand.total:
        return (
            f"{edges} of banding and the rolls there are hold {show(have_mm)} "
            f"({have_mm:,.0f} mm); add rolls."
        )
    held = f"on rolls of {show(have_mm)} ({have_mm:,.0f} mm) in all"
    if proven:
        return f"{edges} and cannot be cut without a splice {held}; add a roll."
    return f"{edges} and no way was found to cut them {held}; add a roll."
