"""The linear programme of the rolls, by column generation, in plain Python.

Given n_j rolls of each kind at hand, buy more of them, in fractions if need be, as
cheaply as possible: minimise sum c_j y_j with sum_p a_ip x_p >= d_i and
y_j - sum_p x_jp >= -n_j, over all ways p to load a roll. With n = 0 it is the
bound of Gilmore and Gomory (1961). Its dual values are weights for a `Rule`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pricebook.banding.demand import Demand
from pricebook.banding.weights import Rule, heaviest

SCALE = 100_000_000
QUICK_STEPS, STEPS = 1_500, 20_000
"""How far a load is searched at first, and before it is said that none pays."""

TINY = 1e-9
MOST_SIZES = 80
"""Above this many different lengths, close ones share a weight."""


@dataclass(slots=True)
class Column:
    """One variable: a load on a kind of roll, a purchase or a slack."""

    entries: tuple[tuple[int, float], ...]
    cost: float
    kind: int = -1
    load: tuple[int, ...] = ()
    bought: bool = False


@dataclass(frozen=True, slots=True)
class Answer:
    """What the programme says.

    Parameters
    ----------
    rule : Rule
        The rule of its dual values.
    short : bool
        Whether the rolls at hand are too few even with cuts in fractions.
    uses : list of (float, int, tuple of int)
        How often which kind of roll carries which load.
    """

    rule: Rule
    short: bool
    uses: list[tuple[float, int, tuple[int, ...]]]


class Programme:
    """The programme for one demand; loads found are kept for the next call.

    Parameters
    ----------
    demand : Demand
        Edges and rolls.
    prices : sequence of int
        What a roll of each kind costs here: any numbers above 0 make true rules.
    left : sequence of int
        How many edges there are of each length; all of the demand unless given. [-]
    thrift : float
        Share of its price that a roll at hand costs when it is used. [-]
    """

    def __init__(
        self,
        demand: Demand,
        prices: Sequence[int],
        left: Sequence[int] | None = None,
        thrift: float = 0.0,
    ) -> None:
        self.demand = demand
        self.prices = [price / max(prices) for price in prices]
        self.thrift = thrift
        whole = demand.counts if left is None else left
        self.rows = [i for i, n in enumerate(whole) if n]
        self.sizes = [demand.sizes[i] for i in self.rows]
        self.wanted = [whole[i] for i in self.rows]
        self.merged = len(self.sizes) > MOST_SIZES
        self._merge()
        self.known: list[Column] = []

    def learn(self, kind: int, load: Sequence[int]) -> None:
        """Take a load over all lengths as known, as far as edges are left for it."""
        narrow = [min(load[i], n) for i, n in zip(self.rows, self.wanted, strict=True)]
        if any(narrow):
            self.known.append(self._column(tuple(narrow), kind))

    def _merge(self) -> None:
        """Let close lengths share a weight, the shortest for all, so rules hold."""
        sizes, wanted = self.sizes, self.wanted
        while len(sizes) > MOST_SIZES:
            i = min(range(len(sizes) - 1), key=lambda i: sizes[i] - sizes[i + 1])
            wanted[i + 1] += wanted[i]
            del sizes[i], wanted[i]

    def solve(self, at_hand: Sequence[int]) -> Answer:
        """Return the rule that the dual values make, and the loads in use.

        Parameters
        ----------
        at_hand : sequence of int
            Rolls of each kind that need not be bought. [-]

        Returns
        -------
        Answer
            The rule holds for any set of rolls for these edges.
        """
        tableau = self._start(at_hand)
        rule = Rule((0,) * len(at_hand), 0)
        for _ in range(40 * (len(self.sizes) + len(at_hand)) + 400):
            dual = tableau.dual()
            column = self._cheap(tableau, dual)
            if column is None:
                rule, column = self._price(dual, QUICK_STEPS)
                if column is None and not self.thrift:
                    rule, column = self._price(dual, STEPS)
            if column is None or not tableau.enter(column):
                break
        pairs = [(n, c) for n, c in tableau.in_use() if n > 1e-7]
        short = any(c.bought for _, c in pairs)
        uses = [(n, c.kind, self._spread(c.load)) for n, c in pairs if c.load]
        return Answer(rule, short, uses)

    def _spread(self, load: Sequence[int]) -> tuple[int, ...]:
        """Return a load over all lengths of the demand."""
        wide = [0] * len(self.demand.sizes)
        if not self.merged:
            for i, n in zip(self.rows, load, strict=True):
                wide[i] = n
        return tuple(wide)

    def _start(self, at_hand: Sequence[int]) -> Tableau:
        """Begin with loads of one length each, on the kind cheapest for it."""
        prices, rows = self.prices, len(self.sizes)
        used = [0.0] * len(at_hand)
        basis = []
        for i, (size, n) in enumerate(zip(self.sizes, self.wanted, strict=True)):
            each = [min(n, c // size) for c in self.demand.capacities]
            fitting = [j for j, times in enumerate(each) if times]
            kind = min(fitting, key=lambda j: (prices[j] / each[j], j))
            load = tuple(each[kind] if k == i else 0 for k in range(rows))
            basis.append(self._column(load, kind))
            used[kind] += n / each[kind]
        for j, price in enumerate(prices):
            buy = used[j] >= at_hand[j]
            sign, cost = (1.0, price) if buy else (-1.0, 0.0)
            basis.append(Column(((rows + j, sign),), cost, bought=buy))
        right = [float(n) for n in self.wanted] + [-float(n) for n in at_hand]
        return Tableau(basis, right, prices)

    def _column(self, load: tuple[int, ...], kind: int) -> Column:
        entries = [(i, float(n)) for i, n in enumerate(load) if n]
        entries.append((len(self.sizes) + kind, -1.0))
        cost = self.thrift * self.prices[kind]
        return Column(tuple(entries), cost, kind, load)

    def _cheap(self, tableau: Tableau, dual: list[float]) -> Column | None:
        """Return a slack, a purchase or a known load that lowers the cost."""
        best, found = -TINY, None
        for column in [*tableau.plain, *self.known]:
            gain = column.cost - sum(dual[i] * a for i, a in column.entries)
            if gain < best:
                best, found = gain, column
        return found

    def _price(self, dual: list[float], steps: int) -> tuple[Rule, Column | None]:
        """Return the rule of these dual values and a new load that would pay."""
        rows = len(self.sizes)
        scale = SCALE / max(1e-12, *dual[:rows])
        weights = [max(0, int(value * scale)) for value in dual[:rows]]
        enough = SCALE * 1e-8 + 2 * rows
        held, best, found = [], enough, None
        for j, capacity in enumerate(self.demand.capacities):
            load = heaviest(weights, self.sizes, self.wanted, capacity, steps)
            held.append(load.bound)
            cost = dual[rows + j] + self.thrift * self.prices[j]
            if load.weight - cost * scale > enough:
                column = self._column(tuple(load.load), j)
                self.known.append(column)
                if load.weight - cost * scale > best:
                    best, found = load.weight - cost * scale, column
        needed = sum(w * n for w, n in zip(weights, self.wanted, strict=True))
        return Rule(tuple(held), needed), found


class Tableau:
    """A revised simplex with the inverse of the basis kept as rows of numbers."""

    def __init__(
        self, basis: list[Column], right: list[float], prices: Sequence[float]
    ) -> None:
        size, rows = len(basis), len(basis) - len(prices)
        self.basis = basis
        self.inverse = [[0.0] * size for _ in range(size)]
        for i in range(rows):
            self.inverse[i][i] = 1.0 / basis[i].entries[0][1]
        for j in range(rows, size):
            sign = basis[j].entries[0][1]
            self.inverse[j][j] = sign
            for i in range(rows):
                if basis[i].kind == j - rows:
                    self.inverse[j][i] = sign * self.inverse[i][i]
        self.value = [
            sum(a * b for a, b in zip(row, right, strict=True)) for row in self.inverse
        ]
        self.plain = [Column(((i, -1.0),), 0.0) for i in range(size)]
        self.plain += [
            Column(((rows + j, 1.0),), price, bought=True)
            for j, price in enumerate(prices)
        ]

    def dual(self) -> list[float]:
        """Return the dual value of each row."""
        dual = [0.0] * len(self.basis)
        for column, row in zip(self.basis, self.inverse, strict=True):
            if column.cost:
                dual = [d + column.cost * a for d, a in zip(dual, row, strict=True)]
        return dual

    def enter(self, column: Column) -> bool:
        """Bring a column into the basis; tell whether there was a row for it."""
        ray = [sum(row[i] * a for i, a in column.entries) for row in self.inverse]
        leaving, least = -1, float("inf")
        for i, step in enumerate(ray):
            if step > TINY:
                ratio = max(0.0, self.value[i]) / step
                if ratio < least - 1e-12 or (ratio < least + 1e-12 and leaving < 0):
                    leaving, least = i, ratio
        if leaving < 0:
            return False
        pivot = [a / ray[leaving] for a in self.inverse[leaving]]
        amount = self.value[leaving] / ray[leaving]
        for i, step in enumerate(ray):
            if i != leaving and step:
                row = self.inverse[i]
                self.inverse[i] = [
                    a - step * b for a, b in zip(row, pivot, strict=True)
                ]
                self.value[i] -= step * amount
        self.inverse[leaving], self.value[leaving] = pivot, amount
        self.basis[leaving] = column
        return True

    def in_use(self) -> list[tuple[float, Column]]:
        """Return the columns in the basis and the value of each."""
        return list(zip(self.value, self.basis, strict=True))
