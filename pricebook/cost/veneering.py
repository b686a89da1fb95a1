"""What laying veneer asks of the bench, by the form it comes in and its adhesive."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook.consumables import Adhesive, adhesive
from pricebook.consumables.adhesive import FOLLOWED_BY
from pricebook.cost.shop import Shop
from pricebook.finish.words import area, counted
from pricebook.money import exact
from pricebook.piece import Piece
from pricebook.rates import Need, Work
from pricebook.takeoff import Face, TakeOff
from pricebook.veneer.leaf_match import LaidLeaf, LeafPlan

LAYING = "lay veneer"
PEELING = "lay self-adhesive"
LAYS = (LAYING, PEELING)
"""The operations that put veneer on a board."""
TAPE = "veneer tape"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """A step at the bench.

    Parameters
    ----------
    work : Work
        The operation and how much of it.
    drying_min : float or None
        Waiting time after it, where that differs from the operation's row. [min]
    step : str
        Which step of the finish it is; empty for any other work.
    """

    work: Work
    drying_min: float | None = None
    step: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Faces that are laid in one form of veneer.

    Parameters
    ----------
    form : str
        "backed", "self-adhesive" or "raw".
    faces : tuple of Face
        The faces.
    adhesive : Adhesive
        What holds them.
    """

    form: str
    faces: tuple[Face, ...]
    adhesive: Adhesive

    @property
    def count(self) -> int:
        """How many faces. [-]."""
        return sum(face.count for face in self.faces)

    @property
    def net_m2(self) -> float:
        """Their net area. [m²]."""
        return sum(face.net_m2 for face in self.faces)

    @property
    def cut_m2(self) -> float:
        """Area of veneer to cut for them. [m²]."""
        return sum(face.cut_m2 for face in self.faces)


def task(
    operation: str,
    quantity: float,
    unit: str,
    how: str,
    drying_min: float | None = None,
) -> Task:
    """Return a task of one operation."""
    work = Work(operation=operation, quantity=quantity, unit=unit, how=how)
    return Task(work=work, drying_min=drying_min)


def laid_forms(
    piece: Piece, measured: TakeOff, shop: Shop, *, bare: bool
) -> tuple[Laid, ...]:
    """Sort the faces of a piece by the form they are laid in, each with its adhesive.

    Parameters
    ----------
    piece : Piece
        The piece.
    measured : TakeOff
        Its take-off.
    shop : Shop
        The price book.
    bare : bool
        Whether the board is bare and drinks the first coat of contact cement.

    Returns
    -------
    tuple of Laid
        One a form. Show faces come in the form that the piece asks for; backing
        veneer as the price book has it, on sheets that are glued where it can.
    """
    forms: dict[str, list[Face]] = {}
    for face in measured.faces:
        form = piece.veneer.form
        if face.veneer == "backing":
            sold = {row.form for row in shop.sheets_of(face.species, "backing")}
            form = "backed" if "backed" in sold else min(sold)
        forms.setdefault(form, []).append(face)
    kind = shop.bench.adhesive
    return tuple(
        Laid(
            form=form,
            faces=tuple(faces),
            adhesive=adhesive(
                kind,
                sum(face.cut_m2 for face in faces),
                form=form,
                spread_m2_per_l=shop.allowance(f"{kind} spread"),
                item=kind,
                raw_board=bare,
                waste_share=shop.allowance("adhesive waste"),
                lengths=shop.settings.lengths,
            ),
        )
        for form, faces in forms.items()
    )


def veneering_tasks(laid: Sequence[Laid], lengths: str) -> Iterator[Task]:
    """Yield the work of laying veneer, in bench order.

    Parameters
    ----------
    laid : sequence of Laid
        The faces by form.
    lengths : str
        "in" or "mm", for areas in words.

    Yields
    ------
    Task
        Raw leaves are flattened first; sheets that carry their own adhesive are
        peeled and laid, all others glued; what does not hold at once is pressed or
        ironed. Joints of leaves are added by `joint_tasks` once the leaves are laid
        out. Each is a row of the shop's minutes.
    """
    if not laid:
        return
    for one in laid:
        if one.form == "raw":
            how = f"leaves for {counted(one.count, 'face')}"
            yield task("flatten leaves", one.cut_m2, "m2", how)
    faces, cut_m2 = sum(one.count for one in laid), sum(one.cut_m2 for one in laid)
    how = f"{counted(faces, 'face')}, {area(cut_m2, lengths)} with the overhang"
    yield task("cut veneer", cut_m2, "m2", how)
    for one in laid:
        yield from _laying(one, lengths)


def _laying(one: Laid, lengths: str) -> Iterator[Task]:
    kind = one.adhesive.kind
    how = f"{counted(one.count, 'face')}, {area(one.net_m2, lengths)}"
    if kind == "none":
        yield task(PEELING, one.net_m2, "m2", how)
        return
    if one.adhesive.second_coat:
        yield task("extra glue coat", one.net_m2, "m2", f"{how}, on the raw board")
    after = FOLLOWED_BY.get(kind)
    yield task(LAYING, one.net_m2, "m2", how, 0.0 if after else None)
    if after:
        yield task(after, one.net_m2, "m2", f"{how}, {kind}")


def joint_m(plans: Sequence[LeafPlan], piece: str) -> float:
    """Return the length of the joints between the leaves on the faces of a piece.

    Parameters
    ----------
    plans : sequence of LeafPlan
        Which leaf goes where.
    piece : str
        The piece's name.

    Returns
    -------
    float
        Joints along and across the grain, on the faces as cut. [m]
    """
    mine = [part for plan in plans for part in plan.laid if part.piece == piece]
    return float(sum((_joints_mm(part) for part in mine), Fraction(0))) / 1e3


def _joints_mm(part: LaidLeaf) -> Fraction:
    """Return the joints at the left and at the near end of a part of a leaf."""
    along = exact(part.length_mm) if part.across_at_mm > 1e-6 else Fraction(0)
    across = exact(part.width_mm) if part.along_at_mm > 1e-6 else Fraction(0)
    return along + across


def jointed(tasks: Sequence[Task], joints_m: float, lengths: str) -> tuple[Task, ...]:
    """Return the work with the joints of leaves taped before laying, scraped after.

    Parameters
    ----------
    tasks : sequence of Task
        The work of a piece.
    joints_m : float
        Length of the joints. [m]
    lengths : str
        "in" or "mm", for lengths in words.

    Returns
    -------
    tuple of Task
        The work in bench order.
    """
    if not joints_m:
        return tuple(tasks)
    how = f"{_long(joints_m, lengths)} of joints between leaves"
    found: list[Task] = []
    for one in tasks:
        found.append(one)
        if one.work.operation == "cut veneer":
            found.append(task("joint leaves", joints_m, "m", how))
    last = max(
        place
        for place, one in enumerate(found)
        if one.work.operation in (*LAYS, *FOLLOWED_BY.values())
    )
    found.insert(last + 1, task("scrape tape", joints_m, "m", how))
    return tuple(found)


def tape(joints_m: float, shop: Shop) -> Need:
    """Return the veneer tape that joints between leaves take.

    Parameters
    ----------
    joints_m : float
        Length of the joints. [m]
    shop : Shop
        The price book.

    Returns
    -------
    Need
        Tape along each joint and in short straps across it.
    """
    each = shop.allowance("veneer tape on joints")
    lengths = shop.settings.lengths
    return Need(
        item=TAPE,
        quantity=joints_m * each,
        unit="m",
        group="sundries",
        how=f"{_long(joints_m, lengths)} of joints between leaves, {each:g} times "
        "their length with the straps across",
    )


def _long(length_m: float, lengths: str) -> str:
    if lengths == "in":
        return f"{length_m / 0.3048:.1f} ft"
    return f"{length_m:.2f} m"
