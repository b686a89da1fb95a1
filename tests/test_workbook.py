"""The cost workbook: it holds what the cost sheet holds, and another engine agrees."""

import re
import struct
import zlib
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from zipfile import ZipFile

import office
import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pricebook.cost.finish_text import coat_rows
from pricebook.cost.sheet import cost_sheet, cost_sheets
from pricebook.errors import ReportError
from pricebook.files import read_piece, read_shop
from pricebook.price import Comparable, PricePolicy, advise_price
from pricebook.workbook import write_workbook
from pricebook.workbook.cells import duration
from pricebook.workbook.page import lines_of
from pricebook.workbook.safe import sheet_names
from pricebook.workbook.styles import style

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 20)
PIECES = ("guest_night_stand", "low_dresser", "lamp_table")
HOSTILE = ("=1+1", "+1", "-1", "@SUM(1,1)", "=cmd|' /C calc'!A1", "{=1}", "https://x")


def png(wide, high):
    """Return a white picture, by the published PNG format (ISO/IEC 15948)."""

    def chunk(kind, data):
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)
    rows = zlib.compress((b"\x00" + b"\xff" * wide) * high)
    parts = (chunk(b"IHDR", head), chunk(b"IDAT", rows), chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


@pytest.fixture(scope="module")
def pieces():
    return [read_piece(DATA / "pieces" / f"{name}.toml") for name in PIECES]


@pytest.fixture(scope="module")
def sheets(pieces, shop):
    return [cost_sheet(piece, shop, ON) for piece in pieces]


def advised(sheet):
    sales = [Comparable(cents, date(2026, 3, 14)) for cents in (18_000, 22_000)]
    policy = PricePolicy(bidders=4, unsold_value_cents=5_000)
    return advise_price(sheet, policy, on=ON, by="the maker", comparables=sales)


def written(folder, sheets, shop, name="cost.xlsx"):
    plans = {id(s.layout): len(s.layout.sheets) for s in sheets}
    return write_workbook(
        folder / name,
        sheets,
        advice=[advised(sheet) for sheet in sheets],
        pictures=[png(640, 320)] * sum(plans.values()),
        shop=shop,
        version="1.0.0",
    )


@pytest.fixture(scope="module")
def one(sheets, shop, tmp_path_factory):
    return written(tmp_path_factory.mktemp("one"), sheets[1:2], shop)


@pytest.fixture(scope="module")
def batch(pieces, shop, tmp_path_factory):
    shared = cost_sheets(pieces, shop, ON)
    return shared, written(tmp_path_factory.mktemp("batch"), shared, shop)


def cells(path, *, values):
    book = openpyxl.load_workbook(path, data_only=values)
    return {
        (sheet.title, cell.coordinate): cell
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


def formulas_of(path):
    """Return every formula, with the value stored beside it."""
    stored = cells(path, values=True)
    return {
        where: (cell.value, stored[where].value if where in stored else None)
        for where, cell in cells(path, values=False).items()
        if cell.data_type == "f"
    }


def beside(path, sheet, label, column):
    """Return the stored value in a column of the row that a label begins."""
    page = openpyxl.load_workbook(path, data_only=True)[sheet]
    row = next(r for r in range(1, 400) if page.cell(r, 1).value == label)
    return page[f"{column}{row}"].value


def totals(sheet):
    return {
        "Cash to buy": sheet.cash_to_buy_cents,
        "Left over as stock": sheet.left_cents,
        "Used up": sheet.used_up_cents,
        "Gifts in kind": sheet.gifts_in_kind_cents,
        "Time given": sheet.time_given_cents,
        "Full cost": sheet.full_cost_cents,
    }


def test_every_formula_carries_a_value(one, batch):
    for path in (one, batch[1]):
        found = formulas_of(path)
        assert len(found) > 20
        assert [where for where, (_, value) in found.items() if value is None] == []


def test_totals_are_those_of_the_cost_sheet(one, sheets):
    for label, cents in totals(sheets[1]).items():
        assert round(beside(one, "Cost", label, "F") * 100) == cents, label
    assert beside(one, "Cost", "The lines foot", "F") == "PASS"


def test_a_batch_has_a_summary_that_adds_up(batch):
    shared, path = batch
    for label, cents in {
        "Low dresser": shared[1].full_cost_cents,
        "All pieces": sum(sheet.full_cost_cents for sheet in shared),
    }.items():
        assert round(beside(path, "Summary", label, "F") * 100) == cents
    names = openpyxl.load_workbook(path).sheetnames
    assert names[:4] == [
        "Summary",
        "Cost Guest night stand",
        "Cost Low dresser",
        "Cost Lamp table",
    ]


def agrees(path, again):
    """Assert that every formula comes to its stored value in another engine."""
    recalculated = cells(again, values=True)
    for where, (formula, value) in formulas_of(path).items():
        other = recalculated[where].value if where in recalculated else None
        if isinstance(value, str):
            assert other == value, (where, formula)
        else:
            assert other == pytest.approx(value, abs=5e-7), (where, formula)


@pytest.mark.filterwarnings("ignore")  # the package's own, on import
def test_a_second_engine_in_process_agrees(one):
    import formulas

    solution = formulas.ExcelModel().loads(str(one)).finish().calculate()
    by_name = {str(key).upper(): value for key, value in solution.items()}
    for (sheet, where), (formula, value) in formulas_of(one).items():
        key = f"'[{one.name}]{sheet}'!{where}".upper()
        other = by_name[key].value[0, 0]
        if isinstance(value, str):
            assert other == value, formula
        else:
            assert float(other) == pytest.approx(value, abs=5e-7), (key, formula)


@pytest.mark.office
def test_libreoffice_agrees_on_every_formula(one, batch, tmp_path):
    agrees(one, office.recalculated(one, tmp_path))
    agrees(batch[1], office.recalculated(batch[1], tmp_path))


@pytest.mark.office
def test_the_recalculation_is_a_real_one(one, tmp_path):
    """A wrong stored value must not survive, else the check above proves nothing."""
    wrong = tmp_path / "wrong.xlsx"
    with ZipFile(one) as before, ZipFile(wrong, "w") as after:
        for item in before.namelist():
            data = before.read(item)
            if item.startswith("xl/worksheets/sheet"):
                data = re.sub(rb"(</f><v>)[0-9.]+(</v>)", rb"\g<1>999\2", data)
            after.writestr(item, data)
    assert beside(wrong, "Cost", "Full cost", "F") == 999
    again = office.recalculated(wrong, tmp_path)
    stored = beside(one, "Cost", "Full cost", "F")
    assert beside(again, "Cost", "Full cost", "F") == pytest.approx(stored, abs=1e-9)


@pytest.mark.office
def test_another_rate_of_an_hour_gives_the_cost_sheet_of_that_rate(
    one, pieces, shop, tmp_path
):
    book = openpyxl.load_workbook(one)
    labour = book["Labour"]
    rows = {labour.cell(r, 1).value: r for r in range(1, 12)}
    labour.cell(rows["An hour that is given, stated value"], 3).value = 31.37
    labour.cell(rows["Rent, light and machines, an hour"], 3).value = 2.03
    changed = tmp_path / "changed.xlsx"
    book.save(changed)
    other = replace(
        shop,
        settings=replace(
            shop.settings, given_cents_per_hour=3137, overhead_cents_per_hour=203
        ),
    )
    expected = totals(cost_sheet(pieces[1], other, ON))
    again = office.recalculated(changed, tmp_path)
    for label, cents in expected.items():
        assert round(beside(again, "Cost", label, "F") * 100) == cents, label


def test_drying_is_a_time_of_the_spreadsheet_blank_where_there_is_none(sheets, one):
    page = openpyxl.load_workbook(one)["Labour"]
    heads = [cell for row in page.iter_rows() for cell in row if cell.value == "Drying"]
    assert len(heads) == 2  # by operation, and by step
    first, lines = heads[1].row + 1, sheets[1].labour.lines
    assert {line.drying_min for line in lines} == {0, 1440}
    for row, line in enumerate(lines, first):
        cell = page.cell(row, heads[1].column)
        if line.drying_min:
            assert cell.value == timedelta(days=1)
            assert cell.number_format == '[h]" h"_)'
        else:
            assert cell.value is None


@pytest.mark.office
def test_another_engine_shows_drying_in_days_hours_and_minutes(tmp_path):
    import xlsxwriter

    path = tmp_path / "dries.xlsx"
    book = xlsxwriter.Workbook(path)
    page = book.add_worksheet()
    for row, minutes in enumerate((10_080, 1080, 420, 45, 90, 3000)):
        cell = duration(minutes)
        page.write_number(row, 0, cell.value, book.add_format(style(cell.style, "$")))
    book.close()
    lines = office.words(office.pdf(path, tmp_path)).strip("\f\n").splitlines()
    # the reader of the page takes a narrow space for none
    shown = [line.replace(" ", "") for line in lines if line.strip()]
    assert shown[:6] == ["7days", "18h", "7h", "45min", "1:30h", "50h"]


def hostile(sheet):
    lines = [
        replace(line, item=text, how=text, source=text, left=text, packs=text)
        for line, text in zip(sheet.lines, HOSTILE * 9, strict=False)
    ]
    return replace(sheet, piece="=1+1", lines=tuple(lines), notes=HOSTILE)


def test_text_that_begins_like_a_formula_stays_text(sheets, shop, tmp_path):
    plain = formulas_of(written(tmp_path, [sheets[0]], shop, "plain.xlsx"))
    path = written(tmp_path, [hostile(sheets[0])], shop)
    found = cells(path, values=False)
    assert set(formulas_of(path)) == set(plain) | set()
    for text in HOSTILE:
        at = [cell for cell in found.values() if cell.value == text]
        assert at, text
        assert {cell.data_type for cell in at} == {"s"}
        assert not any(cell.hyperlink for cell in at)


def test_every_sheet_says_how_it_prints(one, batch):
    for path in (one, batch[1]):
        book = openpyxl.load_workbook(path)
        assert book.properties.title.startswith("Cost of ")
        for page in book:
            assert page.print_area, page.title
            assert page.print_title_rows, page.title
            assert page.page_setup.paperSize == 1  # Letter, as the shop's file says
            assert page.page_setup.orientation in {"landscape", "portrait"}
            assert page.sheet_properties.pageSetUpPr.fitToPage
            assert page.page_setup.fitToHeight == 0
            assert "&P" in page.oddFooter.right.text.replace("&[Page]", "&P")
            assert page.oddHeader.left.text
        costs = [page for page in book if page.title.startswith("Cost")]
        assert {page.freeze_panes for page in costs} == {"A5"}
    header = openpyxl.load_workbook(one)["Cost"].oddHeader.left.text
    assert header == "Low dresser: cost"


def test_a_shop_that_prints_on_a4_gets_a4(sheets, tmp_path):
    settings = replace(sheets[0].settings, paper="A4", currency="kr.", lengths="mm")
    path = write_workbook(tmp_path / "a4.xlsx", [replace(sheets[0], settings=settings)])
    book = openpyxl.load_workbook(path)
    assert {page.page_setup.paperSize for page in book} == {9}
    assert book["Cost"]["F5"].number_format == '"kr."#,##0.00_);-"kr."#,##0.00_)'
    assert any(
        str(cell.value).endswith(" mm") for row in book["Take-off"] for cell in row
    )


def test_money_is_numbers_with_a_format_of_money(one, sheets):
    page = openpyxl.load_workbook(one, data_only=True)["Cost"]
    heads = {page.cell(4, c).value: c for c in range(1, 12)}
    lines = {}
    for row in range(5, page.max_row):
        item, basis = page.cell(row, 1).value, page.cell(row, heads["Basis"]).value
        if basis:
            lines[item] = page.cell(row, heads["Used up"])
    assert len(lines) == len(sheets[1].lines)
    for line in sheets[1].lines:
        cell = lines[line.item]
        assert isinstance(cell.value, int | float)
        assert round(cell.value * 100) == line.used_cents
        assert cell.number_format == '"$"#,##0.00_);-"$"#,##0.00_)'


def test_long_lengths_and_litres_are_in_the_readers_units(one, sheets, tmp_path):
    def quantities(path):
        page = openpyxl.load_workbook(path, data_only=True)["Cost"]
        rows = page.iter_rows(min_row=5, max_col=3, values_only=True)
        return {item: (count, unit) for item, count, unit in rows if unit}

    settings = replace(sheets[1].settings, lengths="mm")
    path = write_workbook(tmp_path / "m.xlsx", replace(sheets[1], settings=settings))
    feet, metres = quantities(one), quantities(path)
    long = [item for item, (_, unit) in metres.items() if unit == "m"]
    assert long
    for item in long:  # a foot is 0.3048 m, exact by definition
        assert feet[item][1] == "ft"
        assert feet[item][0] * 0.3048 == pytest.approx(metres[item][0])
    units = {unit for _, unit in feet.values()} | {unit for _, unit in metres.values()}
    assert "L" in units
    assert "l" not in units


def test_every_kind_of_coat_stands_with_its_films(one, sheets):
    page = openpyxl.load_workbook(one, data_only=True)["Finish"]
    shown = {row[0]: row for row in page.iter_rows(values_only=True)}
    for row in coat_rows(sheets[1].finish):
        assert shown[row[0]] == row
    assert any("dry" in str(words) and "usual" in str(words) for words in shown)


def test_every_picture_says_in_words_what_it_shows(one, sheets):
    with ZipFile(one) as parts:
        drawings = [n for n in parts.namelist() if n.startswith("xl/drawings/drawing")]
        text = parts.read(drawings[0]).decode()
    described = re.findall(r'descr="([^"]*)"', text)
    assert len(described) == len(sheets[1].layout.sheets)
    assert all("top" in words or "drawer" in words for words in described)


def test_layout_lists_every_cut_and_every_face(one, sheets):
    page = openpyxl.load_workbook(one)["Layout"]
    named = [page.cell(r, 7).value for r in range(1, page.max_row + 1)]
    cuts = [page.cell(r, 2).value for r in range(1, page.max_row + 1)]
    layout = sheets[1].layout
    for plan in layout.sheets:
        for placed in plan.placed:
            assert placed.name in named
    wanted = [cut.direction for plan in layout.sheets for cut in plan.cuts]
    assert [word for word in cuts if word in {"along", "across"}] == wanted


def test_raw_leaves_stand_below_the_sheets(pieces, shop, tmp_path):
    raw = replace(pieces[1], veneer=replace(pieces[1].veneer, form="raw"))
    sheet = cost_sheet(raw, shop, ON)
    assert sheet.leaves
    path = write_workbook(tmp_path / "raw.xlsx", sheet, shop=shop)
    words = {str(cell.value) for cell in cells(path, values=True).values()}
    for plan in sheet.leaves:
        assert set(plan.words("in")) <= words
        assert plan.waste in words
    page = openpyxl.load_workbook(path)["Sources"]
    prices = {page.cell(r, 1).value: page.cell(r, 4).value for r in range(4, 40)}
    key = sheet.leaves[0].flitch.key
    row = next(one for one in shop.flitches if one.key == key)
    assert prices[key] == row.price_cents / 100
    assert beside(path, "Cost", "The lines foot", "F") == "PASS"


def test_sources_name_each_price_with_its_day(one, sheets, shop):
    page = openpyxl.load_workbook(one)["Sources"]
    rows = {page.cell(r, 1).value: r for r in range(4, page.max_row + 1)}
    keys = {line.key for line in sheets[1].lines if line.key}
    assert keys - set(rows) == set()
    row = rows["bar pull"]
    dated = shop.material("bar pull").dated
    assert page.cell(row, 5).value.date() == dated
    assert page.cell(row, 6).value == (ON - dated).days
    assert page.cell(row, 7).value == "invented for the demo"


def test_a_price_past_the_age_limit_is_named(pieces, shop, tmp_path):
    old = replace(shop, settings=replace(shop.settings, price_age_days=60))
    sheet = cost_sheet(pieces[1], old, ON)
    assert sheet.old_rows
    path = write_workbook(tmp_path / "old.xlsx", [sheet], shop=old)
    words = [str(cell.value) for cell in cells(path, values=True).values()]
    for row in sheet.old_rows:
        assert any(
            f"The price of {row.key} is of {row.dated}" in text for text in words
        )
    assert sum(text.startswith("PAST THE AGE LIMIT; ") for text in words) >= len(
        sheet.old_rows
    )


def test_the_same_values_make_the_same_file(sheets, shop, tmp_path):
    first = written(tmp_path, sheets[:1], shop, "a.xlsx").read_bytes()
    assert written(tmp_path, sheets[:1], shop, "b.xlsx").read_bytes() == first


def printed(path, folder):
    """Return the words of a workbook as it prints, and the number of pages."""
    pages = office.pages(office.pdf(path, folder))
    return set(" ".join(pages).split()), len(pages)


@pytest.mark.office
def test_print_cuts_no_text_and_no_figure(one, batch, tmp_path):
    for path, most in ((one, 15), (batch[1], 36)):
        words, pages = printed(path, tmp_path)
        assert not any("###" in word for word in words)
        assert len(openpyxl.load_workbook(path).sheetnames) <= pages <= most
        typed = {
            word
            for cell in cells(path, values=True).values()
            if isinstance(cell.value, str)
            for word in cell.value.split()
        }
        assert sorted(typed - words) == []


def refused(folder, match, sheets, **more):
    path = folder / "none.xlsx"
    with pytest.raises(ReportError, match=match):
        write_workbook(path, sheets, **more)
    assert list(folder.iterdir()) == []


def test_a_control_character_is_refused_by_its_cell(sheets, tmp_path):
    bad = replace(sheets[0], notes=("fine", "bell \a", "half \ud800"))
    refused(tmp_path, r'sheet "Cost", cell A\d+: .*control character U\+0007', [bad])
    refused(tmp_path, r"U\+D800; take it out", [bad])


def test_a_text_longer_than_a_cell_is_refused(sheets, tmp_path):
    bad = replace(sheets[0], notes=("x" * 32_768,))
    refused(tmp_path, "32,768 characters and a cell holds 32,767; shorten it", [bad])


def test_nothing_to_write_is_refused(tmp_path):
    refused(tmp_path, "no cost sheet is given; price at least one piece", [])


def test_advice_for_other_pieces_is_refused(sheets, tmp_path):
    refused(
        tmp_path,
        "2 advices are given for 1 pieces",
        sheets[:1],
        advice=[None, None],
    )


def test_pictures_that_are_none_are_refused(sheets, tmp_path):
    one = sheets[:1]
    refused(tmp_path, "picture 1 is no PNG picture", one, pictures=[b"<svg/>"])
    refused(tmp_path, "3 pictures are given for", one, pictures=[png(4, 4)] * 3)


def test_a_path_that_cannot_be_written_is_refused(sheets, tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(ReportError, match="cannot be written"):
        write_workbook(tmp_path / "file" / "cost.xlsx", sheets[:1])


def test_a_name_that_is_no_workbook_is_refused(sheets, tmp_path):
    for name, match in (
        (tmp_path / "cost.ods", "does not end in .xlsx"),
        (7, "7 is no file; name one"),
    ):
        with pytest.raises(ReportError, match=match):
            write_workbook(name, sheets[:1])
    with pytest.raises(ReportError, match="'a chest' is no cost sheet"):
        write_workbook(tmp_path / "x.xlsx", ["a chest"])
    assert list(tmp_path.iterdir()) == []


def test_one_sheet_needs_no_list(sheets, tmp_path):
    path = write_workbook(tmp_path / "x.xlsx", sheets[0], advice=advised(sheets[0]))
    assert "Price" in openpyxl.load_workbook(path).sheetnames


def test_a_missing_tool_skips_or_fails_with_what_to_install(monkeypatch):
    monkeypatch.setattr(office.shutil, "which", lambda tool: None)
    monkeypatch.delenv("PRICEBOOK_EVERY_TEST", raising=False)
    with pytest.raises(pytest.skip.Exception, match="install libreoffice-calc to run"):
        office.need("soffice")
    monkeypatch.setenv("PRICEBOOK_EVERY_TEST", "1")
    with pytest.raises(pytest.fail.Exception, match="install poppler-utils to run"):
        office.need("pdftotext", "pdftoppm")


@given(st.lists(st.text(max_size=40), max_size=12))
def test_names_of_sheets_are_such_as_a_workbook_takes(wanted):
    names = sheet_names(wanted)
    assert len(names) == len(wanted)
    assert len({name.lower() for name in names}) == len(names)
    for name in names:
        assert 0 < len(name) <= 31
        assert not set(name) & set("[]:*?/\\")
        assert name[0] != "'"
        assert name[-1] != "'"


def test_pieces_of_one_name_get_sheets_of_their_own(sheets, tmp_path):
    same = [replace(sheets[0], piece="A/B: " + "long " * 9)] * 2
    path = write_workbook(tmp_path / "same.xlsx", same)
    names = openpyxl.load_workbook(path).sheetnames
    assert names[1:3] == [
        "Cost A B long long long long lo",
        "Cost A B long long long lon (2)",
    ]


@given(st.text(alphabet="ab \n", max_size=80), st.floats(1, 40))
def test_lines_of_text_are_never_fewer_than_its_letters_need(text, width):
    assert lines_of(text, width) >= text.count("\n") + 1
    assert lines_of(text, width) * width >= len(text.replace(" ", "").replace("\n", ""))


def test_a_shop_in_millimetres_reads_no_pounds_and_no_inches(tmp_path, pieces, shop):
    metric = replace(shop, settings=replace(shop.settings, lengths="mm"))
    book = written(tmp_path, [cost_sheet(pieces[1], metric, ON)], metric)
    pages = openpyxl.load_workbook(book)
    said = [
        str(cell.value)
        for name in pages.sheetnames
        if name not in ("Sources", "Cautions")
        for row in pages[name].iter_rows()
        for cell in row
        if cell.value is not None and "sanding disc" not in str(cell.value)
    ]
    assert any("Panels weigh" in words for words in said)
    found = [w for w in said if re.search(r"\d in\b|sq ft|\d ft\b|\d lb\b", w)]
    assert found == []
