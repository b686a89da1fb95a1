"""Least squares against the certified data sets Norris and Longley (nist_strd).

Certified by NIST's Statistical Reference Datasets; data and figures from memory, then
seen again in public test suites that quote them. Norris tests `hedonic` (36 rows),
Longley `censored_regression` without a limit (16 rows, strongly collinear).
"""

import math

import numpy as np
import pytest

from pricebook.bidding import censored_regression, hedonic

NORRIS_Y = """0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1
778.1 668.8 339.3 448.9 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0
998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2"""
NORRIS_X = """0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6
775.5 666.9 338.0 447.5 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2
999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5"""

LONGLEY = """60323 83.0 234289 2356 1590 107608 1947
61122 88.5 259426 2325 1456 108632 1948
60171 88.2 258054 3682 1616 109773 1949
61187 89.5 284599 3351 1650 110929 1950
63221 96.2 328975 2099 3099 112075 1951
63639 98.1 346999 1932 3594 113270 1952
64989 99.0 365385 1870 3547 115094 1953
63761 100.0 363112 3578 3350 116219 1954
66019 101.2 397469 2904 3048 117388 1955
67857 104.6 419180 2822 2857 118734 1956
68169 108.4 442769 2936 2798 120445 1957
66513 110.8 444546 4681 2637 121950 1958
68655 112.6 482704 3813 2552 123366 1959
69564 114.2 502601 3931 2514 125368 1960
69331 115.7 518173 4806 2572 127852 1961
70551 116.9 554894 4007 2827 130081 1962"""

SHRUNK = 100
"""e^998 is no price, so the logarithms are a hundredth of Norris's y."""


def norris():
    y = [float(word) for word in NORRIS_Y.split()]
    x = [[float(word)] for word in NORRIS_X.split()]
    return hedonic([math.exp(v / SHRUNK) for v in y], x, ["x"])


@pytest.mark.unconfirmed
def test_norris_gives_the_certified_line():
    fit = norris()

    line = np.array(fit.coefficients) * SHRUNK
    errors = np.array(fit.standard_errors) * SHRUNK
    assert line == pytest.approx((-0.262323073774029, 1.00211681802045), rel=1e-10)
    assert errors == pytest.approx((0.232818234301152, 0.429796848199937e-3), rel=1e-10)
    assert fit.r_squared == pytest.approx(0.999993745883712, rel=1e-13)
    assert fit.residual_standard_error * SHRUNK == pytest.approx(
        0.884796396144373, rel=1e-10
    )
    assert (fit.sales, fit.degrees) == (36, 34)


@pytest.mark.unconfirmed
def test_longley_gives_the_certified_line():
    rows = [[float(word) for word in line.split()] for line in LONGLEY.splitlines()]

    fit = censored_regression(
        [row[0] for row in rows], [row[1:] for row in rows], censored_below=-math.inf
    )

    certified = (
        -3482258.63459582,
        15.0618722713733,
        -0.358191792925910e-1,
        -2.02022980381683,
        -1.03322686717359,
        -0.511041056535807e-1,
        1829.15146461355,
    )
    assert fit.coefficients == pytest.approx(certified, rel=1e-10)
    # certified with 9 degrees of freedom; the likeliest spread divides by 16
    assert fit.sigma * math.sqrt(16 / 9) == pytest.approx(304.854073561965, rel=1e-10)
