"""Contact cement covers half of what its label says.

An adhesive-trade thread: a coverage of 100 sq ft bonds 50, because both faces are
coated. Worked for a 32 sq ft panel at 250 sq ft/gal (the spread itself is common
practice): 64/250 = 0.256 gal, and 96/250 = 0.384 gal with a second coat on raw board.
A wood-science extension reply of 1998: iron-on PVA goes on both faces too.
"""

import pytest

from pricebook.consumables import adhesive

M2 = 0.3048**2
LITRES = 3.785411784


def laid(kind, square_feet, per_gallon, **wishes):
    return adhesive(
        kind,
        square_feet * M2,
        form="backed",
        spread_m2_per_l=per_gallon * M2 / LITRES,
        item=kind,
        **wishes,
    )


def test_a_coverage_of_100_square_feet_bonds_50():
    assert laid("contact cement", 50, 100).litres / LITRES == pytest.approx(1)


def test_a_full_sheet_on_a_board_that_is_sealed_or_raw():
    assert laid("contact cement", 32, 250).litres / LITRES == pytest.approx(0.256)
    raw = laid("contact cement", 32, 250, raw_board=True)
    assert raw.litres / LITRES == pytest.approx(0.384)


def test_iron_on_glue_goes_on_both_faces():
    assert laid("iron-on PVA", 32, 250).litres / LITRES == pytest.approx(0.256)


def test_a_glue_film_of_six_mil_on_one_face():
    # 1604.17 / 6 = 267.36 sq ft a gallon
    per_gallon = 231 / (144 * 0.006)
    found = laid("PVA glue", 267.36, per_gallon).litres / LITRES
    assert found == pytest.approx(1, abs=1e-4)
