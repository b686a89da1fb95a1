"""What comes back is read by its keys, or refused by sheet and cell."""

import contextlib
import hashlib
import io
import random
import re
import shutil
import subprocess
import time
import tracemalloc
import zipfile
from dataclasses import replace
from datetime import date, datetime

import openpyxl
import pytest
from returned_books import (
    Formula,
    row_of,
    rows_of,
    spring,
    spring_results,
    write_book,
)

from pricebook.errors import ReportError
from pricebook.event import Result, settle
from pricebook.event import book as contract
from pricebook.returned import read_book, read_returned
from pricebook.returned.cells import Cell, day, price

EVENT = spring()
RESULTS = spring_results()


def refusal(path, event=EVENT) -> str:
    before = path.read_bytes()
    with pytest.raises(ReportError, match=re.escape(str(path))) as caught:
        read_returned(path, event)
    assert path.read_bytes() == before
    for fault in caught.value.faults:
        assert str(path) in fault
        assert "Traceback" not in fault
    return str(caught.value)


def with_row(tmp_path, lot: str, **changed: object):
    """Write the demo results with one row changed, and return its path and row."""
    rows = rows_of(EVENT, RESULTS)
    at = next(i for i, row in enumerate(rows) if str(row["lot"]) == lot)
    rows[at] |= changed
    return write_book(tmp_path / "back.xlsx", EVENT, rows), at + 4


# ---- what is read


def test_a_workbook_filled_in_reads_back_as_the_results(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    assert read_returned(path, EVENT) == RESULTS


def test_reading_twice_gives_the_same_and_leaves_the_file_alone(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    path.chmod(0o444)
    assert read_book(path, EVENT) == read_book(path, EVENT)
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before
    assert [p.name for p in tmp_path.iterdir()] == ["back.xlsx"]


def test_rows_may_be_sorted_inserted_and_moved_down(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    random.Random(7).shuffle(rows)
    rows.insert(3, {})
    rows.insert(8, {"title": "supper break here"})
    path = write_book(tmp_path / "back.xlsx", EVENT, rows, blank_rows_above=4)
    assert read_returned(path, EVENT) == RESULTS


def test_columns_may_be_moved_for_they_are_found_by_their_heads(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    book = openpyxl.load_workbook(path)
    sheet = book[contract.RESULTS]
    sheet.move_range("A1:L40", cols=3)
    sheet.insert_cols(8)
    book.save(path)
    assert read_returned(path, EVENT) == RESULTS


def test_notes_anywhere_and_more_sheets_do_no_harm(tmp_path):
    path = write_book(
        tmp_path / "back.xlsx",
        EVENT,
        [*rows_of(EVENT, RESULTS), {"lot": "Total", "hammer": Formula("=SUM(F4:F17)")}],
        extra_sheets=("Kitchen rota",),
        extra_cells=(
            (contract.RESULTS, "D1", "filled in by P."),
            (contract.RESULTS, "Q9", "bid twice by mistake"),
            (contract.RESULTS, "A30", "thanks to everyone"),
            (contract.RESULTS, "F32", "all prices in dollars"),
            (contract.RESULTS, "G34", 7),
            (contract.RESULTS, "H34", "yes"),
            (contract.RESULTS, "I36", 555),
            (contract.CATALOGUE, "AB99", "a note"),
            ("Kitchen rota", "A1", "soup"),
        ),
    )
    assert read_returned(path, EVENT) == RESULTS


def test_prices_and_dates_typed_as_text_are_read(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    rows[0] |= {"hammer": "$1,250.00", "on": "April 17, 2027"}
    rows[1] |= {"hammer": " $ 240 ", "on": "2027-04-17", "method": "Check"}
    rows[2] |= {"on": "17.04.2027", "paddle": " 014 ", "paid": "YES"}
    path = write_book(tmp_path / "back.xlsx", EVENT, rows)
    back = read_returned(path, EVENT)
    assert back[0].hammer_cents == 125000
    assert {result.on for result in back[:3]} == {date(2027, 4, 17)}
    assert (back[1].hammer_cents, back[1].method) == (24000, "cheque")
    assert back[2] == RESULTS[2]


@pytest.mark.parametrize(
    "typed", ["480 €", "$ 480.00", "USD 480", "480.00 USD", "£480", "480.0 ¥"]
)
def test_a_currency_may_stand_before_or_behind_a_price(typed):
    assert price(Cell("F7", typed, "text")) == 48000


def test_one_letter_says_whether_a_lot_was_paid(tmp_path):
    path, _ = with_row(tmp_path, "1", paid="Y")
    assert read_returned(path, EVENT)[0] == RESULTS[0]
    path, _ = with_row(tmp_path, "5", paid="n")
    assert read_returned(path, EVENT)[4] == RESULTS[4]


def test_a_workbook_under_another_ending_is_refused(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    for ending in (".xls", ".csv", ".zip", ""):
        renamed = tmp_path / f"back{ending}"
        renamed.write_bytes(path.read_bytes())
        with pytest.raises(ReportError, match=r"was renamed: its name does not end"):
            read_returned(renamed, EVENT)


def test_names_that_begin_like_a_formula_come_back_as_text(tmp_path):
    for note in ("=Mara+Lin", "+1 lot", "-see me", "@home"):
        path, _ = with_row(tmp_path, "10", note=note)
        assert read_returned(path, EVENT)[9].note == note


def test_an_amount_under_paid_is_a_part_payment(tmp_path):
    path, _ = with_row(tmp_path, "5", paid=100.0)
    back = read_returned(path, EVENT)[4]
    assert (back.paid, back.amount_cents) == (False, 10000)
    done = settle(EVENT, read_returned(path, EVENT))
    assert done.unpaid_cents == 29400 - 10000  # 280.00 + 5 % tax, less 100.00
    assert not done.lots[4].is_paid


def test_money_counted_is_read_with_its_counters(tmp_path):
    counted = {"Cash counted": "$320.25", "Card fees charged": 35.61, "Counted by": "K"}
    path = write_book(
        tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS), counted=counted
    )
    back = read_book(path, EVENT).counted
    assert (back.cash_cents, back.card_fees_cents) == (32025, 3561)
    assert (back.cheque_cents, back.first_counter) == (None, "K")


def test_a_size_that_the_sheet_states_wrongly_is_not_believed(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    lying = tmp_path / "lying.xlsx"
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(lying, "w") as new:
        for part in old.infolist():
            data = old.read(part)
            if part.filename == "xl/worksheets/sheet3.xml":
                assert b'<dimension ref="A1:L17"/>' in data
                data = data.replace(b'ref="A1:L17"', b'ref="A1:B5"')
            new.writestr(part, data)
    assert read_returned(lying, EVENT) == RESULTS


# ---- what is refused in a cell


@pytest.mark.parametrize(
    ("changed", "column", "words"),
    [
        ({"hammer": "about 480"}, "F", 'found the text "about 480"; a price is'),
        ({"hammer": 480.125}, "F", "found 480.125; a price has at most two decimals"),
        ({"hammer": "480.125"}, "F", 'found the text "480.125"'),
        ({"hammer": "480 or so"}, "F", 'found the text "480 or so"'),
        ({"hammer": "12 480 USD"}, "F", 'found the text "12 480 USD"'),
        ({"hammer": -480}, "F", "found -480; a price is not below 0"),
        ({"hammer": "-480.00"}, "F", 'found the text "-480.00"'),
        ({"hammer": 0}, "F", "it must be more than 0"),
        ({"hammer": True}, "F", "found yes or no True"),
        ({"hammer": "1.250,00"}, "F", 'found the text "1.250,00"'),
        ({"hammer": 1e15}, "F", "no lot brings that much"),
        ({"hammer": Formula("=400+80", 480)}, "F", "found the formula =400+80"),
        ({"hammer": Formula("=1/0", "#DIV/0!")}, "F", "found the formula =1/0"),
        ({"hammer": 150}, "F", "150.00 is below the opening bid 200.00"),
        ({"hammer": None}, "F", "found no hammer price and no state for lot 1"),
        ({"paddle": None}, "G", "found an empty cell; lot 1: is sold, but to no"),
        ({"paddle": 4.5}, "G", "found 4.5; a paddle is a whole number"),
        ({"paddle": "a name, not a number"}, "G", "a paddle is a number of at most 12"),
        ({"paddle": Formula("=G5", 7)}, "G", "found the formula =G5"),
        ({"paid": "perhaps"}, "H", 'found "perhaps"; write yes, no, or the part'),
        ({"paid": 504.01}, "H", "504.01 was paid for 504.00 charged"),
        ({"paid": None}, "H", "lot 1 says how it was paid; write yes or no"),
        ({"method": None}, "I", "is paid, but not how"),
        ({"method": "barter"}, "I", 'method is "barter"'),
        ({"on": "4/5/2027"}, "J", "which can be two days"),
        ({"on": "soon"}, "J", 'found "soon"; write a date as year, month, day'),
        ({"on": date(2027, 4, 1)}, "J", "is before bidding opened on 2027-04-17"),
        ({"state": "unsold"}, "E", "nobody bought is passed: write passed"),
        ({"paddle": "Ms Heron"}, "G", "never a name; write the number"),
        ({"state": "gone"}, "E", 'state is "gone"; use one of sold, passed'),
        ({"state": "passed"}, "F", "is passed and yet has a hammer price"),
        ({"state": "void"}, "K", "is void without initials"),
        ({"note": Formula("=A1", "x")}, "L", "found the formula =A1"),
    ],
)
def test_a_cell_that_cannot_be_right_is_named(tmp_path, changed, column, words):
    path, row = with_row(tmp_path, "1", **changed)
    said = refusal(path)
    assert f'sheet "Results", cell {column}{row}' in said
    assert words in said


@pytest.mark.parametrize("error", ["#REF!", "#N/A", "#VALUE!"])
def test_an_error_where_a_value_belongs_is_named(tmp_path, error):
    path, row = with_row(tmp_path, "1")
    book = openpyxl.load_workbook(path)
    book[contract.RESULTS][f"F{row}"] = error
    assert book[contract.RESULTS][f"F{row}"].data_type == "e"
    book.save(path)
    assert f"cell F{row} (lot 1, Hammer price): found the error {error}" in refusal(
        path
    )


@pytest.mark.parametrize("typed", ["#14", "Paddle 14", "no. 14", "14.0", "paddle #14"])
def test_a_paddle_is_one_buyer_however_it_is_written(tmp_path, typed):
    path, _ = with_row(tmp_path, "1", paddle=typed)
    first = read_returned(path, EVENT)[0]
    assert first.paddle == "14"


def test_a_paddle_may_have_a_letter(tmp_path):
    path, _ = with_row(tmp_path, "1", paddle="A-3")
    first = read_returned(path, EVENT)[0]
    assert first.paddle == "A-3"


def test_a_price_below_the_opening_bid_stands_with_a_note(tmp_path):
    path, _ = with_row(tmp_path, "1", hammer=150, note="the charity let it go")
    assert read_returned(path, EVENT)[0].hammer_cents == 15000


def test_a_reserve_not_met_needs_a_note(tmp_path):
    path, row = with_row(tmp_path, "4", hammer=200)
    assert f"cell F{row}" in refusal(path)
    assert "does not reach the reserve 220.00" in refusal(path)
    path, _ = with_row(tmp_path, "4", hammer=200, note="owner agreed")
    assert read_returned(path, EVENT)[3].hammer_cents == 20000


def test_a_lot_that_stands_twice_is_named_with_its_second_cell(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    path = write_book(tmp_path / "back.xlsx", EVENT, [*rows, rows[1]])
    assert 'cell A18: found "2"; lot 2: stands twice' in refusal(path)


def test_an_unknown_lot_is_named_with_its_cell(tmp_path):
    rows = [*rows_of(EVENT, RESULTS), {"lot": 99, "hammer": 40, "paddle": 3}]
    path = write_book(tmp_path / "back.xlsx", EVENT, rows)
    assert 'cell A18: found lot "99", which is not in the catalogue' in refusal(path)


def test_a_lot_that_is_missing_is_named(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS)[:-1])
    assert 'sheet "Results": lot 14 has no result' in refusal(path)


def test_a_sale_without_a_lot_number_is_not_lost(tmp_path):
    rows = [*rows_of(EVENT, RESULTS), {"hammer": 75, "paddle": 3}]
    path = write_book(tmp_path / "back.xlsx", EVENT, rows)
    assert "cell F18: found 75 in a row without a lot" in refusal(path)


def test_all_faults_are_told_at_once(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    rows[0] |= {"hammer": "many"}
    rows[1] |= {"paddle": None}
    rows[2] |= {"hammer": 1.234}
    rows[3] |= {"method": "barter"}
    path = write_book(
        tmp_path / "back.xlsx", EVENT, rows, counted={"Cash counted": "plenty"}
    )
    said = refusal(path)
    for cell in (
        "cell F4",
        "cell G5",
        "cell F6",
        "cell I7",
        '"Money counted", cell B1',
    ):
        assert cell in said
    assert len(said.splitlines()) == 5


# ---- what is refused as a whole


@pytest.mark.parametrize("name", contract.SHEETS)
def test_a_sheet_that_is_missing_or_renamed_is_named(tmp_path, name):
    rows = rows_of(EVENT, RESULTS)
    path = write_book(
        tmp_path / "back.xlsx", EVENT, rows, skip_sheet=name, extra_sheets=("Other",)
    )
    assert f'sheet "{name}" is missing; found' in refusal(path)


def test_a_head_that_is_missing_or_doubled_is_named(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    path = write_book(
        tmp_path / "back.xlsx", EVENT, rows, heads={"hammer": "Hammer prize"}
    )
    said = refusal(path)
    assert 'the head "Hammer price" is missing in row 3' in said
    assert 'did you mean "Hammer prize"?' in said
    path = write_book(tmp_path / "back.xlsx", EVENT, rows, heads={"title": "Paddle"})
    assert 'the head "Paddle" stands twice in row 3' in refusal(path)


def test_a_workbook_of_another_event_is_refused(tmp_path):
    rows = rows_of(EVENT, RESULTS)
    path = write_book(tmp_path / "back.xlsx", EVENT, rows, key="autumn-2026")
    assert 'found the event key "autumn-2026"; this event is' in refusal(path)
    path = write_book(tmp_path / "back.xlsx", EVENT, rows, key="")
    assert "found no event key" in refusal(path)


def test_a_cell_in_the_last_row_and_column_is_named_and_does_not_take_long(tmp_path):
    for sheet in (contract.RESULTS, contract.CATALOGUE, contract.COUNTED):
        path = write_book(
            tmp_path / "back.xlsx",
            EVENT,
            rows_of(EVENT, RESULTS),
            extra_cells=((sheet, "XFD1048576", "x"),),
        )
        began = time.perf_counter()
        said = refusal(path)
        assert f'sheet "{sheet}", cell XFD1048576' in said
        assert time.perf_counter() - began < 5


def test_formats_alone_far_out_do_no_harm(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    book = openpyxl.load_workbook(path)
    cell = book[contract.RESULTS]["XFD1048576"]
    cell.number_format = "0.00"
    book.save(path)
    assert read_returned(path, EVENT) == RESULTS


def write_zip(path, parts: dict[str, bytes]):
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return path


def test_files_of_other_kinds_are_named_for_what_they_are(tmp_path):
    made = {
        "locked.xlsx": bytes.fromhex("D0CF11E0A1B11AE1")
        + b"\0" * 600
        + "EncryptedPackage".encode("utf-16-le"),
        "old.xls": bytes.fromhex("D0CF11E0A1B11AE1") + b"\0" * 600,
        "words.xlsx": b"Lot,Hammer price\n1,480\n",
        "page.xlsx": b"<html><table></table></html>",
        "nothing.xlsx": b"",
        "start.xlsx": b"PK\x03\x04 and no more",
    }
    words = {
        "locked.xlsx": "is protected by a password; open it",
        "old.xls": "of the old .xls kind",
        "words.xlsx": "is no .xlsx workbook, whatever its name says",
        "page.xlsx": "is no .xlsx workbook, whatever its name says",
        "nothing.xlsx": "is empty",
        "start.xlsx": "is damaged: it ends too early",
    }
    for name, data in made.items():
        (tmp_path / name).write_bytes(data)
        assert words[name] in refusal(tmp_path / name)


def test_archives_of_other_kinds_are_named_for_what_they_are(tmp_path):
    ods = {
        "mimetype": b"application/vnd.oasis.opendocument.spreadsheet",
        "content.xml": b"<x/>",
    }
    book = {"[Content_Types].xml": b"<Types/>", "xl/workbook.xml": b"<workbook/>"}
    cases = (
        (ods, "is an OpenDocument file (.ods)"),
        ({"photo.jpg": b"x"}, "is a zip archive, but holds no workbook"),
        (book | {"xl/vbaProject.bin": b"x"}, "holds macros"),
        (book | {"xl/workbook.bin": b"x"}, "is a binary workbook (.xlsb)"),
        (book, "is damaged inside"),
        (
            book
            | {"xl/styles.xml": b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "c">]>'},
            "declares a document type in xl/styles.xml",
        ),
    )
    for number, (parts, words) in enumerate(cases):
        path = write_zip(tmp_path / f"{number}.xlsx", parts)
        assert words in refusal(path)


def test_a_missing_file_and_a_folder_are_named(tmp_path):
    with pytest.raises(ReportError, match="does not exist; check the name"):
        read_returned(tmp_path / "none.xlsx", EVENT)
    with pytest.raises(ReportError, match="is a folder"):
        read_returned(tmp_path, EVENT)


def test_a_file_cut_short_anywhere_is_refused_and_never_read_in_part(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    whole = path.read_bytes()
    cut = tmp_path / "cut.xlsx"
    for share in (0.02, 0.3, 0.6, 0.9, 0.999):
        cut.write_bytes(whole[: int(len(whole) * share)])
        assert "damaged" in refusal(cut)


def test_bytes_changed_on_the_way_are_refused_or_do_not_matter(tmp_path):
    path = write_book(tmp_path / "back.xlsx", EVENT, rows_of(EVENT, RESULTS))
    whole = path.read_bytes()
    spoilt = tmp_path / "spoilt.xlsx"
    draw = random.Random(3)
    for _ in range(60):
        data = bytearray(whole)
        for _ in range(4):
            data[draw.randrange(len(data))] = draw.randrange(256)
        spoilt.write_bytes(data)
        with contextlib.suppress(ReportError):  # any other error fails the test
            assert read_returned(spoilt, EVENT) == RESULTS


def test_an_archive_that_unpacks_to_too_much_is_not_unpacked(tmp_path):
    bomb = io.BytesIO()
    with zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", b"<Types/>")
        archive.writestr("xl/workbook.xml", b"<workbook/>")
        with archive.open("xl/worksheets/sheet1.xml", "w") as part:
            for _ in range(200):
                part.write(b" " * 1_000_000)
    path = tmp_path / "bomb.xlsx"
    path.write_bytes(bomb.getvalue())
    assert path.stat().st_size < 400_000
    began = time.perf_counter()
    tracemalloc.start()
    assert "unpacks to 200,000,0" in refusal(path)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 20_000_000
    assert time.perf_counter() - began < 2


# ---- other programs, many lots


@pytest.mark.office
def test_a_round_trip_through_another_spreadsheet_program_reads_the_same(tmp_path):
    program = shutil.which("soffice")
    assert program is not None
    rows = rows_of(EVENT, RESULTS)
    rows[0] |= {"hammer": "$480.00", "note": "=see me"}
    path = write_book(tmp_path / "back.xlsx", EVENT, rows)
    wanted = read_book(path, EVENT)

    def convert(source, kind, folder):
        home = (tmp_path / "profile").as_uri()
        subprocess.run(
            [program, f"-env:UserInstallation={home}", "--headless", "--convert-to",
             kind, "--outdir", str(folder), str(source)],
            check=True, capture_output=True, timeout=120,
        )  # fmt: skip
        return folder / f"back.{kind}"

    first = convert(path, "xlsx", tmp_path / "one")
    assert read_book(first, EVENT) == wanted
    open_document = convert(path, "ods", tmp_path / "two")
    assert "is an OpenDocument file (.ods)" in refusal(open_document)
    back = convert(open_document, "xlsx", tmp_path / "three")
    assert read_book(back, EVENT) == wanted
    assert settle(EVENT, read_returned(back, EVENT)) == settle(EVENT, wanted.results)


def many(count: int):
    lots = tuple(
        replace(EVENT.lots[i % len(EVENT.lots)], key=str(i + 1)) for i in range(count)
    )
    event = replace(EVENT, lots=lots, costs=())
    results = tuple(
        replace(RESULTS[i % len(RESULTS)], lot=str(i + 1)) for i in range(count)
    )
    return event, results


def test_a_thousand_lots_are_read_back_within_the_budget(tmp_path):
    event, results = many(1000)
    path = write_book(tmp_path / "back.xlsx", event, rows_of(event, results))
    began = time.perf_counter()
    assert read_returned(path, event) == results
    took = time.perf_counter() - began
    assert took < 4, took  # 2 s is the goal on a quiet machine


# ---- single cells, against the rules as written down


def test_a_price_computed_in_a_sheet_is_read_as_the_sheet_shows_it():
    # 0.1 + 0.2 is 0.30000000000000004 in binary; a sheet shows 15 digits: 0.3
    assert price(Cell("F7", 0.1 + 0.2, "number")) == 30
    assert price(Cell("F7", 1250.5, "number")) == 125050


def test_a_date_that_can_mean_one_day_only_is_read():
    # ISO 8601 calendar dates, and day and month in either order where only one can be
    shown = ["2027-04-17", "17/04/2027", "04/17/2027", "17 Apr 2027", "4/4/2027"]
    shown += ["17-Apr-2027", "2027/04/17", "2027.4.17", "April 17th, 2027"]
    for text in shown:
        assert day(Cell("J7", text, "text")) in (date(2027, 4, 17), date(2027, 4, 4))
    assert day(Cell("J7", datetime.fromisoformat("2027-04-17 19:30"), "date")) == date(
        2027, 4, 17
    )
    with pytest.raises(ReportError, match="write a date as year, month, day"):
        day(Cell("J7", "31/31/2027", "text"))


def test_a_result_of_every_state_survives_the_sheet(tmp_path):
    result = Result(
        lot="1",
        state="void",
        hammer_cents=40000,
        paddle="A7",
        paid=True,
        method="cheque",
        on=date(2027, 4, 18),
        initials="P.O.",
        note="drawer was stuck",
    )
    rows = rows_of(EVENT, RESULTS)
    rows[0] = row_of(EVENT, result)
    path = write_book(tmp_path / "back.xlsx", EVENT, rows)
    assert read_returned(path, EVENT)[0] == result
