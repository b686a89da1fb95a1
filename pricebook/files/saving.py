"""Write a piece file: TOML that reads back as the very same piece."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator
from dataclasses import Field, fields
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from pricebook import lengths, money
from pricebook.errors import PricebookError, ReportError
from pricebook.files.pieces import piece_from_table
from pricebook.files.writing import write_text
from pricebook.piece import Piece

_WORDS = ("name", "form", "owner", "story", "maker", "picture", "made_on")
_TABLES = (
    "size", "top", "base", "drawers", "doors", "shelves", "underframe", "veneer",
    "banding", "finish", "labour", "price", "arrival",
)  # fmt: skip
_LISTS = ("holes", "hardware", "gifts", "faces", "edges")
_OWN_KEYS = {"width_mm": "panel"}
"""The one key of a listed edge that is not its field without the unit."""


def piece_text(piece: Piece, unit: str = "in") -> str:
    """Return a piece as the text of a piece file.

    Parameters
    ----------
    piece : Piece
        The piece.
    unit : str
        "in" or "mm": how lengths are written. An inch that is no whole number of
        sixteenths is written in millimetres, so that it reads back exactly.

    Returns
    -------
    str
        TOML; what stands at its default is left out.

    Raises
    ------
    ReportError
        If a text of the piece cannot stand in such a file.

    Examples
    --------
    >>> from pricebook.files import read_piece
    >>> from pricebook.files.places import shipped
    >>> dresser = read_piece(shipped("data") / "pieces" / "low_dresser.toml")
    >>> print(piece_text(dresser))
    name = "Low dresser"
    form = "chest of drawers"
    ...
    [size]
    width = "37 in"
    ...
    """
    text = "\n".join(_lines(piece, unit)) + "\n"
    try:
        same = piece_from_table(tomllib.loads(text), "the file") == piece
        text.encode()
    except (PricebookError, tomllib.TOMLDecodeError, UnicodeEncodeError):
        same = False
    if not same:
        raise ReportError(
            f'"{piece.name}" has a text that a piece file would change; use plain '
            "letters, without blanks at either end."
        )
    return text


def save_piece(
    piece: Piece, path: str | Path, *, unit: str = "in", replace: bool = False
) -> Path:
    """Write a piece file, and never over another one unless asked.

    Parameters
    ----------
    piece : Piece
        The piece.
    path : str or Path
        Where the file shall stand, ending in .toml.
    unit : str
        "in" or "mm": how lengths are written.
    replace : bool
        Whether a file that stands there may be written over.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    ReportError
        If a file stands there, the ending is another one, or it cannot be written.
    """
    file = Path(path)
    if file.suffix != ".toml":
        raise ReportError(f"{file} does not end in .toml; a piece file does.")
    if file.exists() and not replace:
        raise ReportError(
            f"{file} is there already and stays as it is; give this piece another "
            "name, or ask to write over the file."
        )
    return write_text(file, piece_text(piece, unit))


def _lines(piece: Piece, unit: str) -> Iterator[str]:
    for name in _WORDS:
        value = getattr(piece, name)
        if value:
            yield f"{name} = {_value(value, unit)}"
    for name in _TABLES:
        part = getattr(piece, name)
        lines = list(_part(part, unit)) if part is not None else []
        if lines or (part is not None and name not in ("labour", "price")):
            yield from ("", f"[{name}]", *lines)
    for name in _LISTS:
        for part in getattr(piece, name):
            yield from ("", f"[[{name}]]", *_part(part, unit))


def _part(part: Any, unit: str) -> Iterator[str]:
    """Yield the keys of one table; what stands at its default is left out."""
    for field in fields(part):
        value = getattr(part, field.name)
        if value is None or value == field.default:
            continue
        yield f"{_key(part, field)} = {_field(field.name, value, unit)}"


def _key(part: Any, field: Field[Any]) -> str:
    if type(part).__name__ == "ListedEdge" and field.name in _OWN_KEYS:
        return _OWN_KEYS[field.name]
    return field.name.removesuffix("_mm").removesuffix("_cents")


def _field(name: str, value: Any, unit: str) -> str:
    if name.endswith("_cents"):
        return _text(money.show(value))
    if name == "grain":
        pairs = (f"{_text(group)} = {_text(way)}" for group, way in value)
        return f"{{ {', '.join(pairs)} }}"
    if name.endswith("_mm"):
        if isinstance(value, tuple):
            return f"[{', '.join(_length(item, unit) for item in value)}]"
        return _length(value, unit)
    return _value(value, unit)


def _length(length_mm: float, unit: str) -> str:
    """Write a length so that it reads back as the very same number."""
    if unit == "in":
        inches = lengths.show(length_mm, "in")
        if lengths.read(inches) == length_mm:
            return _text(inches)
    return _text(f"{Decimal(repr(float(length_mm))).normalize():f} mm")


def _value(value: Any, unit: str) -> str:
    if isinstance(value, bool):
        return _text("yes" if value else "no")
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return f"[{', '.join(_value(item, unit) for item in value)}]"
    return f"{value:g}" if float(f"{value:g}") == value else repr(value)


def _text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
