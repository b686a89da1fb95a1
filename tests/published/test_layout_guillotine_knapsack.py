"""Guillotine knapsack optima printed in the operations-research literature.

Sources: N. Christofides & C. Whitlock, "An algorithm for two-dimensional cutting
problems", Operations Research 25 (1977), instance cgcut1: 244 with the copies as
given; 249 without a limit on copies. J. F. Oliveira & J. S. Ferreira, "An improved
version of Wang's algorithm for two-dimensional cutting problems", European Journal of
Operational Research 44 (1990), instance OF1: 2,737 with the copies as given, 2,758
without a limit; in two stages, 2,713 where the first cuts run one way and 2,660 where
they run the other. The values with limits are proven in later published tables.

The table of the column generation lets every block be cut any number of times, so it
must give the values without a limit exactly. With limits, the exact tables of boxes
say which selections fit, and the most valuable one is the published optimum.

Keys: christofides_whitlock_1977, oliveira_ferreira_1990, gilmore_gomory_1966,
farley_1990, fekete_schepers_2004.
"""

import numpy as np
import pytest

from pricebook.veneer.boxes import Selections, build, grid
from pricebook.veneer.knapsack import Knapsack
from pricebook.veneer.model import Block, Problem, Stock
from pricebook.veneer.two_stages import Strips

CGCUT1 = (15, 10), [
    (8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17),
    (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2),
]  # fmt: skip
OF1 = (70, 40), [
    (29, 5, 1, 145), (9, 39, 4, 351), (55, 9, 1, 495), (31, 15, 1, 465),
    (11, 16, 2, 176), (23, 21, 3, 483), (29, 14, 4, 406), (16, 19, 3, 304),
    (9, 36, 2, 324), (22, 4, 2, 88),
]  # fmt: skip


def problem(instance, limited):
    (along, across), rows = instance
    often = [along * across // (a * c) for a, c, _, _ in rows]
    return Problem(
        blocks=tuple(
            Block(forms=((a, c),), count=n if limited else most, members=())
            for (a, c, n, _), most in zip(rows, often, strict=True)
        ),
        stocks=(Stock(along=along, across=across, price=1),),
    )


@pytest.mark.parametrize(
    ("instance", "optimum"), [(CGCUT1, 249), (OF1, 2758)], ids=["cgcut1", "OF1"]
)
def test_the_table_gives_the_published_value_without_limits(instance, optimum):
    free = problem(instance, limited=False)
    table = Knapsack(free, grid(free, 0, 999), grid(free, 1, 999))
    values = [value for *_, value in instance[1]]
    table.fill(values)
    pattern = table.pattern(0, values)
    assert table.worth(0) == optimum
    assert sum(values[block] for block, *_ in pattern.blocks) == optimum


@pytest.mark.parametrize(
    ("instance", "optimum"), [(CGCUT1, 244), (OF1, 2737)], ids=["cgcut1", "OF1"]
)
def test_the_best_selection_that_fits_has_the_published_value(instance, optimum):
    limited = problem(instance, limited=True)
    boxes = build(limited, grid(limited, 0, 999), grid(limited, 1, 999))
    values = [value for *_, value in instance[1]]
    fitting = (boxes.row >= 0).nonzero()[0]
    worth = [
        sum(v * n for v, n in zip(values, boxes.selections.digits(int(s)), strict=True))
        for s in fitting
        if boxes.length[boxes.row[s], -1] <= limited.stocks[0].along
    ]
    assert max(worth) == optimum


def test_the_best_selections_in_two_stages_have_the_published_values():
    limited = problem(OF1, limited=True)
    counts = tuple(block.count for block in limited.blocks)
    chosen, worth = Selections(counts), np.zeros(1)
    for (*_, value), count in zip(OF1[1], counts, strict=True):
        worth = (np.arange(count + 1)[:, None] * value + worth).ravel()
    along, across = OF1[0]
    one = Strips(limited, chosen, 0, along, across).length <= along
    other = Strips(limited, chosen, 1, across, along).length <= across
    assert sorted((worth[one].max(), worth[other].max())) == [2660, 2713]
