"""Apportionment by largest remainder (Hamilton) on the US census of 1790.

"For All Practical Purposes", 10th edition, chapter 14, example 6, table 14.5: 120
seats for a total of 3,615,920; the lower quotas sum to 111. A mathematics
association's page on 105 seats: Delaware 2 and Virginia 18, each one off the act of
1792. Whole seats, exact.
"""

from pricebook import money

CENSUS = {
    "Connecticut": (236841, 8),
    "Delaware": (55540, 2),
    "Georgia": (70835, 2),
    "Kentucky": (68705, 2),
    "Maryland": (278514, 9),
    "Massachusetts": (475327, 16),
    "New Hampshire": (141822, 5),
    "New Jersey": (179570, 6),
    "New York": (331589, 11),
    "North Carolina": (353523, 12),
    "Pennsylvania": (432879, 14),
    "Rhode Island": (68446, 2),
    "South Carolina": (206236, 7),
    "Vermont": (85533, 3),
    "Virginia": (630560, 21),
}
PEOPLE = [people for people, _ in CENSUS.values()]


def test_the_table_adds_up():
    assert sum(PEOPLE) == 3_615_920
    assert sum(120 * people // 3_615_920 for people in PEOPLE) == 111


def test_120_seats_fall_as_printed():
    assert money.share_out(120, PEOPLE) == tuple(seats for _, seats in CENSUS.values())


def test_105_seats_give_delaware_2_and_virginia_18():
    seats = dict(zip(CENSUS, money.share_out(105, PEOPLE), strict=True))
    assert (seats["Delaware"], seats["Virginia"]) == (2, 18)
