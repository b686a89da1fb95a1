"""The least cost of one piece, proven: every selection on every sheet is compared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from pricebook.veneer.arranging import arrange
from pricebook.veneer.boxes import Boxes, build, grid
from pricebook.veneer.model import NoRoomError, Pattern, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_LARGEST_GRID = 4000
_NEVER = 2**60
_SELECTIONS = 20_000
_ONE_SHEET = 20_000_000


@dataclass(frozen=True, slots=True)
class Work:
    """How much there is to compare: selections, sums of numbers, and the grids."""

    selections: int
    sums: int
    lengths: list[int]
    widths: list[int]


def predicted_work(problem: Problem, most: int) -> Work | None:
    """Return how much there is to compare, before doing any of it.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    most : int
        Give up when there are more sums than this.

    Returns
    -------
    Work or None
        None when it is too much.
    """
    selections, pairs = 1, 1
    for block in problem.blocks:
        selections *= block.count + 1
        pairs *= (block.count + 1) * (block.count + 2) // 2
        if pairs > most:
            return None
    lengths = grid(problem, 0, _LARGEST_GRID)
    widths = grid(problem, 1, _LARGEST_GRID)
    if lengths is None or widths is None:
        return None
    return Work(selections, pairs * (len(lengths) + len(widths)), lengths, widths)


def plan_if_affordable(problem: Problem, affordable: int) -> list[Pattern] | None:
    """Return the plan of least cost where comparing everything is not too much.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    affordable : int
        Give up when there are more sums than this.

    Returns
    -------
    list of Pattern or None
        None where it is too much, or stages are limited.
    """
    work = predicted_work(problem, affordable)
    if problem.stages is not None or work is None or work.sums > affordable:
        return None
    units = sum(block.count for block in problem.blocks)
    copies = sum(min(kind.most, units) for kind in problem.stocks if kind.most)
    if work.selections * (1 + copies) > _SELECTIONS:
        return None
    return exact_plan(problem, work)


@dataclass(slots=True)
class _Sheets:
    """For each selection the cheapest sheet that holds it, and its best offcut."""

    price: Array
    stock: Array
    offcut: Array
    place: Array


def _cheapest_sheets(boxes: Boxes, problem: Problem, kinds: Sequence[int]) -> _Sheets:
    """Find for every selection its cheapest sheet, then the largest offcut there."""
    import numpy as np

    rows = boxes.used
    price = np.full(rows, _NEVER)
    stock, offcut = np.full(rows, -1), np.full(rows, -1)
    place = np.zeros(rows, dtype=np.int64)
    for number in kinds:
        kind = problem.stocks[number]
        wide = int(np.searchsorted(boxes.widths, kind.across, side="right"))
        if wide == 0:
            continue
        length = boxes.length[:rows, :wide].astype(np.int64)
        rest_along = np.where(length <= kind.along, kind.along - length, -1)
        rest_across = (kind.across - boxes.widths[:wide]).astype(np.int64)
        left = np.maximum(rest_along * kind.across, rest_across * kind.along)
        left[rest_along < 0] = -1
        best = left.argmax(axis=1)
        size = left[np.arange(rows), best]
        better = (size >= 0) & (kind.price <= price)
        better &= (kind.price < price) | (size > offcut)
        price[better], stock[better] = kind.price, number
        offcut[better], place[better] = size[better], best[better]
    return _Sheets(price, stock, offcut, place)


def exact_plan(problem: Problem, work: Work) -> list[Pattern]:
    """Return the plan of least cost, fewest sheets and largest offcut.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    work : Work
        The grids of `predicted_work`.

    Returns
    -------
    list of Pattern
        No plan costs less.

    Raises
    ------
    NoRoomError
        If the sheets there are cannot hold all blocks.
    """
    boxes = build(problem, work.lengths, work.widths)
    endless = [n for n, kind in enumerate(problem.stocks) if kind.most is None]
    layers = [_cheapest_sheets(boxes, problem, endless)]
    units = sum(block.count for block in problem.blocks)
    for number, kind in enumerate(problem.stocks):
        if kind.most:
            own = _cheapest_sheets(boxes, problem, [number])
            layers += [own] * min(kind.most, units)
    return [
        Pattern(
            int(sheets.stock[boxes.row[number]]),
            tuple(
                arrange(boxes, problem, number, int(sheets.place[boxes.row[number]]))
            ),
        )
        for sheets, number in _cover(boxes, layers)
    ]


def _cover(boxes: Boxes, layers: Sequence[_Sheets]) -> list[tuple[_Sheets, int]]:
    """Split the whole selection into sheets: cost, then sheets, then offcut.

    The first layer may be used any number of times; each later one once, or not.
    """
    import numpy as np

    total = boxes.selections.total
    many = sum(boxes.selections.counts) + 1
    key = np.full(total, _NEVER)
    key[0] = 0
    offcut = np.zeros(total, dtype=np.int64)
    choices = []
    for number, sheets in enumerate(layers):
        key, offcut, choice = _with_layer(boxes, sheets, many, key, offcut, number == 0)
        choices.append(choice)
    if key[total - 1] >= _NEVER:
        raise NoRoomError(_left_over(boxes, key))
    chosen: list[tuple[_Sheets, int]] = []
    left, layer = total - 1, len(layers) - 1
    while left:
        taken = int(choices[layer][left])
        if taken:
            chosen.append((layers[layer], taken))
            left -= taken
        if layer and not (taken and layer == 0):
            layer -= 1
    return chosen


def _with_layer(
    boxes: Boxes,
    sheets: _Sheets,
    many: int,
    key: Array,
    offcut: Array,
    endless: bool,
) -> tuple[Array, Array, Array]:
    """Improve the cheapest split of every selection by sheets of one more layer."""
    import numpy as np

    choice = np.zeros(len(key), dtype=np.int64)
    fits = sheets.price < _NEVER
    row_key = np.where(fits, sheets.price * many + 1, _NEVER)
    fresh, fresh_offcut = (key, offcut) if endless else (key.copy(), offcut.copy())
    if not fits.any():
        return fresh, fresh_offcut, choice
    usable = np.zeros(len(key), dtype=bool)
    usable[boxes.row >= 0] = fits[boxes.row[boxes.row >= 0]]
    for number in range(1, len(key)):
        inside = boxes.selections.parts_of(number)[1:]
        if endless:
            # some sheet holds a block of the last kind: it may as well be this one
            inside = inside[inside >= _last_stride(boxes, number)]
        inside = inside[usable[inside]]
        if not len(inside):
            continue
        rows, rest = boxes.row[inside], number - inside
        keys = row_key[rows] + key[rest]
        least = keys.min()
        if least >= _NEVER or least > fresh[number]:
            continue
        same = np.nonzero(keys == least)[0]
        left = np.maximum(sheets.offcut[rows[same]], offcut[rest[same]])
        best = int(left.argmax())
        if least < fresh[number] or left[best] > fresh_offcut[number]:
            fresh[number], fresh_offcut[number] = least, left[best]
            choice[number] = inside[same[best]]
    return fresh, fresh_offcut, choice


def _left_over(boxes: Boxes, key: Array) -> tuple[int, ...]:
    """Return which blocks the fullest plan leaves out."""
    import numpy as np

    held = [boxes.selections.digits(int(n)) for n in np.nonzero(key < _NEVER)[0]]
    most = max(held, key=sum)
    counts = boxes.selections.counts
    return tuple(n for n, count in enumerate(counts) if most[n] < count)


def _last_stride(boxes: Boxes, number: int) -> int:
    return max(stride for stride in boxes.selections.strides if stride <= number)


def arranged(problem: Problem, stock: int, counts: tuple[int, ...]) -> Pattern | None:
    """Lay a given selection out on one sheet, leaving the largest offcut.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    stock : int
        Which sheet.
    counts : tuple of int
        How many of each block, with more than needed left out.

    Returns
    -------
    Pattern or None
        None when it cannot be cut from that sheet, or is too much to try.
    """
    used = [
        (n, min(count, block.count))
        for n, (count, block) in enumerate(zip(counts, problem.blocks, strict=True))
        if count and block.count
    ]
    small = replace(
        problem,
        blocks=tuple(replace(problem.blocks[n], count=count) for n, count in used),
        stocks=(replace(problem.stocks[stock], most=None),),
    )
    work = predicted_work(small, _ONE_SHEET)
    if work is None or work.sums > _ONE_SHEET:
        return None
    boxes = build(small, work.lengths, work.widths)
    row = boxes.row[boxes.selections.total - 1]
    sheets = _cheapest_sheets(boxes, small, [0])
    if row < 0 or sheets.stock[row] < 0:
        return None
    whole = boxes.selections.total - 1
    return Pattern(
        stock,
        tuple(
            (used[block][0], form, a, c)
            for block, form, a, c in arrange(
                boxes, small, whole, int(sheets.place[row])
            )
        ),
    )
