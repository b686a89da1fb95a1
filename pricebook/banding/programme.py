"""The linear programme of the rolls, by column generation, in plain Python.

Given n_j rolls of each kind at hand, buy more of them, in fractions if need be, as
cheaply as possible: minimise sum c_j y_j with sum_p a_ip x_p >= d_i and
y_j - sum_p x_jp >= -n_j, over all ways p to load a roll. With n = 0 it is the
bound of Gilmore and Gomory (1961). Its dual values are weights for a `Rule`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from pricebook.banding.demand import Demand
from pricebook.banding.weights import Rule, heaviest

SCALE = 100_000_000
STEPS = 20_000
TINY = 1e-9
MOST_SIZES = 120
"""Above this many different lengths, close ones share a weight."""


@dataclass(slots=True)
class Column:
    """One variable: a load on a kind of roll, a purchase or a slack."""

    entries: tuple[tuple[int, float], ...]
    cost: float
    kind: int = -1
    load: tuple[int, ...] = ()


@dataclass(slots=True)
class Programme:
    """The programme for one demand; loads found are kept for the next call.

    Parameters
    ----------
    demand : Demand
        Edges and rolls.
    """

    demand: Demand
    sizes: list[int] = field(init=False)
    counts: list[int] = field(init=False)
    loads: list[Column] = field(init=False)
    merged: bool = field(init=False)

    def __post_init__(self) -> None:
        """Merge close lengths when there are too many, each down to the shortest."""
        sizes, counts = list(self.demand.sizes), list(self.demand.counts)
        self.merged = len(sizes) > MOST_SIZES
        while len(sizes) > MOST_SIZES:
            gaps = [(sizes[i] - sizes[i + 1], i) for i in range(len(sizes) - 1)]
            i = min(gaps)[1]
            counts[i + 1] += counts[i]
            del sizes[i], counts[i]
        self.sizes, self.counts, self.loads = sizes, counts, []

    def solve(
        self, at_hand: Sequence[int], counts: Sequence[int] | None = None
    ) -> tuple[Rule, list[tuple[float, Column]]]:
        """Return the rule that the dual values make, and the loads in use.

        Parameters
        ----------
        at_hand : sequence of int
            Rolls of each kind that cost nothing more. [-]
        counts : sequence of int
            Edges of each length; all of the demand unless given. [-]

        Returns
        -------
        tuple of Rule and list of (float, Column)
            The rule holds for any set of rolls for these counts; the loads come
            with how often each is used, in fractions.
        """
        wanted = self.counts if counts is None else list(counts)
        tableau = self._start(at_hand, wanted)
        most = 40 * (len(wanted) + len(at_hand)) + 400
        rule = Rule((0,) * len(at_hand), 0)
        for _ in range(most):
            dual = tableau.dual()
            column = self._cheap(tableau, dual)
            if column is None:
                rule, column = self._price(dual, wanted, tableau)
            if column is None or not tableau.enter(column):
                break
        return rule, tableau.loads()

    def _start(self, at_hand: Sequence[int], wanted: list[int]) -> Tableau:
        rows = len(wanted)
        basis: list[Column] = []
        used = [0.0] * len(at_hand)
        for i, size in enumerate(self.sizes):
            most = max(1, wanted[i])
            kind = min(
                (j for j, c in enumerate(self.demand.capacities) if c >= size),
                key=lambda j: (
                    self.demand.prices_cents[j]
                    / min(most, self.demand.capacities[j] // self.sizes[i]),
                    j,
                ),
            )
            times = min(most, self.demand.capacities[kind] // size)
            load = tuple(times if k == i else 0 for k in range(rows))
            basis.append(_loaded(load, kind, rows))
            used[kind] += wanted[i] / times
        for j, price in enumerate(self.demand.prices_cents):
            buy = used[j] >= at_hand[j]
            entry = ((rows + j, 1.0 if buy else -1.0),)
            basis.append(Column(entry, float(price) if buy else 0.0))
        right = [float(n) for n in wanted] + [-float(n) for n in at_hand]
        return Tableau(basis, right, self.demand.prices_cents)

    def _cheap(self, tableau: Tableau, dual: list[float]) -> Column | None:
        """Return a slack, a purchase or a known load that lowers the cost."""
        best, found = -TINY * 100, None
        for column in [*tableau.plain, *self.loads]:
            gain = column.cost - sum(dual[i] * a for i, a in column.entries)
            if gain < best:
                best, found = gain, column
        return found

    def _price(
        self, dual: list[float], wanted: list[int], tableau: Tableau
    ) -> tuple[Rule, Column | None]:
        """Return the rule of these dual values and a new load that would pay."""
        rows = len(wanted)
        scale = SCALE / max(self.demand.prices_cents)
        weights = [max(0, int(value * scale)) for value in dual[:rows]]
        held, best, found = [], scale * TINY * 1000, None
        for j, capacity in enumerate(self.demand.capacities):
            load = heaviest(weights, self.sizes, wanted, capacity, STEPS)
            held.append(load.bound)
            gain = load.weight - dual[rows + j] * scale
            if gain > max(best, 2 * rows + 2):
                best, found = gain, _loaded(tuple(load.load), j, rows)
        needed = sum(w * n for w, n in zip(weights, wanted, strict=True))
        if found is not None:
            self.loads.append(found)
        return Rule(tuple(held), needed), found


def _loaded(load: tuple[int, ...], kind: int, rows: int) -> Column:
    entries = tuple((i, float(n)) for i, n in enumerate(load) if n)
    return Column((*entries, (rows + kind, -1.0)), 0.0, kind, load)


class Tableau:
    """A revised simplex with the inverse of the basis kept as rows of numbers."""

    def __init__(
        self, basis: list[Column], right: list[float], prices: Sequence[int]
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
            Column(((rows + j, 1.0),), float(price)) for j, price in enumerate(prices)
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

    def loads(self) -> list[tuple[float, Column]]:
        """Return the loads in the basis and how often each is used."""
        pairs = zip(self.value, self.basis, strict=True)
        return [(n, column) for n, column in pairs if column.kind >= 0 and n > TINY]
