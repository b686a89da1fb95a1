"""The same piece in every species, form and size of sheet of the price book."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from pricebook.cautions import Caution, PieceFacts, Species, cautions_for, movement_mm
from pricebook.cost.lines import PAID
from pricebook.cost.options import (
    ALL_SIZES,
    Comparison,
    PriceFall,
    SpeciesOption,
    size_words,
)
from pricebook.cost.sheet import cost_sheet
from pricebook.cost.shop import Shop
from pricebook.cost.species_bench import Costed, SpeciesBench
from pricebook.errors import LayoutError, PricebookError, SpecError, raise_all
from pricebook.money import times
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
    options, left_out = [], list(_missing_forms(shop))
    for species, form, size, rows in _offers(shop):
        try:
            costed = bench.cost(species, form, rows)
        except LayoutError as error:
            left_out += [f"{species}, {form}, {size}: {f}" for f in error.faults]
            continue
        options.append(_option(costed, (species, form, size, rows)))
    for species in dict.fromkeys(row.species for row in shop.flitches):
        try:
            options.append(_raw_option(piece, species, shop, on))
        except PricebookError as error:
            left_out += [f"{species}, raw: {fault}" for fault in error.faults]
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
    sheet = cost_sheet(replace(piece, veneer=veneer, banding=banding), shop, on)
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
        notes=tuple(note.rstrip(".") for note in sheet.notes),
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


def _fall(
    second: SpeciesOption, target_cents: int, bench: SpeciesBench
) -> PriceFall | None:
    """Find the highest sheet price at which the runner-up costs no more to buy."""
    bought = [(s, n) for s, rack, n in second.show_sheets if not rack]
    if not bought:
        return None
    lead = max(bought, key=lambda one: one[0].price_cents * one[1])[0]
    shown_cents = sum(sheet.price_cents * n for sheet, n in bought)
    rest_cents = second.cash_to_buy_cents - second.layout.cash_cents
    behind_cents = second.layout.cash_cents - shown_cents

    def same_sheets(price_cents: int) -> bool:
        share = Fraction(price_cents, lead.price_cents)
        now = sum(_at(sheet, share).price_cents * n for sheet, n in bought)
        return rest_cents + behind_cents + now <= target_cents

    def laid_anew(price_cents: int) -> bool:
        share = Fraction(price_cents, lead.price_cents)
        rows = [_at(sheet, share) for sheet in second.offered]
        layout = bench.layout(second.species, rows)
        return rest_cents + layout.cash_cents <= target_cents

    low = _highest(same_sheets, 0, lead.price_cents)  # another layout only costs less
    step = 1
    while low + step <= lead.price_cents and laid_anew(low + step):
        low, step = low + step, 2 * step
    high = min(low + step - 1, lead.price_cents)
    return PriceFall(sheet=lead, to_cents=_highest(laid_anew, low, high) or None)


def _highest(passes: Callable[[int], bool], low: int, high: int) -> int:
    """Return the highest number that passes, where all below it do; low if none."""
    while low < high:
        middle = (low + high + 1) // 2
        if passes(middle):
            low = middle
        else:
            high = middle - 1
    return low


def _at(sheet: Sheet, share: Fraction) -> Sheet:
    if not sheet.to_buy:
        return sheet
    return replace(sheet, price_cents=max(1, times(sheet.price_cents, share)))
