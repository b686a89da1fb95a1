"""Parts of alcohol to one part of shellac, and the room that flakes take up.

A table in a US fine-woodworking magazine with its editor's note, reprinted on a
woodworkers' blog ("Cutting premixed Shellac", blog 22129). The table is printed in
quarters and thirds; the note explains why a plain ratio is wrong: 2 lb in 1 gal of
alcohol make 1.2 gal, so a gallon of 2-lb product holds 1.66 lb; 3 lb make 1.3, 4 lb
1.4.

Our closed form is a mass balance on that displacement. It meets 22 of the 27 cells
within a tenth, or within 0.06 parts where the cell itself is small; the other
five are listed below with what it gives instead. The cell 5 to 3 lb reads 7/8, more
than 5 to 2 lb would leave room for: a slip, likely of pints for quarts.
"""

import pytest

from pricebook import finish
from pricebook.finish import cut

TARGETS = (0.25, 0.5, 1, 1.5, 2, 3)
PRINTED = {
    0.5: (1,),
    1: (3, 7 / 8),
    1.5: (4.5, 5 / 3, 1 / 3),
    2: (5, 2, 2 / 3, 1 / 4),
    3: (8.75, 3.75, 1.5, 3 / 4, 1 / 3),
    4: (11, 5, 2, 1.25, 3 / 4, 1 / 4),
    5: (12.75, 5.75, 2.75, 1.5, 1, 7 / 8),
}
CELLS = [
    (existing, wanted, parts)
    for existing, row in PRINTED.items()
    for wanted, parts in zip(TARGETS, row, strict=False)
]
OFF = {(1.5, 1): 0.435, (2, 0.25): 5.833, (2, 0.5): 2.5, (2, 1): 0.833, (5, 3): 0.444}


def test_the_table_has_27_cells():
    assert len(CELLS) == 27


@pytest.mark.parametrize(
    ("existing", "wanted", "parts"),
    [cell for cell in CELLS if cell[:2] not in OFF],
)
def test_parts_of_alcohol_are_near_the_printed_ones(existing, wanted, parts):
    allowed = max(0.1 * parts, 0.06)  # cells are rounded to quarters and thirds
    assert finish.dilute(existing, wanted) == pytest.approx(parts, abs=allowed)


@pytest.mark.parametrize(("pair", "ours"), OFF.items())
def test_the_five_cells_that_do_not_fit_are_known(pair, ours):
    # by hand: (from/to - 1) / (1 + from/10)
    assert finish.dilute(*pair) == pytest.approx(ours, abs=0.0006)
    printed = {cell[:2]: cell[2] for cell in CELLS}[pair]
    assert abs(ours - printed) > max(0.1 * printed, 0.06)


def test_a_plain_ratio_of_cuts_is_refuted_by_the_table():
    assert finish.dilute(4, 1) < 2.5  # printed 2; 4/1 - 1 would be 3


@pytest.mark.parametrize(("pounds", "gallons"), [(2, 1.2), (3, 1.3), (4, 1.4)])
def test_flakes_take_up_a_tenth_of_a_gallon_a_pound(pounds, gallons):
    mixed = finish.mixed_l(pounds, cut.L_PER_US_GAL) / cut.L_PER_US_GAL
    assert mixed == pytest.approx(gallons, abs=0.02)  # "roughly", says the note


def test_a_gallon_of_two_pound_product_holds_less_than_two_pounds():
    found = finish.batch(2, cut.L_PER_US_GAL)
    # printed 1.66, cut off after two decimals
    assert found.flakes_kg / 0.45359237 == pytest.approx(1.66, abs=0.01)
