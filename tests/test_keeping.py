"""Stock on hand is drawn down, what is left comes in, all else stays as written."""

import csv
import io
import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from pricebook.__main__ import main
from pricebook.cost import cost_sheets
from pricebook.errors import ReportError, TableError
from pricebook.files import keeping, places, read_piece, read_shop
from pricebook.files.keeping import AGAIN, take
from pricebook.files.opening import read_csv
from pricebook.files.table import read_table

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 10)
NAMES = ("sheets.csv", "rolls.csv", "materials.csv", "flitches.csv")


@pytest.fixture
def folder(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data" / "shop"


def costed(folder, *names):
    pieces = [read_piece(DATA / "pieces" / f"{name}.toml") for name in names]
    return cost_sheets(pieces, read_shop(folder), ON)


def texts(folder):
    return {name: (folder / name).read_bytes() for name in NAMES}


def rows_of(folder, name):
    text = (folder / name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def on_hand(folder, key):
    shop = read_shop(folder)
    rows = (*shop.sheets, *shop.rolls, *shop.materials)
    return next(row.on_hand for row in rows if row.key == key)


def test_a_sheet_of_the_rack_goes_and_its_offcuts_come_in_at_their_worth(folder):
    before = {row["key"] for row in rows_of(folder, "sheets.csv")}
    (sheet,) = costed(folder, "reading_bookcase")
    racked = [plan for plan in sheet.layout.sheets if plan.from_rack]
    assert racked
    take(folder, [sheet], ON)
    for plan in racked:
        assert on_hand(folder, plan.sheet.key) == 0
    new = [row for row in rows_of(folder, "sheets.csv") if row["key"] not in before]
    usable = [r for plan in sheet.layout.sheets for r in plan.rests if r.usable]
    assert sum(int(row["on_hand"]) for row in new) == len(usable)
    assert {row["to_buy"] for row in new} == {"no"}
    assert {row["offcut"] for row in new} == {"yes"}
    assert {row["date"] for row in new} == {"2026-11-10"}
    assert {row["source"] for row in new} == {f"offcut of {sheet.piece}"}
    left = sum(line.left_cents for line in sheet.lines if line.group == "veneer")
    kept = sum(
        row.value_cents * row.on_hand
        for row in read_shop(folder).sheets
        if row.key in {r["key"] for r in new}
    )
    assert kept == left


def test_an_offcut_is_never_written_larger_than_it_is(folder):
    (sheet,) = costed(folder, "low_dresser")
    take(folder, [sheet], ON)
    rests = sorted(
        (rest.along_mm * rest.across_mm, rest.along_mm, rest.across_mm)
        for plan in sheet.layout.sheets
        for rest in plan.rests
        if rest.usable
    )
    rows = [row for row in read_shop(folder).sheets if "Low dresser" in row.source]
    kept = sorted((row.along_mm * row.across_mm, row) for row in rows)
    for (_, along, across), (_, row) in zip(rests, kept, strict=True):
        assert along - 25.4 / 16 < row.along_mm <= along
        assert across - 25.4 / 16 < row.across_mm <= across


def _pack(words):
    """Read how many packs to buy and what one holds: "2 x 0.946 L", "1 pack of 10"."""
    numbers = [float(word) for word in words.split() if word[0].isdigit()]
    count, held = numbers if len(numbers) == 2 else (*numbers, 1)
    return count, held


def test_used_and_left_are_what_was_bought_and_what_lay_there(folder):
    # the law of a stock account, for each material: opening stock + purchases =
    # use + closing stock
    (sheet,) = costed(folder, "low_dresser")
    before = {row.key: row for row in read_shop(folder).materials}
    take(folder, [sheet], ON)
    after = {row.key: row for row in read_shop(folder).materials}
    groups = ("adhesive", "filler", "abrasives", "finish", "sundries", "hardware")
    lines = [line for line in sheet.lines if line.group in groups]
    assert lines
    for line in lines:
        sizes = {pack.quantity for pack in before[line.key].packs}
        bought = 0.0
        for part in line.packs.split(" + ") if line.packs else ():
            count, held = _pack(part)
            assert held in sizes
            bought += count * held
        opening, closing = before[line.key].on_hand, after[line.key].on_hand
        assert opening + bought == pytest.approx(line.quantity + closing, abs=1e-4)
    used = {line.key for line in lines}
    for key, row in before.items():
        if key not in used:
            assert after[key] == row


def test_the_rest_of_a_roll_comes_in_and_can_be_used(folder):
    (sheet,) = costed(folder, "low_dresser")
    take(folder, [sheet], ON)
    rests = [roll for roll in read_shop(folder).rolls if roll.key.endswith("rest-1")]
    (left,) = [roll.left_mm for roll in sheet.banding.rolls]
    (rest,) = rests
    assert left - 25.4 / 16 < rest.length_mm <= left
    assert (rest.on_hand, rest.to_buy, rest.species) == (1, False, "walnut")


def test_comments_and_untouched_rows_stay_byte_for_byte(folder):
    for name in NAMES:
        path = folder / name
        head, rest = path.read_text(encoding="utf-8").split("\n", 1)
        text = f'# mine, "odd\n{head}\n# between\n\n{rest}# at the end'
        path.write_bytes(text.replace("\n", "\r\n").encode("utf-8-sig"))
    before = texts(folder)
    sheets = costed(folder, "low_dresser")
    take(folder, sheets, ON)
    after = texts(folder)
    touched = {line.key for line in sheets[0].lines}
    for name in NAMES:
        assert after[name].startswith(b'\xef\xbb\xbf# mine, "odd\r\n')
        assert after[name].count(b"\n") == after[name].count(b"\r\n")
        old, new = before[name].splitlines(), after[name].splitlines()
        for was, now in zip(old, new, strict=False):
            key = next(csv.reader(io.StringIO(was.decode())), [""])[0]
            assert was == now or key in touched
    assert read_shop(folder).material("wood filler").on_hand < 40


def test_taking_twice_draws_twice_and_says_so(folder):
    sheets = costed(folder, "low_dresser")
    summary = take(folder, sheets, ON)
    assert summary[-1] == AGAIN
    first = on_hand(folder, "wood filler")
    take(folder, costed(folder, "low_dresser"), ON)
    second = on_hand(folder, "wood filler")
    assert 40 - first == pytest.approx(first - second, abs=1e-3)


def test_pieces_that_share_sheets_are_taken_once(folder):
    sheets = costed(folder, "reading_bookcase", "lamp_table")
    assert sheets[0].layout is sheets[1].layout
    take(folder, sheets, ON)
    for plan in sheets[0].layout.sheets:
        if plan.from_rack:
            assert on_hand(folder, plan.sheet.key) == 0


def test_stock_that_no_longer_covers_it_is_refused_and_nothing_written(folder):
    sheets = costed(folder, "reading_bookcase")
    take(folder, sheets, ON)
    before = texts(folder)
    with pytest.raises(TableError, match="price the piece again") as caught:
        take(folder, sheets, ON)
    assert any("of the rack are to be taken" in fault for fault in caught.value.faults)
    assert texts(folder) == before


def in_raw_leaves(folder, species="walnut"):
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    veneer = replace(piece.veneer, form="raw", species=species)
    return cost_sheets([replace(piece, veneer=veneer)], read_shop(folder), ON)[0]


def test_leaves_cut_go_and_those_left_whole_serve_the_next_piece(folder):
    # 40 leaves in bundles of 8: 14 are cut of two bundles, 2 stay in the rack.
    # The next piece cuts 15 to 28: 2 from the rack, 12 more, so two bundles again.
    first = in_raw_leaves(folder)
    assert (first.leaves[0].reach, first.leaves[0].leaves_to_buy) == (14, 16)
    summary = take(folder, [first], ON)
    assert any("14 leaves cut, 2 leaves in the rack, 24 more" in s for s in summary)
    second = in_raw_leaves(folder)
    (plan,) = second.leaves
    assert plan.leaves_used == tuple(range(15, 29))
    assert (plan.from_rack, plan.bundles, plan.left) == (2, 2, 4)
    assert plan.cost_cents == 2 * 9600
    # two leaves of the rack at an eighth of 96.00 each, and 12 of 16 leaves bought
    assert plan.used_cents == 2 * 1200 + 12 * 1200
    take(folder, [second], ON)
    row = next(r for r in read_shop(folder).flitches if r.key == "walnut-log-7")
    assert (len(row.widths_mm), row.first_number, row.on_hand) == (12, 29, 4)


def test_the_widths_of_a_drifting_flitch_go_with_its_leaves(folder):
    sheet = in_raw_leaves(folder, "cherry")
    before = next(r for r in read_shop(folder).flitches if r.key == "cherry-log-3")
    take(folder, [sheet], ON)
    after = next(r for r in read_shop(folder).flitches if r.key == "cherry-log-3")
    gone = sheet.leaves[0].reach
    assert after.widths_mm == before.widths_mm[gone:]
    assert after.first_number == before.first_number + gone


def test_leaves_that_stay_need_a_column_in_the_file(folder):
    path = folder / "flitches.csv"
    rows = [row.split(",") for row in path.read_text(encoding="utf-8").splitlines()]
    place = rows[0].index("on_hand")
    text = "\n".join(",".join(c[:place] + c[place + 1 :]) for c in rows if c[0])
    path.write_text(text + "\n", encoding="utf-8")
    before = texts(folder)
    with pytest.raises(TableError, match='the file has no column "on_hand"'):
        take(folder, [in_raw_leaves(folder)], ON)
    assert texts(folder) == before


def test_leaves_changed_meanwhile_are_not_taken(folder):
    sheet = in_raw_leaves(folder)
    take(folder, [sheet], ON)
    with pytest.raises(TableError, match='the leaves of "walnut-log-7"'):
        take(folder, [sheet], ON)


def test_all_files_change_or_none(folder, monkeypatch):
    sheets = costed(folder, "low_dresser")
    before = texts(folder)
    whole, done = Path.replace, []

    def breaks(self, target):
        done.append(target)
        if len(done) == 2:
            raise OSError(28, "No space left on device", str(target))
        return whole(self, target)

    monkeypatch.setattr(Path, "replace", breaks)
    with pytest.raises(ReportError, match="No space left on device"):
        take(folder, sheets, ON)
    assert len(done) == 2
    assert texts(folder) == before
    assert sorted(p.name for p in folder.iterdir()) == sorted(
        p.name for p in (DATA / "shop").iterdir()
    )


def test_a_file_changed_meanwhile_is_not_overwritten(folder):
    sheets = costed(folder, "low_dresser")
    plan = keeping.taking(folder, sheets, ON)
    path = folder / "materials.csv"
    path.write_text(path.read_text(encoding="utf-8") + "# new\n", encoding="utf-8")
    before = texts(folder)
    with pytest.raises(ReportError, match="was changed while"):
        plan.write()
    assert texts(folder) == before


def test_the_demo_inside_a_package_is_not_changed(folder, monkeypatch):
    sheets = costed(folder, "low_dresser")
    monkeypatch.setattr(places, "_PACKAGE", folder.parent.resolve())
    with pytest.raises(TableError, match="pricebook new FOLDER"):
        take(folder, sheets, ON)


def test_of_two_sources_the_chosen_row_is_drawn_down(folder):
    path = folder / "sheets.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    head = f"{lines[0]},chosen"
    found = next(line for line in lines if line.startswith("backing-4x8"))
    backing = found.replace(",1,40.00,", ",1,39.00,")
    other = backing.replace("invented for the demo", "another list")
    kept = [f"{line}," for line in lines[1:] if line != found]
    text = [head, *kept, f"{other},", f"{backing},yes"]
    path.write_text("\n".join(text) + "\n", encoding="utf-8")
    sheets = costed(folder, "reading_bookcase")
    racked = {p.sheet.key for p in sheets[0].layout.sheets if p.from_rack}
    assert "backing-4x8" in racked
    take(folder, sheets, ON)
    found = [r for r in rows_of(folder, "sheets.csv") if r["key"] == "backing-4x8"]
    assert [(row["source"], row["on_hand"]) for row in found] == [
        ("another list", "1"),
        ("invented for the demo", "0"),
    ]


def test_a_csv_may_hold_comments_and_lines_count_right(tmp_path):
    path = tmp_path / "t.csv"
    path.write_text('# top\n\na,b\n# why\n1,"x\n# not a comment"\n2,y\n')
    rows = read_csv(path, ("a", "b"))
    assert rows == [
        (6, {"a": "1", "b": "x\n# not a comment"}),
        (7, {"a": "2", "b": "y"}),
    ]
    path.write_text("# top\na,b\n1\n")
    with pytest.raises(TableError, match="line 3: 1 cells under 2 columns"):
        read_csv(path, ("a", "b"))
    path.write_text("# nothing else\n")
    with pytest.raises(TableError, match="has no row of columns"):
        read_csv(path, ("a", "b"))
    path.write_text("# top\na,c\n")
    with pytest.raises(TableError, match='line 2: column "b" is missing'):
        read_csv(path, ("a", "b"))


def test_a_table_unchanged_is_the_text_it_was_read_from(folder):
    for name in NAMES:
        table = read_table(folder / name)
        assert str(table) == (folder / name).read_text(encoding="utf-8")


def test_the_command_takes_only_when_asked(folder, capsys, tmp_path):
    piece = str(folder.parent / "pieces" / "low_dresser.toml")
    options = ["--on", "2026-11-10", "--out", str(tmp_path / "out"), "--json"]
    before = texts(folder)
    assert main(["price", piece, *options]) == 0
    assert texts(folder) == before
    assert main(["price", piece, *options, "--take"]) == 0
    assert texts(folder) != before
    assert AGAIN in capsys.readouterr().out
