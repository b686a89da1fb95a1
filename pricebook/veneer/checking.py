"""The checker: recomputes a layout from scratch and trusts no solver."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from pricebook.errors import LayoutError, raise_all
from pricebook.veneer.model import Cut, Fit, Placement, Stock
from pricebook.veneer.reading import (
    Part,
    Run,
    read_parts,
    read_runs,
    read_sheets,
    read_stages,
    refuse_malformed,
)

Box = tuple[int, int, int, int]
"""Offset along, offset across, size along, size across."""


def check(
    fit: Fit,
    parts: Sequence[Sequence[Any]],
    sheets: Sequence[Sequence[Any]],
    matched: Sequence[Sequence[Any]] = (),
    *,
    stages: int | None = None,
) -> None:
    """Check a layout against the parts and sheets it is for.

    Parameters
    ----------
    fit : Fit
        The layout.
    parts : sequence of (along, across, count)
        What was to be cut. [any whole unit]
    sheets : sequence of (along, across, price in cents[, how many at most])
        What it was to be cut from. [same unit; cents]
    matched : sequence of runs
        As given to `fit`.
    stages : int or None
        As given to `fit`.

    Raises
    ------
    LayoutError
        One sentence for each fault: a part missing, doubled, turned, overlapping,
        outside its sheet or not reachable by cuts from edge to edge; a run apart
        or out of order; too many of a sheet; a cost that is not the sum of the
        prices or lies below the bound; cuts that do not free the parts.

    Notes
    -----
    Shares no code with the search. A placement holds no size, so a turned part
    shows as one that overlaps, sticks out or cannot be cut free.

    Examples
    --------
    >>> from pricebook.veneer import fit
    >>> parts, sheets = [(19, 31, 3)], [(96, 24, 6000), (96, 32, 8000)]
    >>> check(fit(parts, sheets), parts, sheets)
    """
    needed, offered = read_parts(parts), read_sheets(sheets)
    runs = read_runs(matched, len(needed))
    most = read_stages(stages, 1)
    refuse_malformed(fit)
    faults = _count_faults(fit, needed, offered)
    if not faults:
        faults += _price_faults(fit, offered)
        for number, (stock, placements) in enumerate(fit.sheets):
            faults += _sheet_faults(number, offered[stock], placements, needed)
        for number, run in enumerate(runs):
            faults += _run_faults(number, run, fit, needed)
        faults += _stage_faults(fit, needed, runs, most)
    if not faults:
        faults += _cut_faults(fit, needed, offered)
    raise_all(LayoutError, faults)


def _count_faults(
    fit: Fit, parts: Sequence[Part], stocks: Sequence[Stock]
) -> list[str]:
    faults = [
        f"sheet {number} of the layout is of kind {stock}, which is not offered."
        for number, (stock, _) in enumerate(fit.sheets)
        if not 0 <= stock < len(stocks)
    ]
    placed = Counter(part for _, places in fit.sheets for part, _, _ in places)
    faults += [
        f"part {part} is placed but was not asked for."
        for part in placed
        if not 0 <= part < len(parts)
    ]
    for index, (_, _, count) in enumerate(parts):
        if placed[index] != count:
            faults.append(
                f"part {index} is placed {placed[index]} times; {count} are needed."
            )
    used = Counter(stock for stock, _ in fit.sheets)
    for index, stock in enumerate(stocks):
        if stock.most is not None and used[index] > stock.most:
            faults.append(
                f"sheet {index} is used {used[index]} times; there are {stock.most}."
            )
    return faults


def _price_faults(fit: Fit, stocks: Sequence[Stock]) -> list[str]:
    faults = []
    cost = sum(stocks[stock].price for stock, _ in fit.sheets)
    if cost != fit.cost_cents:
        faults.append(
            f"the cost is given as {fit.cost_cents}; the sheets sum to {cost}."
        )
    if cost < fit.least_possible_cents:
        faults.append(
            f"the layout costs {cost}, less than the least possible "
            f"{fit.least_possible_cents}; the bound is wrong."
        )
    return faults


def _boxes(placements: Sequence[Placement], parts: Sequence[Part]) -> list[Box]:
    return [(a, c, parts[part][0], parts[part][1]) for part, a, c in placements]


def _sheet_faults(
    number: int, stock: Stock, placements: Sequence[Placement], parts: Sequence[Part]
) -> list[str]:
    faults = []
    boxes = _boxes(placements, parts)
    if not boxes:
        faults.append(f"sheet {number} of the layout holds no part.")
    for (part, _, _), (a, c, da, dc) in zip(placements, boxes, strict=True):
        inside = a >= 0 and c >= 0 and a + da <= stock.along and c + dc <= stock.across
        if not inside:
            faults.append(
                f"part {part} at {a}, {c} sticks out of sheet {number} "
                f"({stock.along} along x {stock.across} across)."
            )
    for one, box in enumerate(boxes):
        for two in range(one + 1, len(boxes)):
            if _overlap(box, boxes[two]):
                faults.append(
                    f"parts {placements[one][0]} and {placements[two][0]} overlap on "
                    f"sheet {number}."
                )
    if not faults and not _separable(boxes):
        faults.append(
            f"the parts of sheet {number} cannot be cut free from edge to edge."
        )
    return faults


def _overlap(one: Box, two: Box) -> bool:
    return all(
        one[axis] < two[axis] + two[axis + 2] and two[axis] < one[axis] + one[axis + 2]
        for axis in (0, 1)
    )


def _separable(boxes: list[Box]) -> bool:
    """Split the boxes by any line that meets none, until each lies alone."""
    waiting = [boxes]
    while waiting:
        group = waiting.pop()
        if len(group) < 2:
            continue
        halves = _halves(group, 0) or _halves(group, 1)
        if halves is None:
            return False
        waiting += halves
    return True


def _halves(group: list[Box], axis: int) -> list[list[Box]] | None:
    ordered = sorted(group, key=lambda box: box[axis])
    reach = ordered[0][axis] + ordered[0][axis + 2]
    for place in range(1, len(ordered)):
        if ordered[place][axis] >= reach:
            return [ordered[:place], ordered[place:]]
        reach = max(reach, ordered[place][axis] + ordered[place][axis + 2])
    return None


def _run_faults(number: int, run: Run, fit: Fit, parts: Sequence[Part]) -> list[str]:
    indices, word = run
    for _, placements in fit.sheets:
        mine = [place for place in placements if place[0] in indices]
        if not mine:
            continue
        if len(mine) != sum(parts[index][2] for index in indices):
            return [f"run {number} lies on more than one sheet."]
        ways = [word] if word else ["side by side", "end to end"]
        if not any(_in_order(mine, indices, parts, way) for way in ways):
            return [f"run {number} is not cut in its order from one strip."]
    return []


def _in_order(
    mine: list[Placement], indices: tuple[int, ...], parts: Sequence[Part], way: str
) -> bool:
    axis = 1 if way == "side by side" else 0
    ordered = sorted(mine, key=lambda place: place[axis + 1])
    wanted = [index for index in indices for _ in range(parts[index][2])]
    if [place[0] for place in ordered] != wanted:
        return False
    return all(
        one[axis + 1] + parts[one[0]][axis] == two[axis + 1]
        and one[2 - axis] == two[2 - axis]
        for one, two in pairwise(ordered)
    )


def _cut_faults(fit: Fit, parts: Sequence[Part], stocks: Sequence[Stock]) -> list[str]:
    """Carry out the cut list and compare the pieces with the parts."""
    faults = []
    for number, (stock, placements) in enumerate(fit.sheets):
        pieces: list[Box] = [(0, 0, stocks[stock].along, stocks[stock].across)]
        for cut in fit.cuts:
            if cut.sheet == number and not _carry_out(cut, pieces):
                faults.append(
                    f"the cut {cut.direction} at {cut.at} of sheet {number} does not "
                    "run from edge to edge."
                )
        for box, (part, _, _) in zip(
            _boxes(placements, parts), placements, strict=True
        ):
            if box not in pieces:
                faults.append(f"the cuts of sheet {number} do not free part {part}.")
    return faults


def _carry_out(cut: Cut, pieces: list[Box]) -> bool:
    axis = 0 if cut.direction == "across" else 1
    for piece in pieces:
        begin, size = piece[axis], piece[axis + 2]
        edge, length = piece[1 - axis], piece[3 - axis]
        whole = edge == cut.start and edge + length == cut.end
        if whole and begin < cut.at < begin + size:
            pieces.remove(piece)
            for start, end in ((begin, cut.at), (cut.at, begin + size)):
                half = [0, 0, 0, 0]
                half[axis], half[axis + 2] = start, end - start
                half[1 - axis], half[3 - axis] = edge, length
                pieces.append((half[0], half[1], half[2], half[3]))
            return True
    return False


def _stage_faults(
    fit: Fit, parts: Sequence[Part], runs: Sequence[Run], stages: int | None
) -> list[str]:
    if stages is None:
        return []
    run_of = {index: number for number, run in enumerate(runs) for index in run[0]}
    faults = []
    for number, (_, placements) in enumerate(fit.sheets):
        groups: dict[object, list[Box]] = {}
        for place, box in zip(placements, _boxes(placements, parts), strict=True):
            groups.setdefault(run_of.get(place[0], place), []).append(box)
        whole = [_around(group) for group in groups.values()]
        needed = min(_stages(whole, 0), _stages(whole, 1))
        if needed > stages:
            faults.append(f"sheet {number} takes more than {stages} stages of cuts.")
    return faults


def _around(group: Sequence[Box]) -> Box:
    a, c = (min(box[axis] for box in group) for axis in (0, 1))
    along, across = (max(box[axis] + box[axis + 2] for box in group) for axis in (0, 1))
    return a, c, along - a, across - c


def _stages(group: list[Box], axis: int) -> float:
    """Return how many stages free all boxes, the first one cutting on an axis."""
    if len(group) < 2:
        return 0
    waiting, strips = [group], []
    while waiting:
        some = waiting.pop()
        halves = _halves(some, axis)
        waiting += halves or []
        strips += [] if halves else [some]
    if len(strips) < 2:
        return float("inf")
    return 1 + max(_stages(strip, 1 - axis) for strip in strips)
