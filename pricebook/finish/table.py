"""The shop's finishes file, already parsed, to finish systems."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

from pricebook.errors import SpecError, TableError, nearest, raise_all
from pricebook.finish.system import Coat, FinishSystem

_Row = Mapping[str, object]


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _is_text(value: object) -> bool:
    return isinstance(value, str)


def _is_two_numbers(value: object) -> bool:
    return isinstance(value, list) and len(value) == 2 and all(map(_is_number, value))


def _is_date(value: object) -> bool:
    return isinstance(value, date) and not isinstance(value, datetime)


def _is_tables(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(row, Mapping) for row in value)


_TEXT = (_is_text, "text in quotes")
_NUMBER = (_is_number, "a number")
_WHOLE = (_is_whole, "a whole number")
_Kind = tuple[Callable[[object], bool], str]
_COAT: dict[str, _Kind] = {
    "name": _TEXT,
    "times": _WHOLE,
    "method": _TEXT,
    "share_on_work": _NUMBER,
    "material": _TEXT,
    "cut_lb": _NUMBER,
    "solids_share": _NUMBER,
    "spread_m2_per_l": _NUMBER,
    "dry_film_um": _NUMBER,
    "thinner": _TEXT,
    "thinner_parts": _NUMBER,
    "stock_cut_lb": _NUMBER,
    "recoat_min": _NUMBER,
    "scuff_grit": _WHOLE,
    "cup_ml": _NUMBER,
    "dye": _TEXT,
    "dye_ml_per_l": _NUMBER,
}
_SYSTEM: dict[str, _Kind] = {
    "name": _TEXT,
    "kind": _TEXT,
    "date": (_is_date, "a date such as 2026-11-01, without quotes"),
    "source": _TEXT,
    "flammable": (lambda value: isinstance(value, bool), "true or false"),
    "shelf_life_days": _WHOLE,
    "usual_film_um": (_is_two_numbers, "two numbers, as in [50, 100]"),
    "coats_per_session": _WHOLE,
    "cleaner": _TEXT,
    "cleaning_ml": _NUMBER,
    "cure_days": _NUMBER,
    "note": _TEXT,
    "coats": (_is_tables, "a list of coats, each under its own [[...]] heading"),
}
_COAT_NEEDS = ("name", "times", "method", "share_on_work", "material")
_SYSTEM_NEEDS = ("name", "kind", "date", "source", "coats")


def finish_system(
    key: str,
    table: Mapping[str, object],
    gun_shares: Mapping[str, float] | None = None,
) -> FinishSystem:
    """Return one finish system of the shop's parsed finishes file.

    Parameters
    ----------
    key : str
        What a piece calls its finish.
    table : mapping
        The whole file: system keys to what is stated under each.
    gun_shares : mapping or None
        Share on the work by kind of gun, for coats that name a gun where others
        give a number. [-]

    Returns
    -------
    FinishSystem
        The system.

    Raises
    ------
    TableError
        If the key is not known, or the system has unknown keys, missing ones,
        values of a wrong type or out of range: a sentence each, all at once.

    Examples
    --------
    >>> finish_system("oil", {"wiping oil": {}})
    Traceback (most recent call last):
        ...
    pricebook.errors.TableError: "oil" is not a finish system of the shop; ...
    """
    if key not in table:
        raise TableError(
            f'"{key}" is not a finish system of the shop; {nearest(key, table)}'
        )
    faults: list[str] = []
    system = _system(key, table[key], gun_shares or {}, faults)
    if system is None:
        raise TableError(*faults)
    return system


def finish_systems(
    table: Mapping[str, object], gun_shares: Mapping[str, float] | None = None
) -> tuple[FinishSystem, ...]:
    """Return every finish system of the file, or refuse it with every fault.

    Parameters
    ----------
    table : mapping
        The whole file, as for `finish_system`.
    gun_shares : mapping or None
        Share on the work by kind of gun. [-]

    Returns
    -------
    tuple of FinishSystem
        The systems, in the order of the file.

    Raises
    ------
    TableError
        If there is a fault in any of them, or no system at all.

    Examples
    --------
    >>> finish_systems({})
    Traceback (most recent call last):
        ...
    pricebook.errors.TableError: no finish system is given; state one.
    """
    faults: list[str] = []
    if not table:
        faults.append("no finish system is given; state one.")
    found = [_system(key, row, gun_shares or {}, faults) for key, row in table.items()]
    raise_all(TableError, faults)
    return tuple(system for system in found if system is not None)


def _system(
    key: str, row: object, gun_shares: Mapping[str, float], faults: list[str]
) -> FinishSystem | None:
    """Build one system; add to the faults and return None where it cannot be."""
    where = f'"{key}"'
    if not isinstance(row, Mapping):
        faults.append(f'{where} is {row!r}; give it a heading of its own, ["{key}"].')
        return None
    before = len(faults)
    values = _fields(row, _SYSTEM, _SYSTEM_NEEDS, where, faults)
    coats = [
        _coat(one, f"{where}, coat {number}", gun_shares, faults)
        for number, one in enumerate(values.pop("coats", []), 1)
    ]
    if len(faults) > before:
        return None
    if "usual_film_um" in values:
        values["usual_film_um"] = tuple(values["usual_film_um"])
    values["dated"] = values.pop("date")
    built = tuple(coat for coat in coats if coat is not None)
    try:
        return FinishSystem(key=key, coats=built, **values)
    except SpecError as error:
        faults.extend(f"{where}: {fault}" for fault in error.faults)
        return None


def _coat(
    row: _Row, where: str, gun_shares: Mapping[str, float], faults: list[str]
) -> Coat | None:
    """Build one coat; add to the faults and return None where it cannot be."""
    before = len(faults)
    row = _with_gun(row, where, gun_shares, faults)
    values = _fields(row, _COAT, _COAT_NEEDS, where, faults)
    if len(faults) > before:
        return None
    try:
        return Coat(**values)
    except SpecError as error:
        faults.extend(f"{where}: {fault}" for fault in error.faults)
        return None


def _with_gun(
    row: _Row, where: str, gun_shares: Mapping[str, float], faults: list[str]
) -> _Row:
    """Put a number where a coat names its gun for the share on the work."""
    gun = row.get("share_on_work")
    if not isinstance(gun, str):
        return row
    if gun not in gun_shares:
        faults.append(
            f'{where}: share_on_work is "{gun}"; write a number such as 0.65 or the '
            f"name of a gun: {nearest(gun, gun_shares)}"
        )
    return {**row, "share_on_work": gun_shares.get(gun, 1.0)}


def _fields(
    row: _Row,
    known: Mapping[str, _Kind],
    needed: tuple[str, ...],
    where: str,
    faults: list[str],
) -> dict[str, Any]:
    """Return the fields of a row, with a fault for each that cannot be used."""
    values: dict[str, Any] = {}
    for name, value in row.items():
        if name not in known:
            faults.append(f'{where}: "{name}" is not known; {nearest(name, known)}')
        elif not known[name][0](value):
            faults.append(f"{where}: {name} is {value!r}; write {known[name][1]}.")
        else:
            values[name] = value
    faults.extend(
        f"{where}: {name} is missing; write {known[name][1]}."
        for name in needed
        if name not in row
    )
    return values
