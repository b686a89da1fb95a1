"""Faces by name on sheets of the price book."""

from collections import Counter
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.errors import LayoutError
from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer import cut_list, fit, lay_out
from pricebook.veneer.plan import Layout

INCH = 25.4


def sheet(key, along_in, across_in, price_cents, **more):
    return Sheet(
        **{
            "key": key, "dated": date(2026, 1, 5), "source": "invented",
            "species": "walnut", "form": "backed", "veneer": "show",
            "along_mm": along_in * INCH, "across_mm": across_in * INCH,
            "price_cents": price_cents, **more,
        }
    )  # fmt: skip


def face(name, along_in, across_in, count=1, **more):
    return Face(
        **{
            "name": name, "piece": "chest", "group": "faces",
            "along_mm": along_in * INCH, "across_mm": across_in * INCH,
            "count": count, "overhang_mm": INCH / 2, "veneer": "show",
            "species": "walnut", **more,
        }
    )  # fmt: skip


SMALL, MIDDLE, LARGE = (
    sheet("2 x 8 ft", 96, 24, 6000),
    sheet("4 x 8 ft", 96, 48, 10000),
    sheet("4 x 10 ft", 120, 48, 12800),
)
STOCK = (SMALL, MIDDLE, LARGE)
CHEST = (
    face("top", 37, 19),
    face("side", 40, 18.5, 2),
    face("front", 34, 6.5, 5, run="drawers"),
    face("kick board", 34, 4),
)


def placed(layout):
    return Counter(one.face.name for plan in layout.sheets for one in plan.placed)


def assert_sound(layout, faces):
    """Count faces, compare areas, and see that centred and turned faces may be so."""
    assert sum(placed(layout).values()) == sum(one.count for one in faces)
    for plan in layout.sheets:
        cut = sum(one.along_mm * one.across_mm for one in plan.placed) / 1e6
        left = sum(rest.m2 for rest in plan.rests)
        assert cut + left == pytest.approx(plan.m2, abs=1e-6)
        for one in plan.placed:
            assert one.face.free_grain or not one.turned
            if one.face.centred:
                centre = plan.sheet.figure_centre_mm or plan.sheet.across_mm / 2
                middle = one.across_at_mm + one.across_mm / 2
                assert middle == pytest.approx(centre, abs=0.001)


def test_a_chest_is_proven_least_cost_and_says_so():
    layout = lay_out(CHEST, STOCK)
    assert_sound(layout, CHEST)
    assert (layout.cost_cents, layout.proven) == (12800, True)
    assert layout.verdict == "least possible cost, proven"


def test_a_run_of_fronts_lies_side_by_side_in_order():
    (plan,) = lay_out(CHEST, STOCK).sheets
    fronts = [one for one in plan.placed if one.face.name == "front"]
    assert [one.name for one in fronts] == [f"front {n}" for n in range(1, 6)]
    assert len({one.along_at_mm for one in fronts}) == 1
    steps = {
        round(two.across_at_mm - one.across_at_mm, 3) for one, two in pairwise(fronts)
    }
    assert steps == {7.5 * INCH}


def test_sixteenths_of_an_inch_fill_a_sheet_exactly():
    """Rounding each face up to a tenth of a millimetre would need a second sheet."""
    faces = [face("strip", 95, 47 / 16 - 1 + 1 / 16, 16)]
    layout = lay_out(faces, [MIDDLE])
    assert len(layout.sheets) == 1
    assert not layout.sheets[0].rests


def test_a_centred_face_lies_on_the_centre_line_of_the_figure():
    faces = [replace(CHEST[0], centred=True), *CHEST[1:]]
    layout = lay_out(faces, STOCK)
    assert_sound(layout, faces)
    off = replace(LARGE, figure_centre_mm=500.0)
    assert_sound(lay_out(faces, [off]), faces)


def test_centring_never_makes_a_plan_cheaper():
    faces = [replace(one, centred=one.name in ("top", "side")) for one in CHEST]
    layout = lay_out(faces, STOCK)
    assert_sound(layout, faces)
    assert layout.cost_cents >= lay_out(CHEST, STOCK).cost_cents
    assert layout.least_possible_cents <= layout.cost_cents


def test_a_face_is_turned_only_where_its_grain_is_free():
    wide = face("back of a door", 20, 90)
    with pytest.raises(
        LayoutError, match=r'"back of a door" of "chest" is 21 in along'
    ):
        lay_out([wide], STOCK)
    layout = lay_out([replace(wide, free_grain=True)], STOCK)
    assert layout.sheets[0].placed[0].turned


def test_show_and_backing_come_from_their_own_stock():
    backing = [replace(one, veneer="backing", run=None) for one in CHEST[:2]]
    stock = [*STOCK, sheet("backer", 96, 48, 4000, veneer="backing")]
    layout = lay_out([*CHEST, *backing], stock)
    for plan in layout.sheets:
        assert {one.face.veneer for one in plan.placed} == {plan.sheet.veneer}


def test_the_rack_is_used_first_at_its_value_and_no_further_than_it_goes():
    rack = replace(MIDDLE, on_hand=1, value_cents=MIDDLE.price_cents)
    layout = lay_out([face("top", 90, 40, 2)], [rack])
    assert [plan.from_rack for plan in layout.sheets] == [True, False]
    assert layout.cash_cents == MIDDLE.price_cents
    offcut = sheet("rest of an earlier job", 40, 22, 900, on_hand=1, value_cents=300,
                   to_buy=False, offcut=True)  # fmt: skip
    layout = lay_out(CHEST[:1], [offcut, *STOCK])
    assert (layout.cost_cents, layout.cash_cents) == (300, 0)


def test_nothing_is_bought_while_the_rack_suffices_though_it_is_worth_more():
    """Two rests of the rack, worth 150 together, against one sheet to buy at 100."""
    rest = sheet("rest", 48, 48, 9000, on_hand=2, value_cents=7500, to_buy=False)
    layout = lay_out([face("top", 40, 40, 2)], [rest, MIDDLE])
    assert (layout.cash_cents, layout.cost_cents) == (0, 15000)
    assert layout.proven
    assert layout.verdict == "least possible purchase, then least from the rack, proven"


def test_of_purchases_that_cost_the_same_the_one_that_spares_the_rack_is_taken():
    """A face alone needs the 100 sheet; two small ones fit it or a rest worth 30."""
    rest = sheet("rest", 48, 48, 9000, on_hand=1, value_cents=3000, to_buy=False)
    faces = [face("top", 90, 30), face("shelf", 90, 15)]
    layout = lay_out(faces, [rest, MIDDLE])
    assert (layout.cash_cents, layout.cost_cents) == (10000, 10000)
    assert layout.proven


def test_too_little_in_the_rack_is_refused_by_name():
    rack = replace(MIDDLE, on_hand=1, value_cents=100, to_buy=False)
    with pytest.raises(LayoutError, match=r'"side" of "chest" would be left over'):
        lay_out(CHEST, [rack])


def test_a_run_that_fits_no_sheet_is_refused_by_name_with_what_would_fit():
    fronts = [face("front", 34, 9, 6, run="drawers")]
    with pytest.raises(LayoutError, match='the run "drawers" of "chest"') as refused:
        lay_out(fronts, STOCK)
    assert "at least 35 in along x 60 in across the grain" in str(refused.value)
    metric = pytest.raises(LayoutError, match="at least 889 mm along x 1524 mm across")
    with metric:
        lay_out(fronts, STOCK, lengths="mm")


def test_a_face_too_wide_to_be_centred_is_refused_by_name():
    aside = replace(MIDDLE, figure_centre_mm=100.0)
    with pytest.raises(LayoutError, match=r'"top" of "chest" is .* centre line'):
        lay_out([replace(CHEST[0], centred=True)], [aside])


def test_no_sheet_of_a_species_is_refused():
    with pytest.raises(LayoutError, match='no sheet of show veneer "cherry"'):
        lay_out([replace(CHEST[0], species="cherry")], STOCK)


def test_every_fault_is_told_at_once():
    faces = [face("long", 130, 20), face("wide", 40, 60), *CHEST]
    with pytest.raises(LayoutError, match="long") as refused:
        lay_out(faces, STOCK)
    assert len(refused.value.faults) == 2


def test_the_cut_list_is_numbered_and_carried_out_gives_the_faces():
    layout = lay_out(CHEST, STOCK)
    lines = cut_list(layout, "in")
    assert lines[0].startswith("sheet 1, cut 1: ")
    (plan,) = layout.sheets
    pieces = [(0.0, 0.0, plan.sheet.along_mm, plan.sheet.across_mm)]
    for cut in plan.cuts:
        axis = 0 if cut.direction == "across" else 1
        (whole,) = [
            piece
            for piece in pieces
            if piece[axis] < cut.at_mm < piece[axis + 2]
            and piece[1 - axis] == pytest.approx(cut.start_mm)
            and piece[3 - axis] == pytest.approx(cut.end_mm)
        ]
        pieces.remove(whole)
        one, two = list(whole), list(whole)
        one[axis + 2] = two[axis] = cut.at_mm
        pieces += [tuple(one), tuple(two)]
    sizes = Counter((round(p[2] - p[0], 2), round(p[3] - p[1], 2)) for p in pieces)
    wanted = Counter((round(p.along_mm, 2), round(p.across_mm, 2)) for p in plan.placed)
    assert not wanted - sizes


def test_two_stages_are_kept_and_other_numbers_refused():
    layout = lay_out(CHEST, STOCK, stages=2)
    assert_sound(layout, CHEST)
    assert layout.cost_cents >= 12800
    with pytest.raises(LayoutError, match="stages is 7"):
        lay_out(CHEST, STOCK, stages=7)


def test_long_work_tells_how_far_it_is():
    told = []
    batch = [replace(one, piece=f"chest {n}") for n in range(2) for one in CHEST]
    loose = [replace(one, run=None) for one in batch]
    lay_out(loose, STOCK, stages=3, progress=lambda *words: told.append(words))
    assert told
    assert all(0 <= done <= total for done, total, _ in told)


@given(
    st.lists(
        st.tuples(
            st.integers(4, 60), st.integers(3, 40), st.integers(1, 3), st.booleans()
        ),
        min_size=1,
        max_size=5,
    )
)
@settings(max_examples=20, deadline=None)
def test_a_layout_agrees_with_plain_numbers_and_free_grain_never_costs_more(rows):
    faces = [
        face(f"face {n}", along, across, count)
        for n, (along, across, count, _) in enumerate(rows)
    ]
    layout = lay_out(faces, STOCK)
    assert_sound(layout, faces)
    parts = [(along + 1, across + 1, count) for along, across, count, _ in rows]
    plain = fit(parts, [(96, 24, 6000), (96, 48, 10000), (120, 48, 12800)])
    assert layout.cost_cents == plain.cost_cents
    free = [
        replace(one, free_grain=row[3]) for one, row in zip(faces, rows, strict=True)
    ]
    turned = lay_out(free, STOCK)
    assert_sound(turned, free)
    if layout.proven and turned.proven:
        assert turned.cost_cents <= layout.cost_cents


def test_an_empty_list_of_faces_is_an_empty_layout():
    assert lay_out([], STOCK) == Layout(sheets=(), least_possible_cents=0)
