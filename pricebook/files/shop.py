"""Read the shop's price book: one folder of CSV and TOML files."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from pricebook.cost.shop import Shop
from pricebook.errors import PricebookError, TableError
from pricebook.files.bench import bench_faults
from pricebook.files.materials import materials
from pricebook.files.opening import read_toml
from pricebook.files.reference import read_boards, read_gun_shares, read_species
from pricebook.files.rows import TAIL, rows_of, tail
from pricebook.files.taking import Taker
from pricebook.finish import finish_systems
from pricebook.rates import (
    Allowance,
    Bench,
    Leaves,
    Minutes,
    Roll,
    Row,
    Settings,
    Sheet,
)

T = TypeVar("T")

SHEET_COLUMNS = (
    "key", "species", "form", "veneer", "along", "across", "price", "on_hand",
    "value", "to_buy", "figure_centre", "offcut", *TAIL,
)  # fmt: skip
ROLL_COLUMNS = (
    "key", "species", "form", "width", "length", "price", "on_hand", "value",
    "to_buy", *TAIL,
)  # fmt: skip
FLITCH_COLUMNS = (
    "key", "species", "length", "usable", "leaves", "price", "bundle",
    "first_number", *TAIL,
)  # fmt: skip
MINUTES_COLUMNS = (
    "key", "name", "setup_min", "rate_min", "unit", "people", "pay", "drying_min",
    *TAIL,
)  # fmt: skip
ALLOWANCE_COLUMNS = ("key", "value", "unit", "note", *TAIL)


def read_shop(folder: str | Path) -> Shop:
    """Read a shop's price book.

    Parameters
    ----------
    folder : str or Path
        The folder that holds shop.toml, sheets.csv, rolls.csv, materials.csv,
        minutes.csv, allowances.csv and finishes.toml.

    Returns
    -------
    Shop
        The price book, checked.

    Raises
    ------
    TableError
        With one sentence for every fault of every file.
    """
    base = Path(folder)
    if not base.is_dir():
        raise TableError(f"{base} is not a folder; name the folder of a price book.")
    faults: list[str] = []
    values: dict[str, Any] = {
        "settings": _part(_settings, base / "shop.toml", faults),
        "bench": _part(_bench, base / "shop.toml", faults),
        "finishes": _part(_finishes, base / "finishes.toml", faults) or (),
    }
    spare: list[Row] = []
    for name, read in _TABLES.items():
        used, kept = _part(read, base / f"{name}.csv", faults) or ((), [])
        values[name] = used
        spare += kept
    boards = read_boards()
    if bench := values["bench"]:
        faults += bench_faults(bench, boards, f"{base / 'shop.toml'} [bench]")
    if faults:
        raise TableError(*dict.fromkeys(faults))
    return Shop(
        **values,
        woods=tuple(read_species().values()),
        boards=tuple(boards.values()),
        not_chosen=tuple(spare),
    )


def _part(read: Callable[[Path], T], path: Path, faults: list[str]) -> T | None:
    """Read one file of the price book, or note why it cannot be."""
    try:
        return read(path)
    except PricebookError as error:
        faults.extend(error.faults)
        return None


def _settings(path: Path) -> Settings:
    faults: list[str] = []
    t = Taker(str(path), read_toml(path), faults)
    t.table("bench")
    made = t.build_row(
        Settings,
        shop=t.text("shop"),
        currency=t.text("currency"),
        lengths=t.text("lengths"),
        paper=t.text("paper"),
        paid_cents_per_hour=t.money("paid_per_hour"),
        given_cents_per_hour=t.money("given_per_hour"),
        overhead_cents_per_hour=t.money("overhead_per_hour"),
        price_age_days=t.whole("price_age_days"),
    )
    if made is None:
        raise TableError(*faults)
    return made


def _bench(path: Path) -> Bench:
    faults: list[str] = []
    found = Taker(str(path), read_toml(path), []).table("bench")
    t = Taker(f"{path} [bench]", found or {}, faults)
    made = t.build_row(
        Bench,
        adhesive=t.text("adhesive"),
        board=t.text("board"),
        roughing_grits=t.wholes("roughing_grits"),
        veneer_grits=t.wholes("veneer_grits"),
        banding_grits=t.wholes("banding_grits"),
        scuff_grit=t.whole("scuff_grit"),
        back_grits=t.wholes("back_grits"),
        fine_grits=t.wholes("fine_grits"),
    )
    if made is None:
        raise TableError(*faults)
    return made


def _finishes(path: Path) -> tuple[Any, ...]:
    try:
        return tuple(finish_systems(read_toml(path), read_gun_shares()))
    except TableError as error:
        where = [s if s.startswith(str(path)) else f"{path}: {s}" for s in error.faults]
        raise TableError(*where) from None


def _sheet(t: Taker) -> Sheet | None:
    to_buy = t.flag("to_buy", True)
    price = t.money("price", 0)
    return t.build_row(
        Sheet,
        **tail(t),
        species=t.text("species"),
        form=t.text("form"),
        veneer=t.text("veneer"),
        along_mm=t.length("along"),
        across_mm=t.length("across"),
        price_cents=price,
        on_hand=t.whole("on_hand", 0),
        value_cents=t.money("value", price or 0),
        to_buy=to_buy,
        figure_centre_mm=t.length("figure_centre", None),
        offcut=t.flag("offcut", False),
    )


def _roll(t: Taker) -> Roll | None:
    to_buy = t.flag("to_buy", True)
    price = t.money("price", 0)
    return t.build_row(
        Roll,
        **tail(t),
        species=t.text("species"),
        form=t.text("form"),
        width_mm=t.length("width"),
        length_mm=t.length("length"),
        price_cents=price,
        on_hand=t.whole("on_hand", 0),
        value_cents=t.money("value", price or 0),
        to_buy=to_buy,
    )


def _flitch(t: Taker) -> Leaves | None:
    """Take a flitch: one usable width, or a list that drifts from leaf to leaf."""
    widths, count = t.listed("usable"), t.whole("leaves")
    if count is not None and count < 0:
        t.fault("leaves", f"is {count}; count the leaves that are there, 0 or more.")
    if widths and count and count > 0 and len(widths) not in (1, count):
        t.fault("usable", f"lists {len(widths)} widths for {count} leaves; list one.")
    return t.build_row(
        Leaves,
        **tail(t),
        species=t.text("species"),
        length_mm=t.length("length"),
        widths_mm=widths * (count or 0) if widths and len(widths) == 1 else widths,
        price_cents=t.money("price"),
        bundle=t.whole("bundle", 1),
        first_number=t.whole("first_number", 1),
        on_hand=t.whole("on_hand", 0),
    )


def _minutes_row(t: Taker) -> Minutes | None:
    return t.build_row(
        Minutes,
        **tail(t),
        name=t.text("name"),
        setup_min=t.number("setup_min"),
        rate_min=t.number("rate_min"),
        unit=t.text("unit"),
        people=t.whole("people", 1),
        pay=t.text("pay", "given"),
        drying_min=t.number("drying_min", 0.0),
    )


def _allowance(t: Taker) -> Allowance | None:
    return t.build_row(
        Allowance,
        **tail(t),
        value=t.number("value"),
        unit=t.text("unit"),
        note=t.text("note", ""),
    )


_TABLES: dict[str, Callable[[Path], tuple[tuple[Any, ...], list[Any]]]] = {
    "sheets": partial(rows_of, columns=SHEET_COLUMNS, make=_sheet),
    "rolls": partial(rows_of, columns=ROLL_COLUMNS, make=_roll),
    "materials": materials,
    "minutes": partial(rows_of, columns=MINUTES_COLUMNS, make=_minutes_row),
    "allowances": partial(rows_of, columns=ALLOWANCE_COLUMNS, make=_allowance),
    "flitches": partial(
        rows_of, columns=FLITCH_COLUMNS, make=_flitch, optional=("on_hand",)
    ),
}
"""Every file of rows: what reads it, given its path."""
