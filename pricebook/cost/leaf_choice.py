"""Raw leaves: which flitch, and which of its leaves goes where, the rack first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from pricebook.cost.job import Job
from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.shop import Shop
from pricebook.errors import LayoutError
from pricebook.piece import VeneerWishes
from pricebook.rates import Leaves
from pricebook.takeoff import Face
from pricebook.veneer.leaf_match import Flitch, lay_leaves

CENTRED_MATCH = {
    "balance": "centre balance",
    "book": "centre balance",
    "centre balance": "centre balance",
    "slip-centre-book": "slip-centre-book",
}
"""How a centred face is matched: an even count of leaves, a joint on its centre."""

_Wish = tuple[str, str, str, bool]


def raw_faces(job: Job) -> list[Face]:
    """Return the faces of a piece that are laid in raw leaves.

    Parameters
    ----------
    job : Job
        The piece, planned.

    Returns
    -------
    list of Face
        Show faces of a piece whose veneer is raw; none of any other.
    """
    if job.piece.veneer.form != "raw":
        return []
    return [face for face in job.measured.faces if face.veneer == "show"]


def chosen_leaves(jobs: Sequence[Job], shop: Shop) -> tuple[RackedLeaves, ...]:
    """Lay the leaves of the cheapest flitches on the faces of one piece or many.

    Parameters
    ----------
    jobs : sequence of Job
        The pieces; those of one wood and match are laid one after another.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of RackedLeaves
        One a flitch; none where no piece is laid in raw leaves.

    Raises
    ------
    LayoutError
        If no flitch of the wood suffices, with the reason of each, or a face is
        centred and its match has no joint on the centre line.

    Notes
    -----
    The least to pay comes first, then the least taken from the rack. A centred face
    takes an even count of equal leaves, so that a joint, and with leaves laid as a
    book the figure, lies on its centre line (AWS 2009, section 4-1.2.20.2). A face of
    free grain is turned where that costs less.
    """
    taken: dict[str, list[RackedLeaves]] = {}
    for (species, *wish), faces in _wishes(jobs).items():
        match, lie, ends = str(wish[0]), str(wish[1]), bool(wish[2])
        rows = shop.flitches_of(species)
        row, plan = _cheapest(rows, taken, faces, (match, lie, ends))
        taken.setdefault(row.key, []).append(plan)
    rows_of = {row.key: row for row in shop.flitches}
    return tuple(_whole(rows_of[key], plans) for key, plans in taken.items())


def _wishes(jobs: Sequence[Job]) -> dict[_Wish, list[Face]]:
    """Sort the faces by wood and match, centred ones apart."""
    wishes: dict[_Wish, list[Face]] = {}
    faults: list[str] = []
    for job in jobs:
        asked = job.piece.veneer
        faces = raw_faces(job)
        centred = {(face.run or face.name) for face in faces if face.centred}
        for face in faces:
            match: str | None = asked.match
            if (face.run or face.name) in centred:
                match = CENTRED_MATCH.get(asked.match)
            if match is None:
                faults.append(_no_centre(face, asked))
                continue
            wish = (face.species, match, asked.lie, asked.end_match)
            wishes.setdefault(wish, []).append(face)
    if faults:
        raise LayoutError(*faults)
    return wishes


def _no_centre(face: Face, asked: VeneerWishes) -> str:
    return (
        f'"{face.name}" of "{face.piece}" is centred and {asked.match} match has no '
        "joint on the centre line; write match = "
        f'"centre balance", or do not centre it.'
    )


def _cheapest(
    rows: Sequence[Leaves],
    taken: Mapping[str, Sequence[RackedLeaves]],
    faces: Sequence[Face],
    wish: tuple[str, str, bool],
) -> tuple[Leaves, RackedLeaves]:
    faults: list[str] = []
    found: list[tuple[Leaves, RackedLeaves]] = []
    for row in rows:
        try:
            found.append((row, _laid(row, taken.get(row.key, ()), faces, wish)))
        except LayoutError as error:
            faults += [f"{row.key}: {fault}" for fault in error.faults]
    if not found:
        raise LayoutError(*faults)
    return min(found, key=lambda one: _rank(one[1]))


def _rank(plan: RackedLeaves) -> tuple[int, int, int]:
    return plan.cost_cents, plan.used_cents, plan.reach


def _laid(
    row: Leaves,
    before: Sequence[RackedLeaves],
    faces: Sequence[Face],
    wish: tuple[str, str, bool],
) -> RackedLeaves:
    """Lay faces on the leaves of a flitch that come after those taken before."""
    gone = sum(plan.reach for plan in before)
    there = row.on_hand + sum(plan.leaves_to_buy for plan in before)
    if gone >= len(row.widths_mm):
        raise LayoutError("every leaf of it is used up.")
    flitch = _flitch(row, gone)
    best: RackedLeaves | None = None
    first: LayoutError | None = None
    for turned in _turns(faces, flitch):
        lying = [_turned(face) if face in turned else face for face in faces]
        try:
            plan = lay_leaves(lying, flitch, wish[0], lie=wish[1], end_match=wish[2])
        except LayoutError as error:
            first = first or error
            continue
        racked = RackedLeaves(
            flitch=flitch,
            match=plan.match,
            laid=plan.laid,
            net_mm2=plan.net_mm2,
            in_rack=there - gone,
            turned=tuple(face.name for face in faces if face in turned),
        )
        if best is None or _rank(racked) < _rank(best):
            best = racked
    if best is None:
        raise first or LayoutError("no face is to be laid.")
    return best


def _turns(faces: Sequence[Face], flitch: Flitch) -> Iterator[frozenset[Face]]:
    """Yield the sets of free faces to try turned: none, each alone, all that gain."""
    free = [f for f in faces if f.free_grain and f.run is None]
    yield frozenset()
    for face in free:
        yield frozenset({face})
    if len(free) > 1:
        yield frozenset(free)
        long = [f for f in free if f.cut_along_mm > flitch.length_mm]
        if 1 < len(long) < len(free):
            yield frozenset(long)


def _turned(face: Face) -> Face:
    return replace(face, along_mm=face.across_mm, across_mm=face.along_mm)


def _flitch(row: Leaves, gone: int) -> Flitch:
    return Flitch(
        key=row.key,
        species=row.species,
        length_mm=row.length_mm,
        widths_mm=row.widths_mm[gone:],
        price_cents=row.price_cents,
        bundle=row.bundle,
        first_number=row.first_number + gone,
    )


def _whole(row: Leaves, plans: Sequence[RackedLeaves]) -> RackedLeaves:
    """Return what is laid from one flitch as one plan."""
    return RackedLeaves(
        flitch=_flitch(row, 0),
        match=_listed(list(dict.fromkeys(plan.match for plan in plans))),
        laid=tuple(part for plan in plans for part in plan.laid),
        net_mm2=sum(plan.net_mm2 for plan in plans),
        in_rack=row.on_hand,
        turned=tuple(name for plan in plans for name in plan.turned),
    )


def _listed(words: Sequence[str]) -> str:
    """Return words as a person lists them: balance, book and running."""
    first = ", ".join(words[:-1])
    return f"{first} and {words[-1]}" if first else words[-1]
