"""Filler over a sunk number 8 screw, by the sizes of its head.

ASME B18.6.1, slotted flat countersunk head wood screws: number 8, shank 0.164 in,
head 0.332 in at most, 82 degrees; the standard's text was not seen. "The Technique of
Furniture Making", appendix on wood screws: number 8 is 0.066 + 7 x 0.014 = 0.164 in,
its head twice the shank, its sides at 45 degrees to the axis. The volumes are solid
geometry, worked below in cubic inches as a pile of thin slices.
"""

import math

import pytest

from pricebook.consumables import counterbore_ml, countersink_ml

ML_PER_CUBIC_INCH = 16.387064  # 2.54 cm cubed, exact


def slices_ml(head_in, shank_in, angle_deg, count=20000):
    """Add up slices of a countersink from its rim down."""
    slope = 2 * math.tan(math.radians(angle_deg / 2))
    depth = (head_in - shank_in) / slope
    thick = depth / count
    widths = (head_in - slope * thick * (n + 0.5) for n in range(count))
    return sum(math.pi * w * w / 4 * thick for w in widths) * ML_PER_CUBIC_INCH


@pytest.mark.unconfirmed
def test_a_number_8_head_of_the_standard():
    found = countersink_ml(0.332 * 25.4, 0.164 * 25.4, 82)
    assert found == pytest.approx(slices_ml(0.332, 0.164, 82), rel=1e-6)
    assert found == pytest.approx(0.0794, abs=0.001)  # 0.004846 cubic inches


def test_a_number_8_head_of_the_textbook():
    shank_in = 0.066 + 7 * 0.014
    assert shank_in == pytest.approx(0.164)
    found = countersink_ml(2 * shank_in * 25.4, shank_in * 25.4, 90)
    # at 45 degrees to the axis the depth is half the difference: 0.082 in;
    # pi * 0.082 / 12 * (0.328^2 + 0.328*0.164 + 0.164^2) = 0.004042 cubic inches
    assert found == pytest.approx(0.004042 * ML_PER_CUBIC_INCH, rel=1e-3)
    assert found == pytest.approx(slices_ml(0.328, 0.164, 90), rel=1e-6)


def test_a_full_cone_is_a_third_of_its_cylinder():
    height_mm = 4 / math.tan(math.radians(41))
    assert countersink_ml(8, 0, 82) == pytest.approx(counterbore_ml(8, height_mm) / 3)


@pytest.mark.parametrize(
    ("diameter_in", "depth_in", "ml"),
    # pi/4 * d2 * t: 0.02761, 0.04142, 0.00541 and 0.01082 cubic inches
    [(3 / 8, 1 / 4, 0.4525), (3 / 8, 3 / 8, 0.6787), (0.332, 1 / 16, 0.0887),
     (0.332, 1 / 8, 0.1773)],
)  # fmt: skip
def test_counterbores_and_recesses(diameter_in, depth_in, ml):
    found = counterbore_ml(diameter_in * 25.4, depth_in * 25.4)
    assert found == pytest.approx(ml, abs=0.0001)
