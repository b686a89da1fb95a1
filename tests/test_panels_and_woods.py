"""Weight and balance of panels; figures of woods, each with its source."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import cautions
from pricebook.errors import SpecError, TableError

SIZES_MM = st.floats(50, 3000)
DENSITIES = st.floats(300, 1200)


# --- panels -----------------------------------------------------------------------


@given(SIZES_MM, SIZES_MM, st.floats(3, 40), DENSITIES)
@settings(max_examples=60, deadline=None)
def test_doubling_every_length_makes_a_panel_eight_times_as_heavy(
    along, across, thickness, density
):
    once = cautions.panel_mass_kg(along, across, thickness, density)
    twice = cautions.panel_mass_kg(2 * along, 2 * across, 2 * thickness, density)
    assert twice == pytest.approx(8 * once)


def panel(**changes):
    door = {"name": "door", "along_mm": 600, "across_mm": 400, "thickness_mm": 18}
    return cautions.Panel(**({"density_kg_m3": 700} | door | changes))


def test_a_piece_weighs_what_its_panels_weigh():
    rows = [panel(), panel(name="side", count=2)]
    assert cautions.total_mass_kg(rows) == pytest.approx(3 * panel().mass_kg)
    assert cautions.total_mass_kg([]) == 0


@pytest.mark.parametrize(
    ("loose", "faces", "named"),
    [
        (True, 1, ("door",)),
        (True, 2, ()),
        (True, 0, ()),
        (False, 1, ()),
    ],
)
def test_only_a_loose_panel_veneered_on_one_face_is_named(loose, faces, named):
    assert cautions.unbalanced([panel(loose=loose, veneered_faces=faces)]) == named


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"thickness_mm": 0}, "thickness is 0 mm"),
        ({"density_kg_m3": 45}, "give kg/m3, not lb/ft3"),
        ({"count": 0}, "count is 0"),
        ({"veneered_faces": 3}, "use 0, 1 or 2"),
    ],
)
def test_a_panel_that_cannot_be_is_refused(change, words):
    with pytest.raises(SpecError, match=f'"door": .*{words}'):
        panel(**change)


BOARD = {
    "board": "mdf",
    "name": "MDF",
    "density_kg_m3": "700",
    "formaldehyde_ppm": "",
    "confirmed": "yes",
    "source": "epa_formaldehyde_faq",
}


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([{"board": "mdf"}], "has no column name"),
        ([BOARD | {"density_kg_m3": ""}], "has no density"),
        ([BOARD, BOARD], "two densities"),
        ([BOARD | {"density_kg_m3": "heavy"}], "is no number"),
        ([BOARD | {"density_kg_m3": "43"}], "no board for furniture"),
    ],
)
def test_rows_of_boards_that_cannot_be_read_are_refused(rows, words):
    with pytest.raises(TableError, match=words):
        cautions.boards_from_rows(rows)


def test_every_board_in_data_has_a_density_in_range(reference):
    rows = [*reference("board_densities"), *reference("cfr_40_770_10")]
    boards = cautions.boards_from_rows(rows)
    assert cautions.density_class(boards["particleboard"].density_kg_m3) == "M"
    assert boards["particleboard"].confirmed is False


# --- woods ------------------------------------------------------------------------

FIGURE = {
    "species": "teak",
    "figure": "hardness",
    "value": "1000",
    "unit": "lbf",
    "table": "5-5b",
    "confirmed": "yes",
    "source": "wood_handbook_2010",
}
OTHER = FIGURE | {"value": "1155", "source": "hardness_lists"}


def test_fifteen_woods_have_a_name_and_a_hardness(wood_rows):
    woods = cautions.species_from_rows(wood_rows)
    assert len(woods) == 15
    assert [wood.key for wood in woods.values() if not wood.hardness_n] == []
    assert [wood.key for wood in woods.values() if not wood.botanical_name] == []


def test_the_order_of_rows_does_not_change_the_choice():
    for rows in ([FIGURE, OTHER], [OTHER, FIGURE]):
        teak = cautions.species_from_rows(rows)["teak"]
        assert teak.chosen("hardness").value == 1000
        assert len(teak.all_of("hardness")) == 2


def test_a_figure_that_was_seen_goes_before_one_from_memory():
    rows = [FIGURE | {"confirmed": "no"}, OTHER]
    teak = cautions.species_from_rows(rows)["teak"]
    assert teak.chosen("hardness").source == "hardness_lists"
    assert "1000.0 lbf (wood_handbook_2010, from memory)" in teak.choice("hardness")


def test_the_reader_may_prefer_another_source():
    teak = cautions.species_from_rows([FIGURE, OTHER], ["hardness_lists"])["teak"]
    assert teak.chosen("hardness").value == 1155


def test_what_is_not_published_is_none_and_not_zero():
    teak = cautions.species_from_rows([FIGURE])["teak"]
    assert teak.radial_coefficient is None
    assert teak.restriction == ""
    assert teak.choice("dust") == "teak: no dust is known"
    with pytest.raises(SpecError, match='did you mean "hardness"'):
        teak.chosen("hardnes")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"figure": "hardnes"}, 'did you mean "hardness"'),
        ({"value": "hard"}, "must be a number above 0"),
        ({"value": "-4"}, "must be a number above 0"),
        ({"value": "nan"}, "must be a number above 0"),
        ({"unit": "N"}, 'use "lbf"'),
        ({"confirmed": "maybe"}, "use yes or no"),
        ({"source": ""}, "name both"),
        ({"figure": "dust", "unit": "", "value": " "}, "dust is empty"),
    ],
)
def test_a_row_of_a_wood_that_cannot_be_read_is_refused(change, words):
    with pytest.raises(TableError, match=f"wood row 2: .*{words}"):
        cautions.species_from_rows([FIGURE | {"species": "oak"}, FIGURE | change])


def test_a_missing_column_and_a_repeated_figure_are_refused():
    with pytest.raises(TableError, match="no column figure") as caught:
        cautions.species_from_rows([{"species": "teak"}, FIGURE, FIGURE])
    assert "given twice" in str(caught.value)


@given(st.floats(1, 3000), st.floats(0.0005, 0.009), st.floats(0.001, 8))
@settings(max_examples=60, deadline=None)
def test_drying_shrinks_as_much_as_wetting_swells(width, coefficient, change):
    swells = cautions.movement_mm(width, coefficient, change)
    assert cautions.movement_mm(width, coefficient, -change) == -swells
    assert cautions.movement_mm(2 * width, coefficient, change) == 2 * swells


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((0, 0.002, 4), "width is 0 mm"),
        ((457, 0.2, 4), "above 0 and below 0.01"),
        ((457, 0, 4), "above 0 and below 0.01"),
        ((457, 0.002, 8.1), "at most 8 points"),
        ((457, 0.002, -9), "at most 8 points"),
        ((457, 0.002, math.nan), "at most 8 points"),
    ],
)
def test_movement_outside_its_range_is_refused(arguments, words):
    with pytest.raises(SpecError, match=words):
        cautions.movement_mm(*arguments)


@pytest.mark.unconfirmed
@pytest.mark.parametrize("wood", ["mahogany", "Indian rosewood", "padauk"])
def test_limits_on_trade_are_from_memory_and_say_so(wood_rows, wood):
    species = cautions.species_from_rows(wood_rows)[wood]
    facts = cautions.PieceFacts(kind="list", height_mm=400, species=(species,))
    note = cautions.cautions_for(facts)[0]
    assert "CITES Appendix II" in note.text
    assert "(from memory). Check the current list" in note.text
