"""The piece itself, and the rules that hold between its parts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.piece.checks import both, refuse
from pricebook.piece.extras import Arrival, Gift, Hardware, Holes
from pricebook.piece.groups import FORMS, PARTS, group_faults, head_faults
from pricebook.piece.listed import ListedEdge, ListedFace
from pricebook.piece.parts import (
    Base,
    Doors,
    Drawers,
    Shelves,
    Size,
    Top,
    Underframe,
)
from pricebook.piece.wishes import (
    BandingWishes,
    FinishWishes,
    LabourWishes,
    PriceWishes,
    VeneerWishes,
)

_LEAD_BANNED = date(1978, 12, 31)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of furniture as its maker measures it.

    Parameters
    ----------
    name, form : str
        What it is called, and one of `FORMS`.
    owner : str
        Who owns it while it is worked on: "maker" or "charity".
    story, maker, picture : str
        For the catalogue: a sentence or two, the maker as the maker wishes to be
        named, the file of a picture; each may be empty.
    made_on : date or None
        When the carcase was manufactured, where that is known.
    size, top, base, drawers, doors, shelves, underframe :
        What it is made of; a form asks for those that it has.
    veneer, banding, finish, labour, price :
        What the maker wishes.
    holes, hardware, gifts, faces, edges : tuple
        Holes to fill, fittings, gifts, and faces and edges beside those of the
        form (all of them, for a plain list).
    arrival : Arrival
        How the piece comes to the bench.
    """

    name: str
    form: str
    owner: str
    story: str = ""
    maker: str = ""
    picture: str = ""
    made_on: date | None = None
    size: Size | None = None
    top: Top | None = None
    base: Base | None = None
    drawers: Drawers | None = None
    doors: Doors | None = None
    shelves: Shelves | None = None
    underframe: Underframe | None = None
    veneer: VeneerWishes
    banding: BandingWishes | None = None
    finish: FinishWishes | None = None
    labour: LabourWishes
    price: PriceWishes
    holes: tuple[Holes, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    gifts: tuple[Gift, ...] = ()
    faces: tuple[ListedFace, ...] = ()
    edges: tuple[ListedEdge, ...] = ()
    arrival: Arrival

    def __post_init__(self) -> None:
        """Refuse a piece that cannot be, with every fault at once."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        given = {part for part in (*PARTS, "faces") if getattr(self, part)}
        yield from head_faults(self.name, self.form, self.owner, given)
        if self.form in FORMS:
            yield from group_faults(self.form, self._named_groups())
        yield from self._impossible_sizes()
        yield from self._two_days()
        names = [face.name for face in self.faces]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield f'faces: "{name}" is listed twice; use count, or another name.'

    def _named_groups(self) -> dict[str, tuple[str, ...]]:
        wishes = self.veneer
        return {
            "veneer.show": wishes.show,
            "veneer.backing": wishes.backing,
            "veneer.plain": wishes.plain,
            "veneer.grain": tuple(group for group, _ in wishes.grain),
            "finish.groups": self.finish.groups if self.finish else (),
            "banding.edges": self.banding.edges if self.banding else (),
        }

    def _impossible_sizes(self) -> Iterator[str]:
        if self.size is None or self.top is None:
            return
        if self.carcase_width_mm <= 2 * self.size.panel_mm:
            yield "size.width leaves nothing between the sides; check the overhang."
        if self.carcase_depth_mm <= 0:
            yield "size.depth leaves no carcase under the top; check the overhang."
        if self.opening_height_mm <= 0:
            yield "size.height leaves nothing between top and base; check both."
            return
        if self.drawers:
            yield from self._drawers_too_tall(self.drawers)
        if self.shelves:
            yield from self._shelves_too_many(self.shelves)
        if self.underframe:
            yield from self._legs_too_thick(self.underframe)

    def _two_days(self) -> Iterator[str]:
        if (
            self.made_on
            and self.made_on > _LEAD_BANNED
            and (self.arrival.made_before_1978)
        ):
            yield (
                f"made_on is {self.made_on}, but arrival.made_before_1978 is yes; one "
                "of the two is wrong."
            )

    def _drawers_too_tall(self, drawers: Drawers) -> Iterator[str]:
        room = self.front_room_mm(drawers.fit)[1] - drawers.open_below_mm
        spaces = 2 * drawers.reveal_mm + (drawers.rows - 1) * drawers.gap_mm
        fronts = sum(drawers.heights_mm)
        if fronts + spaces > room + 0.01 or spaces >= room:
            yield (
                f"drawers: fronts of {both(fronts)} with {both(spaces)} of gaps and "
                f"reveals are taller than the carcase, which has {both(room)} for "
                "them; make the fronts lower or the piece taller."
            )
        across = (
            self.front_room_mm(drawers.fit)[0]
            - 2 * drawers.reveal_mm
            - (drawers.columns - 1) * drawers.gap_mm
        )
        if across <= 0:
            yield "drawers: gaps and reveals leave no width for a front."

    def _shelves_too_many(self, shelves: Shelves) -> Iterator[str]:
        size, _ = self._size_and_top()
        room_mm = self.carcase_depth_mm
        if shelves.setback_mm > room_mm - 0.01:
            yield (
                f"shelves.setback is {both(shelves.setback_mm)} in a carcase "
                f"{both(room_mm)} deep; it leaves no shelf."
            )
        high_mm, clear_mm = shelves.count * size.panel_mm, self.opening_height_mm
        if high_mm > clear_mm - 0.01:
            yield (
                f"shelves: {shelves.count} of them are {both(high_mm)} thick together "
                f"and there is {both(clear_mm)} between top and base; take fewer."
            )

    def _legs_too_thick(self, frame: Underframe) -> Iterator[str]:
        least_mm = min(self.carcase_width_mm, self.carcase_depth_mm)
        if 2 * frame.leg_mm > least_mm - 0.01:
            yield (
                f"underframe.leg is {both(frame.leg_mm)} and the frame at its "
                f"narrowest {both(least_mm)}; two legs leave no apron between them."
            )
        if frame.apron_mm > self.opening_height_mm + 0.01:
            yield (
                f"underframe.apron is {both(frame.apron_mm)} high and the legs are "
                f"{both(self.opening_height_mm)}; make it lower."
            )

    @property
    def coated_before_1978(self) -> bool | None:
        """Whether its coatings may be that old; None: not known."""
        said = self.arrival.made_before_1978
        if said is None and self.made_on and self.made_on > _LEAD_BANNED:
            return False
        return said

    @property
    def carcase_width_mm(self) -> float:
        """Width of the carcase under the top. [mm]."""
        size, top = self._size_and_top()
        return size.width_mm - 2 * top.overhang_sides_mm

    @property
    def carcase_depth_mm(self) -> float:
        """Depth of the carcase under the top. [mm]."""
        size, top = self._size_and_top()
        return size.depth_mm - top.overhang_front_mm - top.overhang_back_mm

    @property
    def opening_height_mm(self) -> float:
        """Height between base and top. [mm]."""
        size, top = self._size_and_top()
        base_mm = self.base.height_mm if self.base else 0.0
        return size.height_mm - top.thickness_mm - base_mm

    @property
    def side_height_mm(self) -> float:
        """Height of a side: to the floor beside a plinth, else to the base. [mm]."""
        if self.base and self.base.kind == "plinth":
            return self.opening_height_mm + self.base.height_mm
        return self.opening_height_mm

    def front_room_mm(self, fit: str) -> tuple[float, float]:
        """Return the width and height that fronts or doors share. [mm].

        Overlay fronts cover the carcase; inset ones stand between its sides and
        above its bottom panel.
        """
        size, _ = self._size_and_top()
        if fit == "overlay":
            return self.carcase_width_mm, self.opening_height_mm
        return (
            self.carcase_width_mm - 2 * size.panel_mm,
            self.opening_height_mm - size.panel_mm,
        )

    def _size_and_top(self) -> tuple[Size, Top]:
        if self.size is None or self.top is None:
            refuse([f'"{self.name}" has no size; a plain list is not measured so.'])
        assert self.size is not None
        assert self.top is not None
        return self.size, self.top
