"""Read a piece file: TOML, every value with its unit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from pricebook import piece as parts
from pricebook.errors import SpecError
from pricebook.files.opening import read_toml
from pricebook.files.piece_lists import LISTS
from pricebook.files.taking import Taker
from pricebook.piece import Piece


def read_piece(path: str | Path) -> Piece:
    """Read a piece file.

    Parameters
    ----------
    path : str or Path
        A TOML file such as those in data/pieces/.

    Returns
    -------
    Piece
        The piece, checked.

    Raises
    ------
    SpecError
        With one sentence for every fault of the file.
    TableError
        If the file cannot be opened or is not TOML.
    """
    file = Path(path)
    return piece_from_table(read_toml(file), str(file))


def piece_from_table(table: Mapping[str, Any], where: str) -> Piece:
    """Make a piece of the tables of a piece file.

    Parameters
    ----------
    table : mapping
        The tables, as TOML gives them.
    where : str
        How sentences name the file.

    Returns
    -------
    Piece
        The piece, checked.

    Raises
    ------
    SpecError
        With one sentence for every fault.
    """
    faults: list[str] = []
    whole = Taker(where, table, faults)
    values: dict[str, Any] = {
        "name": whole.text("name"),
        "form": whole.text("form"),
        "owner": whole.text("owner"),
        "story": whole.text("story", ""),
        "maker": whole.text("maker", ""),
        "picture": whole.text("picture", ""),
        "made_on": whole.day("made_on", None),
    }
    values |= _tables(whole, where, faults)
    for key in ("veneer", "arrival"):
        if not whole.has(key):
            whole.fault(f"[{key}]", "is missing; every piece states it.")
    made = whole.build(Piece, **values)
    if made is None:
        early = [f"{where}: {sentence}" for sentence in _other_faults(table)]
        raise SpecError(*dict.fromkeys([*faults, *early]))
    return made


def _other_faults(table: Mapping[str, Any]) -> Iterator[str]:
    """Yield what can be told of a piece although some part of it cannot be."""
    name, form, owner = (table.get(key) for key in ("name", "form", "owner"))
    if isinstance(name, str) and isinstance(form, str) and isinstance(owner, str):
        yield from parts.head_faults(name, form, owner, set(table))
    if isinstance(form, str) and form in parts.FORMS:
        keys = [f"veneer.{key}" for key in ("show", "backing", "plain", "grain")]
        named = {
            key: _words_of(table, *key.split("."))
            for key in (*keys, "finish.groups", "banding.edges")
        }
        yield from parts.group_faults(form, named)


def _words_of(table: Mapping[str, Any], part: str, key: str) -> list[str]:
    within = table.get(part)
    found = within.get(key, ()) if isinstance(within, Mapping) else ()
    if not isinstance(found, (list, dict)):
        return []
    return [word for word in found if isinstance(word, str)]


def _tables(whole: Taker, where: str, faults: list[str]) -> dict[str, Any]:
    """Read every table and list of tables that the file has."""
    values: dict[str, Any] = {}
    for key, read in _TABLES.items():
        found = whole.table(key)
        if found is not None or key in ("labour", "price"):
            found = found or {}
            values[key] = read(Taker(f"{where} [{key}]", found, faults))
    for key, read in LISTS.items():
        takers = [
            Taker(f"{where} [[{key}]] {number}", row, faults)
            for number, row in enumerate(whole.tables(key), start=1)
        ]
        values[key] = tuple(read(taker) for taker in takers)
    return values


def _size(t: Taker) -> Any:
    return t.build_row(
        parts.Size,
        width_mm=t.length("width"),
        height_mm=t.length("height"),
        depth_mm=t.length("depth"),
        panel_mm=t.length("panel"),
    )


def _top(t: Taker) -> Any:
    return t.build_row(
        parts.Top,
        overhang_front_mm=t.length("overhang_front"),
        overhang_sides_mm=t.length("overhang_sides"),
        overhang_back_mm=t.length("overhang_back", 0.0),
        thickness_mm=t.length("thickness"),
    )


def _base(t: Taker) -> Any:
    return t.build_row(
        parts.Base, kind=t.text("kind"), height_mm=t.length("height", 0.0)
    )


def _drawers(t: Taker) -> Any:
    heights_mm = t.lengths("heights", ())
    return t.build_row(
        parts.Drawers,
        rows=t.whole("rows", len(heights_mm)) if heights_mm else t.whole("rows"),
        columns=t.whole("columns", 1),
        heights_mm=heights_mm,
        gap_mm=t.length("gap"),
        reveal_mm=t.length("reveal"),
        fit=t.text("fit"),
        open_below_mm=t.length("open_below", 0.0),
    )


def _doors(t: Taker) -> Any:
    return t.build_row(
        parts.Doors,
        count=t.whole("count"),
        gap_mm=t.length("gap"),
        reveal_mm=t.length("reveal"),
        fit=t.text("fit"),
    )


def _shelves(t: Taker) -> Any:
    return t.build_row(
        parts.Shelves,
        count=t.whole("count"),
        setback_mm=t.length("setback", 0.0),
        loose=t.flag("loose", False),
    )


def _underframe(t: Taker) -> Any:
    return t.build_row(
        parts.Underframe, leg_mm=t.length("leg"), apron_mm=t.length("apron")
    )


def _veneer(t: Taker) -> Any:
    return t.build_row(
        parts.VeneerWishes,
        species=t.text("species"),
        form=t.text("form", "backed"),
        backing_species=t.text("backing_species", None),
        match=t.text("match", "balance"),
        lie=t.text("lie", "book"),
        end_match=t.flag("end_match", False),
        overhang_mm=t.length("overhang", 12.7),
        show=t.words("show", ()),
        backing=t.words("backing", ()),
        plain=t.words("plain", ()),
        grain=t.pairs("grain", ()),
        matched=t.words("matched", ()),
        centred=t.words("centred", ()),
        free_grain=t.words("free_grain", ()),
    )


def _banding(t: Taker) -> Any:
    return t.build_row(
        parts.BandingWishes,
        species=t.text("species"),
        edges=t.words("edges", ()),
        end_allowance_mm=t.length("end_allowance", 25.4),
    )


def _finish(t: Taker) -> Any:
    return t.build_row(
        parts.FinishWishes,
        system=t.text("system"),
        coats=t.whole("coats", None),
        groups=t.words("groups", ()),
    )


def _labour(t: Taker) -> Any:
    return t.build_row(
        parts.LabourWishes,
        pay=t.text("pay", None),
        teaching_min=t.number("teaching_min", 0.0),
        hours=t.number("hours", None),
        learning_rate=t.number("learning_rate", None),
        learning_convention=t.text("learning_convention", "unit"),
        made_before=t.whole("made_before", 0),
    )


def _price(t: Taker) -> Any:
    return t.build_row(
        parts.PriceWishes,
        likely_bidders=t.number("likely_bidders", None),
        comparables=t.words("comparables", ()),
        retail_new_cents=t.money("retail_new", None),
        unsold_value_cents=t.money("unsold_value", 0),
        wanted_net_cents=t.money("wanted_net", None),
        opening_bid_cents=t.money("opening_bid", None),
        reserve_cents=t.money("reserve", None),
        appraised_by=t.text("appraised_by", ""),
        appraised_on=t.day("appraised_on", None),
    )


def _arrival(t: Taker) -> Any:
    return t.build_row(
        parts.Arrival,
        condition=t.text("condition"),
        made_before_1978=t.flag("made_before_1978", None),
        lead_free=t.flag("lead_free", False),
        treatment=t.text("treatment", None),
        dents=t.whole("dents", 0),
        patches=t.whole("patches", 0),
        new_panels=t.flag("new_panels", False),
    )


_TABLES = {
    "size": _size,
    "top": _top,
    "base": _base,
    "drawers": _drawers,
    "doors": _doors,
    "shelves": _shelves,
    "underframe": _underframe,
    "veneer": _veneer,
    "banding": _banding,
    "finish": _finish,
    "labour": _labour,
    "price": _price,
    "arrival": _arrival,
}
