"""The door for plain numbers: parts, sheets and runs to a checked layout."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pricebook.errors import LayoutError, shown
from pricebook.veneer.checking import check
from pricebook.veneer.cuts import Rectangle, cut_up
from pricebook.veneer.model import Cut, Fit, Offcut, Pattern, Placement, Problem
from pricebook.veneer.reading import (
    blocks_of,
    part_name,
    read_parts,
    read_runs,
    read_sheets,
    read_stages,
    refuse_misfits,
)
from pricebook.veneer.search import Progress
from pricebook.veneer.solving import solve


def fit(
    parts: Sequence[Sequence[Any]],
    sheets: Sequence[Sequence[Any]],
    matched: Sequence[Sequence[Any]] = (),
    *,
    stages: int | None = None,
    progress: Progress | None = None,
) -> Fit:
    """Lay parts out on sheets at the least cost, cuttable from edge to edge.

    Parameters
    ----------
    parts : sequence of (along, across, count)
        Size along and across the grain, and how many. [any whole unit]
    sheets : sequence of (along, across, price in cents[, how many at most])
        What is on offer. [same unit; cents]
    matched : sequence of runs
        Each a tuple of part indices whose copies are cut one after another, in
        that order, from one strip; it may end with "side by side" (joined across
        the grain) or "end to end" (joined along it). Without a word they join
        where all share the size, along their shorter size when both would do.
    stages : int or None
        How often the direction of the cuts may change, plus one: 2 or 3, a last
        trim and the cuts inside a run being free; None: any number. [-]
    progress : callable, optional
        Called with steps done, steps in all, and words.

    Returns
    -------
    Fit
        Checked by `check` before it is returned.

    Raises
    ------
    LayoutError
        If something is not a whole number, a part or run fits no sheet, or the
        sheets there are cannot hold all parts.

    Notes
    -----
    The grain is fixed: no part is turned. The strip of a run is a rectangle that
    belongs to the run alone. Least cost first, then the fewest sheets, then the
    largest offcut, then few and short cuts, cuts across the sheet first.

    Examples
    --------
    >>> plan = fit([(31, 19, 3)], [(96, 24, 6000), (96, 48, 10000)])
    >>> plan.cost_cents, plan.proven, len(plan.sheets)
    (6000, True, 1)
    """
    needed, offered = read_parts(parts), read_sheets(sheets)
    runs = read_runs(matched, len(needed))
    most = read_stages(stages)
    if progress is not None and not callable(progress):
        raise LayoutError(f"progress is {shown(progress)}; give a function or None.")
    problem = Problem(blocks=blocks_of(needed, runs), stocks=offered, stages=most)
    refuse_misfits(problem, part_name)
    plan, bound = solve(problem, progress)
    answer = as_fit(plan, bound, problem)
    check(answer, parts, sheets, matched, stages=most)
    return answer


def as_fit(plan: Sequence[Pattern], bound: int, problem: Problem) -> Fit:
    """Turn patterns of blocks into a layout of parts with its cuts."""
    unused = [list(block.members) * block.count for block in problem.blocks]
    sheets: list[tuple[int, tuple[Placement, ...]]] = []
    cuts: list[Cut] = []
    offcuts: list[Offcut] = []
    for number, pattern in enumerate(plan):
        placements: list[Placement] = []
        for block, _, a, c in pattern.blocks:
            size = len(problem.blocks[block].members)
            members, unused[block] = unused[block][:size], unused[block][size:]
            placements += [(part, a + da, c + dc) for part, da, dc in members]
        sheets.append((pattern.stock, tuple(placements)))
        below, left = sheet_cuts(pattern, problem, number)
        cuts += below
        offcuts += left
    return Fit(
        cost_cents=sum(problem.stocks[stock].price for stock, _ in sheets),
        least_possible_cents=bound,
        sheets=tuple(sheets),
        cuts=tuple(cuts),
        offcuts=tuple(offcuts),
    )


def sheet_cuts(
    pattern: Pattern, problem: Problem, number: int, usable: int = 1
) -> tuple[list[Cut], list[Offcut]]:
    """Return the cuts of one sheet: first the blocks, then each run into its parts."""
    kind = problem.stocks[pattern.stock]
    regions: list[Rectangle] = []
    for block, form, a, c in pattern.blocks:
        along, across = problem.blocks[block].forms[form]
        regions.append((a, c, a + along, c + across))
    first, left = cut_up(regions, (0, 0, kind.along, kind.across), number, usable)
    cuts, offcuts = list(first), list(left)
    for region, (block, *_) in zip(regions, pattern.blocks, strict=True):
        sizes = problem.blocks[block].sizes
        if len(sizes) > 1:
            below, rests = cut_up(
                [
                    (
                        region[0] + a,
                        region[1] + c,
                        region[0] + a + da,
                        region[1] + c + dc,
                    )
                    for (_, a, c), (da, dc) in zip(
                        problem.blocks[block].members, sizes, strict=True
                    )
                ],
                region,
                number,
            )
            cuts += below
            offcuts += rests
    return cuts, offcuts
