"""What a plan with centred faces costs at the least: the rests beside them are narrow.

Beside a centred face lie only rows of other blocks. Pushed to the edges of the sheet,
a row is as wide as a sum of block widths, so what a side has beyond the widest such
sum is of no use, and may be counted to the centred face.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pricebook.veneer.boxes import Selections, build, reachable
from pricebook.veneer.exact import predicted_work
from pricebook.veneer.model import Block, Problem, Stock
from pricebook.veneer.two_stages import split_at_least

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_AFFORDABLE = 20_000_000
_SELECTIONS = 20_000
_MOST_SUMS = 2_000
_NEVER = 2**60


def centred_bound(
    problem: Problem, centred: Sequence[int], centres: Sequence[float]
) -> int:
    """Return a cost that no plan with centred blocks undercuts, where it is cheap.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    centred : sequence of int
        Which blocks are centred.
    centres : sequence of float
        Where the centre line of the figure runs, for each stock.

    Returns
    -------
    int
        0 where working it out would take long. [cents]

    Notes
    -----
    Every selection of the blocks is compared on every stock, with the centred blocks
    widened to what they take up there; how many sheets there are is left out.
    """
    import numpy as np

    chosen = Selections(tuple(block.count for block in problem.blocks))
    if chosen.total > _SELECTIONS:
        return 0
    price = np.full(chosen.total, _NEVER)
    for kind, centre in zip(problem.stocks, centres, strict=True):
        held = _held(problem, centred, kind, centre) if kind.most != 0 else None
        if held is None and kind.most != 0:
            return 0
        if held is not None:
            price[held] = np.minimum(price[held], kind.price)
    least = int(split_at_least(chosen, price)[-1])
    return least if least < _NEVER else 0


def _held(
    problem: Problem, centred: Sequence[int], kind: Stock, centre: float
) -> Array | None:
    """Return the selections that one sheet may hold; None when it would take long."""
    import numpy as np

    others = [b for n, b in enumerate(problem.blocks) if n not in set(centred)]
    blocks = tuple(
        _widened(block, others, kind, centre) if n in set(centred) else block
        for n, block in enumerate(problem.blocks)
    )
    alone = replace(problem, blocks=blocks, stocks=(replace(kind, most=None),))
    work = predicted_work(alone, _AFFORDABLE)
    if work is None or work.sums > _AFFORDABLE:
        return None
    if not work.lengths or not work.widths:
        return np.zeros(0, dtype=np.int64)
    boxes = build(alone, work.lengths, work.widths)
    numbers = np.nonzero(boxes.row >= 0)[0]
    fitting: Array = numbers[boxes.length[boxes.row[numbers], -1] <= kind.along]
    return fitting


def _widened(
    block: Block, others: Sequence[Block], kind: Stock, centre: float
) -> Block:
    """Count to a centred block what lies idle beside it, or let it fit nowhere."""
    along, across = block.forms[0]
    if not across / 2 <= centre <= kind.across - across / 2:
        return replace(block, forms=((along, kind.across + 1),))
    sizes = [(form[1], one.count) for one in others for form in one.forms]
    sides = (centre - across / 2, kind.across - centre - across / 2)
    used = 0
    for side in map(math.ceil, sides):
        sums = reachable(sizes, side, _MOST_SUMS)
        used += side if sums is None else max(sums, default=0)
    return replace(block, forms=((along, max(across, kind.across - used)),))
