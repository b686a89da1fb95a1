"""Hits of a range that holds a stated share: the exact binomial distribution.

C. J. Clopper, E. S. Pearson, Biometrika 26, 1934 (from memory) for the use; the figures
are those of a general-purpose library. 20 lots, 80 %: 12 to 19 hits are the central
95 %, 12 or fewer have chance .0321426631, two-sided exact p at 12 is .0436718781.
"""

import pytest
from scipy.stats import binom, binomtest

from pricebook.records import HitRate


def rate(hits, lots, share):
    return HitRate(hits=hits, lots=lots, unsold=0, stated_share=share)


def test_twenty_lots_with_an_eighty_per_cent_range():
    found = rate(12, 20, 0.8)
    assert found.band == (12, 19)
    assert binom.cdf(12, 20, 0.8) == pytest.approx(0.0321426631, abs=1e-10)
    assert found.chance == pytest.approx(0.0436718781, abs=1e-10)


@pytest.mark.parametrize("share", [0.05, 0.5, 0.8, 0.95])
@pytest.mark.parametrize("lots", [1, 19, 20, 57, 400])
def test_band_and_chance_of_any_number_of_lots(lots, share):
    found = rate(lots // 2, lots, share)
    assert found.band == tuple(binom.interval(0.95, lots, share))
    exact = binomtest(lots // 2, lots, share).pvalue
    assert found.chance == pytest.approx(exact, rel=1e-8)
