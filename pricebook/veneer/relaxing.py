"""The relaxation over a large pool, solved over the few patterns that matter."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pricebook.veneer.master import SCALE, Values, relax
from pricebook.veneer.model import Problem
from pricebook.veneer.pool import Pool

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_AT_FIRST = 3
_AT_A_TIME = 80
_TIMES = 40


@dataclass(slots=True)
class Relaxation:
    """A pool with the patterns that the relaxation works with.

    Parameters
    ----------
    pool : Pool
        All patterns; grows while the relaxation lives.
    active : list of int
        Places in the pool that enter the linear programme.
    cost : int
        What the relaxation cost when last solved, rounded up. [cents]
    """

    pool: Pool
    active: list[int] = field(default_factory=list)
    cost: int = 0

    def solve(self) -> Values | None:
        """Solve over the active patterns until no other one in the pool improves it.

        Returns
        -------
        Values or None
            With a choice for every pattern of the pool; None when the pool cannot
            cover everything.
        """
        import numpy as np

        problem = self.pool.problem
        held, stock_of = self.pool.matrix()
        prices = _scaled_prices(problem)
        if not self.active:
            self.active = _densest(held, stock_of, problem)
        values: Values | None = None
        for _ in range(_TIMES):
            values = relax(held[:, self.active], stock_of[self.active], problem)
            if values is None:
                return self._all(held, stock_of)
            surcharged = prices + np.array(values.stocks)
            missed = surcharged[stock_of] - np.array(values.blocks) @ held
            missed[self.active] = 0
            worst = np.argsort(missed, kind="stable")[:_AT_A_TIME]
            worst = worst[missed[worst] < -SCALE * 1e-5]
            if not len(worst):
                break
            self.active += map(int, worst)
        if values is None:
            return None
        spread = self._spread(values, len(stock_of))
        self._drop_far(surcharged[stock_of] - np.array(values.blocks) @ held, spread)
        return spread

    def _drop_far(self, missed: Array, values: Values) -> None:
        """Drop the patterns furthest from their price when there are many."""
        import numpy as np

        most = 4 * len(self.pool.problem.blocks) + 100
        if len(self.active) > most:
            places = np.array(self.active)
            used = values.choice[places] > 0
            order = np.argsort(np.where(used, -np.inf, missed[places]), kind="stable")
            kept = np.sort(order[: max(most // 2, int(used.sum()))])
            self.active = [int(place) for place in places[kept]]

    def _all(self, held: Array, stock_of: Array) -> Values | None:
        """Fall back on the whole pool when the active patterns do not suffice."""
        if len(self.active) == len(stock_of):
            return None
        self.active = list(range(len(stock_of)))
        values = relax(held, stock_of, self.pool.problem)
        return values and self._spread(values, len(stock_of))

    def _spread(self, values: Values, patterns: int) -> Values:
        import numpy as np

        stock_of = self.pool.matrix()[1][self.active[: len(values.choice)]]
        prices = np.array([float(kind.price) for kind in self.pool.problem.stocks])
        whole = float(prices[stock_of] @ values.choice)
        self.cost = math.ceil(whole - 1e-6 * float(prices.max()))
        choice = np.zeros(patterns)
        choice[self.active[: len(values.choice)]] = values.choice
        return Values(values.blocks, values.stocks, choice)


def _scaled_prices(problem: Problem) -> Array:
    import numpy as np

    prices = np.array([float(kind.price) for kind in problem.stocks])
    scaled: Array = prices / max(float(prices.max()), 1.0) * SCALE
    return scaled


def _densest(held: Array, stock_of: Array, problem: Problem) -> list[int]:
    """Return for each block the patterns that hold it with the most area a price."""
    import numpy as np

    area = np.array([b.forms[0][0] * b.forms[0][1] for b in problem.blocks])
    prices = np.array([kind.price for kind in problem.stocks])
    order = np.argsort(
        -(area @ held) / np.maximum(prices, 1e-3)[stock_of], kind="stable"
    )
    chosen: dict[int, None] = {}
    for block in range(len(problem.blocks)):
        having = order[held[block, order] > 0][:_AT_FIRST]
        chosen.update(dict.fromkeys(map(int, having)))
    return list(chosen)
