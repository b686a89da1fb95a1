"""Read materials: a row a pack; packs of one key make one material."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path

from pricebook.errors import TableError
from pricebook.files.opening import read_csv
from pricebook.files.rows import TAIL, pick, tail
from pricebook.files.taking import Taker
from pricebook.rates import Material, Pack

MATERIAL_COLUMNS = (
    "key", "name", "group", "unit", "pack", "price", "from_packs", "on_hand",
    "shelf_life_days", *TAIL,
)  # fmt: skip


def materials(path: Path) -> tuple[tuple[Material, ...], list[Material]]:
    """Read a file of one row a pack; packs of one key make one material."""
    faults: list[str] = []
    by_key: dict[str, list[tuple[int, bool, Material]]] = defaultdict(list)
    for line, cells in read_csv(path, MATERIAL_COLUMNS, ("chosen",)):
        t = Taker(f"{path} line {line}", cells, faults)
        chosen = t.flag("chosen", False)
        row = _one_pack(t)
        if row is not None:
            by_key[row.key].append((line, chosen, row))
    used: list[Material] = []
    spare: list[Material] = []
    for key, found in by_key.items():
        packs: dict[tuple[float, int], list[tuple[int, bool, Material]]]
        packs = defaultdict(list)
        for item in found:
            pack = item[2].packs[0]
            packs[pack.quantity, pack.from_packs].append(item)
        picks = [pick(path, key, same, faults) for same in packs.values()]
        kept = [row for row in picks if row is not None]
        spare += [row for _, _, row in found if row not in kept]
        faults += _disagreements(path, kept)
        if kept:
            used.append(_joined(kept))
    if faults:
        raise TableError(*faults)
    return tuple(used), spare


def _one_pack(t: Taker) -> Material | None:
    pack, price = t.number("pack"), t.money("price")
    from_packs = t.whole("from_packs", 1)
    return t.build_row(
        Material,
        **tail(t),
        name=t.text("name"),
        group=t.text("group"),
        unit=t.text("unit"),
        packs=(Pack(quantity=pack, price_cents=price, from_packs=from_packs),),
        on_hand=t.number("on_hand", 0.0),
        shelf_life_days=t.whole("shelf_life_days", None),
    )


def _disagreements(path: Path, rows: Iterable[Material]) -> list[str]:
    found = list(rows)
    first = found[0] if found else None
    return [
        f'{path}: the packs of "{row.key}" differ in name, group or unit; '
        "write them alike."
        for row in found[1:]
        if first
        and (row.name, row.group, row.unit) != (first.name, first.group, first.unit)
    ]


def _joined(rows: list[Material]) -> Material:
    first = rows[0]
    return Material(
        key=first.key,
        dated=min(row.dated for row in rows),
        source=first.source,
        name=first.name,
        group=first.group,
        unit=first.unit,
        packs=tuple(row.packs[0] for row in rows),
        on_hand=max(row.on_hand for row in rows),
        shelf_life_days=first.shelf_life_days,
    )
