"""The same piece in every species, form and size of sheet of the price book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from pricebook.cautions import Caution, PieceFacts, Species, cautions_for, movement_mm
from pricebook.cost.job import planned
from pricebook.cost.lines import PAID
from pricebook.cost.options import ALL_SIZES, Comparison, SpeciesOption, size_words
from pricebook.cost.price_fall import price_fall
from pricebook.cost.sheet import cost_sheet
from pricebook.cost.shop import Shop
from pricebook.cost.species_bench import Costed, SpeciesBench
from pricebook.errors import LayoutError, PricebookError, SpecError, raise_all
from pricebook.piece import Piece
from pricebook.rates import Sheet
from pricebook.rates.rows import SHEET_FORMS
from pricebook.takeoff import Face, take_off

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
    bench = SpeciesBench(piece=piece, shop=shop, stages=stages)
    options, left_out = _costed_all(piece, bench, shop, on)
    if not options:
        raise LayoutError(*_nothing_fits(piece, left_out))
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
        fall=price_fall(second, best.cash_to_buy_cents, bench) if second else None,
        left_out=left_out,
    )


def _costed_all(
    piece: Piece, bench: SpeciesBench, shop: Shop, on: date
) -> tuple[list[SpeciesOption], tuple[str, ...]]:
    """Cost every offer of the price book; say of the others why they are left out."""
    own, options, left_out = piece.veneer.form, [], list(_missing_forms(shop))
    for species, form, size, rows in _offers(shop):
        try:
            costed = bench.cost(species, form, rows)
        except PricebookError as error:
            # what the piece's own form lacks is a fault of the price book
            if not isinstance(error, LayoutError) and own in (form, "raw"):
                raise
            left_out += [f"{species}, {form}, {size}: {f}" for f in error.faults]
            continue
        options.append(_option(costed, (species, form, size, rows)))
    for species in dict.fromkeys(row.species for row in shop.flitches):
        try:
            options.append(_raw_option(piece, species, shop, on))
        except PricebookError as error:
            if not isinstance(error, LayoutError) and own == "raw":
                raise
            left_out += [f"{species}, raw: {fault}" for fault in error.faults]
    return options, tuple(left_out)


def _nothing_fits(piece: Piece, left_out: Sequence[str]) -> Iterator[str]:
    """Yield one refusal for all woods, then what is wrong in the piece's own."""
    yield (
        f'no wood, form or size of the price book holds every face of "{piece.name}"; '
        "make the faces smaller, or add larger sheets."
    )
    own = f"{piece.veneer.species}, {piece.veneer.form}"
    sizes = [fault for fault in left_out if fault.startswith(own)]
    first = sizes[0].partition(": ")[0] if sizes else ""
    yield from (fault for fault in sizes if fault.startswith(f"{first}: "))


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
    there |= {"raw"} if shop.flitches else set()
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


def _option(
    costed: Costed, offer: tuple[str, str, str, tuple[Sheet, ...]]
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


def _raw_option(piece: Piece, species: str, shop: Shop, on: date) -> SpeciesOption:
    """Cost the piece in raw leaves of one wood, banded in it where rolls are there."""
    banding = piece.banding
    banded_alike = banding is not None and banding.species == piece.veneer.species
    if banding and banded_alike and any(r.species == species for r in shop.rolls):
        banding = replace(banding, species=species)
    veneer = replace(piece.veneer, species=species, form="raw")
    raw = replace(piece, veneer=veneer, banding=banding)
    sheet = cost_sheet(raw, shop, on)
    finish_notes = sheet.finish.notes if sheet.finish else ()
    own = [n for n in planned([raw], shop)[0].bench.notes if n not in finish_notes]
    return SpeciesOption(
        species=species,
        form="raw",
        size=f"leaves, {piece.veneer.match} match",
        offered=(),
        banding_species=banding.species if banding else "",
        cash_to_buy_cents=sheet.cash_to_buy_cents,
        used_up_cents=sheet.used_up_cents,
        full_cost_cents=sheet.full_cost_cents,
        left_cents=sheet.left_cents,
        hours=sheet.hours,
        layout=sheet.layout,
        movement_mm=None,
        hardness_n=None,
        notes=tuple(note.rstrip(".") for note in own),
        leaves=sum(len(plan.leaves_used) for plan in sheet.leaves),
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
