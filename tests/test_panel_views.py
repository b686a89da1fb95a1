"""All that the package can do is reached by a control; nothing typed breaks one."""

import shutil
from dataclasses import replace
from datetime import date
from decimal import Decimal
from html import escape
from pathlib import Path

import openpyxl
import pytest
from ipywidgets import HTML, Image, Text

from pricebook import cost_sheet, panel
from pricebook.commands import gallery
from pricebook.cost import cost_sheets
from pricebook.files import read_piece, read_shop
from pricebook.money import show, times
from pricebook.panel import cost_views, evening_views
from pricebook.panel.boxes import day_box, several
from pricebook.panel.starting import STARTING_FORMS
from pricebook.receipts import buyer

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 25)
DRAWN = (
    cost_views.SHEETS, cost_views.GROUPS, cost_views.DAYS, cost_views.DRIVERS,
    cost_views.GRID,
)  # fmt: skip


@pytest.fixture
def bench(tmp_path):
    """Return a maker's own data folder, free to be written to."""
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def panels(bench):
    """Return a function that makes a panel by the question of its notebook."""
    piece = bench / "pieces" / "low_dresser.toml"
    event = bench / "events" / "spring_bench_auction.toml"
    results = event.with_stem(event.stem + "_results")
    made = {
        "cost": lambda: panel.cost_panel(piece, on=ON),
        "veneer": lambda: panel.veneer_panel(piece, on=ON),
        "price": lambda: panel.price_panel(piece, on=ON),
        "evening": lambda: panel.evening_panel(event, on=ON),
        "board": lambda: panel.board_panel(event, results),
    }
    return lambda name: made[name]()


@pytest.fixture
def dresser(panels):
    return panels("cost")


QUESTIONS = ("cost", "veneer", "price", "evening", "board")
each_panel = pytest.mark.parametrize("name", QUESTIONS)


def put(some, **values):
    for name, value in values.items():
        some.controls[name].box.value = value


def html_of(widget):
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(html_of(child) for child in getattr(widget, "children", ()))


def pictures_of(widget):
    found = [bytes(widget.value)] if isinstance(widget, Image) else []
    for child in getattr(widget, "children", ()):
        found += pictures_of(child)
    return found


def refusals(some):
    return {key: one.said for key, one in some.controls.items() if one.said}


# A day, and several of a list


def test_a_day_is_echoed_with_its_weekday_and_no_other_text_is_taken():
    control = day_box("Auction on", None, empty="not set")
    control.box.value = "2027-04-17"
    assert control.value == date(2027, 4, 17)
    assert "Sat 17 Apr 2027" in html_of(control.widget)
    control.box.value = "17.4.2027"
    assert "is not a day; write year, month, day: 2027-04-17." in control.said
    assert control.value == date(2027, 4, 17)


def test_a_list_keeps_what_stays_on_offer():
    control = several("Shares sheets with", [("a", "a"), ("b", "b")])
    control.box.value = ("a", "b")
    control.offer([("b", "b"), ("c", "c")])
    assert control.value == ("b",) == control.box.value


# One piece


@pytest.mark.parametrize("form", ["low_dresser.toml", *STARTING_FORMS])
def test_every_view_of_every_piece_shows_figures(form, dresser):
    put(dresser, file=form, auction="2027-04-17")
    for _, view in cost_views.VIEWS:
        put(dresser, picture=view)
        assert refusals(dresser) == {}
        assert "<table" in html_of(dresser._answers.widget)
        assert bool(pictures_of(dresser.widget)) == (view in DRAWN)


def test_days_ask_for_an_auction_to_come_and_say_if_it_is_in_time(dresser):
    before = pictures_of(dresser.widget)
    put(dresser, picture=cost_views.DAYS)
    assert "When is the auction?" in dresser.controls["picture"].said
    assert pictures_of(dresser.widget) == before
    put(dresser, auction="2026-11-24")
    assert "is in the past on 2026-11-25" in dresser.controls["auction"].said
    put(dresser, auction="2026-11-27")
    assert refusals(dresser) == {}
    assert "Not ready in time" in html_of(dresser._answers.widget)


def test_a_day_that_is_typed_shows_the_days(dresser):
    put(dresser, auction="2027-04-17")
    assert dresser.controls["picture"].value == cost_views.DAYS
    assert "Ready on" in html_of(dresser._answers.widget)


def test_the_middle_of_a_what_if_is_the_cost_as_it_stands(dresser):
    put(dresser, down="coats", across="price of walnut-4x10")
    shown = html_of(dresser._answers.widget)
    assert show(dresser.sheet.full_cost_cents) in shown
    put(dresser, across="coats")
    assert "vary two different ones" in dresser.controls["across"].said
    put(dresser, across="all hours")
    assert refusals(dresser) == {}


def test_pieces_that_share_sheets_pay_no_more_than_alone(dresser, bench):
    alone = dresser.sheet.used_up_cents
    put(dresser, others=("lamp_table.toml", "reading_bookcase.toml"))
    assert [sheet.piece for sheet in dresser.sheets] == [
        piece.name for piece in dresser.pieces
    ]
    assert len(dresser.sheets) == 3
    assert dresser.sheet.used_up_cents <= alone
    shop = read_shop(bench / "shop")
    assert dresser.sheets == cost_sheets(dresser.pieces, shop, ON)
    total = sum(sheet.cash_to_buy_cents for sheet in dresser.sheets)
    assert show(total) in html_of(dresser._answers.widget)
    dresser.write()
    book = next((bench.parent / "output").glob("*.xlsx"))
    assert book.name == "low_dresser_and_2_more.xlsx"
    words = {
        str(cell)
        for sheet in openpyxl.load_workbook(book)
        for row in sheet.iter_rows(values_only=True)
        for cell in row
    }
    for piece in dresser.pieces:
        assert any(piece.name in word for word in words)


def test_fewer_cuts_in_a_row_never_cost_less(dresser):
    free = dresser.sheet.layout.cash_cents
    put(dresser, stages=2)
    assert refusals(dresser) == {}
    assert dresser.sheet.layout.cash_cents >= free


def test_stock_is_taken_only_when_the_maker_is_sure(dresser, bench):
    path = bench / "shop" / "materials.csv"
    before = path.read_bytes()
    dresser.take()
    assert "Nothing is changed yet" in dresser.said
    assert path.read_bytes() == before
    put(dresser, sure=True)
    dresser.take()
    assert "Taken from the stock on hand" in dresser.said
    assert path.read_bytes() != before
    assert dresser.controls["sure"].value is False


def test_stock_of_the_installed_package_is_never_changed(dresser, monkeypatch):
    monkeypatch.setattr("pricebook.files.keeping.inside_package", lambda _: True)
    put(dresser, sure=True)
    dresser.take()
    assert "make your own copy: pricebook new FOLDER." in dresser.said


# Woods


def test_a_dearer_wood_moves_the_pieces_that_are_made_of_it(panels, bench):
    veneer = panels("veneer")
    put(veneer, view="moved")
    assert "The price of which wood changes?" in veneer.controls["view"].said
    put(veneer, wood="walnut", price="120")
    shop = read_shop(bench / "shop")
    dearer = replace(
        shop,
        sheets=tuple(
            replace(sheet, price_cents=times(sheet.price_cents, Decimal("1.2")))
            if sheet.species == "walnut" and sheet.veneer == "show" and sheet.to_buy
            else sheet
            for sheet in shop.sheets
        ),
    )
    piece = read_piece(bench / "pieces" / "low_dresser.toml")
    now, then = (cost_sheet(piece, one, ON).used_up_cents for one in (shop, dearer))
    shown = html_of(veneer._answers.widget)
    assert then > now
    assert show(now) in shown
    assert show(then) in shown


# Price


def test_the_buyers_receipt_follows_the_price(panels):
    price = panels("price")
    put(price, hammer="900")
    stated = price.advice.fair_market_value
    told = buyer(90_000, stated.cents, True)
    shown = html_of(price.widget)
    assert "What the buyer&#x27;s receipt says at $900.00" in shown
    assert f"{show(told.gift_cents)} of it is a gift" in shown
    assert "licensed tax practitioner" in shown


# The evening


def test_fewer_hours_do_fewer_pieces(panels):
    evening = panels("evening")
    put(evening, **{"limit hours": "0"})
    assert evening.controls["view"].value == evening_views.CHOICE
    assert "Worth doing: none." in html_of(evening._answers.widget)
    put(evening, **{"limit hours": "200", "limit sheets": "99", "limit money": "9999"})
    assert "Worth doing: none." not in html_of(evening._answers.widget)
    put(evening, **{"limit hours": "many"})
    assert "is not a number of 0 or more" in evening.controls["limit hours"].said


def test_the_catalogue_names_every_lot(panels):
    evening = panels("evening")
    put(evening, view=evening_views.CATALOGUE)
    shown = html_of(evening._answers.widget)
    assert all(lot.title in shown for lot in evening.event.lots)


# The board


def test_what_pieces_took_is_set_against_the_plan(panels):
    board = panels("board")
    put(board, picture="records")
    assert "choose the file that says so" in html_of(board._answers.widget)
    put(board, used="spring_bench_auction_used.toml")
    shown = html_of(board._answers.widget)
    assert "Planned against used" in shown
    assert show(abs(board.found.learnt.variances.total_cents)) in shown


def test_what_was_learnt_is_kept_once_and_only_when_sure(panels, bench):
    board = panels("board")
    path = bench / "shop" / "comparables.csv"
    before = path.read_bytes()
    board.keep()
    assert "Nothing is changed yet" in board.said
    assert path.read_bytes() == before
    put(board, sure=True)
    board.keep()
    kept = path.read_bytes()
    assert kept.startswith(before.rstrip())
    assert len(kept) > len(before)
    put(board, sure=True)
    board.keep()
    assert path.read_bytes() == kept


def test_receipts_and_payouts_are_listed(panels):
    board = panels("board")
    put(board, picture="papers")
    shown = html_of(board._answers.widget)
    for payout in board.found.done.payouts:
        assert escape(payout.payee) in shown
        assert show(payout.due_cents) in shown


# Every panel


@each_panel
def test_pictures_are_saved_as_png_and_svg_and_twice_the_same(name, panels, bench):
    some = panels(name)
    some.save_pictures()
    assert "Written:" in some.said
    output = bench.parent / "output"
    first = {path.name: path.read_bytes() for path in output.iterdir()}
    assert {Path(file).suffix for file in first} == {".png", ".svg"}
    assert len(first) == 2 * len(pictures_of(some.widget))
    shutil.rmtree(output)
    again = panels(name)
    again.save_pictures()
    assert {path.name: path.read_bytes() for path in output.iterdir()} == first
    again.save_pictures()
    assert len(list(output.iterdir())) == 2 * len(first)


def test_a_view_without_a_picture_says_so(dresser, bench):
    put(dresser, picture=cost_views.LINES)
    dresser.save_pictures()
    assert "no picture here" in dresser.said
    assert not (bench.parent / "output").exists()


ABSURD = (
    "", " ", "many", "-3", "1e400", "9" * 400, "nan", "\u0663", "\u00bd in", "0",
    "<img src=x onerror=alert(1)>", "=1+1", "\u6905\u5b50\u202e", "999999999 in",
)  # fmt: skip


@each_panel
def test_whatever_is_typed_is_taken_or_answered_and_never_breaks_a_panel(name, panels):
    some = panels(name)
    boxes = [
        one
        for one in some.controls.values()
        if isinstance(one.box, Text) and one.widget.layout.display != "none"
    ]
    for control in boxes:
        for text in ABSURD:
            control.box.value = text
            assert "<img" not in html_of(some.widget).replace("<img alt=", "")
            assert pictures_of(some.widget) or name == "evening"
        some.reset()
        assert refusals(some) == {}
    assert "Traceback" not in html_of(some.widget)


def test_the_first_pages_picture_of_estimates_counts_the_lots_that_the_board_counts(
    panels, bench
):
    found = panels("board").found
    results = bench / "events" / "spring_bench_auction_results.toml"
    drawn = gallery._outcomes(found.done.event, results)
    told = panel.outcomes(found.report)
    assert [(x.estimate_low_cents, x.hammer_cents) for x in drawn] == [
        (x.estimate_low_cents, x.hammer_cents) for x in told
    ]
