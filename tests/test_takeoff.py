"""A piece becomes faces, edges and areas that a pencil confirms."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.errors import SpecError
from pricebook.files import piece_from_table, read_piece
from pricebook.lengths import show
from pricebook.takeoff import take_off

PIECES = Path(__file__).parent.parent / "data" / "pieces"
IN = 25.4


def piece(name="low_dresser"):
    return read_piece(PIECES / f"{name}.toml")


def sizes(rows):
    return {f.name: (show(f.along_mm), show(f.across_mm)) for f in rows}


def test_the_dresser_measures_as_the_pencil_says():
    found = sizes(take_off(piece()).faces)
    # 37 x 19 over everything
    assert found["top"] == ("37 in", "19 in")
    # carcase 19 - 1/2 deep; side 40 1/2 - 3/4 = 39 3/4, upright grain
    assert found["left side"] == found["right side"] == ("39 3/4 in", "18 1/2 in")
    # between the sides: 37 - 2 x 1/2 - 2 x 3/4 = 34 1/2
    assert found["plinth"] == ("34 1/2 in", "4 in")
    # height 40 1/2 - 3/4 top - 4 plinth - 3/4 bottom = 35;
    # less 2 x 1/4 reveal and 4 x 1/8 gap = 34; a fifth of it = 6 4/5
    fronts = [f for f in take_off(piece()).faces if f.group == "fronts"]
    assert [f.name for f in fronts] == [f"drawer front {n}" for n in range(1, 6)]
    assert all(f.across_mm == pytest.approx(6.8 * IN) for f in fronts)
    assert all(f.along_mm == pytest.approx(34 * IN) for f in fronts)
    assert {f.run for f in fronts} == {"drawer fronts"}
    assert {f.run_direction for f in fronts} == {"side by side"}


def test_an_overhang_stands_on_every_side():
    top = take_off(piece()).faces[0]
    assert (show(top.cut_along_mm), show(top.cut_across_mm)) == ("38 in", "20 in")


def test_edges_have_their_allowance_at_both_ends():
    edges = {e.name: show(e.cut_mm) for e in take_off(piece()).edges}
    assert edges == {
        "top, front edge": "39 in",
        "top, left edge": "21 in",
        "top, right edge": "21 in",
        "left side, front edge": "41 3/4 in",
        "right side, front edge": "41 3/4 in",
        "bottom, front edge": "36 1/2 in",
    }


def test_overlay_fronts_cover_the_carcase_and_leave_the_open_shelf():
    stand = take_off(piece("guest_night_stand"))
    fronts = [f for f in stand.faces if f.group == "fronts"]
    # 480 - 2 x 12 overhang - 2 x 3 reveal = 450 wide, upright grain
    assert [(f.along_mm, f.across_mm) for f in fronts] == [(120, 450), (150, 450)]
    assert {f.run_direction for f in fronts} == {"end to end"}
    # sides stop at the legs: 620 - 16 - 120 = 484; depth 400 - 12
    side = next(f for f in stand.faces if f.name == "left side")
    assert (side.along_mm, side.across_mm) == (484, 388)


def test_doors_share_the_width():
    doors = [f for f in take_off(piece("kitchen_cupboard")).faces if f.group == "doors"]
    # 36 - 2 overhang = 34; less 2 x 1/8 reveal and 1/8 gap = 33 5/8; half = 16 13/16
    assert [show(f.across_mm) for f in doors] == ["16 13/16 in"] * 2
    # 34 - 3/4 - 5 - 2 x 1/8 = 28
    assert [show(f.along_mm) for f in doors] == ["28 in"] * 2
    assert {f.run_direction for f in doors} == {"side by side"}


def test_shelves_stand_between_the_sides():
    shelves = [
        f for f in take_off(piece("reading_bookcase")).faces if f.group == "shelves"
    ]
    # 30 - 2 x 3/4 = 28 1/2; 12 - 1/4 setback = 11 3/4
    assert {(show(f.along_mm), show(f.across_mm)) for f in shelves} == {
        ("28 1/2 in", "11 3/4 in")
    }
    assert len(shelves) == 4


def test_a_table_has_aprons_between_its_legs():
    found = sizes(take_off(piece("lamp_table")).faces)
    # 22 - 2 overhang - 2 x 1 1/2 leg = 17; 18 - 2 - 3 = 13
    assert found["front apron"] == ("17 in", "3 1/2 in")
    assert found["left apron"] == ("13 in", "3 1/2 in")
    # upright grain: 24 - 3/4 = 23 1/4
    assert found["leg 4, face 4"] == ("23 1/4 in", "1 1/2 in")


def test_a_plain_list_is_taken_as_it_is_written():
    found = take_off(piece("plain_list"))
    assert sizes(found.faces)["end"] == ("15 in", "13 1/4 in")
    assert sum(f.count for f in found.faces) == 6
    assert found.faces[-1].veneer == "backing"
    # coated: all but the shelf underside
    assert [row.name for row in found.coated][-1] == "banded edges"
    assert "shelf underside" not in [row.name for row in found.coated]


def test_a_loose_panel_veneered_on_one_face_is_named():
    cupboard = piece("kitchen_cupboard")
    assert take_off(cupboard).one_sided == ()
    wishes = replace(cupboard.veneer, backing=())
    lean = take_off(replace(cupboard, veneer=wishes))
    assert lean.one_sided == ("door 1", "door 2")


def test_the_take_off_leaves_the_piece_as_it_was():
    before = piece()
    take_off(before)
    assert before == piece()


TABLE = {
    "name": "test chest",
    "form": "chest of drawers",
    "owner": "maker",
    "top": {"overhang_front": "0 mm", "overhang_sides": "0 mm", "thickness": "20 mm"},
    "base": {"kind": "none"},
    "veneer": {
        "species": "walnut",
        "overhang": "10 mm",
        "show": ["top", "sides", "fronts"],
    },
    "banding": {
        "species": "walnut",
        "edges": ["top front", "fronts"],
        "end_allowance": "10 mm",
    },
    "finish": {"system": "x"},
    "arrival": {"condition": "bare board"},
}


def chest(width, height, depth, rows, scale=1):
    size = {"width": width, "height": height, "depth": depth, "panel": 18}
    drawers = {"rows": rows, "gap": "3 mm", "reveal": "2 mm", "fit": "overlay"}
    table = {
        **TABLE,
        "size": {key: f"{scale * value} mm" for key, value in size.items()},
        "top": {**TABLE["top"], "thickness": f"{scale * 20} mm"},
        "drawers": {**drawers, "gap": f"{scale * 3} mm", "reveal": f"{scale * 2} mm"},
    }
    return piece_from_table(table, "test")


@settings(max_examples=40, deadline=None)
@given(st.integers(300, 1500), st.integers(300, 1500), st.integers(200, 700),
       st.integers(1, 6))  # fmt: skip
def test_doubling_every_length_quadruples_the_area(width, height, depth, rows):
    one, two = (take_off(chest(width, height, depth, rows, scale=s)) for s in (1, 2))
    assert two.veneered_m2 == pytest.approx(4 * one.veneered_m2)
    assert two.coated_m2 == pytest.approx(4 * one.coated_m2)
    assert two.banded_mm == pytest.approx(2 * one.banded_mm)
    assert two.board_m3 == pytest.approx(8 * one.board_m3)


@settings(max_examples=40, deadline=None)
@given(st.integers(300, 1500), st.integers(300, 1500), st.integers(1, 6))
def test_fronts_gaps_and_reveals_fill_the_carcase(width, height, rows):
    fronts = [f for f in take_off(chest(width, height, 400, rows)).faces
              if f.group == "fronts"]  # fmt: skip
    filled = sum(f.across_mm for f in fronts) + 3 * (rows - 1) + 2 * 2
    assert filled == pytest.approx(height - 20)


def test_listed_faces_that_get_backing_without_a_wood_are_each_asked_for_it():
    given = piece("plain_list")
    backed = [replace(f, treatment="backing") for f in given.faces[:2]]
    none = replace(given.veneer, backing_species=None)
    words = r'faces "curved top, flattened" gets backing veneer; name its wood in '
    with pytest.raises(SpecError, match=words + "veneer.backing_species") as refused:
        take_off(replace(given, veneer=none, faces=(*backed, *given.faces[2:])))
    assert len(refused.value.faults) == 3  # the shelf has backing in the file
    shown = tuple(replace(f, treatment="show") for f in given.faces)
    assert take_off(replace(given, veneer=none, faces=shown)).faces


def test_fronts_taller_than_the_carcase_are_refused():
    table = {
        **TABLE,
        "size": {"width": "800 mm", "height": "500 mm", "depth": "400 mm",
                 "panel": "18 mm"},
        "drawers": {"rows": 2, "heights": ["300 mm", "300 mm"], "gap": "3 mm",
                    "reveal": "2 mm", "fit": "overlay"},
    }  # fmt: skip
    words = r"taller than the carcase, which has 18 7/8 in .480 mm."
    with pytest.raises(SpecError, match=words):
        piece_from_table(table, "test")
