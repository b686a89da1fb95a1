"""Matched runs: faces cut one after another from one strip, kept in order."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.veneer.model import Block, Placement

SIDE_BY_SIDE = "side by side"
END_TO_END = "end to end"


def direction_of(sizes: Sequence[tuple[int, int]], word: str | None) -> str | None:
    """Return how the members of a run join, or None when they do not say.

    Parameters
    ----------
    sizes : sequence of (int, int)
        Size (along, across) of each member.
    word : str or None
        "side by side", "end to end", or None to go by the sizes.

    Returns
    -------
    str or None
        The direction in which all share the size at the joint; when both would
        do they join along their shorter size.

    Examples
    --------
    >>> direction_of([(34, 6), (34, 8)], None), direction_of([(6, 34)] * 2, None)
    ('side by side', 'end to end')
    """
    if word is not None:
        return word
    same_along = len({along for along, _ in sizes}) == 1
    same_across = len({across for _, across in sizes}) == 1
    if same_along and same_across:
        along, across = sizes[0]
        return SIDE_BY_SIDE if across <= along else END_TO_END
    if same_along:
        return SIDE_BY_SIDE
    return END_TO_END if same_across else None


def join(members: Sequence[int], sizes: Sequence[tuple[int, int]], how: str) -> Block:
    """Join the members of a run into one block.

    Parameters
    ----------
    members : sequence of int
        Part index of each copy, in order.
    sizes : sequence of (int, int)
        Size (along, across) of each.
    how : str
        "side by side" or "end to end".

    Returns
    -------
    Block
        The strip, as long or wide as its largest member.

    Examples
    --------
    >>> join([2, 3], [(34, 6), (34, 8)], "side by side").forms
    ((34, 14),)
    """
    placed: list[Placement] = []
    reach = 0
    for part, (along, across) in zip(members, sizes, strict=True):
        if how == SIDE_BY_SIDE:
            placed.append((part, 0, reach))
            reach += across
        else:
            placed.append((part, reach, 0))
            reach += along
    longest = max(along for along, _ in sizes)
    widest = max(across for _, across in sizes)
    form = (longest, reach) if how == SIDE_BY_SIDE else (reach, widest)
    return Block(forms=(form,), count=1, members=tuple(placed), sizes=tuple(sizes))
