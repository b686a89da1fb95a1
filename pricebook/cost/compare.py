"""The same piece in every species, form and size of sheet of the price book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from pricebook.banding import BandingPlan, band
from pricebook.cautions import Caution, PieceFacts, Species, cautions_for, movement_mm
from pricebook.cost.banding_lines import banding_lines
from pricebook.cost.job import Job, planned
from pricebook.cost.labour_lines import (
    gift_lines,
    labour_lines,
    overhead_line,
    piece_labour,
    spoilage_line,
)
from pricebook.cost.laying import Layouts
from pricebook.cost.lines import PAID, CostLine
from pricebook.cost.options import (
    ALL_SIZES,
    Comparison,
    PriceFall,
    SpeciesOption,
    size_words,
)
from pricebook.cost.purchases import material_lines
from pricebook.cost.shop import Shop
from pricebook.cost.veneer_lines import veneer_lines
from pricebook.errors import LayoutError, SpecError, raise_all
from pricebook.money import times
from pricebook.piece import Piece
from pricebook.rates import Sheet
from pricebook.rates.rows import SHEET_FORMS
from pricebook.takeoff import Face, take_off
from pricebook.veneer.layout import Layout

MOISTURE_PERCENT = (6.0, 10.0)
"""A heated winter and a damp summer indoors (common practice, no source)."""

_LEAST_MOISTURE, _MOST_MOISTURE = 6.0, 14.0


def compare_species(
    piece: Piece,
    shop: Shop,
    on: date,
    *,
    moisture_percent: tuple[float, float] = MOISTURE_PERCENT,
    stages: int | None = None,
) -> Comparison:
    """Cost a piece in every species, form and size of sheet of the price book.

    Parameters
    ----------
    piece : Piece
        The piece; its wood and form are those that its file asks for.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    moisture_percent : (float, float)
        Two moisture contents between which the movement is told, each from 6 to
        14. [%]
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    Comparison
        Ranked rows: each single size of sheet, and all sizes together.

    Raises
    ------
    PricebookError
        If the piece shows no veneer, a moisture content is out of range, or
        something else that the piece needs is not in the price book.

    Notes
    -----
    Every row holds the totals of its own cost sheet. A row of one size is cut from
    that size alone, bought or in the rack; a row of all sizes from whatever is
    there, offcuts too. Edge banding of the piece's own wood follows the species
    where the price book has it; else it stays, and the row says so. Backing veneer
    stays. The movement is that of solid wood as wide as the widest face, with the
    tangential coefficient of wood_handbook_2010, Table 13-5: veneer glued to a
    board is held back by it.
    """
    faces = _shown(piece)
    raise_all(SpecError, _faults(piece, faces, moisture_percent))
    bench = _Bench(piece=piece, shop=shop, stages=stages)
    options, left_out = [], list(_missing_forms(shop))
    for species, form, size, rows in _offers(shop):
        try:
            costed = bench.cost(species, form, rows)
        except LayoutError as error:
            left_out += [f"{species}, {form}, {size}: {f}" for f in error.faults]
            continue
        options.append(_option(costed, (species, form, size, rows)))
    if not options:
        raise LayoutError(*left_out)
    widest = max(faces, key=lambda face: face.across_mm)
    change = moisture_percent[1] - moisture_percent[0]
    known = [_with_figures(one, widest, change, shop) for one in options]
    ranked = sorted(known, key=lambda o: (o.cash_to_buy_cents, o.used_up_cents))
    best = ranked[0]
    second = next((o for o in ranked if o.species != best.species), None)
    return Comparison(
        piece=piece.name,
        own_species=piece.veneer.species,
        own_form=piece.veneer.form,
        on=on,
        settings=shop.settings,
        moisture_percent=moisture_percent,
        widest=widest.name,
        widest_mm=widest.across_mm,
        options=tuple(ranked),
        runner_up=second,
        fall=_fall(second, best.cash_to_buy_cents, bench) if second else None,
        left_out=tuple(left_out),
    )


def _shown(piece: Piece) -> list[Face]:
    return [face for face in take_off(piece).faces if face.veneer == "show"]


def _faults(
    piece: Piece, faces: Sequence[Face], moisture_percent: tuple[float, float]
) -> Iterator[str]:
    if not faces:
        yield f"{piece.name}: no face shows veneer, so that no species is to choose."
    for percent in moisture_percent:
        if not _LEAST_MOISTURE <= percent <= _MOST_MOISTURE:
            yield (
                f"a moisture content is {percent:g} %; published coefficients hold "
                "from 6 to 14 %."
            )


def _missing_forms(shop: Shop) -> Iterator[str]:
    there = {sheet.form for sheet in shop.sheets if sheet.veneer == "show"}
    for form in SHEET_FORMS:
        if form not in there:
            yield f"{form}: the price book has no face veneer of this form."


def _offers(shop: Shop) -> Iterator[tuple[str, str, str, tuple[Sheet, ...]]]:
    """Yield species, form, choice of size, and the rows to cut from."""
    shown = [sheet for sheet in shop.sheets if sheet.veneer == "show"]
    for species, form in dict.fromkeys((s.species, s.form) for s in shown):
        own = [s for s in shown if (s.species, s.form) == (species, form)]
        sizes: dict[str, list[Sheet]] = {}
        for sheet in own:
            sizes.setdefault(size_words(sheet, shop.settings.lengths), []).append(sheet)
        if len(sizes) > 1:
            yield species, form, ALL_SIZES, tuple(own)
        for name, rows in sizes.items():
            if len(sizes) == 1 or any(sheet.to_buy for sheet in rows):
                yield species, form, name, tuple(rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Costed:
    """The lines that differ from row to row, and those that do not."""

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
class _Bench:
    """Costs one piece again and again, and works out but once what stays."""

    piece: Piece
    shop: Shop
    stages: int | None
    fixed: dict[str, _Fixed] = field(default_factory=dict)
    rolls: dict[str, _Rolls] = field(default_factory=dict)
    shown: Layouts | None = None
    backing: Layout | None = None

    def cost(self, species: str, form: str, rows: Sequence[Sheet]) -> _Costed:
        """Return the lines of the piece in one species and form, from some rows."""
        layout = self.layout(species, rows)
        rolls = self._rolls_of(species)
        fixed = self._fixed_of(form, rolls.piece, species, layout)
        lengths = self.shop.settings.lengths
        bought = [
            *veneer_lines(layout, [layout], [self.piece.name], lengths)[0],
            *banding_lines(rolls.plan, [fixed.job.measured], self.shop)[0],
        ]
        return _Costed(
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
        if self.shown is None or self.backing is None:
            groups = [
                [face for face in measured.faces if face.veneer == veneer]
                for veneer in ("show", "backing")
            ]
            self.shown, behind = (
                Layouts(group, smallest_mm=smallest, stages=self.stages)
                for group in groups
            )
            self.backing = self._backing(groups[1], behind)
        return joined(self.shown.of(species, rows), self.backing)

    def _backing(self, faces: Sequence[Face], behind: Layouts) -> Layout:
        if not faces:
            return Layout(sheets=(), least_possible_cents=0)
        species = faces[0].species
        return behind.of(species, self.shop.sheets_of(species, "backing"))

    def _fixed_of(
        self, form: str, piece: Piece, species: str, layout: Layout
    ) -> _Fixed:
        if form not in self.fixed:
            veneer = replace(piece.veneer, form=form, species=species)
            job = planned([replace(piece, veneer=veneer)], self.shop)[0]
            labour = piece_labour(job, layout, self.shop)
            self.fixed[form] = _Fixed(
                job=job,
                lines=(
                    *material_lines([job.wanted])[0],
                    *labour_lines(labour, self.shop.settings),
                    *overhead_line(labour, self.shop.settings),
                    *gift_lines(job.piece),
                ),
                hours=labour.hours,
            )
        return self.fixed[form]

    def _rolls_of(self, species: str) -> _Rolls:
        if species not in self.rolls:
            self.rolls[species] = self._banded(species)
        return self.rolls[species]

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


def joined(first: Layout, second: Layout) -> Layout:
    """Return two layouts as one, the sheets numbered on.

    Parameters
    ----------
    first, second : Layout
        Layouts of different faces.

    Returns
    -------
    Layout
        All sheets.
    """
    plans = (*first.sheets, *second.sheets)
    return Layout(
        sheets=tuple(replace(p, number=n) for n, p in enumerate(plans, start=1)),
        least_possible_cents=first.least_possible_cents + second.least_possible_cents,
    )


def _option(
    costed: _Costed, offer: tuple[str, str, str, tuple[Sheet, ...]]
) -> SpeciesOption:
    species, form, size, rows = offer
    lines = costed.lines
    return SpeciesOption(
        species=species,
        form=form,
        size=size,
        offered=rows,
        banding_species=costed.banding_species,
        cash_to_buy_cents=sum(line.bought_cents for line in lines),
        used_up_cents=sum(line.used_cents for line in lines if line.basis == PAID),
        full_cost_cents=sum(line.used_cents for line in lines),
        left_cents=sum(line.left_cents for line in lines),
        hours=costed.hours,
        layout=costed.layout,
        movement_mm=None,
        hardness_n=None,
        notes=costed.notes,
    )


def _with_figures(
    option: SpeciesOption, widest: Face, change_percent: float, shop: Shop
) -> SpeciesOption:
    """Add what published tables know of the wood."""
    woods = shop.woods_of([option.species])
    if not woods:
        note = f"no published figures of {option.species} are kept"
        return replace(option, notes=(*option.notes, note))
    coefficient = woods[0].tangential_coefficient
    moved = None
    if coefficient is not None:
        moved = movement_mm(widest.across_mm, coefficient, change_percent)
    return replace(
        option,
        movement_mm=moved,
        hardness_n=woods[0].hardness_n,
        restrictions=_restrictions(woods),
    )


def _restrictions(woods: tuple[Species, ...]) -> tuple[Caution, ...]:
    facts = PieceFacts(kind="list", height_mm=1.0, species=woods)
    found = cautions_for(facts)
    return tuple(one for one in found if one.key.startswith("trade in "))


def _fall(second: SpeciesOption, target_cents: int, bench: _Bench) -> PriceFall | None:
    """Find the highest sheet price at which the runner-up costs no more to buy."""
    bought = [(s, n) for s, rack, n in second.show_sheets if not rack]
    if not bought:
        return None
    lead = max(bought, key=lambda one: one[0].price_cents * one[1])[0]
    rest_cents = second.cash_to_buy_cents - second.layout.cash_cents

    def cash_cents(price_cents: int) -> int:
        share = Fraction(price_cents, lead.price_cents)
        rows = [_at(sheet, share) for sheet in second.offered]
        return rest_cents + bench.layout(second.species, rows).cash_cents

    low, high = 0, lead.price_cents
    while low < high:  # invariant: low is low enough (or 0), all above high are not
        middle = (low + high + 1) // 2
        if cash_cents(middle) <= target_cents:
            low = middle
        else:
            high = middle - 1
    return PriceFall(sheet=lead, to_cents=low or None)


def _at(sheet: Sheet, share: Fraction) -> Sheet:
    if not sheet.to_buy:
        return sheet
    return replace(sheet, price_cents=max(1, times(sheet.price_cents, share)))
