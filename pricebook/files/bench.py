"""What a shop's custom may be: its adhesive, its board, its runs of grits."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from pricebook.consumables import grit_run
from pricebook.consumables.adhesive import FACES
from pricebook.errors import PricebookError, nearest
from pricebook.rates import Bench

COARSEST_ON_VENEER = 120
"""Nothing coarser touches factory veneer (veneer_sanding_thread)."""


def bench_faults(bench: Bench, boards: Collection[str], where: str) -> Iterator[str]:
    """Yield what no bench can work with.

    Parameters
    ----------
    bench : Bench
        The shop's custom.
    boards : collection of str
        Boards of the reference tables.
    where : str
        How a sentence names the file.

    Yields
    ------
    str
        A sentence for each fault.
    """
    if bench.adhesive not in FACES:
        hint = nearest(bench.adhesive, FACES)
        yield f'{where}: adhesive is "{bench.adhesive}"; {hint}'
    if bench.board not in boards:
        hint = nearest(bench.board, boards)
        yield f'{where}: board is "{bench.board}"; {hint}'
    runs = {
        "roughing_grits": bench.roughing_grits,
        "veneer_grits": bench.veneer_grits,
        "banding_grits": bench.banding_grits,
        "scuff_grit": (bench.scuff_grit,),
        "back_grits": bench.back_grits,
        "fine_grits": bench.fine_grits,
    }
    for name, run in runs.items():
        coarsest = COARSEST_ON_VENEER if name == "veneer_grits" else None
        try:
            grit_run(run, coarsest=coarsest)
        except PricebookError as error:
            for sentence in error.faults:
                yield f"{where}: {name}: {sentence}"
