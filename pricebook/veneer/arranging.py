"""From the tables of boxes to places on the sheet."""

from __future__ import annotations

from pricebook.veneer.boxes import NEVER, Boxes
from pricebook.veneer.model import Problem


def arrange(
    boxes: Boxes, problem: Problem, number: int, place: int
) -> list[tuple[int, int, int, int]]:
    """Lay out a selection in its shortest box of a given width.

    Parameters
    ----------
    boxes : Boxes
        The tables.
    problem : Problem
        The blocks.
    number : int
        The selection.
    place : int
        Which width of the grid the box may have at the most.

    Returns
    -------
    list of (block, form, offset along, offset across)
        Ready for a pattern.
    """
    import numpy as np

    row = boxes.row[number]
    target = int(boxes.length[row, place])
    digits = boxes.selections.digits(number)
    if sum(digits) == 1:
        block = digits.index(1)
        width = int(boxes.widths[place])
        forms = problem.blocks[block].forms
        fitting = [n for n, form in enumerate(forms) if form[1] <= width]
        return [(block, min(fitting, key=lambda n: forms[n][0]), 0, 0)]
    inside = boxes.selections.parts_of(number)
    half = inside[1 : (len(inside) + 1) // 2]
    half = half[(boxes.row[half] >= 0) & (boxes.row[number - half] >= 0)]
    one, two = boxes.row[half], boxes.row[number - half]
    stacked = boxes.length[one, place] + boxes.length[two, place]
    found = np.nonzero(stacked == target)[0]
    if len(found):
        first, rest = int(half[found[0]]), number - int(half[found[0]])
        shift = int(boxes.length[boxes.row[first], place])
        return _moved(
            arrange(boxes, problem, first, place),
            arrange(boxes, problem, rest, place),
            (shift, 0),
        )
    level = int(np.searchsorted(boxes.lengths, target))
    beside = boxes.width[one, level] + boxes.width[two, level]
    best = int(beside.argmin())
    if target >= NEVER or beside[best] > boxes.widths[place]:
        raise AssertionError("a staircase has no pair that makes it")
    first, rest = int(half[best]), number - int(half[best])
    wide = [int(boxes.width[boxes.row[n], level]) for n in (first, rest)]
    places = [int(np.searchsorted(boxes.widths, width)) for width in wide]
    return _moved(
        arrange(boxes, problem, first, places[0]),
        arrange(boxes, problem, rest, places[1]),
        (0, wide[0]),
    )


def _moved(
    one: list[tuple[int, int, int, int]],
    two: list[tuple[int, int, int, int]],
    shift: tuple[int, int],
) -> list[tuple[int, int, int, int]]:
    return one + [
        (block, form, a + shift[0], c + shift[1]) for block, form, a, c in two
    ]
