"""Leaves laid on faces in flitch order, so that neighbours match."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.errors import LayoutError, nearest, raise_all
from pricebook.takeoff import Face
from pricebook.veneer.leaf_match.bench import CLOSE_MM, Bench, LeafSet
from pricebook.veneer.leaf_match.blocks import Copy, blocks_of
from pricebook.veneer.leaf_match.checking import check_leaves
from pricebook.veneer.leaf_match.counts import MATCHES
from pricebook.veneer.leaf_match.flitch import Flitch, LaidLeaf, LeafPlan


def lay_leaves(
    faces: Sequence[Face],
    flitch: Flitch,
    match: str = "balance",
    *,
    lie: str = "book",
    end_match: bool = False,
) -> LeafPlan:
    """Lay the leaves of a flitch on faces, in order, so that neighbours match.

    Parameters
    ----------
    faces : sequence of Face
        Rows of a take-off; matched runs come first, then the others in order.
    flitch : Flitch
        The leaves.
    match : str
        One of `MATCHES`.
    lie : str
        How neighbours lie in running, balance and centre balance match: "book",
        every other one turned over, or "slip", none turned.
    end_match : bool
        Whether a face longer than a leaf may have joints across the grain.

    Returns
    -------
    LeafPlan
        Which leaf goes where, how many to buy, and the waste in words.

    Raises
    ------
    LayoutError
        If a face is of another species, is longer than a leaf without end match,
        or the leaves run out: the face is named, and how many more it takes.

    Notes
    -----
    A run is laid up as one block and cut apart. Every block takes the next leaves;
    a block as wide as one before it shares that one's leaves when their length
    allows. With equal widths the count is the smallest that the very leaves taken
    are wide enough for; a running face takes each leaf at its own width, and the
    rest of its last leaf starts the next block. Two or more high, the leaves of a
    column follow one another and every second one is turned end for end
    (architectural end match, AWS 2009, section 4-1.2.21). Random match takes the
    leaves of a block in the order 2, 4, 6 ..., 1, 3, 5 ..., so that with four or
    more no two neighbours were neighbours in the log.

    Examples
    --------
    >>> side = Face(name="side", piece="chest", group="sides", along_mm=990.6,
    ...     across_mm=457.2, overhang_mm=12.7, veneer="show", species="walnut", count=2)
    >>> log = Flitch.even(24, 152.4, key="log 7", species="walnut", length_mm=2438.4,
    ...     price_cents=900)
    >>> plan = lay_leaves([side], log, "book")
    >>> plan.leaves_to_buy, [piece.turned for piece in plan.laid[:4]]
    (4, [False, True, False, True])
    >>> print(plan.waste)
    1.6 of 4 leaves' area, 39 %, is trimmed off: ends 17 %, sides and joints 17 %,
    overhang 5 %; no leaf is left whole.
    """
    raise_all(LayoutError, _faults(faces, flitch, match, lie))
    bench = Bench(flitch, match, end_match)
    laid: list[LaidLeaf] = []
    for block in blocks_of(faces):
        leaves = bench.leaves_for(block)
        for copy in block.copies:
            laid += _pieces(copy, leaves, flitch, match, lie)
    plan = LeafPlan(
        flitch=flitch,
        match=match,
        laid=tuple(laid),
        net_mm2=sum(f.count * f.along_mm * f.across_mm for f in faces),
    )
    check_leaves(plan, faces)
    return plan


def _faults(
    faces: Sequence[Face], flitch: Flitch, match: str, lie: str
) -> Iterator[str]:
    if match not in MATCHES:
        yield f'"{match}" is not a match of leaves; {nearest(match, MATCHES)}'
    if lie not in {"book", "slip"}:
        yield f'leaves lie "book" or "slip", not "{lie}".'
    for face in faces:
        if face.species != flitch.species:
            yield (
                f'"{face.name}" is of {face.species} and "{flitch.key}" is '
                f"{flitch.species}; choose leaves of its wood."
            )


def _pieces(
    copy: Copy, leaves: LeafSet, flitch: Flitch, match: str, lie: str
) -> Iterator[LaidLeaf]:
    """Yield the pieces of leaf that fall on one face of a block."""
    left, near = copy.across_at_mm, copy.along_at_mm
    right, far = left + copy.face.cut_across_mm, near + copy.face.cut_along_mm
    for strip, at, row_at in leaves.placed():
        row_mm = leaves.rows_mm[strip.row]
        start, end = max(at, left), min(at + strip.width_mm, right)
        low, high = max(row_at, near), min(row_at + row_mm, far)
        if end - start < CLOSE_MM or high - low < CLOSE_MM:
            continue
        turned = _is_turned(strip.column, leaves.columns, match, lie)
        end_turned = strip.row % 2 == 1
        across = at + strip.width_mm - end if turned else start - at
        along = row_at + row_mm - high if end_turned else low - row_at
        yield LaidLeaf(
            leaf=flitch.number(strip.place),
            face=copy.name,
            piece=copy.face.piece,
            turned=turned,
            end_turned=end_turned,
            across_at_mm=start - left,
            along_at_mm=low - near,
            width_mm=end - start,
            length_mm=high - low,
            leaf_across_at_mm=strip.at_mm + across,
            leaf_along_at_mm=leaves.taken_mm + along,
        )


def _is_turned(column: int, columns: int, match: str, lie: str) -> bool:
    if match == "slip-centre-book":
        return column >= columns // 2
    if match in {"slip", "random"} or (match != "book" and lie == "slip"):
        return False
    return column % 2 == 1
