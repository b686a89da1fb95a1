"""The board's page: one page, nothing cut, the same bytes for the same figures."""

import re
from dataclasses import replace
from datetime import date

import office
import pytest
import returned_books

from pricebook import charts
from pricebook.charts import lettering
from pricebook.charts.other_fonts import other_font
from pricebook.errors import SpecError
from pricebook.event import Counted, board_report, settle, to_totals
from pricebook.files.results import read_counted, read_results
from pricebook.records import EventTotals, roll_up

PAPERS = ["Letter", "A4"]


@pytest.fixture(scope="module")
def done():
    event = returned_books.spring()
    found = returned_books.RESULTS_FILE
    return settle(event, read_results(found, event), read_counted(found, event))


def many_lots(event, count):
    """Return an event of many lots with long names, and what became of them."""
    first = event.lots[0]
    lots = tuple(
        replace(first, key=f"{n}", title=f"{'Long' * 30} name of a piece {n} " * 3)
        for n in range(1, count + 1)
    )
    costs = tuple(replace(cost, lot="") for cost in event.costs)
    results = [
        replace(returned_books.spring_results()[0], lot=lot.key, paid=n % 2 == 0)
        for n, lot in enumerate(lots)
    ]
    return replace(event, lots=lots, costs=costs), results


def texts(figure):
    return [text for axes in figure.axes for text in axes.texts if text.get_text()]


def boxes(figure):
    figure.canvas.draw()
    renderer = figure.canvas.get_renderer()
    return [(t.get_text(), t.get_window_extent(renderer)) for t in texts(figure)]


def assert_nothing_is_cut(figure):
    """No text leaves the page or lies on another."""
    width, height = figure.canvas.get_width_height()
    found = boxes(figure)
    for text, box in found:
        assert box.x0 >= 0, text
        assert box.x1 <= width, text
        assert box.y0 >= 0, text
        assert box.y1 <= height, text
    for number, (text, box) in enumerate(found):
        for other, its in found[number + 1 :]:
            apart = (
                box.x1 <= its.x0 + 1
                or its.x1 <= box.x0 + 1
                or box.y1 <= its.y0 + 3
                or its.y1 <= box.y0 + 3
            )
            assert apart, (text, other)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_demo_evening_fits_the_page(done, paper):
    figure = charts.board_page(board_report(done), paper=paper)
    assert_nothing_is_cut(figure)
    inches = {"Letter": (8.5, 11.0), "A4": (210 / 25.4, 297 / 25.4)}[paper]
    assert tuple(figure.get_size_inches()) == pytest.approx(inches, abs=1e-4)


@pytest.mark.parametrize("paper", PAPERS)
def test_many_lots_with_long_names_still_fit_one_page(done, paper):
    event, results = many_lots(done.event, 300)
    report = board_report(settle(event, results, Counted(cash_cents=1)))
    assert not report.is_clean
    rows = [
        EventTotals(
            name=f"A sale with a long name {n} " * 4,
            on=date(2027, 1, n),
            raised_cents=10**9,
            cost_cents=5,
            lots_sold=3,
            lots_passed=0,
        )
        for n in range(1, 13)
    ]
    figure = charts.board_page(report, year=roll_up(rows), paper=paper)
    assert_nothing_is_cut(figure)
    words = " ".join(text.get_text() for text in texts(figure))
    assert "more in the workbook" in words
    assert "FAIL" in words
    assert "treasurer:" in words


def test_every_amount_stands_to_the_cent_and_in_whole_units(done):
    report = board_report(done)
    words = {text.get_text() for text in texts(charts.board_page(report))}
    # paid lots 1,765.00 as typed in the file, 38 tickets at 20.00, 96.75 in the jar
    assert {"2,621.75", "2,622"} <= words
    assert all(control.passes for control in report.controls)
    assert any(text.startswith("Every control total passes") for text in words)


def test_the_page_says_what_is_not_clean(done):
    report = board_report(settle(done.event, [x.result for x in done.lots],
                                 Counted(cash_cents=1)))  # fmt: skip
    words = " ".join(t.get_text() for t in texts(charts.board_page(report)))
    assert "NOT CLEAN" in words
    assert "FAIL: cash by the lots and as counted" in words


def test_the_year_stands_on_the_page(done):
    mine = EventTotals(**to_totals(done))
    autumn = replace(mine, name="Harvest sale", on=date(2026, 10, 3))
    page = charts.board_page(board_report(done), year=roll_up([mine, autumn]))
    words = [text.get_text() for text in texts(page)]
    assert "Harvest sale" in words
    assert "5,243.50" in words  # twice 2,621.75


def test_the_same_report_gives_the_same_bytes(done):
    report = board_report(done)
    first = charts.pdf_bytes(charts.board_page(report))
    assert first == charts.pdf_bytes(charts.board_page(report))
    assert first.startswith(b"%PDF")
    assert re.search(rb"/(CreationDate|Producer|Creator)\b", first) is None


def test_what_a_person_typed_is_no_formula_and_no_line_end(done):
    event = replace(done.event, name="Spring $x^2$\n\x1b[2J sale =1+1")
    report = board_report(settle(event, [x.result for x in done.lots]))
    figure = charts.board_page(report)
    assert_nothing_is_cut(figure)
    assert "$x^2$" in texts(figure)[0].get_text()


def test_another_paper_is_refused(done):
    with pytest.raises(SpecError, match='paper "letter" is not known'):
        charts.board_page(board_report(done), paper="letter")
    with pytest.raises(SpecError, match="no page"):
        charts.pdf_bytes("page")


@pytest.mark.office
@pytest.mark.parametrize("paper", PAPERS)
def test_another_reader_finds_one_page_with_its_words(done, tmp_path, paper):
    path = tmp_path / "page.pdf"
    page = charts.board_page(board_report(done), paper=paper)
    path.write_bytes(charts.pdf_bytes(page))
    (words,) = office.pages(path)
    for wanted in ("Cash raised", "2,621.75", "774.96", "1,846.79", "0.2956",
                   "774.96 over 2,621.75", "Lot 5, Kitchen cupboard: paddle 9 owes",
                   "treasurer:", "16 of 16 pass"):  # fmt: skip
        assert wanted in words


CRANE = "\N{CJK UNIFIED IDEOGRAPH-9DB4}"
HOOKED = "\N{LATIN SMALL LETTER D WITH PALATAL HOOK}"


def named(done, title):
    """Return a report whose first piece has another name."""
    report = board_report(done)
    first = replace(report.pieces[0], title=title)
    return replace(report, pieces=(first, *report.pieces[1:]))


def test_letters_that_the_font_lacks_come_from_another_of_the_machine(done):
    # a font that matplotlib brings along has the second letter on every machine
    letter = CRANE if other_font(CRANE) else HOOKED
    page = charts.board_page(named(done, f"{letter} chest"))

    said = [text.get_text() for text in texts(page)]
    assert f"{letter} chest" in said
    assert not any(lettering.MARK in text for text in said)
    assert_nothing_is_cut(page)
    assert other_font(letter).family.replace(" ", "").encode() in (
        charts.pdf_bytes(page).replace(b" ", b"")
    )


def test_letters_that_no_font_has_are_marked_and_the_page_says_so(done, monkeypatch):
    monkeypatch.setattr(lettering, "other_font", lambda char: None)
    lettering.readable.cache_clear()
    page = charts.board_page(named(done, f"{CRANE} chest"))
    lettering.readable.cache_clear()

    said = [text.get_text() for text in texts(page)]
    assert f"{lettering.MARK} chest" in said
    assert any("stands for a letter that no font" in text for text in said)
    plain = [t.get_text() for t in texts(charts.board_page(board_report(done)))]
    assert not any("stands for a letter" in text for text in plain)
