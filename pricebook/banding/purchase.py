"""The cheapest set of rolls that no rule forbids and that can really be cut.

Sets of rolls are tried in the order of their cost. Each is cut up, or ruled out for
good by a `Rule`, or by an exhaustive search; so the first that can be cut is the
cheapest there is. What neither way decides leaves the answer unproven, and says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from pricebook.banding.demand import Demand
from pricebook.banding.dive import dive
from pricebook.banding.exhaustive import Exhaustive
from pricebook.banding.packing import Cut, Packer
from pricebook.banding.programme import Programme
from pricebook.banding.weights import Rule

SEARCH_STEPS = 150_000
MASTER_STEPS = 1_000_000
MOST_TRIES = 60


@dataclass(slots=True)
class Purchase:
    """How the edges are cut, and the least that any set of rolls can cost.

    Without cuts, `least_cents` is None when it is proven that the rolls there are
    cannot carry the edges, and 0 when no way was found in the steps allowed.
    """

    cuts: list[Cut]
    least_cents: int | None


@dataclass(slots=True)
class Cheapest:
    """The next set of rolls in the order of cost, rolls, and length left.

    Parameters
    ----------
    demand : Demand
        Edges and rolls.
    rules : list of Rule
        What every sufficient set obeys.
    failed : list of tuple of int
        Sets that cannot carry the edges; nor can any smaller one.
    """

    demand: Demand
    rules: list[Rule]
    failed: list[tuple[int, ...]] = field(default_factory=list)
    _best: tuple[int, int, int] | None = None
    _found: tuple[int, ...] | None = None
    _steps: int = 0
    _order: list[int] = field(default_factory=list)

    def next(self) -> tuple[int, ...] | None:
        """Return the cheapest set that is not ruled out, or None."""
        self._best, self._found, self._steps = None, None, MASTER_STEPS
        rule = self.rules[-1]
        self._order = [j for j, most in enumerate(self.demand.at_most) if most]
        self._order.sort(
            key=lambda j: (self.demand.prices_cents[j] / max(1, rule.held[j]), j)
        )
        self._go(0, [0] * len(self.demand.at_most), [r.needed for r in self.rules])
        return self._found

    def _go(self, depth: int, bought: list[int], needs: list[int]) -> None:
        self._steps -= 1
        if self._best and (self._steps < 0 or self._hope(depth, bought, needs)):
            return
        if depth == len(self._order):
            self._take(bought, needs)
            return
        kind = self._order[depth]
        for n in self._range(depth, needs, bought):
            bought[kind] = n
            left = [
                need - n * rule.held[kind]
                for need, rule in zip(needs, self.rules, strict=True)
            ]
            self._go(depth + 1, bought, left)
        bought[kind] = 0

    def _range(self, depth: int, needs: list[int], bought: list[int]) -> range:
        """Return the numbers of rolls of one kind worth trying, most first."""
        kind = self._order[depth]
        least = 0
        for need, rule in zip(needs, self.rules, strict=True):
            if need > 0 and rule.held[kind]:
                least = max(least, -(-need // rule.held[kind]))
        most = self.demand.at_most[kind]
        beyond = max((failed[kind] + 1 for failed in self.failed), default=0)
        top = min(most, max(least, beyond))
        last = depth + 1 == len(self._order)
        return range(min(least, most), top + 1) if last else range(top, -1, -1)

    def _hope(self, depth: int, bought: list[int], needs: list[int]) -> bool:
        """Tell that nothing better than the best can come of this."""
        cost, rolls = self.demand.cost_cents(bought), sum(bought)
        least_cost, least_rolls = 0, 0
        for need, rule in zip(needs, self.rules, strict=True):
            if need <= 0:
                continue
            pairs = [
                (rule.held[j], self.demand.prices_cents[j]) for j in self._order[depth:]
            ]
            pairs = [(held, price) for held, price in pairs if held]
            if not pairs:
                return True
            held, price = min(pairs, key=lambda pair: pair[1] / pair[0])
            least_cost = max(least_cost, -(-need * price // held))
            least_rolls = max(least_rolls, -(-need // max(pairs)[0]))
        assert self._best is not None
        return (cost + least_cost, rolls + least_rolls) > self._best[:2]

    def _take(self, bought: list[int], needs: list[int]) -> None:
        if any(need > 0 for need in needs) or self._is_failed(bought):
            return
        length = sum(n * c for n, c in zip(bought, self.demand.capacities, strict=True))
        key = (self.demand.cost_cents(bought), sum(bought), -length)
        if self._best is None or key < self._best:
            self._best, self._found = key, tuple(bought)

    def _is_failed(self, bought: Sequence[int]) -> bool:
        return any(
            all(n <= most for n, most in zip(bought, failed, strict=True))
            for failed in self.failed
        )


def purchase(demand: Demand) -> Purchase:
    """Return the cheapest purchase that carries all edges.

    Parameters
    ----------
    demand : Demand
        At least one edge, each no longer than a roll that there is.

    Returns
    -------
    Purchase
        The cuts and the least possible cost.
    """
    packer = Packer(demand)
    by_length = Rule(
        tuple(min(c, demand.total) for c in demand.capacities), demand.total
    )
    choice = Cheapest(demand, [by_length])
    programme = Programme(demand, demand.capacities)
    least: int | None = None
    for _ in range(MOST_TRIES):
        bought = choice.next()
        if bought is None:
            break
        cuts = packer.quick(bought)
        proven = True
        if cuts is None:
            cuts, proven = _settle(packer, programme, choice, bought)
        cost = demand.cost_cents(bought)
        if least is None and (cuts is not None or not proven):
            least = cost
        if cuts is not None:
            return Purchase(packer.tidy(cuts), least)
    return Purchase(packer.plain(), least)


def _settle(
    packer: Packer, programme: Programme, choice: Cheapest, bought: tuple[int, ...]
) -> tuple[list[Cut] | None, bool]:
    """Cut these rolls up, or rule them out; tell whether that is proven."""
    if len(choice.rules) == 1:
        choice.rules += _first_rules(choice.demand)
        if not all(rule.allows(bought) for rule in choice.rules):
            return None, True
    rule = programme.solve(bought).rule
    if not rule.allows(bought):
        choice.rules.append(rule)
        return None, True
    cuts = dive(packer, bought)
    if cuts is not None:
        return cuts, True
    search = Exhaustive(packer.demand, SEARCH_STEPS)
    cuts = search.run(packer.demand.counts, bought)
    if cuts is None:
        choice.failed.append(bought)
    return cuts, cuts is not None or not search.stopped


def _first_rules(demand: Demand) -> list[Rule]:
    """Return the rules of real prices: from nothing, and from all that is scarce."""
    programme = Programme(demand, demand.prices_cents)
    scarce = [n if n < len(demand.edges) else 0 for n in demand.at_most]
    nothing = [0] * len(scarce)
    rules = [programme.solve(nothing).rule]
    return [*rules, programme.solve(scarce).rule] if any(scarce) else rules
