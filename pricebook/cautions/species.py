"""Woods: published figures, each with its source, and what they mean at the bench."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pricebook.cautions.movement import newtons
from pricebook.errors import SpecError, TableError, nearest, raise_all

UNITS = {
    "specific_gravity": "-",
    "hardness": "lbf",
    "radial_shrinkage": "%",
    "tangential_shrinkage": "%",
    "volumetric_shrinkage": "%",
    "radial_coefficient": "1/%",
    "tangential_coefficient": "1/%",
}
"""The figures that are numbers, and their units as printed."""

WORDS = ("common_name", "botanical_name", "dust", "restriction")
"""The figures that are words."""

PREFERRED = (
    "wood_handbook_2010",
    "fpl_gtr_83_1995",
    "fpl_tropical_fact_sheets",
)
"""The sources whose figure is used where two differ, the first first."""

_COLUMNS = ("species", "figure", "value", "unit", "table", "confirmed", "source")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of one source.

    Parameters
    ----------
    name : str
        A name of `UNITS` or `WORDS`.
    value : float or str
        The figure as printed.
    unit : str
        Its unit; empty for words.
    table : str
        Table, sheet or page of the source.
    confirmed : bool
        Whether the text was seen; False: from memory.
    source : str
        Key of SOURCES.csv.
    """

    name: str
    value: float | str
    unit: str
    table: str
    confirmed: bool
    source: str

    def __str__(self) -> str:
        """Return the figure with its source, as a note prints it."""
        memory = "" if self.confirmed else ", from memory"
        unit = f" {self.unit}" if self.unit and self.unit != "-" else ""
        return f"{self.value}{unit} ({self.source}{memory})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """A wood with every published figure kept.

    Parameters
    ----------
    key : str
        The wood, as piece files name it.
    figures : tuple of Figure
        All figures, the chosen one of each name before the others.
    """

    key: str
    figures: tuple[Figure, ...]

    def all_of(self, name: str) -> tuple[Figure, ...]:
        """Return every source's figure of one name, the chosen one first."""
        known = (*UNITS, *WORDS)
        if name not in known:
            raise SpecError(f'"{name}" is no figure of a wood; {nearest(name, known)}')
        return tuple(figure for figure in self.figures if figure.name == name)

    def chosen(self, name: str) -> Figure | None:
        """Return the figure that is used, or None where no source gives one."""
        found = self.all_of(name)
        return found[0] if found else None

    def choice(self, name: str) -> str:
        """Say which source's figure is used and what the others print."""
        found = self.all_of(name)
        if not found:
            return f"{self.key}: no {name.replace('_', ' ')} is known"
        others = "; ".join(str(figure) for figure in found[1:])
        words = f"{self.key}: {name.replace('_', ' ')} {found[0]}"
        return f"{words}; not used: {others}" if others else words

    def _number(self, name: str) -> float | None:
        figure = self.chosen(name)
        return float(figure.value) if figure else None

    def _word(self, name: str) -> str:
        figure = self.chosen(name)
        return str(figure.value) if figure else ""

    @property
    def common_name(self) -> str:
        """The full trade name."""
        return self._word("common_name")

    @property
    def botanical_name(self) -> str:
        """Genus and species."""
        return self._word("botanical_name")

    @property
    def specific_gravity(self) -> float | None:
        """Ovendry mass over volume, as the source defines it [-]."""
        return self._number("specific_gravity")

    @property
    def hardness_n(self) -> float | None:
        """Side hardness [N]."""
        hardness_lbf = self._number("hardness")
        return None if hardness_lbf is None else newtons(hardness_lbf)

    @property
    def radial_shrinkage_percent(self) -> float | None:
        """Shrinkage from green to ovendry across the rings [%]."""
        return self._number("radial_shrinkage")

    @property
    def tangential_shrinkage_percent(self) -> float | None:
        """Shrinkage from green to ovendry along the rings [%]."""
        return self._number("tangential_shrinkage")

    @property
    def radial_coefficient(self) -> float | None:
        """Change of width for each percent of moisture, quarter-sawn [1/%]."""
        return self._number("radial_coefficient")

    @property
    def tangential_coefficient(self) -> float | None:
        """Change of width for each percent of moisture, flat-sawn [1/%]."""
        return self._number("tangential_coefficient")

    @property
    def dust(self) -> str:
        """What is published about its dust; empty where nothing is."""
        return self._word("dust")

    @property
    def restriction(self) -> str:
        """What is known of limits on its trade; empty where nothing is."""
        return self._word("restriction")


def species_from_rows(
    rows: Iterable[Mapping[str, str]], preferred: Sequence[str] = PREFERRED
) -> dict[str, Species]:
    """Read woods from rows of reference tables, one row a figure.

    Parameters
    ----------
    rows : iterable of mappings
        Columns species, figure, value, unit, table, confirmed (yes or no),
        source; the tables of several sources one after another.
    preferred : sequence of str
        Sources whose figure is used where two differ, the first first.

    Returns
    -------
    dict of str to Species
        By key, in the order of their first rows.

    Raises
    ------
    TableError
        If a row lacks a column, names no figure known, has a unit other than the
        figure's, a value that is no number above 0, or repeats a source's figure;
        one sentence for each fault.

    Notes
    -----
    Nothing is averaged: a figure whose text was seen goes before one from memory,
    then the order of `preferred`, then the order of the rows.

    Examples
    --------
    >>> row = {"species": "teak", "figure": "hardness", "value": "1000",
    ...     "unit": "lbf", "table": "5-5b", "confirmed": "yes",
    ...     "source": "wood_handbook_2010"}
    >>> round(species_from_rows([row])["teak"].hardness_n)
    4448
    """
    faults: list[str] = []
    found: dict[str, list[Figure]] = {}
    seen: set[tuple[str, str, str]] = set()
    for number, row in enumerate(rows, start=1):
        wrong = list(_row_faults(row))
        if not wrong:
            name = (row["species"], row["figure"], row["source"])
            if name in seen:
                wrong = [f"{' '.join(name)} is given twice; keep one."]
            seen.add(name)
        if wrong:
            faults += [f"wood row {number}: {fault}" for fault in wrong]
        else:
            found.setdefault(row["species"], []).append(_figure(row))
    raise_all(TableError, faults)
    rank = {source: place for place, source in enumerate(preferred)}

    def order(figure: Figure) -> tuple[bool, int]:
        return not figure.confirmed, rank.get(figure.source, len(rank))

    return {
        key: Species(key=key, figures=tuple(sorted(figures, key=order)))
        for key, figures in found.items()
    }


def _figure(row: Mapping[str, str]) -> Figure:
    name = row["figure"]
    return Figure(
        name=name,
        value=float(row["value"]) if name in UNITS else row["value"],
        unit=row["unit"],
        table=row["table"],
        confirmed=row["confirmed"] == "yes",
        source=row["source"],
    )


def _row_faults(row: Mapping[str, str]) -> Iterable[str]:
    missing = [name for name in _COLUMNS if name not in row]
    if missing:
        yield f"no column {', '.join(missing)}."
        return
    name = row["figure"]
    if name not in UNITS and name not in WORDS:
        yield f'"{name}" is no figure of a wood; {nearest(name, (*UNITS, *WORDS))}'
        return
    if row["confirmed"] not in ("yes", "no"):
        yield f'confirmed is "{row["confirmed"]}"; use yes or no.'
    if not row["species"] or not row["source"]:
        yield "species or source is empty; name both."
    if row["unit"] != UNITS.get(name, ""):
        yield f'the unit of {name} is "{row["unit"]}"; use "{UNITS.get(name, "")}".'
    if name in UNITS and not _is_above_zero(row["value"]):
        yield f'{name} is "{row["value"]}"; it must be a number above 0.'
    if name in WORDS and not row["value"].strip():
        yield f"{name} is empty; write it, or leave the row out."


def _is_above_zero(text: str) -> bool:
    try:
        return 0 < float(text) < float("inf")
    except ValueError:
        return False
