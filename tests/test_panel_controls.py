"""Controls read as people write, show what they hold, and say things by their names."""

import shutil
from dataclasses import replace
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from IPython.core.formatters import HTMLFormatter
from ipywidgets import HTML

from pricebook import panel
from pricebook.bidding import Outlook
from pricebook.commands.advising import advise
from pricebook.files.market import read_market
from pricebook.money import show
from pricebook.panel.boxes import (
    choice,
    day_box,
    heights_box,
    length_box,
    money_box,
    number_box,
)
from pricebook.panel.evening import event_files

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 25)


@pytest.fixture
def bench(tmp_path):
    """Return a maker's own data folder, free to be written to."""
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def evening(bench):
    return panel.evening_panel(bench / "events" / "spring_bench_auction.toml", on=ON)


def html_of(widget):
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(html_of(child) for child in getattr(widget, "children", ()))


def test_a_drop_down_without_a_value_shows_its_words_and_is_never_blank():
    control = choice("Cuts in a row", [("any number", None), ("2 at most", 2)], None)
    assert control.box.label == "any number"
    control.box.label = "2 at most"
    assert control.value == 2
    control.put(None)
    assert (control.box.label, control.value) == ("any number", None)
    control.box.label = "2 at most"
    control.box.label = "any number"
    assert control.value is None
    control.offer([("3 at most", 3), ("any number", None)])
    assert (control.box.label, control.value) == ("any number", None)


@pytest.mark.parametrize("name", ["cost_panel", "veneer_panel"])
def test_reset_leaves_no_drop_down_blank(name, bench):
    some = getattr(panel, name)(bench / "pieces" / "low_dresser.toml", on=ON)
    some.controls["stages"].box.label = "2 at most"
    some.reset()
    assert some.controls["stages"].box.label == "any number"
    blank = [
        key
        for key, one in some.controls.items()
        if hasattr(one.box, "options") and getattr(one.box, "index", 0) is None
    ]
    assert blank == []


def test_lengths_of_a_list_say_their_units_too():
    assert heights_box("Front heights", (), "in").label == "Front heights (in or mm)"


def test_only_events_are_offered_as_events(bench):
    names = [name for _, name in event_files(bench / "events")]
    assert names == ["spring_bench_auction.toml"]


def test_money_there_is_is_typed_as_money_and_shown_with_cents(evening):
    box = evening.controls["limit money"]
    assert box.label == "Money at most ($)"
    assert evening.controls["limit hours"].label == "Hours at most"
    box.box.value = "$1,260.5"
    assert "$1,260.50" in html_of(box.widget)
    assert box.said == ""
    shown = html_of(evening.widget)
    assert "money ($)" in shown
    assert "1,260.50" in shown
    box.box.value = "12 in"
    assert "is not an amount of money" in unescape(box.said)
    evening.reset()
    assert box.box.value == "260.00"


def test_rungs_that_nobody_reaches_stand_together_under_the_table(bench):
    some = panel.price_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    rungs = some.advice.outlook.rungs
    table = panel.rung_table(some.advice.outlook, "$")
    assert 10 < len(table.rows) < len(rungs)
    first = rungs[len(table.rows) - 1]
    assert f"{len(rungs) - len(table.rows) + 1} rungs more" in table.note
    assert sum(chance for price, chance in rungs if price >= first[0]) < 0.0005


def test_a_short_ladder_of_rungs_has_nothing_left_out():
    room = Outlook(rungs=((10_000, 0.5), (11_000, 0.25)), no_sale=0.25)
    table = panel.rung_table(room)
    assert len(table.rows) == 3
    assert table.note == ""


def test_the_boards_tables_say_the_currency_and_what_each_column_is(bench):
    event = bench / "events" / "spring_bench_auction.toml"
    found = panel.settled_event(event, event.with_stem(event.stem + "_results"))
    tables = panel.board_tables(found.report, "$")
    assert [head.words for head in tables["cash"].heads] == [
        "",
        "amount ($)",
        "made of",
    ]
    heads = [head.words for head in tables["pieces"].heads]
    assert heads[:4] == ["lot", "title", "state", "hammer ($)"]
    assert "$" in panel.board_sentence(found.report, "$")


def test_the_command_lines_advice_asks_where_the_panel_asks(bench):
    path = bench / "pieces" / "low_dresser.toml"
    text = path.read_text(encoding="utf-8").replace("likely_bidders = 4", "")
    path.write_text(text, encoding="utf-8")
    some = panel.price_panel(path, on=ON)
    market = read_market(bench / "shop")
    assert advise(some.piece, some.sheet, market, ON) is None
    assert "How many people are likely to bid?" in some.said


def test_what_the_figures_stand_for_is_what_they_were_worked_out_with(bench):
    some = panel.cost_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    height = some.controls["height"]
    good = some.piece.size.height_mm
    height.box.value = "2 in"
    assert "leaves nothing" in height.said
    height.box.value = "abc"
    assert "The figures still stand for 40 1/2 in" in height.said
    assert height.value == good
    some.controls["width"].box.value = "36 in"
    assert some.controls["width"].said == ""
    assert some.piece.size.height_mm == good
    assert "abc" in height.said
    height.box.value = "38 in"
    assert height.said == ""


def test_a_driest_room_that_is_the_damper_one_is_said_as_such(bench):
    some = panel.veneer_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    some.controls["driest"].box.value = "12"
    assert "the driest room is at 12 % and the dampest at 10 %" in (
        some.controls["driest"].said
    )
    some.controls["dampest"].box.value = "13"
    assert some.controls["driest"].said == some.controls["dampest"].said == ""


@pytest.mark.parametrize("text", ["x" * 3000, "<" * 3000])
def test_a_text_without_end_is_answered_in_a_sentence(text):
    for control in (
        number_box("Bidders", 4.0),
        money_box("Price", 100, "$"),
        length_box("Width", 100.0, "in"),
        day_box("Auction", None, empty="not set"),
    ):
        control.box.value = text
        assert 0 < len(unescape(control.said)) < 300


def test_a_value_at_the_end_of_a_cell_is_a_table_and_its_words_are_escaped(bench):
    formatter = HTMLFormatter()
    panel.show_as_tables(formatter)
    price = panel.price_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    sheet = replace(price.sheet, piece="<img src=x>")
    event = bench / "events" / "spring_bench_auction.toml"
    evening = panel.evening_panel(event, on=ON)
    veneer = panel.veneer_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    found = panel.settled_event(event, event.with_stem(event.stem + "_results"))
    for value, says in (
        (sheet, show(sheet.full_cost_cents)),
        (sheet.layout, "Offcuts to keep"),
        (veneer.comparison, "yellow birch"),
        (price.advice, "break-even"),
        (price.split, show(price.split.charity_cents)),
        (evening.drawn, "standard deviation"),
        (found.report, "Control totals"),
    ):
        html = formatter(value)
        assert html.count("<table") >= 1
        assert says in html
        assert "<img" not in html
