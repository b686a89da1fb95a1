"""From parts on a sheet to cuts from edge to edge, in bench order.

A cut that meets no part may always be made without spoiling what follows, so the
search is only for the best order: the largest offcut that can be used again,
then few cuts, then short ones, then cuts across the sheet first.
"""

from __future__ import annotations

from functools import cache

from pricebook.veneer.model import Cut, Direction, Offcut

Rectangle = tuple[int, int, int, int]
"""Offset along, offset across, end along, end across."""

_SEARCHED = 12
"""Up to so many parts on a sheet every order of cuts is compared."""

_Line = tuple[str, int, Rectangle]
_Score = tuple[int, int, int, int]


def openings(rectangles: list[Rectangle], region: Rectangle, axis: int) -> list[int]:
    """Return where a region can be cut through, meeting no part.

    Parameters
    ----------
    rectangles : list of rectangles
        The parts inside the region.
    region : rectangle
        What lies on the bench.
    axis : int
        0 for cuts across the grain, 1 for cuts along it.

    Returns
    -------
    list of int
        The offsets, in order: both edges of every gap.

    Examples
    --------
    >>> openings([(0, 0, 4, 5), (4, 0, 9, 3)], (0, 0, 10, 5), 0)
    [4, 9]
    """
    spans = sorted((piece[axis], piece[axis + 2]) for piece in rectangles)
    found: list[int] = []
    reach = region[axis]
    for begin, end in spans:
        if begin >= reach:
            found += [reach, begin]
        reach = max(reach, end)
    found += [reach]
    edge = region[axis + 2]
    return sorted({at for at in found if region[axis] < at < edge})


def split(region: Rectangle, axis: int, at: int) -> tuple[Rectangle, Rectangle]:
    """Cut a region in two; the first part is nearer to the sheet's corner.

    Examples
    --------
    >>> split((0, 0, 10, 5), 0, 4)
    ((0, 0, 4, 5), (4, 0, 10, 5))
    """
    a0, c0, a1, c1 = region
    if axis == 0:
        return (a0, c0, at, c1), (at, c0, a1, c1)
    return (a0, c0, a1, at), (a0, at, a1, c1)


def inside(rectangles: list[Rectangle], region: Rectangle) -> list[Rectangle]:
    """Return the rectangles that lie in a region.

    Examples
    --------
    >>> inside([(0, 0, 4, 5), (4, 0, 9, 3)], (4, 0, 10, 5))
    [(4, 0, 9, 3)]
    """
    a0, c0, a1, c1 = region
    return [
        piece
        for piece in rectangles
        if piece[0] >= a0 and piece[1] >= c0 and piece[2] <= a1 and piece[3] <= c1
    ]


def cut_up(
    rectangles: list[Rectangle], sheet: Rectangle, number: int, usable: int = 1
) -> tuple[tuple[Cut, ...], tuple[Offcut, ...]]:
    """Return the cuts that free all parts of one sheet, and what is left.

    Parameters
    ----------
    rectangles : list of rectangles
        The parts.
    sheet : rectangle
        The whole sheet, from (0, 0).
    number : int
        The sheet's place in the plan, from 0.
    usable : int
        The least side of an offcut that is worth keeping. [the parts' unit]

    Returns
    -------
    (tuple of Cut, tuple of Offcut)
        In bench order.

    Raises
    ------
    ValueError
        If some part cannot be reached by cuts from edge to edge.

    Examples
    --------
    >>> cuts, left = cut_up([(0, 0, 4, 5), (4, 0, 9, 3)], (0, 0, 10, 5), 0)
    >>> [(cut.direction, cut.at) for cut in cuts]
    [('across', 4), ('along', 3), ('across', 9)]
    >>> [(piece.along, piece.across) for piece in left]
    [(1, 3), (6, 2)]
    """
    if len(rectangles) <= _SEARCHED:
        lines, left = _searched(rectangles, sheet, usable)
    else:
        lines, left = _straight(rectangles, sheet)
    cuts = tuple(_cut(number, line) for line in lines)
    offcuts = tuple(
        Offcut(sheet=number, along_at=a0, across_at=c0, along=a1 - a0, across=c1 - c0)
        for a0, c0, a1, c1 in left
    )
    return cuts, offcuts


def _cut(number: int, line: _Line) -> Cut:
    direction, at, region = line
    axis = 0 if direction == "across" else 1
    way: Direction = "across" if axis == 0 else "along"
    other = 1 - axis
    return Cut(
        sheet=number, direction=way, at=at, start=region[other], end=region[other + 2]
    )


def _straight(
    rectangles: list[Rectangle], region: Rectangle
) -> tuple[list[_Line], list[Rectangle]]:
    """Cut across wherever possible, then along, and so on."""
    if not rectangles:
        return [], [region]
    if rectangles == [region]:
        return [], []
    for axis, word in ((0, "across"), (1, "along")):
        places = openings(rectangles, region, axis)
        if not places:
            continue
        lines: list[_Line] = []
        regions: list[Rectangle] = []
        rest = region
        for at in places:
            lines.append((word, at, rest))
            first, rest = split(rest, axis, at)
            regions.append(first)
        left: list[Rectangle] = []
        for part in [*regions, rest]:
            below, offcuts = _straight(inside(rectangles, part), part)
            lines += below
            left += offcuts
        return lines, left
    raise ValueError("parts cannot be reached by cuts from edge to edge")


def _searched(
    rectangles: list[Rectangle], sheet: Rectangle, usable: int
) -> tuple[list[_Line], list[Rectangle]]:
    """Compare every order of cuts, each region once."""

    @cache
    def best(region: Rectangle) -> tuple[_Score, _Line | None]:
        pieces = inside(rectangles, region)
        if not pieces or pieces == [region]:
            return (-_size(region, usable) if not pieces else 0, 0, 0, 0), None
        found: list[tuple[_Score, _Line]] = []
        for axis, at in _places(pieces, region):
            one, two = (best(part)[0] for part in split(region, axis, at))
            line = (("across", "along")[axis], at, region)
            found.append((_together(one, two, region, axis), line))
        if not found:
            raise ValueError("parts cannot be reached by cuts from edge to edge")
        return min(found)

    lines: list[_Line] = []
    left: list[Rectangle] = []
    waiting = [sheet]
    while waiting:
        region = waiting.pop()
        line = best(region)[1]
        if line is not None:
            lines.append(line)
            axis = 0 if line[0] == "across" else 1
            waiting += reversed(split(region, axis, line[1]))
        elif not inside(rectangles, region):
            left.append(region)
    return lines, left


def _places(pieces: list[Rectangle], region: Rectangle) -> list[tuple[int, int]]:
    return [(axis, at) for axis in (0, 1) for at in openings(pieces, region, axis)]


def _size(region: Rectangle, usable: int) -> int:
    along, across = region[2] - region[0], region[3] - region[1]
    return along * across if min(along, across) >= usable else 0


def _together(one: _Score, two: _Score, region: Rectangle, axis: int) -> _Score:
    """Score a cut: largest offcut, cuts, their length, cuts along the grain."""
    length = region[3 - axis] - region[1 - axis]
    return (
        min(one[0], two[0]),
        one[1] + two[1] + 1,
        one[2] + two[2] + length,
        one[3] + two[3] + axis,
    )
