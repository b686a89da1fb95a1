"""Formaldehyde limits of composite wood panels, 40 CFR 770.10: parts per million."""

import pytest

from pricebook import cautions

LIMITS_PPM = {
    "hardwood plywood": 0.05,
    "particleboard": 0.09,
    "mdf": 0.11,
    "thin mdf": 0.13,
}


@pytest.fixture(scope="module")
def boards(reference):
    rows = [*reference("board_densities"), *reference("cfr_40_770_10")]
    return cautions.boards_from_rows(rows)


@pytest.mark.parametrize("board", LIMITS_PPM)
def test_the_limit_of_each_panel(boards, board):
    assert boards[board].formaldehyde_ppm == LIMITS_PPM[board]


def test_hardboard_is_not_covered(boards):
    # frequent questions of the EPA, August 2020: hardboard is not covered
    assert boards["hardboard"].formaldehyde_ppm is None
