"""Shellac by its cut, films, finish systems and the plan of a finish."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import finish
from pricebook.errors import PricebookError, SpecError

CUTS = st.floats(0.05, 6)
LITRES = st.floats(0.001, 1000)
SHARES = st.floats(0.01, 1)
FILMS = st.floats(1, 500)
NO_NUMBERS = [math.nan, math.inf, -math.inf, True, "2", None, 10**400, -1]


@given(CUTS, CUTS, CUTS)
@settings(max_examples=50)
def test_thinning_in_two_steps_takes_as_much_alcohol_as_in_one(a, b, c):
    light, middle, heavy = sorted((a, b, c))
    once = finish.dilute(heavy, light)
    first = finish.dilute(heavy, middle)
    second = finish.dilute(middle, light) * (1 + first)
    assert first + second == pytest.approx(once, rel=1e-9, abs=1e-9)


@given(CUTS, CUTS, LITRES)
@settings(max_examples=50)
def test_thinning_gives_what_mixing_from_flakes_gives(a, b, alcohol_l):
    light, heavy = sorted((a, b))
    flakes = finish.flakes_kg(heavy, alcohol_l)
    mixed = finish.mixed_l(heavy, alcohol_l)
    alcohol = alcohol_l + finish.dilute(heavy, light) * mixed
    assert finish.flakes_kg(light, alcohol) == pytest.approx(flakes, rel=1e-9)


@given(CUTS, LITRES)
@settings(max_examples=50)
def test_a_batch_comes_to_the_volume_that_was_wanted(cut_lb, wanted_l):
    found = finish.batch(cut_lb, wanted_l)
    assert finish.mixed_l(cut_lb, found.alcohol_l) == pytest.approx(wanted_l)
    assert finish.flakes_kg(cut_lb, found.alcohol_l) == pytest.approx(found.flakes_kg)


@given(CUTS, LITRES)
@settings(max_examples=50)
def test_the_solids_of_a_cut_are_what_the_flakes_added_to_the_volume(cut_lb, alcohol_l):
    mixed = finish.mixed_l(cut_lb, alcohol_l)
    share = (mixed - alcohol_l) / mixed
    assert finish.cut_solids_share(cut_lb) == pytest.approx(share, rel=1e-6)


@given(SHARES, FILMS, SHARES)
@settings(max_examples=50)
def test_the_coverage_lays_down_the_film_that_was_wanted(solids, film_um, transfer):
    spread_on_work = finish.coverage_m2_per_l(solids, film_um, transfer) / transfer
    wet = finish.wet_film_um(spread_on_work)
    assert finish.dry_film_um(wet, solids) == pytest.approx(film_um)


def test_a_quart_of_two_pound_shellac():
    # 0.25 gal * 1.6667 lb/gal = 6.667 oz of flakes; 0.25/1.2 gal = 26.667 fl oz
    quart = finish.batch(2, 0.946352946)
    assert quart.flakes_kg / 0.028349523125 == pytest.approx(6.667, abs=0.001)
    assert quart.alcohol_l / 0.0295735295625 == pytest.approx(26.667, abs=0.001)


@pytest.mark.parametrize("bad", [0, 6.01, *NO_NUMBERS])
def test_a_cut_of_zero_above_six_or_no_number_is_refused(bad):
    for call in (
        lambda: finish.flakes_kg(bad, 1),
        lambda: finish.mixed_l(bad, 1),
        lambda: finish.batch(bad, 1),
        lambda: finish.dilute(bad, 1),
        lambda: finish.dilute(2, bad),
        lambda: finish.cut_solids_share(bad),
    ):
        with pytest.raises(SpecError, match=r"cut is .* it must be"):
            call()


@pytest.mark.parametrize("bad", [0, 1.01, *NO_NUMBERS])
def test_solids_and_shares_outside_zero_to_one_are_refused(bad):
    with pytest.raises(SpecError, match=r"solids is .* it must be"):
        finish.coverage_m2_per_l(bad, 25, 1)
    with pytest.raises(SpecError, match=r"share on the work is .* it must be"):
        finish.coverage_m2_per_l(0.3, 25, bad)


@pytest.mark.parametrize("bad", [0, *NO_NUMBERS])
def test_amounts_and_films_of_nothing_are_refused(bad):
    for call in (
        lambda: finish.flakes_kg(2, bad),
        lambda: finish.mixed_l(2, bad),
        lambda: finish.batch(2, bad),
        lambda: finish.coverage_m2_per_l(0.3, bad, 1),
        lambda: finish.wet_film_um(bad),
        lambda: finish.dry_film_um(bad, 0.3),
    ):
        with pytest.raises(SpecError, match=r"it must be .*more than 0"):
            call()


def test_all_numbers_out_of_range_are_named_at_once():
    with pytest.raises(SpecError, match="solids") as caught:
        finish.coverage_m2_per_l(0, -1, 2)
    assert len(caught.value.faults) == 3


def test_thinning_to_a_heavier_cut_is_refused():
    with pytest.raises(PricebookError, match="1-lb cut cannot be thinned to a 2-lb"):
        finish.dilute(1, 2)


def test_dye_is_a_dose_a_litre():
    assert finish.dye_ml(12, 0.5) == 6
    with pytest.raises(SpecError, match="dye dose is -1"):
        finish.dye_ml(-1, 1)
