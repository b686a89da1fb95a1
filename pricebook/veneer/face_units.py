"""Faces and rows of the price book in whole units."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.model import Block, Stock
from pricebook.veneer.plan import SheetPlan
from pricebook.veneer.runs import join

PER_MM = 10_000
"""Whole units inside: 1/16 in, 1.5875 mm, is a whole number of them."""


def offers(sheets: Sequence[Sheet]) -> Iterator[tuple[Sheet, bool]]:
    """Yield each row twice where it is in the rack and can be bought."""
    for sheet in sheets:
        if sheet.on_hand:
            yield sheet, True
        if sheet.to_buy:
            yield sheet, False


def stock(offer: tuple[Sheet, bool]) -> Stock:
    """Return a row in whole units, rounded down."""
    sheet, rack = offer
    return Stock(
        along=math.floor(round(sheet.along_mm * PER_MM, 2)),
        across=math.floor(round(sheet.across_mm * PER_MM, 2)),
        price=sheet.value_cents if rack else sheet.price_cents,
        most=sheet.on_hand if rack else None,
    )


def size_of(face: Face) -> tuple[int, int]:
    """Return the size to cut in whole units, rounded up."""
    return (
        math.ceil(round(face.cut_along_mm * PER_MM, 2)),
        math.ceil(round(face.cut_across_mm * PER_MM, 2)),
    )


def blocks(faces: Sequence[Face]) -> Iterator[Block]:
    """Yield one block for each run, and one for each face without a run."""
    for run in dict.fromkeys((f.piece, f.run) for f in faces if f.run):
        indices = [n for n, f in enumerate(faces) if (f.piece, f.run) == run]
        members = [n for n in indices for _ in range(faces[n].count)]
        sizes = [size_of(faces[n]) for n in members]
        yield join(members, sizes, faces[indices[0]].run_direction)
    for number, face in enumerate(faces):
        if not face.run:
            size = size_of(face)
            turn = face.free_grain and not face.centred and size[0] != size[1]
            yield Block(
                forms=(size, size[::-1]) if turn else (size,),
                count=face.count,
                members=((number, 0, 0),),
            )


def numbered(sheets: Sequence[SheetPlan]) -> list[SheetPlan]:
    """Give the copies of each face their numbers, in the order of the sheets."""
    copies: dict[Face, int] = {}
    numbered = []
    for plan in sheets:
        placed = []
        for one in plan.placed:
            copies[one.face] = copies.get(one.face, 0) + 1
            placed.append(replace(one, copy=copies[one.face]))
        numbered.append(replace(plan, placed=tuple(placed)))
    return numbered
