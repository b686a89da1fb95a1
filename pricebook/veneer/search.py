"""Chooses the methods by the size of the problem, and keeps the best plan found.

Every limit is a count, never a time, so that every machine gives the same answer.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from pricebook.veneer.bounds import area_bound, round_up_to_price, shape_bound
from pricebook.veneer.columns import Proof, generate, lean, table_for
from pricebook.veneer.cover import chosen_from
from pricebook.veneer.diving import dive, guide, renamed
from pricebook.veneer.evolving import evolve, worth
from pricebook.veneer.exact import plan_if_affordable
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.peeling import peel
from pricebook.veneer.pool import Pool, cost_of, trim
from pricebook.veneer.raising import raise_bound
from pricebook.veneer.related import (
    bound_in_coarser_units,
    of_one_size,
    plan_in_larger_units,
)
from pricebook.veneer.relaxing import Relaxation
from pricebook.veneer.sheet_filling import Filling
from pricebook.veneer.sheet_numbers import SheetNumbers
from pricebook.veneer.sheet_sets import decide
from pricebook.veneer.two_stages import two_stage_plan

Progress = Callable[[int, int, str], None]

_AT_ONCE = 20_000_000
"""So much work of the exact method takes about a tenth of a second."""

_AFFORDABLE = 700_000_000
_FEW_UNITS = 60
_NODES = 20
_CELLS = 40_000
_FEW_KINDS = 40
_FEW_COLUMNS = 250
_RAISING_NODES = 200
_MANY_KINDS = 150
"""Relaxations over more kinds of block than this take too long."""

_LARGE = 250
_KEPT = 60
_ROUNDS = 8_000
_SEED = 1


class Search:
    """One problem, the best plan so far, and the bound so far."""

    def __init__(
        self,
        problem: Problem,
        progress: Progress | None = None,
        ceiling: int | None = None,
    ) -> None:
        import numpy as np

        self.problem = problem
        self.progress = progress
        self.pool = Pool(problem)
        self.best: list[Pattern] | None = None
        least = max(area_bound(problem), shape_bound(problem))
        self.bound = round_up_to_price(least, problem)
        self.units = sum(block.count for block in problem.blocks)
        self.rng = np.random.default_rng(_SEED)
        self.ceiling = ceiling
        self.proof: Proof | None = None
        self.filling: Filling | None = None
        self.numbered = False
        self.relaxation = Relaxation(self.pool)

    @property
    def cost(self) -> int:
        """What the best plan costs. [cents]."""
        if self.best is None:
            return 2 * self.bound + sum(kind.price for kind in self.problem.stocks)
        return cost_of(self.best, self.problem)

    @property
    def done(self) -> bool:
        """Whether nothing cheaper is possible, or nothing below the ceiling."""
        if self.ceiling is not None and self.bound >= self.ceiling:
            return True
        return self.best is not None and self.cost <= self.bound

    def run(self) -> None:
        """Run the methods in turn until the plan is proven or all are through."""
        if self._exact(_AT_ONCE):
            return
        if self.problem.stages is not None:
            free = plan_if_affordable(replace(self.problem, stages=None), _AT_ONCE)
            self.bound = max(self.bound, cost_of(free or [], self.problem))
        # copies make lists of sheets short, and filling part by part long
        copied = self.units >= 2 * len(self.problem.blocks)
        sets = (self._sets, self._numbers)[:: -1 if copied else 1]
        steps: tuple[tuple[str, Callable[[], object]], ...] = (
            ("first plans", self._first),
            ("a first bound", self._bound_of_few),
            ("cheaper sets of sheets", sets[0]),
            ("every selection", partial(self._exact, _AFFORDABLE)),
            ("a bound in coarser units", self._exact_coarser),
            ("other sets of sheets", sets[1]),
            ("sheet by sheet", self._peel),
            ("better orders", self._evolve if self.ceiling is None else self._generate),
            ("a bound", self._generate if self.ceiling is None else self._evolve),
            ("numbers of sheets", self._numbers),
            ("better sheets", self._dive),
            ("the cheapest choice of sheets", self._cover),
            ("fewer stages", self._fewer_stages),
            ("each size of sheet alone", self._alone),
            ("a higher bound", self._raise),
        )
        tell = self.progress or (lambda *_: None)
        for number, (words, step) in enumerate(steps):
            if self.done:
                break
            tell(number, len(steps), words)
            step()
        tell(len(steps), len(steps), "laid out")

    def offer(self, plan: list[Pattern] | None) -> None:
        """Take a plan if it holds everything and is better."""
        whole = trim(plan, self.problem) if plan else None
        if whole is None:
            return
        if self.best is None or worth(whole, self.problem) < worth(
            self.best, self.problem
        ):
            self.best = whole
        self.pool.add(whole)

    def _exact(self, affordable: int) -> bool:
        two = two_stage_plan(self.problem)
        plan = two or plan_if_affordable(self.problem, affordable)
        if plan:
            self.best, self.bound = plan, cost_of(plan, self.problem)
        return bool(plan)

    def _bound_of_few(self) -> None:
        """Prove a bound first: its values rule out many sets at once."""
        if self.units <= _FEW_UNITS and self.ceiling is None:
            self._generate()

    def _sets(self) -> None:
        """Fill or rule out every set of sheets that is better than the best plan."""
        if self.best is None or self.units > _FEW_UNITS:
            return
        below = worth(self.best, self.problem)
        if self.ceiling is not None:
            below = min(below, (self.ceiling, 0))
        self.filling = self.filling or Filling(self.problem)
        worths = self.proof.worths if self.proof else ()
        plan, bound = decide(self.filling, self.bound, below, worths)
        if self.problem.stages is None:
            self.offer(plan)
        self.bound = max(self.bound, min(bound, self.cost))

    def _exact_coarser(self) -> None:
        """Prove a bound on a grid that is coarse enough for the exact method."""
        bound = bound_in_coarser_units(self.problem, _AFFORDABLE // 2)
        self.bound = max(self.bound, bound)

    def _rows(self, rows: int) -> int:
        """Fewer rows for many parts: the work grows with the square of the parts."""
        return max(40, min(rows, 2_400_000 // max(1, self.units**2)))

    def _first(self) -> None:
        rows = self._rows(240)
        self.offer(evolve(self.problem, self.pool, rows, 1, self.bound, _SEED))

    def _evolve(self) -> None:
        generations = 24 if self.units <= 150 else 4
        rows = self._rows(200)
        self.offer(
            evolve(self.problem, self.pool, rows, generations, self.bound, _SEED + 1)
        )

    def _generate(self) -> None:
        if not self.pool.patterns:
            return
        table, exact = table_for(self.problem)
        kinds = len(self.problem.blocks)
        if kinds > _MANY_KINDS and (self.ceiling is not None or not exact):
            return
        rounds = max(8, min(150 if exact else 20, _ROUNDS // kinds))

        def enough(bound: int, relaxed: int) -> bool:
            within = min(self.cost, round_up_to_price(relaxed, self.problem))
            return round_up_to_price(bound, self.problem) >= within

        self.proof = generate(self.pool, table, exact, rounds, enough)
        if self.proof is not None:
            proven = round_up_to_price(self.proof.bound, self.problem)
            self.bound = max(self.bound, proven)

    def _guided(self, rounds: int, rows: int) -> None:
        for _ in range(rounds):
            values = self.relaxation.solve()
            if values is None:
                return
            guide(self.pool, values.blocks, rows, 60, self.rng)

    def _promises(self) -> bool:
        """Return whether the relaxation over known sheets leaves room for less."""
        if self.relaxation.solve() is None:
            return False
        promise = round_up_to_price(self.relaxation.cost, self.problem)
        return self.best is None or promise < self.cost

    def _peel(self) -> None:
        """Fix full sheets of a large problem, and search for what is left."""
        if self.units <= _LARGE:
            return
        fixed, rest, live = peel(self.problem, self._rows(400), _KEPT, self.rng)
        paid = cost_of(fixed, self.problem)
        search = Search(rest, ceiling=self.cost - paid)
        search.run()
        self.offer(fixed + [renamed(pattern, live) for pattern in search.best or ()])

    def _dive(self) -> None:
        if len(self.problem.blocks) > _MANY_KINDS:
            return
        rows = self._rows(400)
        self._guided(12 if self.units <= 250 else 4, rows)
        for _ in range(4 if self.units <= 250 else 1):
            if self._promises():
                break
            self._guided(6, rows)
        most = 1 if self.units > _LARGE else 6 if self.units <= 120 else 3
        for number in range(most if self.ceiling is None else min(most, 2)):
            if self.done or not self._promises():
                return
            shake = 0.3 if number else 0.0
            self.offer(dive(self.pool, rows, self.cost, shake, self.rng))

    def _cover(self) -> None:
        kinds = len(self.problem.blocks)
        values = self.relaxation.solve() if kinds <= _MANY_KINDS else None
        if values is None or not self._promises():
            return
        most = _FEW_COLUMNS if kinds <= _FEW_KINDS else min(700, _CELLS // kinds)
        self.offer(chosen_from(self.pool, lean(self.pool, values.blocks, most), _NODES))

    def _few_kinds(self) -> bool:
        few = len(self.problem.blocks) <= _FEW_KINDS
        return few and self.problem.stages is None and self.ceiling is None

    def _numbers(self) -> None:
        """Try whole numbers of sheets of each size, set by set."""
        if self.numbered or not self.best or not self.proof or not self._few_kinds():
            return
        self.numbered = True
        numbers = SheetNumbers(self.pool, self.proof, self._rows(400))
        plan, bound = numbers.decide(self.bound, worth(self.best, self.problem))
        self.offer(plan)
        self.bound = max(self.bound, min(bound, self.cost))
        if not self.proof.exact and not self.done:
            self.offer(plan_in_larger_units(self.problem, self._rounded))

    def _rounded(self, problem: Problem) -> list[Pattern] | None:
        search = Search(problem)
        search.bound = max(search.bound, self.bound)
        for step in (search._first, search._evolve, search._generate, search._dive):
            step()
        return search.best

    def _alone(self) -> None:
        """Try each size of sheet by itself: a mixture must never be dearer."""
        if self.ceiling is not None:
            return
        for number, alone in of_one_size(self.problem):
            plan = self._plan_of(alone)
            self.offer([Pattern(number, pattern.blocks) for pattern in plan])

    def _plan_of(self, problem: Problem) -> list[Pattern]:
        """Return a cheaper plan for another problem, or nothing."""
        search = Search(problem, ceiling=self.cost)
        if not search.done:
            search.run()
        return search.best or []

    def _fewer_stages(self) -> None:
        """Try two stages where three are allowed: more must never be dearer."""
        if self.problem.stages == 3:
            self.offer(self._plan_of(replace(self.problem, stages=2)))

    def _raise(self) -> None:
        if not self.proof or not self.proof.exact or not self._few_kinds():
            return
        bound, plan = raise_bound(self.proof, self.cost, _RAISING_NODES)
        self.bound = max(self.bound, bound)
        self.offer(plan)
