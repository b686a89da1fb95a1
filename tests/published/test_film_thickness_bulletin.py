"""Theoretical spreading rates by solids and film, and films after thinning.

"Estimating Guide: Theoretical Spreading Rates" and "Relationship of WFT to DFT", a
coatings maker's conversion bulletin (document 104802451 of a public library of
documents): table values computed by it as 1604 * volume solids / dry film, printed
to the whole square foot. Thinned: dry = wet * solids / (1 + thinner), 35 % thinned by
10 % is 32 %; unthinned, 8 mil wet at 35 % is 2.8 mil dry.

Not used: the 72 % cell at 2 mil (printed 527, a slip for 577).
"""

import pytest

from pricebook import finish
from pricebook.finish import cut

SOLIDS = (30, 35, 40, 45, 50, 55, 60, 65, 70, 74, 80, 90, 100)
FEET = {
    1: (481, 561, 642, 722, 802, 882, 962, 1043, 1123, 1187, 1283, 1444, 1604),
    2: (241, 281, 321, 361, 401, 441, 481, 521, 561, 593, 642, 722, 802),
    3: (160, 187, 214, 241, 267, 294, 321, 348, 374, 396, 428, 481, 535),
    8: (60, 70, 80, 90, 100, 110, 120, 130, 140, 148, 160, 180, 201),
}


@pytest.mark.parametrize("mils", FEET)
def test_spreading_rates_are_as_printed(mils):
    ours = [
        finish.coverage_m2_per_l(solids / 100, mils * 25.4, 1)
        * cut.L_PER_US_GAL
        / 0.3048**2
        for solids in SOLIDS
    ]
    # whole feet, and 1604 for 1604.17 (0.17 at most)
    assert ours == pytest.approx(FEET[mils], abs=0.7)


def test_solids_after_thinning():
    assert finish.thinned_solids_share(0.35, 0.10) == pytest.approx(0.32, abs=0.005)


def test_a_wet_film_dries_to_its_solids():
    assert finish.mils(finish.dry_film_um(8 * 25.4, 0.35)) == pytest.approx(2.8)


def test_wet_film_of_a_spread():
    # "wet film thickness formulae" of a gauge maker: 10 mil is 160.417 ft2/gal
    spread_m2_per_l = 160.417 * 0.3048**2 / cut.L_PER_US_GAL
    assert finish.mils(finish.wet_film_um(spread_m2_per_l)) == pytest.approx(
        10, abs=1e-4
    )
