"""What the piece behind a lot says for the catalogue, where the event says nothing."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pricebook.errors import PricebookError, SpecError, raise_all
from pricebook.files.opening import read_toml

_WORDS = ("story", "maker", "owner")


def with_pieces(table: Mapping[str, Any], where: str, folder: Path) -> dict[str, Any]:
    """Return the tables of an event with what its lots leave to their pieces.

    Parameters
    ----------
    table : mapping
        The tables of an event file.
    where : str
        How sentences name the file.
    folder : Path
        Its folder; pieces are named relative to it.

    Returns
    -------
    dict
        New tables: a lot that states no story, maker, owner or picture has its
        piece's. A piece that cannot be read fills in nothing here.

    Raises
    ------
    SpecError
        With a sentence for each lot whose owner is not its piece's.
    """
    lots = table.get("lots")
    if not isinstance(lots, list):
        return dict(table)
    faults: list[str] = []
    filled = []
    for number, row in enumerate(lots, start=1):
        said = _said(row, folder)
        if "owner" in said and row.get("owner", said["owner"]) != said["owner"]:
            faults.append(
                f'{where} [[lots]] {number}: owner is "{row["owner"]}", its piece '
                f'{row["piece"]} says "{said["owner"]}"; say the same in both.'
            )
        filled.append({**said, **row} if said else row)
    raise_all(SpecError, faults)
    return {**table, "lots": filled}


def _said(row: object, folder: Path) -> dict[str, str]:
    """Return what the piece behind a lot says of itself."""
    name = row.get("piece") if isinstance(row, dict) else None
    if not isinstance(name, str) or not name:
        return {}
    try:
        piece = read_toml(folder / name)
    except PricebookError:
        return {}
    said = {
        key: piece[key]
        for key in _WORDS
        if isinstance(piece.get(key), str) and piece[key]
    }
    picture = piece.get("picture")
    if isinstance(picture, str) and picture:
        said["picture"] = str(Path(name).parent / picture)
    return said
