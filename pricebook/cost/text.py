"""The cost sheet as plain text: aligned, in the reader's units."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from textwrap import wrap

from pricebook.cautions import KG_PER_LB
from pricebook.cost.finish_text import finish_text
from pricebook.cost.lines import CostLine, CostSheet
from pricebook.cost.printing import amount_text, text_table
from pricebook.finish.words import area
from pricebook.lengths import show as length
from pricebook.money import show as money
from pricebook.takeoff import Edge, Face, TakeOff
from pricebook.veneer.layout import Layout, SheetPlan, cut_list

WIDTH = 100


def cost_text(sheet: CostSheet) -> str:
    """Print a cost sheet: take-off, lines, totals, left-overs and cautions.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    str
        Plain text.
    """
    parts = [
        _title(sheet),
        take_off_text(sheet.take_off, sheet.settings.lengths),
        finish_text(sheet.finish),
        "Cost\n" + _cost_table(sheet),
        "Totals\n" + _totals(sheet),
        _left_over(sheet),
        _how(sheet),
        _paragraphs("Notes", (*_old_prices(sheet), *sheet.notes)),
        _paragraphs("Cautions", cautions_text(sheet)),
    ]
    return "\n\n".join(part for part in parts if part)


def cautions_text(sheet: CostSheet) -> Iterator[str]:
    """Yield each caution of a piece with its source."""
    for caution in sheet.cautions:
        yield f"{caution.text} [{caution.source}]"
    if sheet.cautions:
        yield "Follow local codes, the product label and licensed practice."


def _title(sheet: CostSheet) -> str:
    words = f"{sheet.piece}: cost sheet, prices of {sheet.on.isoformat()}"
    title = f"{words}\n{'=' * len(words)}"
    if sheet.mass_kg is None:
        return title
    weight = f"{sheet.mass_kg:.0f} kg"
    if sheet.settings.lengths == "in":
        weight += f" ({sheet.mass_kg / KG_PER_LB:.0f} lb)"
    return f"{title}\npanels weigh about {weight}, drawer boxes and fittings aside"


def take_off_text(measured: TakeOff, lengths: str) -> str:
    """Print a take-off: every face and edge with its sizes, holes and areas.

    Parameters
    ----------
    measured : TakeOff
        The take-off.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        Plain text.
    """
    parts = []
    if measured.faces:
        head = ("face", "count", "along", "across", "cut along", "cut across", "veneer")
        rows = [_face_row(face, lengths) for face in measured.faces]
        table = text_table(head, rows, right=(1, 2, 3, 4, 5))
        parts.append(f"Faces to veneer, along and across the grain\n{table}")
    if measured.edges:
        rows = [_edge_row(edge, lengths) for edge in measured.edges]
        table = text_table(("edge", "count", "length", "cut"), rows, right=(1, 2, 3))
        parts.append(f"Edges to band\n{table}")
    lines = []
    if measured.faces:
        lay, cut = area(measured.veneered_m2, lengths), area(measured.cut_m2, lengths)
        lines.append(f"  veneer to lay {lay}, to cut {cut} with the overhang")
    lines += [
        f"  {hole.count} {hole.name}, {length(hole.diameter_mm, lengths)} across, "
        f"{length(hole.depth_mm, lengths)} deep"
        for hole in measured.holes
    ]
    if measured.coated:
        lines.append(f"  to coat {area(measured.coated_m2, lengths)}")
    return "\n\n".join([*parts, "\n".join(lines)] if lines else parts)


def _face_row(face: Face, lengths: str) -> Sequence[str]:
    words = [face.species]
    words += [] if face.veneer == "show" or face.veneer in words[0] else [face.veneer]
    words += [f"run: {face.run}"] if face.run else []
    words += ["centred"] if face.centred else []
    words += ["grain free"] if face.free_grain else []
    sizes = (face.along_mm, face.across_mm, face.cut_along_mm, face.cut_across_mm)
    return (
        face.name,
        str(face.count),
        *(length(size, lengths) for size in sizes),
        ", ".join(words),
    )


def _edge_row(edge: Edge, lengths: str) -> Sequence[str]:
    return (
        edge.name,
        str(edge.count),
        length(edge.length_mm, lengths),
        length(edge.cut_mm, lengths),
    )


def quantity_text(line: CostLine, lengths: str) -> str:
    """Print what is used of a line, a long length in feet or metres, hours alike."""
    return amount_text(line.quantity, line.unit, lengths)


def _cost_table(sheet: CostSheet) -> str:
    rows: list[Sequence[str]] = []
    for group, lines in groupby(sheet.lines, key=lambda line: line.group):
        found = list(lines)
        rows.append((group, "", "", "", "", ""))
        for line in found:
            rows.append(
                (
                    f"  {line.item}",
                    quantity_text(line, sheet.settings.lengths),
                    line.packs,
                    money(line.bought_cents) if line.bought_cents else "",
                    money(line.used_cents),
                    line.basis,
                )
            )
    head = ("", "used", "to buy", "cash", "used up", "basis")
    return text_table(head, rows, right=(1, 3, 4))


def _totals(sheet: CostSheet) -> str:
    sign = sheet.settings.currency
    rows = [
        ("cash to buy", money(sheet.cash_to_buy_cents, sign)),
        ("used up", money(sheet.used_up_cents, sign)),
        ("gifts in kind", money(sheet.gifts_in_kind_cents, sign)),
        (f"time given ({_hours(sheet)})", money(sheet.time_given_cents, sign)),
        ("full cost = used up + gifts + time", money(sheet.full_cost_cents, sign)),
    ]
    return text_table(("", ""), rows, right=(1,)).split("\n", 2)[2]


def _hours(sheet: CostSheet) -> str:
    """Say how many hours there are, and of them how many are given."""
    given = f"{sheet.labour.minutes_of('given') / 60:.2f}"
    whole = f"{sheet.hours:.2f} h in all"
    return whole if f"{given} h in all" == whole else f"{given} h of {whole}"


def _left_over(sheet: CostSheet) -> str:
    rows = [
        (line.item, line.left, money(line.left_cents))
        for line in sheet.lines
        if line.left
    ]
    if not rows:
        return ""
    rows.append(("in all", "", money(sheet.left_cents)))
    table = text_table(("item", "left", "worth"), rows, right=(2,))
    return f"Left over as stock\n{table}"


def _how(sheet: CostSheet) -> str:
    found = []
    for line in sheet.lines:
        found += wrap(
            f"{line.item}: {line.how}", WIDTH, initial_indent="  ",
            subsequent_indent="      ",
        )  # fmt: skip
    return "\n".join(["How it was worked out", *found])


def _old_prices(sheet: CostSheet) -> Iterator[str]:
    limit = sheet.settings.price_age_days
    for row in sheet.old_rows:
        yield (
            f"The price of {row.key} is of {row.dated.isoformat()}, older than the "
            f"shop's limit of {limit} days; check it."
        )


def _paragraphs(title: str, texts: Iterable[str]) -> str:
    found: list[str] = []
    for text in texts:
        found += wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")
    return "\n".join([title, *found]) if found else ""


def leaves_text(sheet: CostSheet) -> str:
    """Print which leaf of which flitch goes where, and the waste in words.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    str
        Plain text; empty where no raw leaves are laid.
    """
    parts = []
    for plan in sheet.leaves:
        racked = f"{plan.from_rack} from the rack, " if plan.from_rack else ""
        parts.append(
            f"Raw leaves of {plan.flitch.key}, {plan.match} match: "
            f"{racked}{plan.leaves_to_buy} to buy, {len(plan.leaves_used)} cut"
        )
        for name in plan.turned:
            parts.append(f"  {name} lies across the leaves, its grain turned")
        shared = len({part.piece for part in plan.laid}) > 1
        cut = [
            f"{part.piece}: {words}" if shared else words
            for part, words in zip(
                plan.laid, plan.words(sheet.settings.lengths), strict=True
            )
        ]
        for words in (plan.waste, *cut):
            parts += wrap(words, WIDTH, initial_indent="  ", subsequent_indent="    ")
    return "\n".join(parts)


def layout_text(layout: Layout, lengths: str) -> str:
    """Print a layout: sheets, what is cut from each, cuts in bench order, offcuts.

    Parameters
    ----------
    layout : Layout
        The plan.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        Plain text.
    """
    if not layout.sheets:
        return ""
    parts = [f"Veneer on sheets: {layout.verdict}"]
    cuts = cut_list(layout, lengths)
    pieces = {one.face.piece for plan in layout.sheets for one in plan.placed}
    for plan in layout.sheets:
        size = f"{length(plan.sheet.along_mm, lengths)} along the grain x "
        size += length(plan.sheet.across_mm, lengths)
        where = ", in the rack" if plan.from_rack else ""
        parts.append(f"  sheet {plan.number}: {plan.sheet.species}, {size}{where}")
        for names in _placed_names(plan, shared=len(pieces) > 1):
            parts += wrap(names, WIDTH, initial_indent="    ", subsequent_indent="    ")
        own = [cut for cut in cuts if cut.startswith(f"sheet {plan.number},")]
        parts += [f"    {cut}" for cut in own]
        parts += [
            f"    offcut to keep: {length(rest.along_mm, lengths)} x "
            f"{length(rest.across_mm, lengths)}"
            for rest in plan.rests
            if rest.usable
        ]
    return "\n".join(parts)


def _placed_names(plan: SheetPlan, *, shared: bool) -> Iterator[str]:
    """Yield what is cut from a sheet, a line a piece where pieces share."""
    names: dict[str, list[str]] = {}
    for placed in plan.placed:
        names.setdefault(placed.face.piece, []).append(placed.name)
    for piece, own in names.items():
        yield f"{piece}: {'; '.join(own)}" if shared else "; ".join(own)
