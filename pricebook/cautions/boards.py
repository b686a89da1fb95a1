"""Kinds of board, with their usual density and their formaldehyde limit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pricebook.cautions.panels import density_faults
from pricebook.errors import TableError, raise_all

_COLUMNS = ("board", "name", "density_kg_m3", "formaldehyde_ppm", "confirmed", "source")


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A kind of board, with its usual density.

    Parameters
    ----------
    key, name : str
        What other files call it, and what a reader calls it.
    density_kg_m3 : float
        Usual density. [kg/m³]
    formaldehyde_ppm : float or None
        Limit for a new panel; None where the rule sets none. [ppm]
    confirmed : bool
        Whether the text behind the density was seen.
    source : str
        Key of SOURCES.csv for the density.
    """

    key: str
    name: str
    density_kg_m3: float
    formaldehyde_ppm: float | None
    confirmed: bool
    source: str


def boards_from_rows(rows: Iterable[Mapping[str, str]]) -> dict[str, Board]:
    """Read the kinds of board from rows of reference tables.

    Parameters
    ----------
    rows : iterable of mappings
        Columns board, name, density_kg_m3, formaldehyde_ppm (may be empty),
        confirmed (yes or no), source; a row of another table may give the limit
        alone, with the density left empty.

    Returns
    -------
    dict of str to Board
        By key, in the order of their first rows.

    Raises
    ------
    TableError
        If a column is missing, a number is none, or a board has no density; one
        sentence for each fault.

    Examples
    --------
    >>> row = {"board": "mdf", "name": "MDF", "density_kg_m3": "700",
    ...     "formaldehyde_ppm": "", "confirmed": "yes", "source": "epa_faq"}
    >>> limit = {**row, "density_kg_m3": "", "formaldehyde_ppm": "0.11"}
    >>> boards_from_rows([row, limit])["mdf"].formaldehyde_ppm
    0.11
    """
    faults: list[str] = []
    found: dict[str, dict[str, str]] = {}
    for number, row in enumerate(rows, start=1):
        missing = [name for name in _COLUMNS if name not in row]
        if missing:
            faults.append(f"board row {number} has no column {', '.join(missing)}.")
            continue
        kept = found.setdefault(row["board"], {})
        if row["density_kg_m3"] and "density_kg_m3" in kept:
            faults.append(f'board "{row["board"]}" has two densities; keep one.')
        if row["density_kg_m3"]:
            names = ("name", "density_kg_m3", "confirmed", "source")
            kept |= {name: row[name] for name in names}
        if row["formaldehyde_ppm"]:
            kept["formaldehyde_ppm"] = row["formaldehyde_ppm"]
    raise_all(TableError, faults)
    for key, kept in found.items():
        faults += _board_faults(key, kept)
    raise_all(TableError, faults)
    return {key: _board(key, kept) for key, kept in found.items()}


def _board(key: str, kept: Mapping[str, str]) -> Board:
    limit = kept.get("formaldehyde_ppm")
    return Board(
        key=key,
        name=kept["name"],
        density_kg_m3=float(kept["density_kg_m3"]),
        formaldehyde_ppm=float(limit) if limit else None,
        confirmed=kept["confirmed"] == "yes",
        source=kept["source"],
    )


def _board_faults(key: str, kept: Mapping[str, str]) -> list[str]:
    if "density_kg_m3" not in kept:
        return [f'board "{key}" has no density; give one in kg/m3.']
    try:
        faults = density_faults(float(kept["density_kg_m3"]))
        float(kept.get("formaldehyde_ppm") or 0)
    except ValueError:
        faults = ["its density or its limit is no number; write digits, 720."]
    return [f'board "{key}": {fault}' for fault in faults]
