"""A piece as a form: each field a control, all fields together a new piece."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pricebook.cost import Shop
from pricebook.errors import PricebookError, SpecError, raise_all
from pricebook.panel.boxes import (
    choice,
    heights_box,
    length_box,
    number_box,
    words_box,
)
from pricebook.panel.controls import Control
from pricebook.panel.listed_form import (
    EDGES,
    FACES,
    Listed,
    Sort,
    Values,
    values_of,
)
from pricebook.piece import FinishWishes, ListedFace, Piece

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
        "length", "heights", "whole", "hours", "words", "choice", "faces" or "edges".
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
        ("faces", "", "faces", "Faces", "faces"),
        ("edges", "", "edges", "Edges", "edges"),
        ("leg", "underframe", "leg_mm", "Leg", "length"),
        ("apron", "underframe", "apron_mm", "Apron", "length"),
        ("species", "veneer", "species", "Veneer", "choice"),
        ("form", "veneer", "form", "Form of the sheets", "choice"),
        ("overhang", "veneer", "overhang_mm", "Overhang", "length"),
        ("backing", "veneer", "backing_species", "Backing veneer", "choice"),
        ("banding", "banding", "species", "Edge banding", "choice"),
        ("system", "finish", "system", "Finish", "choice"),
        ("coats", "finish", "coats", "Build coats", "whole"),
        ("hours", "labour", "hours", "Hours of work", "hours"),
    )
}
"""Every control of a piece, in the order in which one measures and decides."""

_LISTS = {"faces": FACES, "edges": EDGES}

_LABELS = {
    f"{field.part}.{field.name}".removeprefix(".").removesuffix("_mm"): field.label
    for field in FIELDS.values()
}
_FILE_KEY = re.compile(r"^name\b|\b[a-z]+\.[a-z_]+")

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
    held: dict[str, Any] = {}
    for key, field in FIELDS.items():
        part = getattr(piece, field.part) if field.part else piece
        held[key] = getattr(part, field.name) if part is not None else None
    if held["system"] is None:
        held["system"] = NO_FINISH
    held["heights"] = held["heights"] or ()
    return held | {key: tuple(map(values_of, held[key])) for key in _LISTS}


def has_field(piece: Piece, key: str) -> bool:
    """Tell whether a field says anything of a piece."""
    part = FIELDS[key].part
    if key in _LISTS:
        return piece.form == "list" or bool(getattr(piece, key))
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
    try:
        return _made(piece, values)
    except PricebookError as error:
        raise SpecError(*map(on_screen, error.faults)) from None


def on_screen(sentence: str) -> str:
    """Return a sentence that names controls by their labels, not as a file does.

    Parameters
    ----------
    sentence : str
        A refusal of a piece.

    Returns
    -------
    str
        The same; what has no control keeps the name that its file knows.

    Examples
    --------
    >>> on_screen("size.height is 0 mm; it must be more than 0.")
    'Height is 0 mm; it must be more than 0.'
    >>> on_screen("drawers.gap is -1 mm; it must be 0 or more.")
    'drawers.gap is -1 mm; it must be 0 or more.'
    """
    return _FILE_KEY.sub(lambda key: _LABELS.get(key[0], key[0]), sentence)


def _made(piece: Piece, values: Mapping[str, Any]) -> Piece:
    parts: dict[str, dict[str, Any]] = {}
    for key, field in FIELDS.items():
        if has_field(piece, key):
            parts.setdefault(field.part, {})[field.name] = values[key]
    changes: dict[str, Any] = parts.pop("", {})
    faults: list[str] = []
    for name, sort in _LISTS.items():
        if name in changes:
            changes[name] = _listed(sort, changes[name], faults)
    for name, fields in parts.items():
        try:
            changes[name] = _part(piece, name, fields)
        except PricebookError as error:
            faults += error.faults
    if values["backing"] is None:
        faults += _without_wood(changes.get("faces", ()))
    raise_all(SpecError, faults)
    return replace(piece, **changes)


def _part(piece: Piece, name: str, fields: dict[str, Any]) -> Any:  # noqa: ANN401
    if name == "finish":
        return _finish(piece, fields)
    return replace(getattr(piece, name), **fields)


def _without_wood(faces: Sequence[ListedFace]) -> list[str]:
    if any(face.treatment == "backing" for face in faces):
        return ["Backing veneer is none, but a face has it; choose its wood."]
    return []


def _listed(sort: Sort, rows: Sequence[Values], faults: list[str]) -> tuple[Any, ...]:
    """Return the parts of a list, and add what is wrong with them to the faults."""
    made = []
    for row in rows:
        if not row["name"]:
            faults.append(f"{sort.article} {sort.word} has no name; give it one.")
        try:
            made.append(sort.make(**row))
        except PricebookError as error:
            faults += error.faults
    return tuple(made)


def _finish(piece: Piece, wishes: dict[str, Any]) -> FinishWishes | None:
    if wishes["system"] == NO_FINISH:
        return None
    groups = piece.finish.groups if piece.finish else ()
    return FinishWishes(**wishes, groups=groups)


def _offers(shop: Shop) -> dict[str, list[tuple[str, Any]]]:
    woods = sorted({s.species for s in shop.sheets if s.veneer == "show"})
    forms = sorted({s.form for s in shop.sheets if s.veneer == "show"})
    backings = sorted({s.species for s in shop.sheets if s.veneer == "backing"})
    bands = sorted({roll.species for roll in shop.rolls})
    systems = [(system.name, system.key) for system in shop.finishes]
    return {
        "species": [(wood, wood) for wood in woods],
        "form": [(form, form) for form in forms],
        "backing": [("none", None), *((wood, wood) for wood in backings)],
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
    if field.kind in _LISTS:
        return Listed(_LISTS[field.kind], value, unit)
    if field.kind == "words":
        return words_box(field.label, value)
    if field.kind == "choice":
        return choice(field.label, offer, value)
    unit = "h" if field.kind == "hours" else ""
    whole = field.kind == "whole"
    empty = _EMPTY.get(key, "")
    return number_box(field.label, value, unit=unit, whole=whole, empty=empty)
