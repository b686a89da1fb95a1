"""The layout measured against a general-purpose rectangle packer, in one run.

One size of sheet: instances made by the published recipe, one of each class.
J. O. Berkey & P. Y. Wang, "Two-dimensional finite bin-packing algorithms", Journal of
the Operational Research Society 38 (1987): sizes of parts are uniform whole numbers,
sheets are square; classes 1 to 6 are parts 1-10 on 10 and 30, 1-35 on 40 and 100, and
1-100 on 100 and 300. S. Martello & D. Vigo, "Exact solution of the two-dimensional
finite bin packing problem", Management Science 44 (1998): sheets of 100 x 100 and four
types of part: wide (width 2/3 to 1 of the sheet, height up to 1/2), tall, large (both
1/2 to 1) and small (both up to 1/2); in classes 7 to 10 seven parts of ten are of the
class's own type, one of ten of each other. No part is turned. The seed is our own, so
the instances are not the published ones.

A batch: ten chests, ten night stands and five bookcases of invented sizes, in half
inches. What two or three stages of cuts cost against any number is printed too.

The packer is rectpack, with every guillotine setting that keeps parts unturned. It
knows one price, so with several sizes of sheet it gets each size alone. Times are
printed, none is asserted.

Keys: berkey_wang_1987, martello_vigo_1998.
"""

import random
import time
from itertools import product

import pytest
import rectpack

from pricebook.veneer import check, fit

pytestmark = pytest.mark.benchmark

BERKEY_WANG = ((10, 10), (10, 30), (35, 40), (35, 100), (100, 100), (100, 300))
PARTS = (20, 40)

CHEST = [(76, 40, 1), (82, 39, 2), (70, 15, 5), (70, 10, 1)]
NIGHT_STAND = [(42, 34, 1), (50, 33, 2), (38, 13, 1), (38, 8, 1)]
BOOKCASE = [(146, 25, 2), (66, 25, 1), (66, 23, 3), (66, 9, 1)]
MIDDLE = (192, 96, 10000)
SIZES = [(192, 48, 6000), MIDDLE, (240, 96, 12800)]


def berkey_wang(number, count, chance):
    largest, side = BERKEY_WANG[number - 1]
    sizes = [
        (chance.randint(1, largest), chance.randint(1, largest)) for _ in range(count)
    ]
    return sizes, side


def martello_vigo(number, count, chance):
    side = 100
    wide, half = (-(-2 * side // 3), side), (1, side // 2)
    large = (side // 2, side)
    types = ((half, wide), (wide, half), (large, large), (half, half))
    sizes = []
    for _ in range(count):
        own = number - 7
        other = [kind for kind in range(4) if kind != own]
        kind = own if chance.random() < 0.7 else chance.choice(other)
        sizes.append(tuple(chance.randint(*reach) for reach in types[kind]))
    return sizes, side


def instances():
    for number, count in product(range(1, 11), PARTS):
        chance = random.Random(100 * number + count)
        make = berkey_wang if number <= 6 else martello_vigo
        sizes, side = make(number, count, chance)
        yield f"class {number}, {count} parts", [(a, c, 1) for a, c in sizes], side


def packer_settings():
    choices = ("Bssf", "Blsf", "Baf")
    splits = ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
    for choice, split in product(choices, splits):
        algorithm = getattr(rectpack, f"Guillotine{choice}{split}")
        bins = (rectpack.PackingBin.BFF, rectpack.PackingBin.BBF)
        for way, order in product(bins, (rectpack.SORT_AREA, rectpack.SORT_LSIDE)):
            yield algorithm, way, order


def packed(parts, along, across):
    """Return how few sheets the packer needs in its best setting, or None."""
    best = None
    needed = sum(count for *_, count in parts)
    if any(a > along or c > across for a, c, _ in parts):
        return None
    for algorithm, way, order in packer_settings():
        packer = rectpack.newPacker(
            bin_algo=way, pack_algo=algorithm, sort_algo=order, rotation=False
        )
        for a, c, count in parts:
            for _ in range(count):
                packer.add_rect(c, a)
        packer.add_bin(across, along, count=float("inf"))
        packer.pack()
        # it drops without a word what does not fit: count what came out
        if len(packer.rect_list()) == needed:
            best = len(packer) if best is None else min(best, len(packer))
    return best


def timed(parts, sheets, **more):
    begin = time.perf_counter()
    plan = fit(parts, sheets, **more)
    took = time.perf_counter() - begin
    check(plan, parts, sheets)
    return plan, took


def batch():
    rows = [(10, CHEST), (10, NIGHT_STAND), (5, BOOKCASE)]
    return [(a, c, n * times) for times, piece in rows for a, c, n in piece]


def row(name, *cells):
    print(f"{name:34}" + "".join(f"{cell:>12}" for cell in cells))


def test_one_size_of_sheet_never_takes_more_than_the_packer(capsys):
    totals = [0, 0, 0, 0.0]
    with capsys.disabled():
        print()
        row("one size of sheet", "sheets", "least", "packer", "seconds")
        for name, parts, side in instances():
            plan, took = timed(parts, [(side, side, 1)])
            theirs = packed(parts, side, side)
            row(name, plan.cost_cents, plan.least_possible_cents, theirs, f"{took:.2f}")
            assert plan.cost_cents <= theirs
            found = (plan.cost_cents, plan.least_possible_cents, theirs, took)
            totals = [total + one for total, one in zip(totals, found, strict=True)]
        row("in total", *totals[:3], f"{totals[3]:.2f}")


def test_pieces_and_a_batch_never_cost_more_than_the_packer(capsys):
    cases = {
        "chest": CHEST, "night stand": NIGHT_STAND, "bookcase": BOOKCASE,
        "batch of 25": batch(),
    }  # fmt: skip
    with capsys.disabled():
        print()
        row("pieces", "cost", "least", "packer", "seconds")
        for name, parts in cases.items():
            for words, sheets in (("one size", [MIDDLE]), ("three sizes", SIZES)):
                plan, took = timed(parts, sheets)
                needed = [packed(parts, along, across) for along, across, _ in sheets]
                theirs = min(
                    number * kind[2]
                    for number, kind in zip(needed, sheets, strict=True)
                    if number
                )
                least = plan.least_possible_cents
                row(f"{name}, {words}", plan.cost_cents, least, theirs, f"{took:.2f}")
                assert least <= plan.cost_cents <= theirs


def test_what_few_stages_cost_against_any_number(capsys):
    chance = random.Random(4)
    chests = [
        (f"chest {number}", [
            (a + chance.randint(-6, 6), c + chance.randint(-3, 3), n)
            for a, c, n in CHEST
        ])
        for number in range(1, 7)
    ]  # fmt: skip
    with capsys.disabled():
        print()
        row("stages of cuts", "any", "three", "two")
        for name, parts in [*chests, ("batch of 25", batch())]:
            sheets = SIZES if name != "batch of 25" else [MIDDLE]
            costs = [
                timed(parts, sheets, stages=stages)[0].cost_cents
                for stages in (None, 3, 2)
            ]
            row(name, *costs)
            assert costs == sorted(costs)
