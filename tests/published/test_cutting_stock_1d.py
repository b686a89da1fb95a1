"""Cutting stock in one dimension, against worked examples with known optima.

Chvátal, V., Linear Programming, W. H. Freeman, 1983, chapter 13: finals of 45, 36, 31
and 14 in from rolls of 100 in; the fractional optimum is 452.25 and 453 rolls do.
The page was not seen when this was typed in.

The paper-mill example of operations-research teaching (general encyclopaedia, article
'Cutting stock problem'): parent rolls of 5,600 mm, thirteen widths, 73 rolls at the
least.

No tolerance: the figures are whole numbers and proven.

Sources: chvatal_1983, cutting_stock_mill, gilmore_gomory_1961,
valerio_de_carvalho_1999.
"""

import time

import pytest

from pricebook import banding

FINALS_IN = {45: 97, 36: 610, 31: 395, 14: 211}
WIDTHS_MM = {
    1380: 22,
    1520: 25,
    1560: 12,
    1710: 14,
    1820: 18,
    1880: 18,
    1930: 20,
    2000: 10,
    2050: 12,
    2100: 14,
    2140: 16,
    2150: 18,
    2200: 20,
}


def each(counts):
    return [size for size, n in counts.items() for _ in range(n)]


@pytest.mark.unconfirmed
def test_chvatals_finals_need_453_rolls():
    answer = banding.rolls([25.4 * size for size in each(FINALS_IN)], [(2540, 1)])

    assert (answer.cost_cents, answer.proven) == (453, True)


def test_the_paper_mill_needs_73_rolls():
    answer = banding.rolls(each(WIDTHS_MM), [(5600, 1)])

    assert (answer.cost_cents, answer.proven) == (73, True)


@pytest.mark.benchmark
def test_the_times_of_both_examples(capsys):
    with capsys.disabled():
        for name, counts, roll in [
            ("1,313 finals", FINALS_IN, 100),
            ("219 widths", WIDTHS_MM, 5600),
        ]:
            began = time.perf_counter()
            answer = banding.rolls(each(counts), [(roll, 1)])
            took_ms = 1000 * (time.perf_counter() - began)
            print(f"\n{name}: {answer.cost_cents} rolls in {took_ms:.0f} ms", end="")
            assert answer.proven
