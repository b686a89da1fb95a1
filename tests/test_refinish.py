"""Old surfaces and bare boards, made ready for veneer or for a coat."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import consumables
from pricebook.consumables import RefinishRates, refinish_steps
from pricebook.errors import SpecError
from pricebook.piece.extras import CONDITIONS

RATES = RefinishRates(
    rough_run=(60,),
    scuff_grit=220,
    back_run=(80, 120),
    fine_run=(120, 150, 180),
    old_coat_wear=2,
    strip_m2_per_l=2.0,
    strip_times=1,
    rag_m2=0.5,
    seal_m2_per_l=9.0,
    dent_ml=0.5,
    filler_waste_share=0.3,
    patch_glue_ml=5,
)
NEW = {"made_before_1978": False}


def steps(condition, ready_for="veneer", **wishes):
    given_ = {"area_m2": 3.0, "rates": RATES, **wishes}
    return refinish_steps(condition, ready_for=ready_for, **given_)


def names(*args, **wishes):
    return [step.name for step in steps(*args, **wishes)]


@pytest.mark.parametrize(
    ("condition", "ready_for", "wishes", "expected"),
    [
        ("bare board", "veneer", {}, ["rough"]),
        ("laminated board", "veneer", {}, ["rough"]),
        ("bare board", "coat", {}, ["sand", "seal"]),
        ("laminated board", "coat", {}, ["scuff", "seal"]),
        ("clear finish", "veneer", NEW, ["sand back", "rough"]),
        ("clear finish", "coat", NEW, ["scuff", "seal"]),
        ("painted", "veneer", {}, ["strip", "rough"]),
        ("painted", "coat", {"seal": False}, ["strip", "sand"]),
        ("painted", "coat", {"treatment": "strip", **NEW}, ["strip", "sand", "seal"]),
        (
            "old veneer",
            "veneer",
            {"patches": 2, "dents": 3, **NEW},
            ["patch", "sand back", "fill dents", "rough"],
        ),
        (
            "clear finish",
            "coat",
            {"treatment": "sand back", **NEW},
            ["sand back", "sand", "seal"],
        ),
    ],
)
def test_the_steps_follow_from_what_it_is_and_what_it_becomes(
    condition, ready_for, wishes, expected
):
    assert names(condition, ready_for, **wishes) == expected


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("ready_for", consumables.READY_FOR)
def test_every_condition_is_dealt_with_and_asks_for_work(condition, ready_for):
    found = steps(condition, ready_for)
    assert found
    assert all(step.work and step.why for step in found)


def test_an_unfinished_carcase_is_roughed_with_60_grit_before_veneer():
    # common practice, no source: 60 grit over the whole field
    (step,) = steps("bare board")
    assert [(one.grit, one.area_m2) for one in step.sanded] == [(60, 3.0)]
    assert step.work[0].operation == "rough board"
    assert step.work[0].how == "60 grit over 3.00 m2"


@pytest.mark.parametrize("age", [True, None])
def test_a_coating_that_may_hold_lead_is_stripped_and_never_sanded_dry(age):
    # 16 CFR 1303: coatings before 1978 may hold lead; test, do not dry-sand
    for condition in ("clear finish", "painted", "old veneer"):
        first = steps(condition, made_before_1978=age)[0]
        assert first.name == "strip"
        assert first.caution_keys == ("lead", "stripper")
        for treatment in ("sand back", "scuff"):
            with pytest.raises(SpecError, match="hold lead; test it first, or strip"):
                steps(condition, made_before_1978=age, treatment=treatment)


def test_a_coating_that_a_test_found_free_of_lead_may_be_sanded():
    found = steps("painted", made_before_1978=True, lead_free=True)
    assert found[0].name == "sand back"
    assert found[0].caution_keys == ("wood dust",)


def test_old_veneer_is_sanded_with_nothing_coarser_than_120():
    found = steps("old veneer", "coat", treatment="sand back", **NEW)
    grits = [one.grit for step in found for one in step.sanded]
    assert min(grits) == 120
    with pytest.raises(SpecError, match="nothing coarser than 120"):
        replace(RATES, fine_run=(100, 120, 150))


def test_stripper_and_rags_by_pencil():
    found = steps("painted", rates=replace(RATES, strip_times=2))[0]
    # 2 times 3 m2 = 6 m2; / 2 m2 a litre = 3 L; / 0.5 m2 a rag = 12
    needs = {need.item: (need.quantity, need.unit) for need in found.needs}
    assert needs == {"paint stripper": (3.0, "l"), "rag": (12, "each")}
    assert found.work[0].quantity == 6
    assert found.needs[0].how == "2 times x 3.00 m2, over 2 m2/L"


def test_an_old_coat_wears_discs_out_faster():
    old = steps("clear finish", **NEW)[0].sanded
    discs = consumables.abrasives(old, life_m2=1.5)
    # 3 m2 x 2 / 1.5 = 4 of each grit
    assert [(need.item, need.quantity) for need in discs] == [
        ("sanding disc 80", 4),
        ("sanding disc 120", 4),
    ]
    assert "x 2 for clogging" in discs[0].how


def test_dents_patches_and_sealer_by_pencil():
    patch, _, dents, _, seal = steps(
        "old veneer", "coat", dents=6, patches=2, treatment="strip"
    )
    assert patch.needs[0].quantity == pytest.approx(0.010)  # 2 x 5 ml
    assert dents.needs[0].quantity == pytest.approx(3.9)  # 6 x 0.5 x 1.3
    assert seal.needs[0].quantity == pytest.approx(3 / 9)
    assert [patch.work[0].unit, dents.work[0].unit] == ["each", "each"]


def test_no_area_asks_only_for_dents_and_patches():
    assert names("painted", area_m2=0) == []
    assert names("painted", area_m2=0, dents=1, patches=1) == ["patch", "fill dents"]


@given(
    st.sampled_from(CONDITIONS),
    st.sampled_from(consumables.READY_FOR),
    st.floats(0.01, 20),
    st.integers(0, 9),
)
@settings(max_examples=60)
def test_twice_the_area_takes_twice_the_work_and_never_less_of_anything(
    condition, ready_for, area_m2, dents
):
    one = steps(condition, ready_for, area_m2=area_m2, dents=dents)
    two = steps(condition, ready_for, area_m2=2 * area_m2, dents=dents)
    assert [step.name for step in one] == [step.name for step in two]
    for small, large in zip(one, two, strict=True):
        for less, more in zip(small.work, large.work, strict=True):
            times = 1 if less.unit == "each" else 2
            assert more.quantity == pytest.approx(times * less.quantity)
        for less, more in zip(small.needs, large.needs, strict=True):
            assert more.quantity >= less.quantity


@pytest.mark.parametrize(
    ("wishes", "sentence"),
    [
        ({"condition": "clear finsh"}, 'did you mean "clear finish"'),
        ({"ready_for": "wax"}, 'ready for is "wax"'),
        ({"treatment": "burn"}, 'treatment is "burn"; use one of strip'),
        ({"treatment": "strip"}, "bare board has no old coating"),
        ({"area_m2": -1}, "area .* 0 or more"),
        ({"dents": 1.5}, "dents is 1.5; it must be a whole number"),
        ({"patches": -1}, "patches is -1"),
    ],
)
def test_a_surface_that_is_none_is_refused(wishes, sentence):
    with pytest.raises(SpecError, match=sentence):
        steps(wishes.pop("condition", "bare board"), **wishes)


@pytest.mark.parametrize(
    ("wishes", "sentence"),
    [
        ({"scuff_grit": 61}, "grit 61 is not one"),
        ({"back_run": (80, 180)}, "skips 100, 120, 150"),
        ({"strip_m2_per_l": 0}, r"strip \[m2/L\] is 0; .* above 0"),
        ({"strip_times": 1.5}, "strip times is 1.5; .* whole number"),
        ({"old_coat_wear": 0.5}, "old coat wear is 0.5; .*, 1 or more"),
        ({"filler_waste_share": -0.1}, "filler waste share is -0.1"),
    ],
)
def test_rates_that_cannot_be_used_are_refused(wishes, sentence):
    with pytest.raises(SpecError, match=sentence):
        replace(RATES, **wishes)


def test_all_faults_of_the_rates_are_named_at_once():
    with pytest.raises(SpecError, match="grit 61") as caught:
        replace(RATES, rough_run=(61,), fine_run=(), rag_m2=0)
    assert len(caught.value.faults) == 3
