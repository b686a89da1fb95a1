"""Controls work without a browser: each change is made on the box itself."""

import gc
import shutil
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from ipywidgets import HTML, Image

from pricebook import panel
from pricebook.cost.drivers import what_drives
from pricebook.errors import PricebookError, SpecError, TableError
from pricebook.files import read_piece, read_shop
from pricebook.lengths import read
from pricebook.money import show
from pricebook.panel import words
from pricebook.panel.boxes import (
    choice,
    heights_box,
    length_box,
    money_box,
    number_box,
    tick,
    words_box,
)
from pricebook.panel.controls import Track
from pricebook.panel.frame import Panel
from pricebook.panel.piece_form import FIELDS, filled_in, held_values
from pricebook.panel.starting import STARTING_FORMS, starting_piece

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 25)
PIECES = sorted((DATA / "pieces").glob("*.toml"))


@pytest.fixture
def bench(tmp_path):
    """Return a maker's own data folder, free to be written to."""
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def dresser(bench):
    return panel.cost_panel(bench / "pieces" / "low_dresser.toml", on=ON)


@pytest.fixture
def price(bench):
    return panel.price_panel(bench / "pieces" / "low_dresser.toml", on=ON)


@pytest.fixture
def veneer(bench):
    return panel.veneer_panel(bench / "pieces" / "low_dresser.toml", on=ON)


@pytest.fixture
def evening(bench):
    return panel.evening_panel(bench / "events" / "spring_bench_auction.toml", on=ON)


@pytest.fixture
def board(bench):
    event = bench / "events" / "spring_bench_auction.toml"
    return panel.board_panel(event, event.with_stem(event.stem + "_results"))


def type_into(some, name, text):
    some.controls[name].box.value = text


def said(some, name):
    return some.controls[name].said


def pictures_of(widget):
    """List the bytes of every picture inside a widget."""
    found = [bytes(widget.value)] if isinstance(widget, Image) else []
    for child in getattr(widget, "children", ()):
        found += pictures_of(child)
    return found


def html_of(widget):
    """Return all that a panel says, as HTML."""
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(html_of(child) for child in getattr(widget, "children", ()))


# One control


@pytest.mark.parametrize(
    ("typed", "millimetres", "echo"),
    [
        ("37 in", 939.8, "37 in = 940 mm"),
        ("23 3/4 in", 603.25, "23 3/4 in = 603 mm"),
        ("2 ft 6 in", 762.0, "30 in = 762 mm"),
        ("603 mm", 603.0, "about 23 3/4 in = 603 mm"),
    ],
)
def test_a_length_is_echoed_as_it_was_understood(typed, millimetres, echo):
    control = length_box("Width", 100.0, "in")
    control.box.value = typed
    assert control.value == millimetres
    assert echo in html_of(control.widget)


def test_money_is_echoed_with_its_sign():
    control = money_box("Target", 100, "$")
    control.box.value = "1,234.5"
    assert control.value == 123450
    assert "$1,234.50" in html_of(control.widget)


@pytest.mark.parametrize(
    ("control", "typed", "sentence"),
    [
        (length_box("Width", 100.0, "in"), "37", "has no unit; write 37 in or 37 mm"),
        (length_box("Width", 100.0, "in"), "-1 in", "has a sign"),
        (money_box("Price", 4500, "$"), "1.234", "is not an amount of money"),
        (money_box("Price", 4500, "$"), "", "is not an amount of money"),
        (number_box("Bidders", 4.0), "many", "is not a number of 0 or more"),
        (number_box("Bidders", 4.0), "1e3", "is not a number of 0 or more"),
        (number_box("Bidders", 4.0), "nan", "is not a number of 0 or more"),
        (number_box("Bidders", 4.0, above_zero=True), "0", "is not more than 0"),
        (number_box("Share", 4.0, most=100), "120", "write 100 or less"),
        (number_box("Rows", 4, whole=True), "2.5", "is not a whole number"),
        (heights_box("Heights", (100.0,), "in"), "5 in, 6", "6 has no unit"),
    ],
)
def test_what_cannot_be_read_is_answered_and_the_last_value_stays(
    control, typed, sentence
):
    before, heard = control.value, []
    control.listen(heard.append)
    control.box.value = typed
    assert sentence.replace('"', "") in control.said.replace("&quot;", "")
    assert "The figures still stand for" in control.said
    assert control.value == before
    assert heard == []
    control.box.value = control._wording.show(before)
    assert control.said == ""


def test_an_empty_box_means_what_its_words_say():
    control = number_box("Coats", 3, whole=True, empty="as the finish says")
    control.box.value = ""
    assert control.value is None
    assert "as the finish says" in html_of(control.widget)


def test_a_slider_and_its_box_move_each_other_and_never_clamp_what_was_typed():
    track = Track(low=1, high=40, value_at=lambda n: n / 2, position_of=lambda v: 2 * v)
    heard = []
    control = number_box("Bidders", 4.0, track=track)
    control.listen(lambda c: heard.append(c.value))
    control.slider.value = 13
    assert control.box.value == "6.5"
    control.box.value = "100"
    assert control.value == 100.0
    assert control.slider.value == 40
    assert heard == [6.5, 100.0]


def test_every_control_carries_its_label_and_sliders_do_not_run_ahead():
    controls = [
        length_box("Width", 100.0, "in"),
        money_box("Price", 100, "$"),
        number_box("Bidders", 4.0, track=Track(
            low=0, high=9, value_at=float, position_of=int)),
        choice("Wood", [("oak", "oak")], "oak"),
        tick("Write over"),
        words_box("Name", "Chest"),
    ]  # fmt: skip
    for control in controls:
        assert control.box.description == control.label
        if control.slider:
            assert control.slider.tooltip.startswith(control.label)
            assert control.slider.continuous_update is False
            assert control.slider.readout is False
    assert "(in or mm)" in controls[0].label
    assert controls[1].label == "Price ($)"
    assert controls[0].box.style.description_width == "initial"
    assert controls[0].box.continuous_update is False


def test_a_drop_down_keeps_its_choice_while_that_stays_on_offer():
    control = choice("Wood", [("oak", "oak"), ("ash", "ash")], "ash")
    control.offer([("ash", "ash"), ("elm", "elm")])
    assert control.value == "ash"
    control.offer([("elm", "elm")])
    assert control.value == "elm" == control.box.value


def test_words_that_a_person_typed_are_never_html():
    hostile = "<img src=x onerror=alert(1)>"
    for made in (
        words.paragraph(hostile),
        words.heading(hostile),
        words.refused([hostile]),
        words.done(hostile),
        words.understood(hostile),
        words.shows(hostile),
    ):
        assert "<img" not in made
        assert "&lt;img" in made


# What every panel does


class Halver(Panel):
    """A panel small enough to watch: it halves, and refuses odd numbers."""

    def __init__(self):
        self.calls, self.half = 0, None
        controls = {name: number_box(name, 4, whole=True) for name in ("a", "b")}
        super().__init__(controls, [c.widget for c in controls.values()], [])

    def work(self):
        self.calls += 1
        number = self.controls["a"].value + self.controls["b"].value
        if number % 2:
            raise SpecError(f"{number} is odd.")
        if number > 1000:
            raise RuntimeError("a fault of ours")
        self.half = number // 2


def test_a_refusal_stands_under_its_control_and_the_last_result_stays():
    some = Halver()
    type_into(some, "a", "6")
    assert some.half == 5
    type_into(some, "b", "3")
    assert "9 is odd." in said(some, "b")
    assert said(some, "a") == ""
    assert some.half == 5
    type_into(some, "a", "7")
    assert some.half == 5
    assert said(some, "a") == said(some, "b") == ""


def test_an_unread_text_keeps_its_sentence_while_others_change():
    some = Halver()
    type_into(some, "a", "six")
    type_into(some, "b", "6")
    assert some.half == 5
    assert "six" in said(some, "a")


def test_only_refusals_are_caught_a_fault_of_ours_is_not_hidden():
    with pytest.raises(RuntimeError, match="a fault of ours"):
        type_into(Halver(), "a", "2000")


def test_several_controls_set_at_once_make_one_piece_of_work():
    some = Halver()
    some.set_all({"a": 10, "b": 20})
    assert (some.calls, some.half) == (1, 15)
    assert some.busy is False
    some.reset()
    assert (some.calls, some.controls["a"].value) == (2, 4)


def test_the_busy_mark_stands_while_the_work_is_done(monkeypatch):
    some, seen = Halver(), []
    monkeypatch.setattr(some, "work", lambda: seen.append(some._mark.value))
    some.changed()
    assert "Working" in seen[0]
    assert 'role="status"' in seen[0]
    assert some._mark.value == ""


# The piece as a form


@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_a_form_that_nobody_touches_gives_the_piece_back(path):
    piece = read_piece(path)
    assert filled_in(piece, held_values(piece)) == piece


def test_every_fault_of_a_form_is_said_at_once():
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    values = held_values(piece) | {"width": 0.0, "rows": 0, "coats": 0}
    with pytest.raises(SpecError) as error:
        filled_in(piece, values)
    assert len(error.value.faults) == 3


@pytest.mark.parametrize("form", STARTING_FORMS)
def test_a_new_piece_of_each_form_is_costed(form, dresser):
    type_into(dresser, "file", form)
    assert dresser.piece == starting_piece(form, "walnut", "brushed shellac")
    assert dresser.sheet.piece == f"New {form}"
    assert dresser.sheet.full_cost_cents > 0
    assert f"New {form} is open." in dresser.said


@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_every_demo_piece_opens_and_hides_what_it_has_not(path, dresser):
    type_into(dresser, "file", path.name)
    assert dresser.piece == read_piece(path)
    shown = {
        key for key in FIELDS if dresser.controls[key].widget.layout.display != "none"
    }
    assert ("rows" in shown) == (dresser.piece.drawers is not None)
    assert ("width" in shown) == (dresser.piece.size is not None)
    assert {"name", "species", "system", "hours"} <= shown


# The cost panel


def test_a_typed_fraction_changes_piece_cost_and_picture(dresser):
    before, cents = pictures_of(dresser.widget), dresser.sheet.full_cost_cents
    type_into(dresser, "width", "30 3/8 in")
    assert dresser.piece.size.width_mm == read("30 3/8 in")
    assert dresser.sheet.full_cost_cents < cents
    assert pictures_of(dresser.widget) != before
    assert "Low dresser costs" in html_of(dresser.widget)


def test_what_does_not_change_the_layout_does_not_draw_it_again(dresser, monkeypatch):
    from pricebook import charts

    drawn = []
    monkeypatch.setattr(charts, "layout_figure", lambda *a: drawn.append(a))
    cents = dresser.sheet.full_cost_cents
    type_into(dresser, "coats", "6")
    assert dresser.sheet.full_cost_cents > cents
    assert drawn == []


def test_a_piece_that_cannot_be_is_refused_and_recovered(dresser):
    sheet, shown = dresser.sheet, pictures_of(dresser.widget)
    type_into(dresser, "height", "2 in")
    assert "Height leaves nothing between top and base" in said(dresser, "height")
    assert dresser.sheet is sheet
    assert pictures_of(dresser.widget) == shown
    type_into(dresser, "height", "40 in")
    assert said(dresser, "height") == ""
    assert dresser.piece.size.height_mm == read("40 in")


def test_a_face_larger_than_any_sheet_is_named(dresser):
    type_into(dresser, "width", "20 ft")
    assert "drawer front" in said(dresser, "width")


def test_banding_follows_the_wood_and_the_sheets_offered_follow_too(dresser):
    type_into(dresser, "species", "cherry")
    assert dresser.piece.veneer.species == "cherry"
    assert dresser.piece.banding.species == "cherry"
    keys = [value for _, value in dresser.controls["size"].box.options]
    assert set(keys) == {"", "cherry-2x8", "cherry-4x8", "cherry-4x10"}
    type_into(dresser, "size", "cherry-2x8")
    assert "drawer front" in said(dresser, "size")  # the run is wider than 24 in
    type_into(dresser, "size", "cherry-4x8")
    used = {plan.sheet.key for plan in dresser.sheet.layout.sheets}
    assert used == {"cherry-4x8"}


def test_banding_that_was_chosen_apart_stays(dresser):
    type_into(dresser, "banding", "hard maple")
    type_into(dresser, "species", "cherry")
    assert dresser.piece.banding.species == "hard maple"


def test_no_finish_is_a_finish_too(dresser):
    type_into(dresser, "system", "none")
    assert dresser.piece.finish is None
    assert all(line.group != "finish" for line in dresser.sheet.lines)


def test_cost_by_group_is_a_picture_to_choose(dresser):
    before = pictures_of(dresser.widget)
    type_into(dresser, "picture", "groups")
    after = pictures_of(dresser.widget)
    assert len(after) == 1
    assert after != before


def test_hours_that_the_maker_knows_take_the_place_of_the_minutes(dresser):
    type_into(dresser, "hours", "20")
    assert dresser.sheet.hours == pytest.approx(20)
    assert "20.0 h in all" in html_of(dresser.widget)


def test_reset_brings_back_the_file(dresser, bench):
    for name, text in (("width", "30 in"), ("species", "cherry"), ("hours", "9")):
        type_into(dresser, name, text)
    dresser.reset()
    assert dresser.piece == read_piece(bench / "pieces" / "low_dresser.toml")


def test_a_saved_piece_is_a_file_that_can_be_chosen(dresser, bench):
    type_into(dresser, "name", "Hall chest")
    type_into(dresser, "width", "30 3/8 in")
    dresser.save()
    path = bench / "pieces" / "hall_chest.toml"
    assert str(path) in dresser.said
    assert read_piece(path) == dresser.piece
    assert ("hall_chest", "hall_chest.toml") in dresser.controls["file"].box.options
    type_into(dresser, "width", "31 in")
    dresser.save()
    assert read_piece(path).size.width_mm == read("31 in")


def test_a_piece_file_is_written_over_only_when_asked(dresser, bench):
    path = bench / "pieces" / "low_dresser.toml"
    before = path.read_bytes()
    type_into(dresser, "width", "30 in")
    dresser.save()
    assert "is there already and stays as it is" in dresser.said
    assert path.read_bytes() == before
    type_into(dresser, "over", True)
    dresser.save()
    assert read_piece(path) == dresser.piece


def test_nothing_is_written_while_a_control_is_refused(dresser, bench):
    type_into(dresser, "name", "Hall chest")
    type_into(dresser, "width", "30")
    dresser.save()
    assert "nothing is written while a control is refused (Width" in dresser.said
    dresser.write()
    assert "nothing is written" in dresser.said
    assert not (bench / "pieces" / "hall_chest.toml").exists()
    assert not (bench.parent / "output").exists()


def test_a_file_that_is_broken_leaves_the_piece_that_was_open(bench):
    (bench / "pieces" / "broken.toml").write_text("name = ", encoding="utf-8")
    some = panel.cost_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    piece = some.piece
    type_into(some, "file", "broken.toml")
    assert "is not TOML" in said(some, "file")
    assert some.piece == piece
    some.save()
    assert "nothing is written" in some.said
    type_into(some, "file", "reading_bookcase.toml")
    assert said(some, "file") == ""
    assert "Reading bookcase is open." in some.said


def test_a_piece_in_a_wood_that_is_not_sold_opens_and_says_so(bench):
    path = bench / "pieces" / "low_dresser.toml"
    text = path.read_text(encoding="utf-8").replace('"walnut"', '"zebrano"')
    (bench / "pieces" / "striped.toml").write_text(text, encoding="utf-8")
    some = panel.cost_panel(path, on=ON)
    type_into(some, "file", "striped.toml")
    assert "zebrano" in said(some, "file")
    assert some.controls["species"].value == "zebrano"
    type_into(some, "species", "cherry")
    type_into(some, "banding", "cherry")
    assert some.piece.veneer.species == "cherry"
    assert said(some, "file") == ""


def test_the_workbook_stands_beside_the_data_and_never_over_another(dresser, bench):
    dresser.write()
    first = bench.parent / "output" / "low_dresser.xlsx"
    assert str(first) in dresser.said
    book = openpyxl.load_workbook(first, read_only=True)
    assert "Low dresser" in str([row for row in book[book.sheetnames[0]].values])
    book.close()
    before = first.read_bytes()
    dresser.write()
    assert "low_dresser-2.xlsx" in dresser.said
    assert first.read_bytes() == before


def test_a_name_that_is_html_stays_words(dresser):
    type_into(dresser, "name", "<b>Chest</b>")
    assert "<b>Chest" not in html_of(dresser.widget)
    assert "&lt;b&gt;Chest" in html_of(dresser.widget)


# Veneer compared


def test_a_comparison_ranks_and_draws(veneer):
    assert len(pictures_of(veneer.widget)) == 1
    assert veneer.comparison.cheapest.name in html_of(veneer.widget)


def test_a_view_of_the_rows_does_not_compare_again(veneer, monkeypatch):
    found = veneer.comparison
    monkeypatch.setattr(veneer, "_compare", None)
    type_into(veneer, "rows", "every")
    type_into(veneer, "form", "self-adhesive")
    assert veneer.comparison is found
    assert "self-adhesive" in html_of(veneer.widget)


def test_a_cheaper_wood_climbs(veneer):
    type_into(veneer, "wood", "walnut")
    type_into(veneer, "price", "20")
    assert veneer.comparison.cheapest.species == "walnut"
    type_into(veneer, "price", "0")
    assert "is not more than 0" in said(veneer, "price")
    veneer.reset()
    assert veneer.comparison.cheapest.species != "walnut"


def test_dampness_outside_the_tables_is_refused_and_recovered(veneer):
    type_into(veneer, "driest", "4")
    assert "published coefficients hold" in said(veneer, "driest")
    type_into(veneer, "driest", "8")
    assert said(veneer, "driest") == ""
    assert veneer.comparison.moisture_percent == (8.0, 10.0)


# Price and split


def test_more_bidders_raise_what_is_expected(price):
    before = price.advice.expected_hammer.cents
    price.controls["bidders"].slider.value = 20
    assert price.controls["bidders"].box.value == "10"
    assert price.advice.expected_hammer.cents > before
    assert price.piece.price.likely_bidders == 10


def test_an_opening_bid_off_the_ladder_or_a_reserve_too_high_is_refused(price):
    advice = price.advice
    type_into(price, "opening", "201.00")
    assert "not on the ladder" in said(price, "opening")
    assert price.advice is advice
    type_into(price, "opening", "200.00")
    assert price.advice.opening_bid.cents == 20000
    type_into(price, "reserve", "9,000")
    assert "above the low estimate" in said(price, "reserve")


def test_a_split_always_makes_the_price(price):
    for hammer in ("0", "0.01", "310", "9,999.99"):
        type_into(price, "hammer", hammer)
        assert sum(price.split.amounts.values()) == price.split.charged_cents
    assert price.split.hammer_cents == 999999


def test_a_share_moves_money_from_the_charity_and_only_its_picture(price):
    type_into(price, "hammer", "400")
    rungs, goes = (pictures_of(p.widget) for p in (price._rungs, price._goes))
    charity = price.split.charity_cents
    type_into(price, "rule 2", "10")
    assert price.split.charity_cents == charity - 2000
    assert pictures_of(price._goes.widget) != goes
    assert rungs
    type_into(price, "rule 2", "101")
    assert "write 100 or less" in said(price, "rule 2")


def test_shares_above_the_whole_are_refused(price):
    type_into(price, "rule 0", "60")
    type_into(price, "rule 2", "60")
    assert said(price, "rule 2")
    assert sum(price.split.amounts.values()) == price.split.charged_cents


def test_a_margin_asks_for_its_price(price):
    type_into(price, "margin", "50")
    asks = 2 * price.sheet.used_up_cents
    assert f"${asks // 100:,}.{asks % 100:02d}" in html_of(price.widget)
    type_into(price, "margin", "100")
    assert "write 99 or less" in said(price, "margin")


def test_bidders_are_asked_never_inferred(bench):
    path = bench / "pieces" / "low_dresser.toml"
    text = path.read_text(encoding="utf-8").replace("likely_bidders = 4", "")
    path.write_text(text, encoding="utf-8")
    some = panel.price_panel(path, on=ON)
    assert "How many people are likely to bid" in some.said
    type_into(some, "bidders", "3")
    assert some.said == ""
    assert some.advice.expected_hammer.cents > 0


def test_what_is_known_of_the_market_is_saved_with_the_piece(price, bench):
    type_into(price, "bidders", "6.5")
    type_into(price, "unsold", "70")
    type_into(price, "over", True)
    price.save()
    saved = read_piece(bench / "pieces" / "low_dresser.toml")
    assert saved == price.piece
    assert saved.price.likely_bidders == 6.5
    price.write()
    assert "low_dresser.xlsx" in price.said


def test_another_piece_brings_its_own_market(price):
    type_into(price, "opening", "200.00")
    type_into(price, "file", "reading_bookcase.toml")
    assert price.piece.name == "Reading bookcase"
    assert price.controls["opening"].value is None
    assert not price.advice.opening_bid.reason.startswith("Chosen")


# The evening and the board


def test_fewer_bidders_raise_less(evening):
    before = evening.drawn.mean_cents
    evening.controls["bidders"].slider.value = 50
    assert evening.drawn.mean_cents < before
    type_into(evening, "bidders", "0")
    assert "is not more than 0" in said(evening, "bidders")
    evening.reset()
    assert evening.drawn.mean_cents == before


def test_another_target_draws_no_new_evenings(evening):
    drawn, shown = evening.drawn, pictures_of(evening.widget)
    type_into(evening, "target", "1,500")
    assert evening.drawn is drawn
    assert pictures_of(evening.widget) != shown
    type_into(evening, "target", "")
    assert "target" not in html_of(evening._answers.widget)


def test_a_common_mood_spreads_the_evening(evening):
    type_into(evening, "common", "0")
    calm = evening.drawn.sd_cents
    type_into(evening, "common", "0.5")
    assert evening.drawn.sd_cents > calm


def test_the_fundraisers_workbook_is_written_beside_an_earlier_one(evening, bench):
    evening.write()
    evening.write()
    books = sorted((bench.parent / "output").glob("*book*.xlsx"))
    assert len(books) == 2
    assert str(books[0]) in evening.said


def test_the_board_is_told_what_foots(board):
    assert board.found.report.is_clean
    assert "Every control total passes." in html_of(board.widget)
    first = pictures_of(board.widget)
    type_into(board, "picture", "page")
    assert pictures_of(board.widget) != first
    type_into(board, "picture", "years")
    assert len(pictures_of(board.widget)) == 1
    assert ">2,622<" not in html_of(board.widget)
    type_into(board, "whole", True)
    assert ">2,622<" in html_of(board.widget)


def test_a_workbook_that_nobody_filled_in_is_refused_by_cell(board, evening):
    evening.write()
    board.look()
    report = board.found.report
    type_into(board, "results", board.controls["results"].box.options[-1][1])
    assert "lot 1" in said(board, "results")
    assert board.found.report is report
    board.write()
    assert "nothing is written" in board.said
    type_into(board, "results", board.controls["results"].box.options[0][1])
    assert said(board, "results") == ""


def test_the_boards_papers_are_written(board, bench):
    board.write()
    written = sorted(path.suffix for path in (bench.parent / "output").iterdir())
    assert written == [".json", ".pdf", ".txt", ".xlsx"]
    type_into(board, "picture", "years")
    assert said(board, "picture") == ""


def test_the_tables_of_the_board_escape_and_round_once(board):
    report = board.found.report
    hostile = replace(report.money[0], label="<b>raised")
    report = replace(report, money=(hostile, *report.money[1:]))
    table = panel.board_tables(report, whole=True)["cash"]
    assert "&lt;b&gt;raised" in table._repr_html_()
    assert table.rows[0].cells[1] == f"{hostile.whole:,}"


# Pictures without controls, memory, and what is loaded


def test_a_gallery_has_words_for_each_picture():
    from pricebook.charts.style import says_so

    made = panel.pictures([says_so("<b>Nothing", "No lot."), says_so("Two", "None.")])
    assert made._repr_html_().count("<img alt=") == 2
    assert "&lt;b&gt;Nothing" in made._repr_html_()


def test_sentences_are_words_and_never_html():
    made = panel.say("<b>Two</b> sheets.", "One offcut.")
    assert made._repr_html_().count("<p>") == 2
    assert "mathjax_ignore" in made._repr_html_()  # $45 to $60 is no formula
    assert "&lt;b&gt;" in made._repr_html_()
    assert str(made).splitlines() == ["<b>Two</b> sheets.", "One offcut."]
    assert words.folded("Left out", []) == ""
    assert "<summary>Left out</summary>" in words.folded("Left out", ["a < b"])
    assert "a &lt; b" in words.folded("Left out", ["a < b"])


def test_limits_of_trade_are_marked_in_the_table_and_said_below(veneer):
    table = panel.species_table(veneer.comparison)
    marked = [row.cells[1] for row in table.rows if row.cells[-1]]
    assert "Indian rosewood, backed, all sizes" in marked
    assert "walnut, backed, all sizes" not in marked
    said_below = panel.trade_limits(veneer.comparison.options)
    assert any(text.startswith("Indian rosewood:") for text in said_below)
    assert len(set(said_below)) == len(said_below)


def test_what_drives_a_cost_is_told_in_its_own_units(dresser):
    drivers = what_drives(dresser.piece, read_shop(DATA / "shop"), ON).full_cost[:3]
    table = panel.driver_table(drivers, "$")
    assert table.heads[-1].words == "swing ($)"
    first = drivers[0]
    assert table.rows[0].cells[0] == first.name
    assert table.rows[0].cells[-1] == show(first.at_high - first.at_low)


def test_no_figure_stays_open(dresser):
    from matplotlib.figure import Figure

    for number in range(5):
        type_into(dresser, "width", f"{30 + number} in")
    gc.collect()
    assert not [thing for thing in gc.get_objects() if type(thing) is Figure]
    windows = sys.modules.get("matplotlib.pyplot")
    assert windows is None or windows.get_fignums() == []


def test_a_panel_refuses_what_is_not_there(bench):
    with pytest.raises(TableError, match="does not exist"):
        panel.cost_panel(bench / "pieces" / "nothing.toml")
    with pytest.raises(PricebookError, match="is not a folder"):
        panel.veneer_panel(bench / "pieces" / "low_dresser.toml", shop="nowhere")
