"""Centred faces: their centre line on the centre line of the sheet's figure.

A sheet that carries centred faces is cut in one of two ways. As strips: each centred
face takes a strip of its own length right across the sheet, with a rest on its left
and one on its right. As a column: the centred faces lie one beyond the other in the
middle, with a rest beside them along the whole sheet on either side. What is left of
such a sheet is cut for the other faces before another sheet is opened.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pricebook.errors import LayoutError
from pricebook.veneer.centred_bound import centred_bound
from pricebook.veneer.evolving import worth
from pricebook.veneer.model import Pattern, Problem, Stock
from pricebook.veneer.search import Progress
from pricebook.veneer.solving import Name, NoPlanError, solve

_Spot = tuple[int, int, int, int]
"""Offsets along and across, sizes along and across."""


@dataclass(frozen=True, slots=True)
class _Carrier:
    """A sheet with its centred blocks and the rests around them."""

    stock: int
    blocks: tuple[tuple[int, int, int, int], ...]
    rests: tuple[_Spot, ...]


def can_centre(size: tuple[int, int], kind: Stock, centre: float) -> bool:
    """Return whether a size fits a sheet with its middle on the figure's.

    Examples
    --------
    >>> sheet = Stock(along=96, across=48, price=100)
    >>> can_centre((40, 20), sheet, 24), can_centre((40, 20), sheet, 6)
    (True, False)
    """
    along, across = size
    inside = across / 2 <= centre <= kind.across - across / 2
    return kind.most != 0 and along <= kind.along and inside


def solve_centred(
    problem: Problem,
    centred: Sequence[int],
    centres: Sequence[float],
    name: Name,
    progress: Progress | None = None,
) -> tuple[list[Pattern], int]:
    """Lay out blocks of which some are centred.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    centred : sequence of int
        Which blocks are centred; each fits some sheet so.
    centres : sequence of float
        Where the centre line of the figure runs, for each stock.
    name : callable
        What a block is called in a refusal.
    progress : callable, optional
        Called with steps done, steps in all, and words.

    Returns
    -------
    (list of Pattern, int)
        The sheets, and the cost that no plan undercuts. [cents]
    """
    free, bound = solve(problem, progress, name)
    if not centred:
        return free, bound
    bound = max(bound, centred_bound(problem, centred, centres))
    best: list[Pattern] | None = None
    for carriers in _choices(problem, centred, centres):
        plan = _completed(problem, centred, carriers, name)
        if plan and (best is None or worth(plan, problem) < worth(best, problem)):
            best = plan
        if best and worth(best, problem)[0] <= bound:
            break
    if best is None:
        raise NoPlanError(
            f"no plan was found with {name(problem.blocks[centred[0]])} centred on "
            "the figure; allow more sheets, or do without centring."
        )
    return best, bound


def _choices(
    problem: Problem, centred: Sequence[int], centres: Sequence[float]
) -> Iterator[list[_Carrier]]:
    """Yield ways to put the centred blocks on sheets of one size."""
    copies = [n for n in centred for _ in range(problem.blocks[n].count)]
    copies.sort(key=lambda n: problem.blocks[n].forms[0], reverse=True)
    for number, kind in enumerate(problem.stocks):
        sizes = [problem.blocks[n].forms[0] for n in copies]
        if not all(can_centre(size, kind, centres[number]) for size in sizes):
            continue
        for many in (True, False):
            groups = _groups(problem, copies, kind.along if many else 0)
            if kind.most is not None and len(groups) > kind.most:
                continue
            for make in (_strips, _column):
                yield [make(problem, number, g, centres[number]) for g in groups]


def _groups(problem: Problem, copies: Sequence[int], length: int) -> list[list[int]]:
    """Put blocks one beyond the other as far as a length goes, first that fits."""
    groups: list[list[int]] = []
    reach: list[int] = []
    for block in copies:
        along = problem.blocks[block].forms[0][0]
        for place, used in enumerate(reach):
            if used + along <= length:
                groups[place].append(block)
                reach[place] += along
                break
        else:
            groups.append([block])
            reach.append(along)
    return groups


def _placed(
    problem: Problem, group: Sequence[int], centre: float
) -> list[tuple[int, int, int, int]]:
    reach = 0
    placed = []
    for block in group:
        along, across = problem.blocks[block].forms[0]
        placed.append((block, 0, reach, int(centre - across / 2)))
        reach += along
    return placed


def _strips(
    problem: Problem, stock: int, group: Sequence[int], centre: float
) -> _Carrier:
    kind = problem.stocks[stock]
    placed = _placed(problem, group, centre)
    rests: list[_Spot] = []
    reach = 0
    for block, _, at, left in placed:
        along, across = problem.blocks[block].forms[0]
        rests.append((at, 0, along, left))
        rests.append((at, left + across, along, kind.across - left - across))
        reach = at + along
    rests.append((reach, 0, kind.along - reach, kind.across))
    return _Carrier(stock, tuple(placed), tuple(rests))


def _column(
    problem: Problem, stock: int, group: Sequence[int], centre: float
) -> _Carrier:
    kind = problem.stocks[stock]
    placed = _placed(problem, group, centre)
    sizes = [problem.blocks[block].forms[0] for block in group]
    left = min(at for *_, at in placed)
    right = max(at + size[1] for (*_, at), size in zip(placed, sizes, strict=True))
    reach = sum(along for along, _ in sizes)
    rests = (
        (0, 0, kind.along, left),
        (0, right, kind.along, kind.across - right),
        (reach, left, kind.along - reach, right - left),
    )
    return _Carrier(stock, tuple(placed), rests)


def _completed(
    problem: Problem, centred: Sequence[int], carriers: list[_Carrier], name: Name
) -> list[Pattern] | None:
    """Cut the other blocks from the carriers' rests and from further sheets."""
    others = [n for n in range(len(problem.blocks)) if n not in set(centred)]
    spots = [(c, spot) for c, carrier in enumerate(carriers) for spot in carrier.rests]
    sizes = [form for n in others for form in problem.blocks[n].forms]
    spots = [
        (c, spot)
        for c, spot in spots
        if any(a <= spot[2] and b <= spot[3] for a, b in sizes)
    ]
    filled: list[list[tuple[int, int, int, int]]] = [list(c.blocks) for c in carriers]
    further: list[Pattern] = []
    if others:
        plan = _rest_plan(problem, others, carriers, spots, name)
        if plan is None:
            return None
        for stock, blocks in plan:
            if stock < len(problem.stocks):
                further.append(Pattern(stock, blocks))
                continue
            carrier, (a0, c0, _, _) = spots[stock - len(problem.stocks)]
            filled[carrier] += [(n, f, a0 + a, c0 + c) for n, f, a, c in blocks]
    first = [
        Pattern(carrier.stock, tuple(blocks))
        for carrier, blocks in zip(carriers, filled, strict=True)
    ]
    return first + further


def _rest_plan(
    problem: Problem,
    others: Sequence[int],
    carriers: Sequence[_Carrier],
    spots: Sequence[tuple[int, _Spot]],
    name: Name,
) -> list[tuple[int, tuple[tuple[int, int, int, int], ...]]] | None:
    """Lay the other blocks out; the rests of carriers are free, each once."""
    used = [carrier.stock for carrier in carriers]
    stocks = [
        replace(kind, most=None if kind.most is None else kind.most - used.count(n))
        for n, kind in enumerate(problem.stocks)
    ]
    stocks += [
        Stock(along=spot[2], across=spot[3], price=0, most=1) for _, spot in spots
    ]
    rest = replace(
        problem,
        blocks=tuple(problem.blocks[n] for n in others),
        stocks=tuple(stocks),
    )
    try:
        plan, _ = solve(rest, None, name)
    except LayoutError:
        return None
    return [
        (p.stock, tuple((others[n], f, a, c) for n, f, a, c in p.blocks)) for p in plan
    ]
