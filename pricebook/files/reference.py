"""Read the published figures: one CSV a source, never edited."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from pricebook.cautions import Board, Species, boards_from_rows, species_from_rows
from pricebook.files.opening import read_text
from pricebook.files.places import shipped

_SPECIES_HEAD = "species,figure,value,unit,table,confirmed,source"
_BOARD_HEAD = "board,name,density_kg_m3,formaldehyde_ppm,confirmed,source"


def _rows_under(head: str) -> list[dict[str, str]]:
    """Return the rows of every reference file with this head."""
    rows: list[dict[str, str]] = []
    for path in sorted((shipped("data") / "reference").glob("*.csv")):
        lines = read_text(path).splitlines()
        if lines[0].strip() == head:
            rows += csv.DictReader(lines)
    return rows


@cache
def read_species() -> dict[str, Species]:
    """Return the woods that published tables know, by key.

    Returns
    -------
    dict of str to Species
        Every source's figure is kept; `Species.chosen` names the one in use.
    """
    return dict(species_from_rows(_rows_under(_SPECIES_HEAD)))


@cache
def read_boards() -> dict[str, Board]:
    """Return the boards that published tables know, by key.

    Returns
    -------
    dict of str to Board
        Density and formaldehyde limit of each.
    """
    return boards_from_rows(_rows_under(_BOARD_HEAD))


@cache
def read_gun_shares() -> dict[str, float]:
    """Return what spraying methods leave on the work, by method.

    Returns
    -------
    dict of str to float
        Share of the paint that lands on the work. [-]
    """
    path: Path = shipped("data") / "reference" / "nr_440_48.csv"
    rows = csv.DictReader(read_text(path).splitlines())
    return {row["method"]: float(row["transfer_share"]) for row in rows}
