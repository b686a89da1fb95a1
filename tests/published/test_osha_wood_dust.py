"""OSHA Chemical Sampling Information, Wood Dust: limits and ACGIH classes by wood.

Oak and beech: A1, confirmed human carcinogen. Birch, mahogany, teak, walnut: A2,
suspected human carcinogen. NIOSH recommends at most 1 mg/m3.
"""

import pytest

from pricebook import cautions

A1, A2 = "A1, confirmed human carcinogen", "A2, suspected human carcinogen"
CLASSES = {
    "white oak": A1,
    "red oak": A1,
    "beech": A1,
    "yellow birch": A2,
    "mahogany": A2,
    "teak": A2,
    "walnut": A2,
}


@pytest.mark.parametrize("wood", CLASSES)
def test_a_wood_that_is_sanded_gets_its_class(wood_rows, wood):
    species = cautions.species_from_rows(wood_rows)[wood]
    facts = cautions.PieceFacts(
        kind="bookcase", height_mm=500, sands=True, species=(species,)
    )
    found = {note.key: note for note in cautions.cautions_for(facts)}
    assert CLASSES[wood] in found[f"dust of {wood}"].text
    assert "1 mg/m3" in found["wood dust"].text


def test_a_wood_that_is_not_named_gets_no_class(wood_rows):
    species = cautions.species_from_rows(wood_rows)["cherry"]
    facts = cautions.PieceFacts(
        kind="bookcase", height_mm=500, sands=True, species=(species,)
    )
    keys = [note.key for note in cautions.cautions_for(facts)]
    assert keys == ["wood dust"]
