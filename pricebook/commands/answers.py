"""What `--json` answers: money as text with units and cents, keys that stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pricebook.commands.advice_text import advice_answer
from pricebook.cost import CostLine, CostSheet
from pricebook.finish import FinishPlan
from pricebook.money import show
from pricebook.price import Advice
from pricebook.veneer.layout import Layout, SheetPlan
from pricebook.veneer.leaf_match import LeafPlan


def price_answer(
    sheets: Sequence[CostSheet], advices: Sequence[Advice | None]
) -> dict[str, Any]:
    """Return the answer of `price`: one piece's keys at the top, or all of them.

    Parameters
    ----------
    sheets : sequence of CostSheet
        The cost sheets.
    advices : sequence of Advice or None
        The advice on each piece.

    Returns
    -------
    dict
        Keys piece, faces, edges, finish, layout, lines, totals, advice, cautions,
        notes;
        for several pieces, `pieces` holds one such object each and `layout` and
        `totals` are those of the batch.
    """
    answers = [
        {**sheet_answer(sheet), "advice": advice_answer(advice)}
        for sheet, advice in zip(sheets, advices, strict=True)
    ]
    if len(answers) == 1:
        return {**answers[0], "layout": layout_answer(sheets[0].layout)}
    return {
        "pieces": answers,
        "layout": layout_answer(sheets[0].layout),
        "totals": _totals(sheets),
    }


def sheet_answer(sheet: CostSheet) -> dict[str, Any]:
    """Return one piece's part of the answer, the shared layout left out."""
    return {
        "piece": sheet.piece,
        "faces": [
            {
                "name": face.name,
                "along_mm": round(face.along_mm, 3),
                "across_mm": round(face.across_mm, 3),
                "count": face.count,
                "cut_along_mm": round(face.cut_along_mm, 3),
                "cut_across_mm": round(face.cut_across_mm, 3),
                "veneer": face.veneer,
                "species": face.species,
                "run": face.run,
            }
            for face in sheet.take_off.faces
        ],
        "edges": [
            {
                "name": edge.name,
                "length_mm": round(edge.length_mm, 3),
                "cut_mm": round(edge.cut_mm, 3),
                "count": edge.count,
            }
            for edge in sheet.take_off.edges
        ],
        "lines": [line_answer(line) for line in sheet.lines],
        "totals": _totals([sheet]),
        "finish": _finish(sheet.finish),
        "leaves": [_leaves(plan) for plan in sheet.leaves],
        "hours": round(sheet.hours, 4),
        "mass_kg": None if sheet.mass_kg is None else round(sheet.mass_kg, 2),
        "cautions": [
            {"text": caution.text, "source": caution.source}
            for caution in sheet.cautions
        ],
        "old_prices": [row.key for row in sheet.old_rows],
        "notes": list(sheet.notes),
    }


def line_answer(line: CostLine) -> dict[str, Any]:
    """Return one cost line."""
    return {
        "group": line.group,
        "item": line.item,
        "quantity": line.quantity,
        "unit": line.unit,
        "packs": line.packs,
        "bought": show(line.bought_cents),
        "used": show(line.used_cents),
        "basis": line.basis,
        "left": line.left,
        "left_worth": show(line.left_cents),
        "how": line.how,
        "source": line.source,
    }


def _finish(plan: FinishPlan | None) -> dict[str, Any] | None:
    if plan is None:
        return None
    limits = plan.system.usual_film_um
    return {
        "system": plan.system.key,
        "area_m2": round(plan.rows[0].area_m2, 4),
        "coats": [
            {
                "name": row.coat.name,
                "times": row.coat.times,
                "method": row.coat.method,
                "cut_lb": row.coat.cut_lb,
                "wet_um": round(row.coat.wet_um, 2),
                "dry_um": round(row.coat.dry_um, 2),
                "dry_all_um": round(row.dry_um, 2),
                "mixed_l": round(row.mixed_l, 4),
            }
            for row in plan.rows
        ],
        "dry_um": round(plan.dry_um, 2),
        "usual_um": None if limits is None else list(limits),
        "build": plan.build,
    }


def _leaves(plan: LeafPlan) -> dict[str, Any]:
    return {
        "flitch": plan.flitch.key,
        "match": plan.match,
        "to_buy": plan.leaves_to_buy,
        "cost": show(plan.cost_cents),
        "waste": plan.waste,
        "laid": [
            {
                "leaf": part.leaf,
                "piece": part.piece,
                "face": part.face,
                "turned": part.turned,
                "end_turned": part.end_turned,
                "length_mm": round(part.length_mm, 3),
                "width_mm": round(part.width_mm, 3),
            }
            for part in plan.laid
        ],
    }


def layout_answer(layout: Layout) -> dict[str, Any]:
    """Return a layout with its sheets and what is placed on each."""
    return {
        "sheets": [_sheet(plan) for plan in layout.sheets],
        "cost": show(layout.cost_cents),
        "least_possible": show(layout.least_possible_cents),
        "proven": layout.proven,
        "verdict": layout.verdict,
    }


def _sheet(plan: SheetPlan) -> dict[str, Any]:
    return {
        "size": {
            "along_mm": round(plan.sheet.along_mm, 3),
            "across_mm": round(plan.sheet.across_mm, 3),
        },
        "key": plan.sheet.key,
        "price": show(plan.worth_cents),
        "in_rack": plan.from_rack,
        "placements": [
            {
                "piece": placed.face.piece,
                "face": placed.name,
                "along_at_mm": round(placed.along_at_mm, 3),
                "across_at_mm": round(placed.across_at_mm, 3),
                "along_mm": round(placed.along_mm, 3),
                "across_mm": round(placed.across_mm, 3),
            }
            for placed in plan.placed
        ],
        "offcuts": [
            {"along_mm": round(r.along_mm, 3), "across_mm": round(r.across_mm, 3)}
            for r in plan.rests
            if r.usable
        ],
    }


def _totals(sheets: Sequence[CostSheet]) -> Mapping[str, str]:
    return {
        "cash_to_buy": show(sum(s.cash_to_buy_cents for s in sheets)),
        "used_up": show(sum(s.used_up_cents for s in sheets)),
        "gifts_in_kind": show(sum(s.gifts_in_kind_cents for s in sheets)),
        "time_given": show(sum(s.time_given_cents for s in sheets)),
        "full_cost": show(sum(s.full_cost_cents for s in sheets)),
    }
