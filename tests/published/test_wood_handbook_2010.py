"""Wood Handbook, FPL-GTR-190 (2010): Tables 4-3, 4-4, 5-3b, 5-5b and 13-5, chapter 13.

Typed in here from the printed tables, to find a slip of the pen in the data file.
"""

import pytest

from pricebook import cautions

SHRINKAGE = {  # Table 4-3 and 4-4: radial, tangential, volumetric, percent
    "walnut": (5.5, 7.8, 12.8),
    "cherry": (3.7, 7.1, 11.5),
    "white oak": (5.6, 10.5, 16.3),
    "white ash": (4.9, 7.8, 13.3),
    "yellow birch": (7.3, 9.5, 16.8),
    "beech": (5.5, 11.9, 17.2),
    "sycamore": (5.0, 8.4, 14.1),
    "mahogany": (3.0, 4.1, 7.8),
}
COEFFICIENTS = {  # Table 13-5: radial, tangential, for 1 % of moisture content
    "walnut": (0.00190, 0.00274),
    "hard maple": (0.00165, 0.00353),
    "cherry": (0.00126, 0.00248),
    "white oak": (0.00180, 0.00365),
    "red oak": (0.00158, 0.00369),
    "white ash": (0.00169, 0.00274),
    "yellow birch": (0.00256, 0.00338),
    "beech": (0.00190, 0.00431),
    "sycamore": (0.00172, 0.00296),
}
HARDNESS_LBF = {  # Tables 5-3b and 5-5b, side hardness at 12 % moisture content
    "walnut": 1010,
    "hard maple": 1450,
    "cherry": 950,
    "white oak": 1360,
    "red oak": 1290,
    "white ash": 1320,
    "yellow birch": 1260,
    "beech": 1300,
    "teak": 1000,
}


@pytest.fixture(scope="module")
def woods(wood_rows):
    return cautions.species_from_rows(wood_rows)


@pytest.mark.parametrize("wood", SHRINKAGE)
def test_shrinkage_is_as_printed(woods, wood):
    radial, tangential, volumetric = SHRINKAGE[wood]
    assert woods[wood].radial_shrinkage_percent == radial
    assert woods[wood].tangential_shrinkage_percent == tangential
    assert woods[wood].chosen("volumetric_shrinkage").value == volumetric


@pytest.mark.parametrize("wood", COEFFICIENTS)
def test_coefficients_of_movement_are_as_printed(woods, wood):
    radial, tangential = COEFFICIENTS[wood]
    assert woods[wood].radial_coefficient == radial
    assert woods[wood].tangential_coefficient == tangential


@pytest.mark.parametrize("wood", HARDNESS_LBF)
def test_hardness_is_as_printed(woods, wood):
    lbf = HARDNESS_LBF[wood]
    assert woods[wood].hardness_n == pytest.approx(lbf * 4.4482216, abs=0.01)


@pytest.mark.unconfirmed
def test_shagbark_hickory_from_memory(woods):
    hickory = woods["hickory"]
    assert hickory.radial_shrinkage_percent == 7.0
    assert hickory.tangential_shrinkage_percent == 10.5
    assert hickory.radial_coefficient == 0.00259


@pytest.mark.parametrize("wood", sorted(set(COEFFICIENTS) - {"white oak", "red oak"}))
def test_coefficients_follow_from_shrinkage(woods, wood):
    # Chapter 13 also gives the movement from green-to-ovendry shrinkage S:
    # change / (30 x 100 / S - 30 + start); from 10 % moisture the two tables meet
    # to the last digit printed. The oaks of Table 13-5 are trade groups, not one
    # species, so they are left out.
    for way in ("radial", "tangential"):
        shrinkage = woods[wood].chosen(f"{way}_shrinkage").value
        from_shrinkage = 1 / (3000 / shrinkage - 30 + 10)
        coefficient = woods[wood].chosen(f"{way}_coefficient").value
        assert coefficient == pytest.approx(from_shrinkage, abs=0.00001)


def test_a_flat_sawn_width_of_18_in_over_4_points_of_moisture():
    # 18 x 0.00274 x 4 = 0.197 in walnut; 18 x 0.00353 x 4 = 0.254 in sugar maple
    inches = 25.4
    walnut = cautions.movement_mm(18 * inches, 0.00274, 4)
    maple = cautions.movement_mm(18 * inches, 0.00353, 4)
    assert walnut / inches == pytest.approx(0.197, abs=0.0005)
    assert maple / inches == pytest.approx(0.254, abs=0.0005)
