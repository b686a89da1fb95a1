"""Adhesive, filler, abrasives and sundries as needs that can be followed."""

import math
from decimal import Decimal
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import consumables
from pricebook.consumables import Fill, Pass, adhesive, grit_run
from pricebook.errors import SpecError, UnitError
from pricebook.piece import Holes

NO_NUMBERS = [-1, math.nan, math.inf, True, "3", None]


def laid(kind="contact cement", area_m2=2.0, **wishes):
    given_ = {"form": "backed", "spread_m2_per_l": 6.0, "item": "glue", **wishes}
    return adhesive(kind, area_m2, **given_)


@pytest.mark.parametrize(
    ("kind", "coats"),
    [("contact cement", 2), ("iron-on PVA", 2), ("PVA glue", 1), ("hide glue", 1)],
)
def test_each_adhesive_is_spread_on_its_faces(kind, coats):
    found = laid(kind)
    assert found.coats == coats
    assert found.needs[0].quantity == pytest.approx(coats * 2 / 6)
    assert found.needs[0].unit == "l"


def test_only_contact_cement_takes_a_second_coat_on_raw_board():
    assert laid(raw_board=True).coats == 3
    assert laid("PVA glue", raw_board=True).coats == 1


def test_the_working_of_an_adhesive_can_be_followed():
    found = laid(raw_board=True, waste_share=0.1)
    assert found.needs[0].how == (
        "both faces x 2.00 m2, and a second coat on the raw board, over 6 m2/L, and "
        "10 % for waste"
    )
    # 2 / 0.09290304 = 21.5 sq ft; 6 * 3.785411784 / 0.09290304 = 244.5 sq ft/gal
    inches = laid("PVA glue", lengths="in").needs[0].how
    assert inches == "1 face x 21.5 sq ft, over 244.5 sq ft/gal"


def test_self_adhesive_sheets_take_no_adhesive_whatever_the_shop_uses():
    for kind in ("contact cement", "none"):
        found = laid(kind, form="self-adhesive")
        assert found.needs == ()
        assert found.litres == 0
        assert "carries its own adhesive" in found.notes[0]


def test_contact_cement_under_raw_leaf_is_warned_of_and_nothing_else():
    assert "Contact cement under raw leaf" in laid(form="raw").notes[0]
    assert laid("hide glue", form="raw").notes == ()
    assert laid().notes == ()


def test_an_adhesive_or_a_form_that_is_not_known_is_named_with_the_nearest():
    with pytest.raises(SpecError, match='did you mean "contact cement"') as caught:
        laid("contact cment", form="baked")
    assert len(caught.value.faults) == 2
    with pytest.raises(SpecError, match='adhesive is "none"'):
        laid("none")


@pytest.mark.parametrize("bad", [0, *NO_NUMBERS])
def test_a_spread_that_is_none_is_refused(bad):
    with pytest.raises(SpecError, match=r"spread \[m2/L\] is .* above 0"):
        laid(spread_m2_per_l=bad)


def test_a_unit_to_print_in_that_is_not_known_is_refused():
    with pytest.raises(UnitError, match="cubits"):
        laid(lengths="cubits")


def test_filler_adds_up_holes_of_several_kinds():
    holes = [
        Holes(name="old pull holes", count=10, diameter_mm=5, depth_mm=20),
        Fill(name="dents", count=3, volume_ml=0.5),
    ]
    need = consumables.filler(holes, waste_share=0.3)[0]
    # 10 * pi/4 * 25 * 20 / 1000 = 3.927 ml; + 1.5; * 1.3 = 7.055
    assert need.quantity == pytest.approx(7.055, abs=0.001)
    assert need.unit == "ml"
    assert need.how == (
        "10 old pull holes x 0.39 ml + 3 dents x 0.5 ml, and 30 % for shrinkage and "
        "waste"
    )


def test_nothing_to_fill_needs_no_filler():
    assert consumables.filler([], waste_share=0.3) == ()
    none = Fill(name="dents", count=0, volume_ml=0.5)
    assert consumables.filler([none], waste_share=0.3) == ()


@given(st.floats(0.5, 50), st.floats(0, 0.95), st.floats(10, 170))
@settings(max_examples=50)
def test_a_countersink_holds_less_than_its_cylinder_and_more_than_a_third(
    head_mm, inner, angle_deg
):
    shank_mm = inner * head_mm
    found = consumables.countersink_ml(head_mm, shank_mm, angle_deg)
    depth_mm = (head_mm - shank_mm) / 2 / math.tan(math.radians(angle_deg / 2))
    cylinder = consumables.counterbore_ml(head_mm, depth_mm)
    assert cylinder / 3 <= found * (1 + 1e-9)
    assert found < cylinder


@pytest.mark.parametrize(
    ("sizes", "sentence"),
    [
        ((8, 8, 82), "wider at the head"),
        ((8, 4, 180), "must be below 180"),
        ((8, 4, 0), "angle .* above 0"),
        ((0, 0, 82), "head .* above 0"),
        ((math.nan, 4, 82), "head .* above 0"),
    ],
)
def test_a_countersink_that_is_none_is_refused(sizes, sentence):
    with pytest.raises(SpecError, match=sentence):
        consumables.countersink_ml(*sizes)


@pytest.mark.parametrize(
    ("run", "sentence"),
    [
        ((), "the grit run is empty"),
        ((120, 80), "goes from 120 to 80; each grit must be finer"),
        ((120, 120), "goes from 120 to 120"),
        ((80, 150), "skips 100, 120"),
        ((150, 90), "grit 90 is not one that a bench keeps"),
        ((True, 60), "grit True is not one"),
        (("80", 100), 'grit "80" is not one'),
        ((80.0, 120), "grit 80.0 is not one"),
    ],
)
def test_a_grit_run_that_is_none_is_refused(run, sentence):
    with pytest.raises(SpecError, match=sentence):
        consumables.grit_run(run)


def test_every_bad_step_of_a_run_is_named():
    with pytest.raises(SpecError, match="skips 100") as caught:
        consumables.grit_run((80, 150, 120))
    assert len(caught.value.faults) == 2


@given(st.lists(st.sampled_from(consumables.GRITS), min_size=1, unique=True))
@settings(max_examples=60)
def test_a_run_is_allowed_just_when_no_step_skips_two(grits):
    run = sorted(grits)
    at = [consumables.GRITS.index(grit) for grit in run]
    fine = all(b - a <= 2 for a, b in pairwise(at))
    if fine:
        assert consumables.grit_run(run) == tuple(run)
    else:
        with pytest.raises(SpecError, match="skips"):
            consumables.grit_run(run)


@given(st.sampled_from(consumables.GRITS), st.sampled_from(consumables.GRITS))
@settings(max_examples=40)
def test_the_shortest_run_is_a_run_and_no_grit_can_be_left_out(one, other):
    run = consumables.shortest_run(min(one, other), max(one, other))
    assert consumables.grit_run(run) == run
    assert (run[0], run[-1]) == (min(one, other), max(one, other))
    at = [consumables.GRITS.index(grit) for grit in run]
    assert len(run) == 1 + -(-(at[-1] - at[0]) // 2)  # two grits a step at most


def test_a_run_towards_a_coarser_grit_is_refused():
    with pytest.raises(SpecError, match="goes from 180 to 120"):
        consumables.shortest_run(180, 120)


def test_discs_are_counted_by_grit_over_all_surfaces():
    sanded = [
        *consumables.passes((150, 180), 3.0, "veneer"),
        Pass(grit=150, area_m2=0.5, where="edges"),
        Pass(grit=60, area_m2=3.0, where="board, roughed"),
        Pass(grit=320, area_m2=0, where="nothing"),
    ]
    found = consumables.abrasives(sanded, life_m2=1.4, life_m2_by_grit={60: 0.9})
    # 3.0/0.9 = 3.3; 3.5/1.4 = 2.5; 3.0/1.4 = 2.1
    assert [(need.item, need.quantity) for need in found] == [
        ("sanding disc 60", 4),
        ("sanding disc 150", 3),
        ("sanding disc 180", 3),
    ]
    assert found[1].how == "veneer 3.00 m2 + edges 0.50 m2, 1.40 m2 each: 3 discs"


def test_a_disc_that_is_just_used_up_is_not_rounded_up():
    one = Pass(grit=150, area_m2=0.3, where="edges")
    assert consumables.abrasives([one], life_m2=0.1)[0].quantity == 3  # 0.3/0.1 > 3


@given(st.floats(0.001, 100), st.floats(0.001, 100), st.floats(0.1, 10))
@settings(max_examples=50)
def test_more_area_never_takes_fewer_discs(area_m2, more_m2, life_m2):
    def discs(area):
        sanded = [Pass(grit=150, area_m2=area, where="veneer")]
        return consumables.abrasives(sanded, life_m2=life_m2)[0].quantity

    assert discs(area_m2 + more_m2) >= discs(area_m2) >= area_m2 / life_m2 - 1e-6


def test_sundries_by_pencil():
    cloths = consumables.tack_cloths(5.0, 4, area_each_m2=4.0, uses=3)[0]
    blades = consumables.blades(31.0, life_m=15.0)[0]
    tape = consumables.masking(10.0, waste_share=0.1)[0]
    assert (cloths.quantity, cloths.unit) == (2, "each")  # 20/12 = 1.67
    assert (blades.quantity, blades.unit) == (3, "each")
    assert (tape.quantity, tape.unit) == (pytest.approx(11.0), "m")
    assert consumables.rags(3, each=2)[0].quantity == 6
    assert consumables.gloves(3, each=1)[0].unit == "pair"
    assert consumables.filters(2.0, life_h=8.0)[0].quantity == pytest.approx(0.25)
    assert cloths.how == "4 wipes x 5.00 m2, a cloth for 4.00 m2, 3 uses each"


def test_sundries_of_nothing_are_no_needs():
    assert consumables.tack_cloths(0, 4, area_each_m2=4.0, uses=3) == ()
    assert consumables.blades(0, life_m=15.0) == ()
    assert consumables.masking(0) == ()
    assert consumables.rags(0, each=2) == ()
    assert consumables.filters(0, life_h=8.0) == ()


@pytest.mark.parametrize("bad", NO_NUMBERS)
def test_sundries_of_an_amount_that_is_none_are_refused(bad):
    for call in (
        lambda: consumables.tack_cloths(bad, 1, area_each_m2=4.0, uses=3),
        lambda: consumables.tack_cloths(1, bad, area_each_m2=4.0, uses=3),
        lambda: consumables.blades(bad, life_m=15.0),
        lambda: consumables.blades(1, life_m=bad),
        lambda: consumables.masking(bad),
        lambda: consumables.rags(bad, each=1),
        lambda: consumables.gloves(1, each=bad),
        lambda: consumables.filters(bad, life_h=1),
        lambda: consumables.filters(1, life_h=bad),
        lambda: Fill(name="dents", count=bad, volume_ml=1),
        lambda: Pass(grit=150, area_m2=bad, where="veneer"),
        lambda: consumables.disc_area_m2(bad),
    ):
        with pytest.raises(SpecError, match="it must be a"):
            call()


@pytest.mark.parametrize("run", [np.array(120), 120, None, "120"])
def test_grits_that_are_not_in_a_row_are_refused(run):
    with pytest.raises(SpecError, match="give grits in a row, as 120, 150"):
        grit_run(run)


@pytest.mark.parametrize("coarsest", ["x", 1j, Decimal("NaN"), [], 10**50])
def test_a_coarsest_grit_that_is_none_is_refused_in_a_short_sentence(coarsest):
    with pytest.raises(SpecError, match="is not one that a bench keeps") as caught:
        grit_run((120, 150), coarsest=coarsest)
    assert all(len(fault) < 200 for fault in caught.value.faults)


@pytest.mark.parametrize("kind", ["x" * 5000, 10**200, None])
def test_an_adhesive_that_is_none_is_quoted_in_short(kind):
    with pytest.raises(SpecError, match="adhesive is ") as caught:
        adhesive(kind, 2.0, form="backed", spread_m2_per_l=6.1, item="glue")
    assert all(len(fault) < 200 for fault in caught.value.faults)
