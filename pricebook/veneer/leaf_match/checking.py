"""A checker of leaf plans that knows nothing of how they are made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from pricebook.errors import LayoutError, raise_all
from pricebook.takeoff import Face
from pricebook.veneer.leaf_match.flitch import LaidLeaf, LeafPlan

SLACK_MM = 1e-4
UNTURNED = {"slip", "random"}


def check_leaves(plan: LeafPlan, faces: Sequence[Face]) -> None:
    """Raise if a leaf plan does not cover every face, or cannot be cut.

    Parameters
    ----------
    plan : LeafPlan
        The plan to check.
    faces : sequence of Face
        The faces it is for.

    Raises
    ------
    LayoutError
        If a face is not covered once and wholly, a piece lies off its face or its
        leaf, two pieces overlap, a leaf is not of the flitch, neighbours are not
        neighbours in the log, or a leaf is turned against the match; one sentence
        for each.
    """
    faults: list[str] = []
    known: set[tuple[str, str]] = set()
    for face in faces:
        many = face.count > 1
        for n in range(1, face.count + 1):
            name = f"{face.name} ({n} of {face.count})" if many else face.name
            known.add((face.piece, name))
            own = [p for p in plan.laid if (p.piece, p.face) == (face.piece, name)]
            faults += _face_faults(face, name, own)
            faults += _match_faults(plan.match, face, name, own)
    for piece in plan.laid:
        if (piece.piece, piece.face) not in known:
            faults.append(f'"{piece.face}" is not among the faces.')
    faults += _leaf_faults(plan)
    net = sum(f.count * f.along_mm * f.across_mm for f in faces)
    if abs(plan.net_mm2 - net) > SLACK_MM * max(1.0, net):
        faults.append(f"the faces measure {net:.0f} mm2, not {plan.net_mm2:.0f}.")
    raise_all(LayoutError, faults)


def _face_faults(face: Face, name: str, own: Sequence[LaidLeaf]) -> Iterator[str]:
    for piece in own:
        right = piece.across_at_mm + piece.width_mm
        far = piece.along_at_mm + piece.length_mm
        inside = min(piece.across_at_mm, piece.along_at_mm) > -SLACK_MM
        if not (
            inside
            and right < face.cut_across_mm + SLACK_MM
            and far < face.cut_along_mm + SLACK_MM
        ):
            yield f'leaf {piece.leaf} reaches beyond "{name}".'
    for one, two in combinations(own, 2):
        if _overlap(
            (one.across_at_mm, one.width_mm, one.along_at_mm, one.length_mm),
            (two.across_at_mm, two.width_mm, two.along_at_mm, two.length_mm),
        ):
            yield f'leaves {one.leaf} and {two.leaf} overlap on "{name}".'
    blank = face.cut_along_mm * face.cut_across_mm
    covered = sum(piece.area_mm2 for piece in own)
    if abs(covered - blank) > SLACK_MM * (face.cut_along_mm + face.cut_across_mm):
        yield f'"{name}" is covered with {covered:.0f} of {blank:.0f} mm2.'


def _leaf_faults(plan: LeafPlan) -> Iterator[str]:
    flitch = plan.flitch
    by_leaf: dict[int, list[LaidLeaf]] = {}
    for piece in plan.laid:
        by_leaf.setdefault(piece.leaf, []).append(piece)
    for number, pieces in sorted(by_leaf.items()):
        place = number - flitch.first_number
        if not 0 <= place < len(flitch.widths_mm):
            yield f'leaf {number} is not of "{flitch.key}".'
            continue
        for piece in pieces:
            right = piece.leaf_across_at_mm + piece.width_mm
            far = piece.leaf_along_at_mm + piece.length_mm
            if (
                min(piece.leaf_across_at_mm, piece.leaf_along_at_mm) < -SLACK_MM
                or right > flitch.widths_mm[place] + SLACK_MM
                or far > flitch.length_mm + SLACK_MM
            ):
                yield f'the piece for "{piece.face}" does not lie on leaf {number}.'
        for one, two in combinations(pieces, 2):
            if _overlap(
                (
                    one.leaf_across_at_mm,
                    one.width_mm,
                    one.leaf_along_at_mm,
                    one.length_mm,
                ),
                (
                    two.leaf_across_at_mm,
                    two.width_mm,
                    two.leaf_along_at_mm,
                    two.length_mm,
                ),
            ):
                yield (
                    f'the pieces for "{one.face}" and "{two.face}" overlap on leaf '
                    f"{number}."
                )


def _overlap(
    one: tuple[float, float, float, float], two: tuple[float, float, float, float]
) -> bool:
    across = min(one[0] + one[1], two[0] + two[1]) - max(one[0], two[0])
    along = min(one[2] + one[3], two[2] + two[3]) - max(one[2], two[2])
    return across > SLACK_MM and along > SLACK_MM


def _match_faults(
    match: str, face: Face, name: str, own: Sequence[LaidLeaf]
) -> Iterator[str]:
    """Yield what is wrong with the order, the turning and the joints of a face."""
    for height in sorted({piece.along_at_mm for piece in own}):
        row = [piece for piece in own if piece.along_at_mm == height]
        row.sort(key=lambda piece: piece.across_at_mm)
        yield from _row_faults(match, name, row)
        if face.run is None and match != "running":
            yield from _joint_faults(match, name, row)


def _row_faults(match: str, name: str, row: Sequence[LaidLeaf]) -> Iterator[str]:
    steps = {two.leaf - one.leaf for one, two in pairwise(row)}
    if match != "random" and (len(steps) > 1 or min(steps, default=1) < 1):
        yield f'the leaves of "{name}" do not follow one another in the log.'
    if match in UNTURNED and any(piece.turned for piece in row):
        yield f'a leaf of "{name}" is turned over; in {match} match none is.'
    alike = any(one.turned == two.turned for one, two in pairwise(row))
    if match == "book" and alike:
        yield f'neighbours on "{name}" lie alike; in book match every other is turned.'
    flips = [one.turned != two.turned for one, two in pairwise(row)]
    if match == "slip-centre-book" and sum(flips) > 1:
        yield f'"{name}" is booked more than once; in {match} match only its centre is.'


def _joint_faults(match: str, name: str, row: Sequence[LaidLeaf]) -> Iterator[str]:
    widths = [piece.width_mm for piece in row]
    if max(widths) - min(widths) > SLACK_MM:
        yield f'the leaves of "{name}" are not of equal width, as {match} match asks.'
    if match in {"centre balance", "slip-centre-book"} and len(row) % 2:
        yield f'"{name}" has {len(row)} leaves and no joint on its centre line.'
    if match == "slip-centre-book":
        half = len(row) // 2
        if len(row) < 4:
            yield f'"{name}" has {len(row)} leaves; {match} match has 4 or more.'
        if [piece.turned for piece in row] != [False] * half + [True] * half:
            yield f'"{name}" is not booked at its centre.'
