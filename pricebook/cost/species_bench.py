"""One piece costed in wood after wood; what does not change is worked out once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from pricebook.banding import BandingPlan, band
from pricebook.cost.banding_lines import banding_lines
from pricebook.cost.job import Job, planned
from pricebook.cost.labour_lines import (
    gift_lines,
    labour_lines,
    overhead_line,
    piece_labour,
    spoilage_line,
)
from pricebook.cost.laying import Layouts, joined
from pricebook.cost.lines import CostLine
from pricebook.cost.purchases import material_lines
from pricebook.cost.shop import Shop
from pricebook.cost.veneer_lines import veneer_lines
from pricebook.errors import LayoutError
from pricebook.piece import Piece
from pricebook.rates import Sheet
from pricebook.takeoff import Face, take_off
from pricebook.veneer.layout import Layout


@dataclass(frozen=True, slots=True, kw_only=True)
class Costed:
    """All lines of a piece in one wood and form.

    Parameters
    ----------
    lines : tuple of CostLine
        The lines.
    layout : Layout
        Sheets and cuts, backing veneer included.
    banding_species : str
        Wood of the edge banding; empty where nothing is banded.
    hours : float
        Hours of everybody. [h]
    notes : tuple of str
        What else to know.
    """

    lines: tuple[CostLine, ...]
    layout: Layout
    banding_species: str
    hours: float
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fixed:
    """What a form of veneer costs whatever the species: bench, hours, gifts."""

    job: Job
    lines: tuple[CostLine, ...]
    hours: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rolls:
    """The banding of the piece in one wood."""

    piece: Piece
    plan: BandingPlan | None
    species: str
    note: str


@dataclass(slots=True, kw_only=True)
class SpeciesBench:
    """Costs one piece again and again, and works out but once what stays.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book.
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.
    """

    piece: Piece
    shop: Shop
    stages: int | None
    _fixed: dict[str, _Fixed] = field(default_factory=dict, init=False)
    _rolls: dict[str, _Rolls] = field(default_factory=dict, init=False)
    _shown: Layouts | None = field(default=None, init=False)
    _backing: Layout | None = field(default=None, init=False)

    def cost(self, species: str, form: str, rows: Sequence[Sheet]) -> Costed:
        """Return the lines of the piece in one species and form, from some rows."""
        layout = self.layout(species, rows)
        rolls = self._rolls_of(species)
        fixed = self._fixed_of(form, rolls.piece, species, layout)
        lengths = self.shop.settings.lengths
        bought = [
            *veneer_lines(layout, [layout], [self.piece.name], lengths)[0],
            *banding_lines(rolls.plan, [rolls.plan], [fixed.job.measured], self.shop)[
                0
            ],
        ]
        return Costed(
            lines=(*bought, *spoilage_line(bought, self.shop), *fixed.lines),
            layout=layout,
            banding_species=rolls.species,
            hours=fixed.hours,
            notes=(rolls.note,) if rolls.note else (),
        )

    def layout(self, species: str, rows: Sequence[Sheet]) -> Layout:
        """Return the sheets of the piece, backing veneer included."""
        measured = take_off(self.piece)
        smallest = self.shop.allowance("smallest offcut side")
        if self._shown is None or self._backing is None:
            groups = [
                [face for face in measured.faces if face.veneer == veneer]
                for veneer in ("show", "backing")
            ]
            self._shown, behind = (
                Layouts(group, smallest_mm=smallest, stages=self.stages)
                for group in groups
            )
            self._backing = self._behind(groups[1], behind)
        return joined(self._shown.of(species, rows), self._backing)

    def _behind(self, faces: Sequence[Face], behind: Layouts) -> Layout:
        if not faces:
            return Layout(sheets=(), least_possible_cents=0)
        species = faces[0].species
        return behind.of(species, self.shop.sheets_of(species, "backing"))

    def _fixed_of(
        self, form: str, piece: Piece, species: str, layout: Layout
    ) -> _Fixed:
        if form not in self._fixed:
            veneer = replace(piece.veneer, form=form, species=species)
            job = planned([replace(piece, veneer=veneer)], self.shop)[0]
            labour = piece_labour(job, layout, self.shop)
            self._fixed[form] = _Fixed(
                job=job,
                lines=(
                    *material_lines([job.wanted], lengths=self.shop.settings.lengths)[
                        0
                    ],
                    *labour_lines(labour, self.shop.settings),
                    *overhead_line(labour, self.shop.settings),
                    *gift_lines(job.piece),
                ),
                hours=labour.hours,
            )
        return self._fixed[form]

    def _rolls_of(self, species: str) -> _Rolls:
        if species not in self._rolls:
            self._rolls[species] = self._banded(species)
        return self._rolls[species]

    def _banded(self, species: str) -> _Rolls:
        """Band in the wood of the veneer where the piece does and rolls are there."""
        piece, wishes = self.piece, self.piece.banding
        edges = take_off(piece).edges
        if wishes is None or not edges:
            return _Rolls(piece=piece, plan=None, species="", note="")
        note = ""
        if wishes.species == piece.veneer.species:
            own = [replace(edge, species=species) for edge in edges]
            try:
                plan = band(own, self.shop.rolls)
            except LayoutError:
                note = f"no {species} banding fits; it stays {wishes.species}"
            else:
                banded = replace(piece, banding=replace(wishes, species=species))
                return _Rolls(piece=banded, plan=plan, species=species, note="")
        plan = band(edges, self.shop.rolls)
        return _Rolls(piece=piece, plan=plan, species=wishes.species, note=note)
