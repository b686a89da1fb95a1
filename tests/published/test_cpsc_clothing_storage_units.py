"""Tip-over rule, 16 CFR 1261: CPSC business guidance "Clothing Storage Units".

In scope: manufactured after 1 September 2023, free-standing, at least 27 in high, at
least 30 lb, at least 3.2 cubic feet enclosed. A drawer counts width x depth x
(height - 1/8 in), a space that does not pull out counts 50 %. Named in scope and out
of scope: the kinds below.
"""

from datetime import date

import pytest

from pricebook import cautions

INCH, POUND, CUBIC_FOOT = 25.4, 0.45359237, 28.316846592  # exact: NIST SP 811
AT = (27 * INCH, 30 * POUND, 3.2 * CUBIC_FOOT)
MADE = date(2024, 1, 1)
IN_SCOPE = ["chest", "chest of drawers", "drawer chest", "armoire", "chifforobe"]
IN_SCOPE += ["bureau", "door chest", "dresser", "night stand"]
OUT_OF_SCOPE = ["bookcase", "entertainment unit", "office furniture"]
OUT_OF_SCOPE += ["dining furniture", "jewelry armoire", "underbed drawer"]
OUT_OF_SCOPE += ["laundry unit", "built-in", "side table", "blanket chest"]


@pytest.mark.parametrize("kind", IN_SCOPE)
def test_a_piece_on_all_three_lines_is_in_scope(kind):
    assert cautions.tip_over_scope(*AT, MADE, kind) is True


@pytest.mark.parametrize("kind", OUT_OF_SCOPE)
def test_kinds_that_the_rule_leaves_out(kind):
    assert cautions.tip_over_scope(*AT, MADE, kind) is False


def test_the_metric_figures_printed_beside_the_lines_are_in_scope():
    assert cautions.tip_over_scope(686, 13.6, 90.6, MADE, "chest") is True


@pytest.mark.parametrize(
    "size",
    [
        (26.9 * INCH, 30 * POUND, 3.2 * CUBIC_FOOT),
        (27 * INCH, 29.9 * POUND, 3.2 * CUBIC_FOOT),
        (27 * INCH, 30 * POUND, 3.19 * CUBIC_FOOT),
    ],
)
def test_any_one_figure_lower_is_out_of_scope(size):
    assert cautions.tip_over_scope(*size, MADE, "chest") is False


@pytest.mark.parametrize(
    ("made_on", "in_scope"),
    [
        (date(2015, 1, 1), False),
        (date(2023, 9, 1), False),
        (date(2023, 9, 2), True),
        ("2024-01-01", True),
    ],
)
def test_only_units_made_after_the_first_of_september_2023(made_on, in_scope):
    assert cautions.tip_over_scope(*AT, made_on, "chest") is in_scope


def test_four_drawers_of_28_by_15_by_6_and_an_eighth():
    drawer = (28 * INCH, 15 * INCH, 6.125 * INCH)
    each = cautions.drawer_volume_l(*drawer) / CUBIC_FOOT
    assert each == pytest.approx(28 * 15 * 6 / 1728)
    whole = cautions.enclosed_volume_l([drawer] * 4)
    assert whole / CUBIC_FOOT == pytest.approx(5.833, abs=0.0005)
    chest = (44 * INCH, 95 * POUND, whole)
    assert cautions.tip_over_scope(*chest, MADE, "chest") is True


def test_a_space_behind_a_door_counts_half():
    space = (24 * INCH, 12 * INCH, 36 * INCH)  # 6 cubic feet
    assert cautions.enclosed_volume_l([], [space]) == pytest.approx(3 * CUBIC_FOOT)


def test_the_table_in_data_says_the_same(reference):
    printed = {row["figure"]: row["value"] for row in reference(PAGE)}
    assert float(printed["height"]) * INCH == pytest.approx(AT[0])
    assert float(printed["mass"]) * POUND == pytest.approx(AT[1])
    assert float(printed["enclosed volume"]) * CUBIC_FOOT == pytest.approx(AT[2])
    assert printed["manufactured after"] == "2023-09-01"


PAGE = "cpsc_clothing_storage_units"
