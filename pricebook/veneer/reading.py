"""Reads parts, sheets and runs as a caller gives them, and refuses what cannot be."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from numbers import Integral, Real
from typing import Any, cast

from pricebook.errors import LayoutError, finite, raise_all, shown
from pricebook.veneer.model import Block, Cut, Fit, Problem, Stock
from pricebook.veneer.runs import END_TO_END, SIDE_BY_SIDE, direction_of, join

Part = tuple[int, int, int]
Run = tuple[tuple[int, ...], str | None]

LARGEST = 100_000_000
"""The largest whole number that a size, a count or a price may be."""


def whole(value: object, where: str, least: int, faults: list[str]) -> int:
    """Read a whole number, or note the fault and return the least allowed."""
    number = as_whole(value)
    if number is None:
        faults.append(f"{where} is {shown(value)}; it must be a whole number.")
        return least
    if not least <= number <= LARGEST:
        faults.append(
            f"{where} is {shown(number)}; it must be {least} to {LARGEST:,}."
            if number > LARGEST
            else f"{where} is {shown(number)}; it must be {least} or more."
        )
        return least
    return number


def as_whole(value: object) -> int | None:
    """Return a number that is whole, however it is stored; None for all else."""
    if isinstance(value, bool) or not isinstance(value, Real):
        return None
    if isinstance(value, Integral):
        return int(value)
    number = finite(value)
    return (
        int(number) if number is not None and number == value == int(number) else None
    )


def read_stages(stages: object, least: int = 2) -> int | None:
    """Read how many stages of cuts are allowed: 2, 3, or None for any number."""
    number = as_whole(stages)
    if stages is not None and (number is None or not least <= number <= 3):
        raise LayoutError(
            f"stages is {shown(stages)}; it is 2, 3 or None for any number."
        )
    return number


def refuse_malformed(fit: object) -> None:
    """Refuse what is no layout: a checker reads it without trusting its parts."""
    if not isinstance(fit, Fit):
        raise LayoutError(f"the layout is {shown(fit)}; give what fit returns.")
    faults: list[str] = []
    whole(fit.cost_cents, "the layout's cost in cents", 0, faults)
    whole(fit.least_possible_cents, "the layout's least possible cents", 0, faults)
    for number, sheet in enumerate(rows(fit.sheets, "the layout's sheets", faults)):
        where = f"sheet {number} of the layout"
        kind, places = row(sheet, where, "kind, placements", (2,), faults) or (0, ())
        numbers = [kind]
        for place in rows(places, f"the placements of {where}", faults):
            words = "part, offset along, offset across"
            numbers += row(place, f"a placement of {where}", words, (3,), faults)
        faults += [
            f"{where} holds {shown(one)}; it must be a whole number up to {LARGEST:,}."
            for one in numbers
            if abs(as_whole(one) or 0) > LARGEST or as_whole(one) is None
        ]
    for number, cut in enumerate(rows(fit.cuts, "the layout's cuts", faults)):
        if not isinstance(cut, Cut):
            faults.append(f"cut {number} is {shown(cut)}; it must be a Cut.")
            continue
        for name in ("sheet", "at", "start", "end"):
            whole(getattr(cut, name), f"cut {number}: {name}", 0, faults)
        if not isinstance(cut.direction, str):
            faults.append(
                f"cut {number}: direction is {shown(cut.direction)}; it is "
                '"across" or "along".'
            )
    raise_all(LayoutError, faults)


def read_parts(parts: Sequence[Sequence[Any]]) -> tuple[Part, ...]:
    """Read parts as (along, across, count)."""
    faults: list[str] = []
    found: list[Part] = []
    for number, part in enumerate(rows(parts, "parts", faults)):
        members = row(part, f"part {number}", "along, across, count", (3,), faults)
        if members:
            names = ("along", "across", "count")
            along, across, count = (
                whole(value, f"part {number}: {name}", 1, faults)
                for value, name in zip(members, names, strict=True)
            )
            found.append((along, across, count))
    if not found and not faults:
        faults.append("there are no parts to lay out; give at least one.")
    raise_all(LayoutError, faults)
    return tuple(found)


def read_sheets(sheets: Sequence[Sequence[Any]]) -> tuple[Stock, ...]:
    """Read sheets as (along, across, price in cents[, how many at most])."""
    faults: list[str] = []
    found: list[Stock] = []
    for number, sheet in enumerate(rows(sheets, "sheets", faults)):
        words = "along, across, price in cents and perhaps how many at most"
        members = row(sheet, f"sheet {number}", words, (3, 4), faults)
        if members:
            names = ("along", "across", "price in cents")
            along, across, price = (
                whole(value, f"sheet {number}: {name}", 1, faults)
                for value, name in zip(members, names, strict=False)
            )
            most = None
            if len(members) == 4 and members[3] is not None:
                most = whole(members[3], f"sheet {number}: how many", 0, faults)
            found.append(Stock(along=along, across=across, price=price, most=most))
    if not found and not faults:
        faults.append("there are no sheets to cut from; give at least one.")
    raise_all(LayoutError, faults)
    return tuple(found)


def rows(value: object, what: str, faults: list[str]) -> list[Any]:
    """Return a list of rows, or note that it is none."""
    if not isinstance(value, (str, bytes, Mapping, Set)):
        try:
            return list(cast("Iterable[Any]", value))
        except TypeError:
            pass
    faults.append(f"{what} is {shown(value)}; it must be a list.")
    return []


def row(
    value: object, where: str, words: str, lengths: tuple[int, ...], faults: list[str]
) -> list[Any]:
    """Return the members of a row, or note that it has not the right number."""
    members = rows(value, where, faults)
    if members and len(members) not in lengths:
        faults.append(f"{where} has {len(members)} members; it is ({words}).")
        return []
    if not members and not faults:
        faults.append(f"{where} is empty; it is ({words}).")
    return members


def read_runs(matched: Sequence[Sequence[Any]], parts: int) -> tuple[Run, ...]:
    """Read matched runs as part indices, perhaps with a word how they join."""
    faults: list[str] = []
    found: list[Run] = []
    taken: dict[int, int] = {}
    for number, entry in enumerate(rows(matched, "matched", faults)):
        members = rows(entry, f"run {number}", faults)
        word = None
        if members and isinstance(members[-1], str):
            word = members.pop()
            if word not in (SIDE_BY_SIDE, END_TO_END):
                faults.append(
                    f'run {number} joins {shown(word)}; write "{SIDE_BY_SIDE}" or '
                    f'"{END_TO_END}".'
                )
        if not members:
            faults.append(f"run {number} has no parts; name at least one.")
        indices = [_member(number, value, parts, taken, faults) for value in members]
        found.append((tuple(indices), word))
    raise_all(LayoutError, faults)
    return tuple(found)


def _member(
    number: int, value: object, parts: int, taken: dict[int, int], faults: list[str]
) -> int:
    known = isinstance(value, Integral) and not isinstance(value, bool)
    index = int(value) if known and isinstance(value, Integral) else -1
    if not 0 <= index < parts:
        faults.append(
            f"run {number} names part {shown(value)}, which does not exist; parts are "
            f"0 to {parts - 1}."
        )
        return 0
    if index in taken:
        faults.append(
            f"run {number} names part {index}, which is already in run "
            f"{taken[index]}; a part belongs to one run."
        )
    taken[index] = number
    return index


def blocks_of(parts: Sequence[Part], runs: Sequence[Run]) -> tuple[Block, ...]:
    """Turn parts into blocks: each run one block, each other part its own."""
    faults: list[str] = []
    blocks: list[Block] = []
    joined: set[int] = set()
    for number, (indices, word) in enumerate(runs):
        members = [part for part in indices for _ in range(parts[part][2])]
        sizes = [parts[part][:2] for part in members]
        joined.update(indices)
        how = direction_of(sizes, word)
        if how is None:
            faults.append(
                f"run {number}: its parts share neither the size along nor the size "
                f'across the grain; end the run with "{SIDE_BY_SIDE}" or '
                f'"{END_TO_END}".'
            )
        else:
            blocks.append(join(members, sizes, how))
    raise_all(LayoutError, faults)
    for index, (along, across, count) in enumerate(parts):
        if index not in joined:
            forms = ((along, across),)
            blocks.append(Block(forms=forms, count=count, members=((index, 0, 0),)))
    return tuple(blocks)


def size_words(along: int, across: int) -> str:
    """Print a size that has no unit."""
    return f"{along} along x {across} across"


def refuse_misfits(
    problem: Problem,
    name: Callable[[Block], str],
    size: Callable[[int, int], str] = size_words,
) -> None:
    """Refuse a block that fits no sheet, by name, with what would fit.

    Raises
    ------
    LayoutError
        One sentence for each block that fits no sheet.
    """
    offered = ", ".join(
        size(stock.along, stock.across)
        for stock in problem.stocks
        if stock.most is None or stock.most > 0
    )
    faults = [
        f"{name(block)} is {size(*block.forms[0])} and fits no sheet (offered: "
        f"{offered or 'none'}); offer a sheet of at least {size(*block.forms[0])}"
        f"{', or shorten the run' if len(block.members) > 1 else ''}."
        for block in problem.blocks
        if not any(fits(block, stock) for stock in problem.stocks)
    ]
    raise_all(LayoutError, faults)


def fits(block: Block, stock: Stock) -> bool:
    """Return whether a block fits an empty sheet."""
    return stock.most != 0 and any(
        along <= stock.along and across <= stock.across for along, across in block.forms
    )


def part_name(block: Block) -> str:
    """Name a block by its part, or its run by its parts."""
    indices = sorted({part for part, _, _ in block.members})
    if len(block.members) == 1:
        return f"part {indices[0]}"
    return f"the run of part{'s' * (len(indices) > 1)} " + ", ".join(map(str, indices))
