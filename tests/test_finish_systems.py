"""Finish systems as the shop writes them, and the plan of a finish."""

import csv
import re
import tomllib
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import finish
from pricebook.errors import SpecError, TableError, UnitError
from pricebook.finish import Coat, FinishSystem

DATA = Path(__file__).parent.parent / "data"
BUILD = Coat(
    name="build",
    times=3,
    method="spray",
    share_on_work=0.65,
    material="shellac flakes",
    thinner="alcohol",
    cut_lb=1.5,
    spread_m2_per_l=8.1,
    recoat_min=45,
)
SEALER = replace(BUILD, name="sealer", times=1, cut_lb=1, scuff_grit=320)
CLEAR = Coat(
    name="build",
    times=2,
    method="brush",
    share_on_work=0.9,
    material="lacquer",
    solids_share=0.2,
    dry_film_um=20,
)
GOOD = """
["sprayed shellac"]
name = "Sprayed shellac"
kind = "shellac"
date = 2026-11-01
source = "common practice, no source"
usual_film_um = [51, 102]
[["sprayed shellac".coats]]
name = "build"
times = 3
method = "spray"
material = "shellac flakes"
thinner = "alcohol"
cut_lb = 1.5
spread_m2_per_l = 8.1
share_on_work = 0.65
"""


def system(*coats, **wishes):
    return FinishSystem(
        key="test",
        name="Test finish",
        kind="shellac",
        coats=coats,
        dated=date(2026, 11, 1),
        source="common practice, no source",
        **wishes,
    )


def amounts(plan):
    return {(need.item, need.unit): need.quantity for need in plan.needs}


def faults(text, key="sprayed shellac", guns=None):
    with pytest.raises(TableError, match=r"sprayed shel+ac") as caught:
        finish.finish_system(key, tomllib.loads(text), guns)
    return caught.value.faults


def test_three_sprayed_coats_by_pencil():
    plan = finish.plan_finish(3.42, system(BUILD))
    # 3 * 3.42 / 8.1 / 0.65 = 1.94872 L; / 1.15 = 1.69454 L alcohol;
    # * 1.5 * 0.119826427 = 0.30458 kg
    assert plan.mixed_l == pytest.approx(1.94872, abs=1e-5)
    assert amounts(plan) == {
        ("shellac flakes", "kg"): pytest.approx(0.30458, abs=1e-5),
        ("alcohol", "l"): pytest.approx(1.69454, abs=1e-5),
    }
    # 1000/8.1 = 123.46 um wet; * 0.15/1.15 = 16.103 um dry, three times
    assert plan.rows[0].coat.wet_um == pytest.approx(123.46, abs=0.01)
    assert plan.dry_um == pytest.approx(3 * 16.103, abs=0.01)


def test_the_working_can_be_followed_in_both_unit_systems():
    metric = finish.plan_finish(3.42, system(BUILD)).needs[0].how
    inches = finish.plan_finish(3.42, system(BUILD), lengths="in").needs[0].how
    assert "3 coats x 3.42 m2 over 8.1 m2/L, 65 % on the work" in metric
    # 3.42 / 0.09290304 = 36.8; 8.1 * 3.785411784 / 0.09290304 = 330.0
    assert "3 coats x 36.8 sq ft over 330 sq ft/gal, 65 % on the work" in inches
    with pytest.raises(UnitError, match="furlong"):
        finish.plan_finish(3.42, system(BUILD), lengths="furlong")


def test_a_thin_sealer_and_heavier_build_coats_keep_their_own_cuts():
    plan = finish.plan_finish(2, system(SEALER, BUILD))
    one, three = plan.rows
    assert one.from_flakes.cut_lb == 1
    assert three.from_flakes.cut_lb == 1.5
    assert plan.flakes_kg == pytest.approx(
        one.from_flakes.flakes_kg + three.from_flakes.flakes_kg
    )
    assert plan.dry_um == pytest.approx(SEALER.dry_um + 3 * BUILD.dry_um)


def test_shellac_bought_ready_mixed_is_thinned_with_alcohol():
    can = replace(BUILD, material="mixed shellac", stock_cut_lb=3)
    plan = finish.plan_finish(3.42, system(can))
    # (3/1.5 - 1) / 1.3 = 0.76923 parts of alcohol to one of the can
    assert plan.thinner_l / amounts(plan)["mixed shellac", "l"] == pytest.approx(
        0.76923, abs=1e-5
    )
    assert plan.mixed_l == pytest.approx(1.94872, abs=1e-5)
    assert plan.flakes_kg == 0


def test_thinned_finish_is_split_into_finish_and_thinner():
    thin = replace(CLEAR, thinner="lacquer thinner", thinner_parts=0.25)
    plan = finish.plan_finish(4.5, system(thin))
    # solids 0.2/1.25 = 0.16; 1000*0.16/20 = 8 m2/L; 2*4.5/8/0.9 = 1.25 L
    assert amounts(plan) == {
        ("lacquer", "l"): pytest.approx(1.0),
        ("lacquer thinner", "l"): pytest.approx(0.25),
    }


def test_cup_and_cleaning_losses_come_once_a_filling_and_once_a_session():
    coat = replace(BUILD, cup_ml=90)
    found = system(coat, coats_per_session=2, cleaner="alcohol", cleaning_ml=180)
    plan = finish.plan_finish(3.42, found)
    assert plan.sessions == 2
    assert plan.mixed_l == pytest.approx(1.94872 + 0.18, abs=1e-5)
    assert plan.cleaner_l == pytest.approx(0.36)
    mixing = plan.rows[0].thinner_l
    assert amounts(plan)["alcohol", "l"] == pytest.approx(mixing + 0.36)


def test_dye_follows_the_litres_of_its_coat():
    toner = replace(SEALER, dye="alcohol dye", dye_ml_per_l=12)
    plan = finish.plan_finish(2, system(toner, BUILD))
    litres = plan.rows[0].mixed_l
    assert amounts(plan)["alcohol dye", "ml"] == pytest.approx(12 * litres)


@pytest.mark.parametrize(
    ("times", "word"), [(3, "thin"), (4, "usual"), (6, "usual"), (7, "heavy")]
)
def test_the_total_film_has_a_word(times, word):
    # 16.103 um a coat: 48, 64, 97 and 113 um against 51 to 102
    found = system(replace(BUILD, times=times), usual_film_um=(51, 102))
    plan = finish.plan_finish(2, found)
    assert plan.build == word
    assert [word in note for note in plan.notes] == ([] if word == "usual" else [True])


def test_a_mix_that_grows_too_old_before_the_auction_is_named():
    found = system(BUILD, shelf_life_days=180)
    old = finish.plan_finish(
        2, found, mixed_on=date(2026, 1, 1), auction_on=date(2026, 7, 1)
    )
    fresh = finish.plan_finish(
        2, found, mixed_on=date(2026, 1, 2), auction_on=date(2026, 7, 1)
    )
    assert "181 days old" in old.notes[0]
    assert fresh.notes == ()
    with pytest.raises(SpecError, match="before the finish is mixed"):
        finish.plan_finish(
            2, found, mixed_on=date(2026, 7, 2), auction_on=date(2026, 7, 1)
        )


def test_work_lists_set_ups_coats_and_scuffs_but_none_after_the_last_coat():
    coat = replace(BUILD, scuff_grit=320)
    plan = finish.plan_finish(2, system(SEALER, coat, coats_per_session=2))
    work = [(one.operation, one.quantity) for one in plan.work]
    assert work == [
        ("finish set-up", 2),
        ("spray coat", 2),
        ("spray coat", 6),
        ("scuff between coats", 2),
        ("scuff between coats", 4),
    ]


def test_steps_stand_in_bench_order_and_end_with_the_cure():
    found = system(SEALER, BUILD, coats_per_session=3, cure_days=7)
    plan = finish.plan_finish(2, found)
    assert [(s.name, s.work.operation, s.drying_min) for s in plan.steps] == [
        ("session 1", "finish set-up", 0),
        ("sealer", "spray coat", 45),
        ("sealer, scuff", "scuff between coats", 0),
        ("build 1", "spray coat", 45),
        ("build 2", "spray coat", 45),
        ("session 2", "finish set-up", 0),
        ("build 3", "spray coat", 7 * 24 * 60),
    ]


@given(
    st.integers(1, 5),
    st.integers(1, 5),
    st.integers(1, 4),
    st.sampled_from([None, 320]),
)
@settings(max_examples=30)
def test_steps_add_up_to_the_work(sealers, builds, a_session, grit):
    coats = (
        replace(SEALER, times=sealers),
        replace(BUILD, times=builds, scuff_grit=grit),
    )
    plan = finish.plan_finish(2, system(*coats, coats_per_session=a_session))
    by_operation = {}
    for one in plan.work:
        so_far = by_operation.get(one.operation, 0)
        by_operation[one.operation] = so_far + one.quantity
    for step in plan.steps:
        by_operation[step.work.operation] -= step.work.quantity
    assert set(by_operation.values()) == {0}


def test_a_piece_may_wish_for_more_or_fewer_build_coats():
    found = system(SEALER, BUILD)
    more = found.with_build_coats(5)
    assert [coat.times for coat in more.coats] == [1, 5]
    assert [coat.times for coat in found.coats] == [1, 3]
    with pytest.raises(SpecError, match="times is 0"):
        found.with_build_coats(0)


COATS = st.builds(
    lambda cut, times, spread, share, cup: replace(
        BUILD,
        cut_lb=cut,
        times=times,
        spread_m2_per_l=spread,
        share_on_work=share,
        cup_ml=cup,
    ),
    st.floats(0.5, 6),
    st.integers(1, 8),
    st.floats(2, 30),
    st.floats(0.05, 1),
    st.floats(0, 200),
)


@given(COATS, st.floats(0.01, 50), st.integers(1, 4))
@settings(max_examples=50)
def test_another_coat_never_takes_less_of_anything(coat, area_m2, a_session):
    wishes = {"coats_per_session": a_session, "cleaner": "spirit", "cleaning_ml": 50}
    less = finish.plan_finish(area_m2, system(SEALER, coat, **wishes))
    more = finish.plan_finish(
        area_m2, system(SEALER, replace(coat, times=coat.times + 1), **wishes)
    )
    more_amounts = amounts(more)
    assert all(more_amounts[item] >= q for item, q in amounts(less).items())
    assert more.dry_um > less.dry_um


@given(COATS, st.floats(0.01, 50))
@settings(max_examples=50)
def test_twice_the_area_takes_twice_the_litres_but_for_fixed_losses(coat, area_m2):
    one = finish.plan_finish(area_m2, system(coat)).rows[0]
    two = finish.plan_finish(2 * area_m2, system(coat)).rows[0]
    loss = one.loss_ml / 1000
    assert two.mixed_l - loss == pytest.approx(2 * (one.mixed_l - loss))
    assert two.loss_ml == one.loss_ml


@given(COATS)
@settings(max_examples=50)
def test_flakes_and_alcohol_make_up_what_is_mixed(coat):
    row = finish.plan_finish(3, system(coat)).rows[0]
    made = finish.mixed_l(coat.cut_lb, row.from_flakes.alcohol_l)
    assert made == pytest.approx(row.mixed_l)


@pytest.mark.parametrize("area", [0, -1, float("nan"), float("inf"), True, "3"])
def test_an_area_that_is_none_is_refused(area):
    with pytest.raises(SpecError, match="area to finish is"):
        finish.plan_finish(area, system(BUILD))


@pytest.mark.parametrize(
    ("wishes", "sentence"),
    [
        ({"cut_lb": 0}, "cut_lb is 0 lb; it must be more than 0 and at most 6 lb"),
        ({"cut_lb": 6.5}, "cut_lb is 6.5 lb"),
        ({"cut_lb": None}, "neither is given"),
        ({"solids_share": 0.3}, "both are given"),
        ({"spread_m2_per_l": None}, "spread_m2_per_l or dry_film_um must be given"),
        ({"share_on_work": 0}, "share_on_work is 0; it must be a share above 0"),
        ({"share_on_work": 65}, "share_on_work is 65; it must be a share above 0"),
        ({"times": 0}, "times is 0; it must be a whole number from 1 to 100"),
        ({"times": 2.5}, "times is 2.5"),
        ({"method": "roll"}, 'method is "roll"; use one of brush, pad, spray, wipe'),
        ({"thinner": None}, "a cut of shellac needs its alcohol named"),
        ({"thinner_parts": 0.5}, "the cut already says how thin"),
        ({"dye_ml_per_l": 5}, "dye is missing"),
        ({"stock_cut_lb": 1}, "stock_cut_lb is 1 lb, below the cut of 1.5 lb"),
        ({"scuff_grit": 12}, "scuff_grit is 12"),
        ({"material": " "}, "material is empty"),
        ({"cup_ml": -1}, "cup_ml is -1 ml"),
    ],
)
def test_a_coat_that_cannot_be_applied_is_refused(wishes, sentence):
    with pytest.raises(SpecError, match=re.escape(sentence)) as caught:
        replace(BUILD, **wishes)
    assert len(caught.value.faults) == 1


@pytest.mark.parametrize(
    ("wishes", "sentence"),
    [
        ({"kind": "varnish"}, 'kind is "varnish"; use one of shellac'),
        ({"coats": ()}, "coats are missing"),
        ({"coats_per_session": 0}, "coats_per_session is 0"),
        ({"shelf_life_days": 0}, "shelf_life_days is 0 days"),
        ({"usual_film_um": (102, 51)}, "the thinner one first"),
        ({"cure_days": -1}, "cure_days is -1 days"),
        ({"source": ""}, "source is empty"),
    ],
)
def test_a_system_that_cannot_be_applied_is_refused(wishes, sentence):
    with pytest.raises(SpecError, match=re.escape(sentence)):
        replace(system(BUILD), **wishes)


def test_the_shop_file_holds_systems_of_every_kind_that_plan_without_a_fault():
    table = tomllib.loads((DATA / "shop" / "finishes.toml").read_text("utf-8"))
    systems = finish.finish_systems(table)
    assert {one.kind for one in systems} == set(finish.KINDS)
    assert [one.key for one in systems] == list(table)
    for one in systems:
        plan = finish.plan_finish(3.42, one)
        assert all(need.quantity > 0 and need.how for need in plan.needs)
        assert finish.finish_system(one.key, table) == one


def test_a_finish_that_is_not_known_is_named_with_the_nearest():
    assert faults(GOOD, "sprayed shelac") == (
        '"sprayed shelac" is not a finish system of the shop; did you mean '
        '"sprayed shellac"?',
    )


def test_all_faults_of_a_system_are_reported_at_once():
    text = GOOD.replace("times = 3", 'times = "3"').replace("cut_lb", "cut")
    text = text.replace("date = 2026-11-01", 'date = "2026-11-01"')
    found = faults(text.replace("kind =", "sort ="))
    assert len(found) == 5
    assert '"sort" is not known' in found[0]
    assert "date is '2026-11-01'; write a date such as 2026-11-01" in found[1]
    assert "kind is missing" in found[2]
    assert "coat 1: times is '3'; write a whole number" in found[3]
    assert 'coat 1: "cut" is not known; did you mean "cut_lb"?' in found[4]


def test_faults_of_all_systems_of_a_file_are_reported_at_once():
    other = GOOD.replace("sprayed shellac", "second").replace("1.5", "9")
    bad = GOOD.replace("0.65", "0") + other
    with pytest.raises(TableError, match="share_on_work is 0") as caught:
        finish.finish_systems(tomllib.loads(bad))
    assert len(caught.value.faults) == 2
    assert "cut_lb is 9 lb" in caught.value.faults[1]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("x = 3", '"x" is 3; give it a heading'),
        ('["x"]\ncoats = [1]', "coats is [1]; write a list of coats"),
        (GOOD.replace("[51, 102]", "[51, true]"), "usual_film_um is [51, True]"),
        (GOOD.replace("1.5", "true"), "cut_lb is True; write a number"),
        (GOOD.replace("1.5", "nan"), "cut_lb is nan"),
        ("", "no finish system is given"),
    ],
)
def test_values_of_a_wrong_type_are_refused(text, sentence):
    with pytest.raises(TableError, match=re.escape(sentence)):
        finish.finish_systems(tomllib.loads(text))


def test_a_coat_may_name_its_gun_instead_of_a_share():
    text = GOOD.replace("0.65", '"air-atomised spray"')
    with (DATA / "reference" / "nr_440_48.csv").open("rt") as file:
        guns = {
            row["method"]: float(row["transfer_share"]) for row in csv.DictReader(file)
        }
    found = finish.finish_system("sprayed shellac", tomllib.loads(text), guns)
    assert found.coats[0].share_on_work == 0.25
    wrong = faults(text.replace("air-atomised", "air-atomized"), guns=guns)
    assert 'did you mean "air-atomised spray"?' in wrong[0]
