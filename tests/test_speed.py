"""Measured times, printed with -s; none is asserted.

The machine's mood is not the project's: quote the medians, and compare runs of one
sitting only.
"""

import os
import statistics
import subprocess
import sys
import time
import tracemalloc
from dataclasses import replace
from datetime import date
from functools import lru_cache
from pathlib import Path

import pytest

from pricebook import cost
from pricebook.cost import laying, purchases
from pricebook.files import read_piece, read_shop
from pricebook.proceeds import split
from pricebook.rates import buy

ROOT = Path(__file__).parent.parent
DRESSER = ROOT / "data" / "pieces" / "low_dresser.toml"
ON = date(2026, 11, 25)
PIECES = int(os.environ.get("PRICEBOOK_PIECES", "60"))
"""How many different pieces are costed; 1000 take a minute."""

pytestmark = pytest.mark.benchmark


def whole_process(*arguments, runs=5):
    """Return the median time of a command from the shell. [s]."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "pricebook", *arguments],
            check=True,
            capture_output=True,
            cwd=ROOT,
        )
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def warm(call, runs=9):
    call()
    times = []
    for _ in range(runs):
        laying._KEPT.clear()  # the layout is searched anew each time
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def test_times_of_the_shell(tmp_path, capsys):
    price = whole_process("price", str(DRESSER), "--out", str(tmp_path))
    asked = whole_process("--help")
    with capsys.disabled():
        print(f"\npricebook price, whole process, median of 5: {price:.2f} s")
        print(f"pricebook --help, whole process, median of 5: {1000 * asked:.0f} ms")
    assert (tmp_path / "low_dresser.xlsx").exists()


def test_times_of_one_piece_and_of_splits(capsys):
    shop, piece = read_shop(ROOT / "data" / "shop"), read_piece(DRESSER)
    one = warm(lambda: cost.cost_sheet(piece, shop, ON))
    grids = [
        [{"kind": "share", "payee": "guild", "of": "hammer", "share": n / 100},
         {"kind": "rest", "payee": "charity"}]
        for n in range(20)
    ]  # fmt: skip
    prices = range(1000, 51000, 1000)
    grid = warm(lambda: [split(p, rules) for rules in grids for p in prices])
    with capsys.disabled():
        print(f"\none piece, layout searched anew: {1000 * one:.0f} ms")
        print(f"50 prices x 20 shares split: {1000 * grid:.0f} ms")
    assert cost.cost_sheet(piece, shop, ON).layout.proven


def test_many_different_pieces_leave_the_memory_flat(capsys, monkeypatch):
    # what is remembered is bounded: small bounds are full after a third of the pieces
    monkeypatch.setattr(laying, "MOST_KEPT", 8)
    monkeypatch.setattr(purchases, "_bought", lru_cache(maxsize=64)(buy))
    shop, piece = read_shop(ROOT / "data" / "shop"), read_piece(DRESSER)
    tracemalloc.start()
    start = time.perf_counter()
    for number in range(PIECES):
        size = replace(
            piece.size, width_mm=700 + number % 250, depth_mm=400 + number / 20
        )
        cost.cost_sheet(replace(piece, size=size), shop, ON)
        if number == PIECES // 3:
            early, _ = tracemalloc.get_traced_memory()
    took = time.perf_counter() - start
    late, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    with capsys.disabled():
        print(
            f"\n{PIECES} pieces: {took:.0f} s; {early / 1e6:.0f} to {late / 1e6:.0f} MB"
        )
    assert late < 2 * early
