"""Whole cuts from fractional ones: fix some, solve again, search the rest."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.banding.exhaustive import Exhaustive
from pricebook.banding.packing import Cut, Packer
from pricebook.banding.programme import Programme

THRIFT = 0.01
FEW = 18
STEPS = 30_000
MOST_DIVES = 12
MANY_SIZES = 60


def dive(packer: Packer, bought: Sequence[int]) -> list[Cut] | None:
    """Return cuts of these rolls that carry all edges, or None if none were found.

    Parameters
    ----------
    packer : Packer
        The demand.
    bought : sequence of int
        How many rolls there are of each kind. [-]

    Returns
    -------
    list of Cut or None
        One cut a roll.

    Notes
    -----
    With very many different lengths, most rolls are filled greedily first: among so
    many lengths there is nearly always a load without waste.
    """
    capacities = packer.demand.capacities
    order = [j for j, n in enumerate(bought) for _ in range(n)]
    order.sort(key=lambda j: (capacities[j], j))
    many = len(packer.demand.sizes) > MANY_SIZES
    for attempt in range(MOST_DIVES):
        cuts: list[Cut] = []
        left, rolls = list(packer.demand.counts), list(bought)
        if many:
            way = order if attempt % 2 == 0 else order[::-1]
            cuts, left = packer.fill(way, attempt % 4 < 2, keep=MANY_SIZES - 10)
            for kind, _ in cuts:
                rolls[kind] -= 1
        rest = _dive(packer, rolls, left, attempt // 4 if many else attempt)
        if rest is not None:
            return cuts + rest
    return None


def _dive(
    packer: Packer, rolls: list[int], left: list[int], attempt: int
) -> list[Cut] | None:
    """Fix the whole part, or else the greatest fraction, until few edges are left."""
    capacities = packer.demand.capacities
    fixed: list[Cut] = []
    known: list[Cut] = []
    while sum(left) > FEW:
        programme = Programme(packer.demand, capacities, left, THRIFT)
        for kind, load in known:
            programme.learn(kind, load)
        answer = programme.solve(rolls)
        if answer.short:
            return None
        uses = sorted(answer.uses, key=lambda use: -use[0])
        known = [(kind, load) for _, kind, load in uses]
        whole = [(int(times + 1e-6), kind, load) for times, kind, load in uses]
        if not whole[0][0]:
            at = min(attempt, len(uses) - 1)
            attempt = 0
            whole = [(1, uses[at][1], uses[at][2])]
        for times, kind, load in whole:
            for _ in range(times):
                taken = tuple(min(a, b) for a, b in zip(load, left, strict=True))
                rolls[kind] -= 1
                left = [have - n for have, n in zip(left, taken, strict=True)]
                fixed.append((kind, taken))
        if min(rolls) < 0:
            return None
    rest = Exhaustive(packer.demand, STEPS).run(left, rolls)
    return None if rest is None else fixed + rest
