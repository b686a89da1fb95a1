"""Raw leaves: which flitch, which leaf goes where, and what they cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook.cost.job import Job
from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.printing import packs_in_words
from pricebook.cost.sharing import Account
from pricebook.cost.shop import Shop
from pricebook.errors import LayoutError
from pricebook.finish.words import area
from pricebook.lengths import show
from pricebook.money import exact
from pricebook.piece import VeneerWishes
from pricebook.rates import Leaves
from pricebook.takeoff import Face
from pricebook.veneer.leaf_match import Flitch, LeafPlan, lay_leaves


@dataclass(frozen=True, slots=True, kw_only=True)
class Leafed:
    """A flitch of the price book with its leaves laid on faces.

    Parameters
    ----------
    row : Leaves
        The row of the price book.
    plan : LeafPlan
        Which leaf goes where.
    """

    row: Leaves
    plan: LeafPlan


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


def leafed(jobs: Sequence[Job], shop: Shop) -> tuple[Leafed, ...]:
    """Lay the leaves of the cheapest flitches on the faces of one piece or many.

    Parameters
    ----------
    jobs : sequence of Job
        The pieces; those of one wood and match share a flitch.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of Leafed
        One a wood and match; none where no piece is laid in raw leaves.

    Raises
    ------
    LayoutError
        If no flitch of the wood suffices, with the reason of each.
    """
    wishes: dict[tuple[str, str, str, bool], list[Face]] = {}
    for job in jobs:
        for face in raw_faces(job):
            key = _wish(face.species, job.piece.veneer)
            wishes.setdefault(key, []).append(face)
    found: list[Leafed] = []
    for (species, *wish), faces in wishes.items():
        taken = {one.row.key: one.plan.leaves_to_buy for one in found}
        rows = shop.flitches_of(species)
        found.append(
            _cheapest(rows, taken, faces, (str(wish[0]), str(wish[1])), wish[2])
        )
    return tuple(found)


def _wish(species: str, wishes: VeneerWishes) -> tuple[str, str, str, bool]:
    return (species, wishes.match, wishes.lie, wishes.end_match)


def _cheapest(
    rows: Sequence[Leaves],
    taken: dict[str, int],
    faces: Sequence[Face],
    match_and_lie: tuple[str, str],
    end_match: object,
) -> Leafed:
    faults: list[str] = []
    plans: list[Leafed] = []
    match, lie = match_and_lie
    for row in rows:
        gone = taken.get(row.key, 0)
        if gone >= len(row.widths_mm):
            faults.append(f"{row.key}: every leaf is taken by another piece.")
            continue
        flitch = Flitch(
            key=row.key,
            species=row.species,
            length_mm=row.length_mm,
            widths_mm=row.widths_mm[gone:],
            price_cents=row.price_cents,
            bundle=row.bundle,
            first_number=row.first_number + gone,
        )
        try:
            plan = lay_leaves(faces, flitch, match, lie=lie, end_match=bool(end_match))
        except LayoutError as error:
            faults += [f"{row.key}: {fault}" for fault in error.faults]
            continue
        plans.append(Leafed(row=row, plan=plan))
    if not plans:
        raise LayoutError(*faults)
    return min(plans, key=lambda one: one.plan.cost_cents)


def leaf_lines(
    found: Sequence[Leafed],
    alone: Sequence[Sequence[Leafed]],
    pieces: Sequence[str],
    lengths: str,
    accounts: tuple[Account, Account] | None = None,
) -> tuple[tuple[CostLine, ...], ...]:
    """Share leaves out among the pieces that they are laid on.

    Parameters
    ----------
    found : sequence of Leafed
        The leaves of the whole batch.
    alone : sequence of sequences of Leafed
        The leaves that each piece would take alone.
    pieces : sequence of str
        The pieces' names, in the order of `alone`.
    lengths : str
        "in" or "mm", for sizes in words.

    Returns
    -------
    tuple of tuples of CostLine
        Each piece's lines; over the pieces they add up to the bundles' price.

    Notes
    -----
    Bundles are charged by the area laid, no piece paying more than alone.
    """
    lines: list[list[CostLine]] = [[] for _ in pieces]
    cash, spent = accounts or (Account(len(pieces)), Account(len(pieces)))
    for one in found:
        laid = [_laid_mm2(one.plan, piece) for piece in pieces]
        caps = [
            sum(
                own.plan.cost_cents
                for own in mine
                if own.row.species == one.row.species
            )
            for mine in alone
        ]
        cost = one.plan.cost_cents
        bought = cash.share(cost, laid, caps)
        used = spent.share(_used_cents(one.plan), laid)
        first = next(place for place, mm2 in enumerate(laid) if mm2)
        for place, mm2 in enumerate(laid):
            if mm2:
                money = (bought[place], used[place])
                line = _line(one, pieces[place], money, place == first, lengths)
                lines[place].append(line)
    return tuple(tuple(piece) for piece in lines)


def _laid_mm2(plan: LeafPlan, piece: str) -> Fraction:
    return sum(
        (exact(part.width_mm) * exact(part.length_mm) for part in plan.laid
         if part.piece == piece),
        Fraction(0),
    )  # fmt: skip


def _used_cents(plan: LeafPlan) -> int:
    """Return what the leaves cut are worth; whole leaves left over are stock."""
    share = Fraction(len(plan.leaves_used), plan.leaves_to_buy)
    return int(plan.cost_cents * share + Fraction(1, 2))


def _line(
    one: Leafed, piece: str, money: tuple[int, int], first: bool, lengths: str
) -> CostLine:
    plan, row = one.plan, one.row
    mine = {part.leaf for part in plan.laid if part.piece == piece}
    left = plan.leaves_to_buy - len(plan.leaves_used)
    laid = area(float(_laid_mm2(plan, piece)) / 1e6, lengths)
    size = show(row.length_mm, lengths)
    return CostLine(
        group="veneer",
        item=f"{row.species}, raw leaves {size} long, {plan.match} match",
        key=row.key,
        quantity=len(mine),
        unit="leaf",
        packs=packs_in_words(plan.bundles, row.bundle, "leaf"),
        bought_cents=money[0],
        used_cents=money[1],
        left=f"{left} leaves" if left and first else "",
        left_cents=plan.cost_cents - _used_cents(plan) if first else 0,
        basis=PAID,
        how=f"leaves {min(mine)} to {max(mine)}, {laid} laid; {plan.waste}",
        source=row.source,
    )
