"""Counts of leaves against the matching rules of architectural woodwork.

Architectural Woodwork Standards, 1st edition, 2009, section 4-1.2.20: running match
has as many leaves as the face takes, the last one may be narrower; balance match has
leaves of equal width, an odd or even number; centre balance match an even number of
equal leaves with a joint on the centre line; slip-centre-book an even number, four or
more. The worked widths are faces of 18 and 20 in with leaves of 6 in.

The rules leave no room for rounding: counts are exact, widths to the last bits of a
float. Slip, book and random are not counted by the standard; here they are laid in
equal leaves as balance match.
"""

import pytest

from pricebook.veneer.leaf_match import leaves

ROWS = [
    # match, face, leaf, count, width of each
    ("running", 20, 6, 4, 6.0),
    ("running", 18, 6, 3, 6.0),
    ("balance", 20, 6, 4, 5.0),
    ("balance", 18, 6, 3, 6.0),
    ("centre balance", 18, 6, 4, 4.5),
    ("centre balance", 20, 6, 4, 5.0),
    ("slip-centre-book", 18, 6, 4, 4.5),
    ("slip-centre-book", 6, 6, 4, 1.5),
    ("slip-centre-book", 30, 6, 6, 5.0),
]


@pytest.mark.parametrize(("match", "face", "leaf", "count", "each"), ROWS)
@pytest.mark.parametrize("unit_mm", [1, 25.4, 0.1, 1 / 3])
def test_a_face_takes_the_leaves_of_the_standard(
    match, face, leaf, count, each, unit_mm
):
    found = leaves(face * unit_mm, leaf * unit_mm, match)

    assert found == (count, pytest.approx(each * unit_mm))


@pytest.mark.parametrize("match", ["slip", "book", "random"])
def test_matches_without_a_count_of_their_own_follow_balance(match):
    assert leaves(20, 6, match) == leaves(20, 6, "balance")


def test_the_last_running_leaf_is_what_is_left():
    # W = 20, w = 6: 6, 6, 6 and 2
    count, each = leaves(20, 6, "running")

    assert 20 - (count - 1) * each == 2
