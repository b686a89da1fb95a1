"""A cost sheet reads as a woodworker speaks, in the shop's own units."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from pricebook.cost import cost_sheet, cost_sheets
from pricebook.cost.batch_text import batch_text
from pricebook.cost.compare import compare_species
from pricebook.cost.compare_text import comparison_text
from pricebook.cost.drivers import what_drives
from pricebook.cost.drivers_text import drivers_text
from pricebook.cost.text import cost_text, layout_text
from pricebook.files import read_piece, read_shop
from pricebook.money import read, show
from pricebook.piece import Arrival, FinishWishes

DATA = Path(__file__).parents[1] / "data"
PIECES = sorted(path.stem for path in (DATA / "pieces").glob("*.toml"))
ON = date(2026, 11, 25)


def _text(name, lengths):
    shop = read_shop(DATA / "shop")
    shop = replace(shop, settings=replace(shop.settings, lengths=lengths))
    sheet = cost_sheet(read_piece(DATA / "pieces" / f"{name}.toml"), shop, ON)
    return f"{cost_text(sheet)}\n{layout_text(sheet.layout, lengths)}"


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("lengths", ["in", "mm"])
def test_a_cost_sheet_has_no_jargon_and_no_wrong_plural(name, lengths):
    said = _text(name, lengths)
    assert not re.search(r"\beach/|/each|\d each x|x \d+ each\b", said)
    assert not re.search(r"\b1 (faces|edges|sheets|rolls|discs|coats|holes)\b", said)
    assert not re.search(r"\d\.\d{5,}", said)
    assert not re.search(r"\b\d+ steps;", said)


@pytest.mark.parametrize("name", PIECES)
def test_a_shop_in_millimetres_reads_no_inches(name):
    said = _text(name, "mm").replace("5 in sanding disc", "sanding disc")
    assert not re.search(r"\d in\b|sq ft|\bft\b|\boz\b|/gal\b|cu ft", said)


@pytest.mark.parametrize("name", PIECES)
def test_a_shop_in_inches_reads_no_millimetres_and_no_square_metres(name):
    said = _text(name, "in")
    assert not re.search(r"\d mm\b|\bm2\b|\d m\b", said)


def test_each_step_of_an_operation_is_worked_out_in_words():
    said = " ".join(_text("low_dresser", "in").split())
    assert "sand one grit: 2 times set up 5 min + 24.08 sq ft x" in said
    assert "fit hardware: set up 10 min + 5 x 6 min, 5 % more for rework" in said


def test_names_with_commas_stay_apart_in_the_list_of_a_sheet():
    assert "front, left; front, right; end 1" in " ".join(
        _text("plain_list", "in").split()
    )


@pytest.mark.parametrize(
    ("lengths", "absent", "present"),
    [("in", r"m2|\d N\b", r"min/sq ft"), ("mm", r"sq ft|lbf|\d in\b", r"min/m2")],
)
def test_what_drives_the_cost_is_told_in_the_units_of_the_shop(
    lengths, absent, present
):
    shop = read_shop(DATA / "shop")
    shop = replace(shop, settings=replace(shop.settings, lengths=lengths))
    piece = read_piece(DATA / "pieces" / "lamp_table.toml")
    said = drivers_text(what_drives(piece, shop, ON), lengths)
    assert not re.search(absent, said)
    assert re.search(present, said)


@pytest.mark.parametrize(("lengths", "unit"), [("in", "lbf"), ("mm", "N")])
def test_hardness_is_told_in_the_units_of_the_shop(lengths, unit):
    # Wood Handbook and its sheets: walnut 1,010 lbf, 4,493 N
    shop = read_shop(DATA / "shop")
    shop = replace(shop, settings=replace(shop.settings, lengths=lengths))
    piece = read_piece(DATA / "pieces" / "lamp_table.toml")
    said = comparison_text(compare_species(piece, shop, ON))
    walnut = {"in": "1,010 lbf", "mm": "4,493 N"}[lengths]
    assert re.search(rf"walnut .*{walnut}", said)
    assert not re.search(r"\d N\b" if unit == "lbf" else "lbf", said)


def test_a_piece_without_veneer_says_nothing_of_veneer_and_goes_by_the_gallon():
    piece = read_piece(DATA / "pieces" / "reading_bookcase.toml")
    plain = replace(
        piece,
        veneer=replace(
            piece.veneer, show=(), backing=(), matched=(), centred=(), free_grain=()
        ),
        banding=None,
        faces=(),
        finish=FinishWishes(system="brushed waterborne clear", groups=("top",)),
        arrival=Arrival(condition="bare board"),
    )
    said = cost_text(cost_sheet(plain, read_shop(DATA / "shop"), ON))
    assert "veneer" not in said.partition("\nCost\n")[0]
    assert "a litre" not in said
    assert "sq ft/gal" in said


@pytest.mark.parametrize(
    ("heights", "said"),
    [
        # 40 1/2 in less top, plinth and bottom leaves 35 in; two reveals of 1/4 in and
        # four gaps of 1/8 in leave 34 in for the fronts
        ((5, 6, 7, 7, 7), "The drawer fronts listed leave 2 in of the front open"),
        ((6, 7, 7, 7, 7), None),
        ((6, 7, 7, 7, 6.95), None),  # less than a tape shows
        ((), None),
    ],
)
def test_listed_fronts_that_leave_part_of_the_front_open_are_said(heights, said):
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    drawers = replace(piece.drawers, heights_mm=tuple(25.4 * h for h in heights))
    notes = cost_sheet(
        replace(piece, drawers=drawers), read_shop(DATA / "shop"), ON
    ).notes
    found = [note for note in notes if "leave" in note]
    assert (said is None) == (not found)
    assert said is None or found[0].startswith(said)


def test_a_price_dated_after_the_day_of_the_cost_sheet_is_said():
    shop = read_shop(DATA / "shop")
    rows = tuple(
        replace(row, dated=date(2027, 9, 14)) if row.key == "walnut-4x10" else row
        for row in shop.sheets
    )
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    notes = cost_sheet(piece, replace(shop, sheets=rows), ON).notes
    assert any(
        n.startswith("The price of walnut-4x10 is dated 2027-09-14") for n in notes
    )
    assert not any("dated" in note for note in cost_sheet(piece, shop, ON).notes)


def test_a_cost_sheet_tells_the_films_of_every_coat_and_what_they_build():
    # 8.6 m2/L are 350 sq ft/gal: 1604.17 / 350 = 4.6 mil wet; a 2-lb cut holds 16.67 %
    # solids, so 0.76 mil dry a coat and 3.06 in four (common practice, no source).
    # The sealer: 1604.17 / 399 = 4.0 mil wet at 9.09 %, 0.37 mil dry; 3.4 in all.
    text = _text("low_dresser", "in")
    build = next(x for x in text.splitlines() if x.startswith("  build, 2-lb cut"))
    assert "brush         4.6 mil    0.8 mil   3.1 mil  1.21 L" in build
    assert "in all 3.4 mil dry, within the usual 2.0 mil to 4.0 mil" in text
    # three thin coats of 1 1/2-lb at 8.1 m2/L: 3 x 123.5 um x 13.04 % = 48 um
    assert "in all 48 um dry, thin: 51 um to 102 um is usual" in _text(
        "guest_night_stand", "mm"
    )
    assert "no usual film is stated" in _text("harbour_blanket_chest", "in")


def test_several_pieces_have_their_totals_and_one_list_of_what_to_buy():
    shop, piece = read_shop(DATA / "shop"), read_piece(DATA / "pieces/low_dresser.toml")
    sheets = cost_sheets([replace(piece, name=n) for n in ("One", "Two")], shop, ON)
    text = batch_text(sheets)
    totals, shopping = text.split("To buy for all of them\n")
    assert totals.splitlines()[5].split()[:3] == [
        "in", "all", show(sum(sheet.cash_to_buy_cents for sheet in sheets))
    ]  # fmt: skip
    # what is listed once adds up to what both pieces pay, sheets at their own price
    cash = [row.split()[-1] for row in shopping.splitlines()[2:]]
    assert sum(map(read, cash)) == sum(sheet.cash_to_buy_cents for sheet in sheets)
    sheet = next(row for row in shopping.splitlines() if "96 in x 24 in" in row)
    assert sheet.split()[-3:] == ["2", "sheets", "144.00"]
    assert batch_text(sheets[:1]) == ""


def test_a_sheet_that_pieces_share_says_which_face_is_whose():
    shop, piece = read_shop(DATA / "shop"), read_piece(DATA / "pieces/low_dresser.toml")
    sheets = cost_sheets([replace(piece, name=n) for n in ("One", "Two")], shop, ON)
    text = layout_text(sheets[0].layout, "in")
    assert "    One: top" in text
    assert "    Two: top" in text
    assert "One:" not in _text("low_dresser", "in")


def test_hours_that_are_paid_are_not_called_given():
    shop, piece = read_shop(DATA / "shop"), read_piece(DATA / "pieces/low_dresser.toml")
    paid = replace(piece, labour=replace(piece.labour, pay="paid", hours=20.0))
    assert "time given (0.00 h of 20.00 h in all)" in cost_text(
        cost_sheet(paid, shop, ON)
    )
    given = cost_sheet(piece, shop, ON)
    assert f"time given ({given.hours:.2f} h in all)" in cost_text(given)


def test_learning_says_which_piece_it_is_and_leaves_set_ups_alone():
    shop, piece = read_shop(DATA / "shop"), read_piece(DATA / "pieces/low_dresser.toml")
    wishes = replace(piece.labour, learning_rate=0.8, made_before=3)
    sheet = cost_sheet(replace(piece, labour=wishes), shop, ON)
    how = {line.key: line.how for line in sheet.lines if line.group == "labour"}
    # the fourth piece at 80 % takes 0.640 of the first (RAND RM-6191)
    assert "x 0.640 for learning (80 %, unit, piece 4)" in how["mark out"]
    assert "learning" not in how["finish set-up"]


def test_a_day_of_making_after_the_cost_sheet_is_said():
    shop, piece = read_shop(DATA / "shop"), read_piece(DATA / "pieces/low_dresser.toml")
    notes = cost_sheet(replace(piece, made_on=date(2034, 5, 1)), shop, ON).notes
    assert any(note.startswith("made_on is 2034-05-01, after") for note in notes)
