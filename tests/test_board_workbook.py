"""The board's workbook says what the report says, and foots in another engine."""

from dataclasses import replace
from pathlib import Path

import office
import openpyxl
import pytest
from test_workbook import agrees, cells, formulas_of

from pricebook.event import settle
from pricebook.event.board import board_report
from pricebook.files import read_counted, read_event, read_results
from pricebook.workbook import write_board

EVENTS = Path(__file__).parent.parent / "data" / "events"
FILLED = EVENTS / "spring_bench_auction_results.toml"


@pytest.fixture(scope="module")
def done():
    event = read_event(EVENTS / "spring_bench_auction.toml")
    counted = read_counted(FILLED, event)
    return settle(event, read_results(FILLED, event), counted)


@pytest.fixture(scope="module")
def report(done):
    return board_report(done)


@pytest.fixture(scope="module")
def written(report, tmp_path_factory):
    return write_board(tmp_path_factory.mktemp("board") / "board.xlsx", report)


def rows(path, sheet, label=1):
    page = openpyxl.load_workbook(path, data_only=True)[sheet]
    return {
        row[label - 1].value: [cell.value for cell in row]
        for row in page.iter_rows()
        if row[label - 1].value is not None
    }


def test_money_stands_to_the_cent_and_in_whole_units(written, report):
    found = rows(written, "Board report")
    for amount in (*report.money, *report.gifts_and_hours):
        _, exact, whole, how = found[amount.label]
        assert round(exact * 100) == amount.cents
        assert whole == amount.whole
        assert (how or "") == amount.how


def test_rates_stand_with_their_denominator(written, report):
    found = rows(written, "Board report")
    for rate in (*report.rates, *report.forecast):
        assert found[rate.label][1] == rate.figure
        assert found[rate.label][3] == rate.how


def test_pieces_stand_against_cost_and_estimate(written, report):
    found = rows(written, "Pieces")
    heads = found["Lot"]
    for piece in report.pieces:
        row = dict(zip(heads, found[piece.lot], strict=True))
        assert row["Against it"] == (piece.against_estimate or None)
        for head, cents in (
            ("Hammer price", piece.hammer_cents),
            ("Full cost", piece.full_cents),
            ("Hammer over full cost", piece.over_full_cents),
            ("Charity's part", piece.charity_cents),
        ):
            shown = None if row[head] is None else round(row[head] * 100)
            assert shown == cents, (piece.lot, head)
    assert found["5"][2] == "sold, unpaid"


def test_event_lines_stand_as_a_worksheet(written, report):
    found = rows(written, "Event lines")
    for line in report.return_lines:
        assert round(found[line.line][2] * 100) == line.cents
        assert found[line.line][3] == line.whole
    formulas = {
        w: f for (s, w), (f, _) in formulas_of(written).items() if s == "Event lines"
    }
    assert sum("ROUND(C" in formula for formula in formulas.values()) > 20
    title = openpyxl.load_workbook(written)["Event lines"]["A2"].value
    assert "accountant, not the return" in title


def test_every_lot_stands_as_settled_with_who_gets_what(written, done):
    found = rows(written, "Lots settled")
    heads = found["Lot"]
    for settled in done.lots:
        row = dict(zip(heads, found[settled.key], strict=True))
        assert row["State"] == settled.result.state
        assert (row["If not sold"] or "") == settled.becomes
        charged = None if not settled.is_sold else settled.charged_cents / 100
        assert row["Charged"] == charged
        assert (row["Owed"] or 0) == settled.unpaid_cents / 100
    page = openpyxl.load_workbook(written, data_only=True)["Who gets what"]
    parts = [[cell.value for cell in row] for row in page.iter_rows(min_row=5)]
    for settled in done.sold:
        mine = [part for part in parts if part[0] == settled.key]
        assert round(sum(100 * part[3] for part in mine)) == settled.charged_cents
        assert [part[1] for part in mine] == [x.payee for x in settled.split.lines]
    assert any("when it is paid" in str(part[4]) for part in parts)


def test_payouts_receipts_and_a_sale_taken_back_stand_on_sheets(written, done):
    paid = rows(written, "Payouts")
    for payout in done.payouts:
        _, _, due, pending, lots = paid[payout.payee]
        assert (due, pending) == (payout.due_cents / 100, payout.pending_cents / 100)
        assert lots == ", ".join(payout.lots)
    told = rows(written, "Receipts")
    for receipt in done.receipts:
        _, paddle, _, paid_, gift, deductible, _ = told[receipt.number]
        assert (paddle, paid_) == (receipt.paddle, receipt.paid_cents / 100)
        assert (gift, deductible) == (
            receipt.gift_cents / 100,
            receipt.deductible_cents / 100,
        )
    page = openpyxl.load_workbook(written, data_only=True)["Ledger"]
    void = [[c.value for c in row] for row in page.iter_rows() if row[0].value == "9"]
    assert [(row[2], row[6]) for row in void] == [("sale", 57.75), ("reversal", -57.75)]
    assert "K.L." in void[1][7]


@pytest.mark.office
def test_libreoffice_agrees_and_print_cuts_nothing(written, tmp_path):
    assert len(formulas_of(written)) > 60
    agrees(written, office.recalculated(written, tmp_path))
    pages = office.pages(office.pdf(written, tmp_path))
    assert len(pages) == 9
    assert not any("###" in page for page in pages)
    words = set(" ".join(pages).split())
    typed = {
        word
        for cell in cells(written, values=True).values()
        if isinstance(cell.value, str)
        for word in cell.value.split()
    }
    assert sorted(typed - words) == []
    assert "treasurer" in pages[0]


def test_a_control_that_fails_is_seen_at_once(done, report, tmp_path):
    counted = replace(done.counted, cash_cents=1)
    results = [lot.result for lot in done.lots]
    wrong = board_report(settle(done.event, results, counted))
    path = write_board(tmp_path / "wrong.xlsx", wrong, paper="A4", currency="€")
    assert wrong.verdict.startswith("NOT CLEAN")
    for sheet in ("Board report", "Control totals"):
        assert wrong.verdict in rows(path, sheet)
    verdicts = [row[5] for row in rows(path, "Control totals").values()]
    assert verdicts.count("FAIL") == 1
    book = openpyxl.load_workbook(path)
    assert {page.page_setup.paperSize for page in book} == {9}
    assert all(page.print_area and page.print_title_rows for page in book)
    assert '"€"#,##0.00' in book["Board report"]["B7"].number_format


def test_names_that_begin_like_formulas_stay_text(report, tmp_path):
    named = replace(report, title="=1+1", charity="@SUM(1)", unpaid=("-1", "+1"))
    path = write_board(tmp_path / "named.xlsx", named)
    found = cells(path, values=False)
    for text in ("=1+1", "-1", "+1"):
        assert {c.data_type for c in found.values() if c.value == text} == {"s"}
    assert set(formulas_of(path)) == set(formulas_of(path)) & set(found)


def test_the_signatures_stand_on_the_page_of_the_report_while_it_can_be_read(
    report, tmp_path
):
    more = replace(report, unpaid=tuple(f"Lot {n}: paddle 9 owes." for n in range(12)))
    book = openpyxl.load_workbook(write_board(tmp_path / "more.xlsx", more))
    assert book["Board report"].page_setup.fitToHeight in (None, 1)  # 1 is unsaid
    many = replace(report, unpaid=tuple(f"Lot {n}: paddle 9 owes." for n in range(99)))
    book = openpyxl.load_workbook(write_board(tmp_path / "many.xlsx", many))
    assert book["Board report"].page_setup.fitToHeight == 0


def test_a_payee_of_ten_thousand_lots_fits_its_cell(report, tmp_path):
    keys = tuple(f"{n}" for n in range(1, 10_001))
    # 48,894 letters and commas; a cell of a spreadsheet holds 32,767
    all_of_them = replace(report.payouts[0], lots=keys)
    path = tmp_path / "many.xlsx"
    write_board(path, replace(report, payouts=(all_of_them, *report.payouts[1:])))
    said = openpyxl.load_workbook(path)["Payouts"]["E5"].value
    assert said.startswith("1, 2, 3")
    assert said.endswith("60 and 9,940 more")
