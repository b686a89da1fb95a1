"""What can hurt someone: scope, weight, woods, and the cautions for one piece."""

import math
from dataclasses import FrozenInstanceError, replace
from datetime import date, datetime
from inspect import signature
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import cautions
from pricebook.cost import cost_sheet
from pricebook.errors import SpecError
from pricebook.files import read_piece, read_shop
from pricebook.piece import Arrival

DATA = Path(__file__).parents[1] / "data"
SIZES_MM = st.floats(50, 3000)
CHEST = {"kind": "chest", "height_mm": 1118, "mass_kg": 43, "volume_l": 165}


def keys(**facts):
    shelf = {"kind": "bookcase", "height_mm": 600}
    found = cautions.cautions_for(cautions.PieceFacts(**(shelf | facts)))
    return [caution.key for caution in found]


# --- the tip-over rule ------------------------------------------------------------


@pytest.mark.parametrize("made_on", [None, "", "last year", 2024, "2024-13-01"])
def test_an_unknown_day_of_manufacture_is_refused_not_guessed(made_on):
    with pytest.raises(SpecError, match="the rule turns on it"):
        cautions.tip_over_scope(1118, 43, 165, made_on, "chest")


def test_a_time_of_manufacture_counts_as_its_day():
    moment = datetime(2023, 9, 1, 23, 59)  # noqa: DTZ001
    assert cautions.tip_over_scope(1118, 43, 165, moment, "chest") is False


@pytest.mark.parametrize("kind", ["Night_Stand", "nightstand", "night-stand"])
def test_a_kind_may_be_spelt_as_people_spell_it(kind):
    assert cautions.tip_over_scope(1118, 43, 165, date(2024, 1, 1), kind) is True


def test_an_unknown_kind_is_refused_with_the_nearest():
    with pytest.raises(SpecError, match='did you mean "dresser"'):
        cautions.tip_over_scope(1118, 43, 165, date(2024, 1, 1), "dreser")


def test_all_faults_of_the_facts_are_named_at_once():
    with pytest.raises(SpecError, match="height is -1 mm") as caught:
        cautions.tip_over_scope(-1, math.nan, True, None, "boat")
    assert len(caught.value.faults) == 5


@given(SIZES_MM, st.floats(1, 200), st.floats(1, 900), st.floats(1, 50))
@settings(max_examples=60, deadline=None)
def test_a_larger_piece_never_leaves_the_scope(height, mass, volume, more):
    made = date(2024, 1, 1)
    before = cautions.tip_over_scope(height, mass, volume, made, "chest")
    larger = (height + more, mass + more, volume + more)
    assert cautions.tip_over_scope(*larger, made, "chest") >= before
    assert cautions.tip_over_by_size(height, mass, volume, "chest") == before


@pytest.mark.parametrize("height_mm", [3.175, 3, 0, -1, math.inf, math.nan])
def test_a_drawer_without_counted_height_is_refused(height_mm):
    with pytest.raises(SpecError, match="drawer height is"):
        cautions.drawer_volume_l(500, 400, height_mm)


def test_a_closed_space_without_size_is_refused():
    with pytest.raises(SpecError, match="closed space depth is 0"):
        cautions.enclosed_volume_l([], [(500, 0, 500)])


# --- the cautions for one piece ---------------------------------------------------


def test_a_plain_low_shelf_needs_no_caution():
    assert keys() == []


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"iron": True}, ["hot iron"]),
        ({"knives": True}, ["knives"]),
        ({"sands": True}, ["wood dust"]),
        ({"sprays": True}, ["spraying"]),
        ({"sprays": True, "flammable": True}, ["spraying flammables", "solvent rags"]),
        ({"brushes": True, "flammable": True}, ["flammable finish", "solvent rags"]),
        ({"brushes": True, "finish_l": 9}, []),
        ({"oil_finish": True}, ["oily rags"]),
        ({"contact_cement": True}, ["contact cement"]),
        ({"strips": True}, ["stripper"]),
        ({"secondhand": True}, ["recalls"]),
        ({"new_panels": True}, ["formaldehyde label"]),
        ({"mass_kg": 23}, []),
        ({"mass_kg": 24}, ["lifting"]),
        ({"old_finish": "paint"}, ["lead"]),
        ({"old_finish": "clear", "old_finish_before_1978": True}, ["lead"]),
        ({"old_finish": "paint", "old_finish_before_1978": False}, []),
        ({"unbalanced_panels": ("door",)}, ["unbalanced panel"]),
        ({"height_mm": 700}, ["tall piece"]),
        ({"height_mm": 700, "kind": "side table"}, []),
        ({"height_mm": 700, "kind": "chest"}, ["tall piece"]),
    ],
)
def test_only_the_cautions_that_apply_are_given(facts, expected):
    assert keys(**facts) == expected


@pytest.mark.parametrize(("litres", "warned"), [(3.785, False), (3.786, True)])
def test_more_than_one_gallon_of_flammable_finish_is_for_the_fire_marshal(
    litres, warned
):
    # model fire code, chapter 24: brushing more than 1 gallon of class I or II liquid
    found = keys(brushes=True, flammable=True, finish_l=litres)
    assert ("more than a gallon" in found) is warned


@pytest.mark.parametrize(
    ("made_on", "words"),
    [
        (date(2024, 1, 1), "it must pass the stability tests"),
        (date(2015, 1, 1), "it is outside 16 CFR 1261"),
        (None, "the day is not known"),
    ],
)
def test_a_chest_is_told_what_its_age_means(made_on, words):
    found = cautions.cautions_for(cautions.PieceFacts(**CHEST, made_on=made_on))
    assert found[0].key == "tip-over"
    assert words in found[0].text
    assert "anti-tip hardware" in found[0].text


def everything(wood_rows):
    return cautions.PieceFacts(
        **CHEST,
        secondhand=True,
        old_finish="unknown",
        sprays=True,
        brushes=True,
        flammable=True,
        finish_l=5,
        oil_finish=True,
        strips=True,
        sands=True,
        iron=True,
        knives=True,
        contact_cement=True,
        new_panels=True,
        species=tuple(cautions.species_from_rows(wood_rows).values()),
        unbalanced_panels=("door", "shelf"),
    )


def test_every_caution_names_a_listed_source_and_is_given_once(wood_rows):
    from test_sources import KEYS

    found = cautions.cautions_for(everything(wood_rows))
    assert {caution.source for caution in found} - set(KEYS) == set()
    assert len({caution.key for caution in found}) == len(found) > 20


def test_the_texts_are_short_plain_sentences(wood_rows):
    for caution in cautions.cautions_for(everything(wood_rows)):
        assert caution.text.endswith(".")
        assert len(caution.text) < 420


def test_rules_of_fire_and_lead_defer_to_licensed_practice(wood_rows):
    found = {c.key: c.text for c in cautions.cautions_for(everything(wood_rows))}
    for key in ("lead", "stripper", "spraying flammables", "flammable finish"):
        assert "Follow local codes and the product label" in found[key]


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"height_mm": 0}, "height is 0 mm"),
        ({"mass_kg": -2}, "mass is -2 kg"),
        ({"volume_l": math.inf}, "enclosed volume is inf"),
        ({"finish_l": -1}, "finish is -1 L"),
        ({"old_finish": "varnished"}, "use one of none, clear, paint, unknown"),
        ({"kind": "chset"}, 'did you mean "chest"'),
        ({"made_on": datetime(2024, 1, 1)}, "leave out the time"),  # noqa: DTZ001
    ],
)
def test_facts_that_cannot_be_are_refused(facts, words):
    with pytest.raises(SpecError, match=words):
        keys(**facts)


def test_facts_are_frozen():
    facts = cautions.PieceFacts(**CHEST)
    with pytest.raises(FrozenInstanceError):
        facts.kind = "table"
    assert replace(facts, kind="table").kind == "table"
    assert facts.kind == "chest"


def test_the_door_keeps_its_arguments_in_order():
    names = list(signature(cautions.tip_over_scope).parameters)
    assert names == ["height_mm", "mass_kg", "volume_l", "made_on", "kind"]


def _cautions_of(**arrival):
    made_on = arrival.pop("made_on", None)
    piece = read_piece(DATA / "pieces" / "harbour_blanket_chest.toml")
    changed = {"condition": "painted", "made_before_1978": None, **arrival}
    piece = replace(piece, arrival=Arrival(**changed), made_on=made_on)
    sheet = cost_sheet(piece, read_shop(DATA / "shop"), date(2026, 11, 25))
    return {caution.key for caution in sheet.cautions}


def test_a_coating_that_was_tested_or_is_too_young_has_no_caution_for_lead():
    assert "lead" in _cautions_of()
    assert "lead" in _cautions_of(made_on=date(1960, 5, 1))
    assert "lead" not in _cautions_of(made_before_1978=True, lead_free=True)
    assert "lead" not in _cautions_of(made_on=date(1999, 1, 1))
    assert "lead" not in _cautions_of(made_before_1978=False)


def test_new_boards_bring_the_caution_for_their_label():
    assert "formaldehyde label" not in _cautions_of()
    assert "formaldehyde label" in _cautions_of(new_panels=True)


def test_a_late_day_and_an_early_coating_contradict_each_other():
    with pytest.raises(SpecError, match="one of the two is wrong"):
        _cautions_of(made_before_1978=True, made_on=date(1999, 1, 1))
