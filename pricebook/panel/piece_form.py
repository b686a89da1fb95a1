"""A piece as a form: each field a control, all fields together a new piece."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pricebook.cost import Shop
from pricebook.errors import PricebookError, SpecError
from pricebook.panel.boxes import (
    choice,
    heights_box,
    length_box,
    number_box,
    words_box,
)
from pricebook.panel.controls import Control
from pricebook.piece import FinishWishes, Piece

NO_FINISH = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """Where a control's value stands in a piece.

    Parameters
    ----------
    part : str
        The part of the piece; empty: the piece itself.
    name : str
        The field of that part.
    label : str
        The control's label.
    kind : str
        "length", "heights", "whole", "hours", "words" or "choice".
    """

    part: str
    name: str
    label: str
    kind: str


FIELDS: dict[str, Field] = {
    key: Field(part=part, name=name, label=label, kind=kind)
    for key, part, name, label, kind in (
        ("name", "", "name", "Name of the piece", "words"),
        ("width", "size", "width_mm", "Width", "length"),
        ("height", "size", "height_mm", "Height", "length"),
        ("depth", "size", "depth_mm", "Depth", "length"),
        ("panel", "size", "panel_mm", "Panel", "length"),
        ("top_front", "top", "overhang_front_mm", "Top past front", "length"),
        ("top_sides", "top", "overhang_sides_mm", "Top past sides", "length"),
        ("base", "base", "height_mm", "Base height", "length"),
        ("rows", "drawers", "rows", "Rows of drawers", "whole"),
        ("columns", "drawers", "columns", "Drawers in a row", "whole"),
        ("heights", "drawers", "heights_mm", "Front heights", "heights"),
        ("doors", "doors", "count", "Doors", "whole"),
        ("shelves", "shelves", "count", "Shelves", "whole"),
        ("leg", "underframe", "leg_mm", "Leg", "length"),
        ("apron", "underframe", "apron_mm", "Apron", "length"),
        ("species", "veneer", "species", "Veneer", "choice"),
        ("form", "veneer", "form", "Form of the sheets", "choice"),
        ("overhang", "veneer", "overhang_mm", "Overhang", "length"),
        ("banding", "banding", "species", "Edge banding", "choice"),
        ("system", "finish", "system", "Finish", "choice"),
        ("coats", "finish", "coats", "Build coats", "whole"),
        ("hours", "labour", "hours", "Hours of work", "hours"),
    )
}
"""Every control of a piece, in the order in which one measures and decides."""

_EMPTY = {"coats": "as the finish says", "hours": "from the minutes"}


def form_controls(piece: Piece, shop: Shop) -> dict[str, Control]:
    """Return a control for every field, each with the piece's own value.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book, for what can be chosen.

    Returns
    -------
    dict of str to Control
        By the keys of `FIELDS`.
    """
    offers = _offers(shop)
    held = held_values(piece)
    return {
        key: _control(key, field, held[key], offers.get(key, ()), shop)
        for key, field in FIELDS.items()
    }


def held_values(piece: Piece) -> dict[str, Any]:
    """Return what a piece says in each field; None where it has no such part."""
    held = {}
    for key, field in FIELDS.items():
        part = getattr(piece, field.part) if field.part else piece
        held[key] = getattr(part, field.name) if part is not None else None
    if held["system"] is None:
        held["system"] = NO_FINISH
    held["heights"] = held["heights"] or ()
    return held


def has_field(piece: Piece, key: str) -> bool:
    """Tell whether a field says anything of a piece."""
    part = FIELDS[key].part
    return not part or part == "finish" or getattr(piece, part) is not None


def filled_in(piece: Piece, values: Mapping[str, Any]) -> Piece:
    """Return a piece with the values of a form.

    Parameters
    ----------
    piece : Piece
        The piece that the form was opened on.
    values : mapping of str to object
        A value for every key of `FIELDS`.

    Returns
    -------
    Piece
        A new piece, checked.

    Raises
    ------
    SpecError
        With a sentence for every fault.
    """
    parts: dict[str, dict[str, Any]] = {}
    for key, field in FIELDS.items():
        if has_field(piece, key):
            parts.setdefault(field.part, {})[field.name] = values[key]
    changes: dict[str, Any] = parts.pop("", {})
    wishes = parts.pop("finish")
    faults: list[str] = []
    for name, fields in parts.items():
        try:
            changes[name] = replace(getattr(piece, name), **fields)
        except PricebookError as error:
            faults += error.faults
    try:
        changes["finish"] = _finish(piece, wishes)
    except PricebookError as error:
        faults += error.faults
    if faults:
        raise SpecError(*faults)
    return replace(piece, **changes)


def _finish(piece: Piece, wishes: dict[str, Any]) -> FinishWishes | None:
    if wishes["system"] == NO_FINISH:
        return None
    groups = piece.finish.groups if piece.finish else ()
    return FinishWishes(**wishes, groups=groups)


def _offers(shop: Shop) -> dict[str, list[tuple[str, Any]]]:
    woods = sorted({s.species for s in shop.sheets if s.veneer == "show"})
    forms = sorted({s.form for s in shop.sheets if s.veneer == "show"})
    bands = sorted({roll.species for roll in shop.rolls})
    systems = [(system.name, system.key) for system in shop.finishes]
    return {
        "species": [(wood, wood) for wood in woods],
        "form": [(form, form) for form in forms],
        "banding": [(wood, wood) for wood in bands],
        "system": [("No finish", NO_FINISH), *systems],
    }


def _control(
    key: str,
    field: Field,
    value: Any,  # noqa: ANN401
    offer: Sequence[tuple[str, Any]],
    shop: Shop,
) -> Control:
    unit = shop.settings.lengths
    if field.kind == "length":
        return length_box(field.label, value, unit)
    if field.kind == "heights":
        return heights_box(field.label, value, unit)
    if field.kind == "words":
        return words_box(field.label, value)
    if field.kind == "choice":
        return choice(field.label, offer, value)
    unit = "h" if field.kind == "hours" else ""
    whole = field.kind == "whole"
    empty = _EMPTY.get(key, "")
    return number_box(field.label, value, unit=unit, whole=whole, empty=empty)
