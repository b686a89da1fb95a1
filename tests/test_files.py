"""Every fault of a file is named at once, with its place."""

import re
import shutil
from pathlib import Path

import pytest

from pricebook.errors import PricebookError, SpecError, TableError
from pricebook.files import read_piece, read_shop

DATA = Path(__file__).parent.parent / "data"
DRESSER = (DATA / "pieces" / "low_dresser.toml").read_text(encoding="utf-8")


def refusal(tmp_path, text, kind=PricebookError):
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(kind) as caught:
        read_piece(path)
    return caught.value.faults


def changed(old, new):
    assert old in DRESSER
    return DRESSER.replace(old, new, 1)


@pytest.mark.parametrize("path", sorted((DATA / "pieces").glob("*.toml")), ids=str)
def test_every_demo_piece_is_read(path):
    assert read_piece(path).name


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('panel = "3/4 in" ', 'pannel = "3/4 in" ', 'did you mean "panel"?'),
        ('width = "37 in"', 'width = "37"', "has no unit"),
        ('width = "37 in"', "width = 37", "is not a length"),
        ('width = "37 in"', 'width = "-37 in"', "has a sign"),
        ('width = "37 in"', 'width = "0 in"', "it must be more than 0"),
        ("rows = 5 ", "rows = 0 ", "it must be 1 or more"),
        ("rows = 5 ", "rows = 2.5 ", "not a whole number"),
        ("rows = 5 ", 'rows = 2\nheights = ["30 in", "30 in"] ', "taller than the"),
        ('form = "chest of drawers"', 'form = "chest"', 'form is "chest"'),
        ('show = ["top", "sides"', 'show = ["top", "side"', 'did you mean "sides"?'),
        ('kind = "plinth" ', 'kind = "plinths" ', 'did you mean "plinth"?'),
        ('matched = ["fronts"]', 'matched = ["back"]', "gets no veneer"),
        ('plain = ["back"]', 'plain = ["top"]', "more than one list"),
        ('value = "25.00"', 'value = "25.005"', "not an amount of money"),
        ("[price]", '[price]\nopening_bid = "-5.00"', "opening_bid: "),
        ("[price]", '[price]\nreserve = "1.005"', "reserve: "),
        ("[price]", "[price]\nreserve = 150", "is not an amount of money"),
        ("[price]", '[price]\nopening_bidd = "5.00"', 'did you mean "opening_bid"?'),
        ("appraised_on = 2026-10-02", 'appraised_on = "soon"', "is not a date"),
        ("dents = 2", "dents = -2", "it must be 0 or more"),
        ("[veneer]", "[venner]", 'did you mean "veneer"?'),
        ('owner = "charity" ', 'owner = "bank" ', 'owner is "bank"'),
    ],
)
def test_a_fault_is_one_plain_sentence(tmp_path, old, new, words):
    faults = refusal(tmp_path, changed(old, new))
    assert any(words in fault for fault in faults), faults
    assert all("piece.toml" in fault for fault in faults)
    assert not any("\n" in fault for fault in faults)


def test_all_faults_of_a_file_come_together(tmp_path):
    text = DRESSER.replace('"37 in"', '"37"').replace('"3/16 in"', '"0 in"')
    text = text.replace("count = 5", "count = 0").replace('"1/8 in"', '"x"')
    faults = refusal(tmp_path, text, SpecError)
    assert len(faults) == 4


def test_broken_toml_names_the_line(tmp_path):
    faults = refusal(tmp_path, 'name = "x"\nform = \n', TableError)
    assert "line 2" in faults[0]
    assert "piece.toml" in faults[0]


def test_an_empty_file_and_a_folder_are_named_for_what_they_are(tmp_path):
    assert "is empty" in refusal(tmp_path, "", TableError)[0]
    with pytest.raises(TableError, match="is a folder"):
        read_piece(tmp_path)
    with pytest.raises(TableError, match="does not exist"):
        read_piece(tmp_path / "none.toml")


def test_a_file_that_is_no_text_is_named(tmp_path):
    path = tmp_path / "piece.toml"
    path.write_bytes(b"\xff\xfe\x00name")
    with pytest.raises(TableError, match="not UTF-8"):
        read_piece(path)


def test_listed_heights_say_how_many_rows_there_are(tmp_path):
    text = (DATA / "pieces" / "guest_night_stand.toml").read_text(encoding="utf-8")
    counted = tmp_path / "counted.toml"
    counted.write_text(text.replace("rows = 2\n", ""), encoding="utf-8")
    assert read_piece(counted) == read_piece(DATA / "pieces/guest_night_stand.toml")


def _refused(tmp_path, *changes, name="low_dresser"):
    text = (DATA / "pieces" / f"{name}.toml").read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text, before
        text = text.replace(before, after, 1)
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(PricebookError, match=r"piece\.toml") as caught:
        read_piece(path)
    return str(caught.value)


def test_a_fault_of_one_part_does_not_hide_those_of_the_rest(tmp_path):
    said = _refused(
        tmp_path,
        ('"37 in"', '"37"'),
        ('owner = "charity"', 'owner = "bank"'),
        ('show = ["top"', 'show = ["topp"'),
        ("rows = 5", "rows = 0"),
    )
    for words in ('"37" has no unit', 'owner is "bank"', 'names "topp"', "rows is 0"):
        assert words in said


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("rows = 5", f"rows = 1{'0' * 400}", "not a finite number"),
        ("rows = 5", "rows = 1000000000", "10,000 or fewer"),
        ("count = 10", "count = 99999999999999999999", "more than can be counted"),
        ('"37 in"', '"999999999 in"', "furniture measures at most"),
        ("[finish]", "[finish]\ncoats = 100000", "finish.coats is 100,000"),
        ("[arrival]", "[labour]\nlearning_rate = 0.3\n[arrival]", "from 0.5 to 1"),
        ("[arrival]", "[labour]\nhours = 1e300\n[arrival]", "labour.hours"),
    ],
)
def test_a_number_that_no_bench_meets_is_refused(tmp_path, before, after, said):
    assert said in _refused(tmp_path, (before, after))


def _shop_refused(tmp_path, file, before, after):
    folder = tmp_path / "shop"
    shutil.copytree(DATA / "shop", folder)
    text = (folder / file).read_text(encoding="utf-8")
    assert before in text, before
    (folder / file).write_text(text.replace(before, after, 1), encoding="utf-8")
    with pytest.raises(TableError, match=file) as caught:
        read_shop(folder)
    return str(caught.value)


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("spread,6.1,m2/l", "spread,6.1,sqft/gal", "counted in m2/l"),
        ("uses,3,each", "uses,2.5,each", "whole number"),
        ("blade life,15", "blade life,0", "more than 0"),
        ("spoilage,0.03,share", "spoilage,3,share", "0 to 1"),
    ],
)
def test_an_allowance_in_a_wrong_unit_is_refused(tmp_path, before, after, said):
    assert said in _shop_refused(tmp_path, "allowances.csv", before, after)


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("[150, 180]", "[180, 150]", "veneer_grits: grit run 180-150 goes"),
        ("[150, 180]", "[120, 240]", "skips 150, 180, 220"),
        ("[150, 180]", "[80, 120]", "nothing coarser than 120"),
        ('"contact cement"', '"spit"', 'adhesive is "spit"'),
        ('"particleboard"', '"cheese"', 'board is "cheese"'),
    ],
)
def test_a_custom_that_no_bench_works_by_is_refused(tmp_path, before, after, said):
    assert said in _shop_refused(tmp_path, "shop.toml", before, after)


def test_a_wrong_head_of_a_table_is_told_once(tmp_path):
    said = _shop_refused(tmp_path, "sheets.csv", "key,species,form", "key,species")
    assert said.count("\n") == 0
    assert 'column "form" is missing' in said


def test_an_empty_file_of_a_shop_is_told_once(tmp_path):
    shutil.copytree(DATA / "shop", tmp_path / "shop")
    for name in ("shop.toml", "finishes.toml"):
        (tmp_path / "shop" / name).write_text("", encoding="utf-8")
    with pytest.raises(TableError, match="is empty") as caught:
        read_shop(tmp_path / "shop")
    assert len(caught.value.faults) == 2
    assert all(fault.count(".toml") == 1 for fault in caught.value.faults)


DOORS = '[doors]\ncount = 2\ngap = "1/8 in"\nreveal = "1/8 in"\nfit = "inset"\n\n'
DRAWERS = '[drawers]\nrows = 2\ngap = "1/8 in"\nreveal = "1/8 in"\nfit = "inset"\n\n'
SIZE = '[size]\nwidth = "2 ft"\nheight = "3 ft"\ndepth = "1 ft"\npanel = "1 in"\n\n'


@pytest.mark.parametrize(
    ("name", "part", "said"),
    [
        ("low_dresser", DOORS, "a chest of drawers has none; leave it out, or choose "),
        ("reading_bookcase", DRAWERS, "form that has: chest of drawers, night stand."),
        ("guest_night_stand", DOORS, "choose a form that has: cupboard."),
        ("plain_list", SIZE, "[size] is given, and a list has none"),
        (
            "lamp_table",
            '[base]\nkind = "none"\n\n',
            "[base] is given, and a side table",
        ),
    ],
)
def test_a_part_that_its_form_has_not_is_refused_and_not_dropped(
    tmp_path, name, part, said
):
    text = (DATA / "pieces" / f"{name}.toml").read_text(encoding="utf-8")
    path = tmp_path / "piece.toml"
    path.write_text(text.replace("[veneer]", f"{part}[veneer]", 1), encoding="utf-8")
    with pytest.raises(SpecError, match=re.escape(said)):
        read_piece(path)


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        ("lamp_table", 'leg = "1 1/2 in"', 'leg = "8 in"', "two legs leave no apron"),
        ("lamp_table", 'apron = "3 1/2 in"', 'apron = "30 in"', "30 in (762 mm) high"),
        ("reading_bookcase", 'setback = "1/4 in"', 'setback = "13 in"', "no shelf."),
        # 75 shelves of 3/4 in are 56 1/4 in; 60 less 3 and 3/4 in are 56 1/4 in
        ("reading_bookcase", "count = 4", "count = 75", "56 1/4 in (1429 mm) thick"),
    ],
)
def test_parts_that_leave_no_room_are_refused_in_the_makers_words(
    tmp_path, name, old, new, said
):
    text = (DATA / "pieces" / f"{name}.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "piece.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(SpecError, match=re.escape(said)):
        read_piece(path)


def test_all_faults_of_one_table_come_at_once(tmp_path):
    text = (DATA / "pieces" / "low_dresser.toml").read_text(encoding="utf-8")
    text = text.replace('depth = "19 in"', 'dpth = "19 in"')
    text = text.replace('panel = "3/4 in"', 'panel = "0 in"', 1)
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(SpecError, match=r"size\.panel is 0 mm") as caught:
        read_piece(path)
    said = [fault.removeprefix(f"{path} [size]: ") for fault in caught.value.faults]
    assert said[0] == "depth is missing; write it."
    assert not any("None" in fault for fault in said)


def test_all_faults_of_one_row_come_at_once(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    path = tmp_path / "data" / "shop" / "minutes.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("out,10,12,each", "out,ten,-12,each"))
    with pytest.raises(TableError, match='"ten" is not a number') as caught:
        read_shop(path.parent)
    assert [fault.split("line 2: ")[1] for fault in caught.value.faults] == [
        'setup_min: "ten" is not a number; write digits, such as 12 or 0.5.',
        '"mark out": rate is -12 min; it must be 0 or more.',
    ]


def test_a_quotation_mark_left_open_is_named_by_the_line_where_it_opens(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    path = tmp_path / "data" / "shop" / "sheets.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("walnut-4x8,walnut", 'walnut-4x8,"walnut', 1))
    with pytest.raises(TableError, match="line 3: a quotation mark is opened and "):
        read_shop(path.parent)


def test_minutes_counted_in_another_unit_are_named_by_their_line(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    path = tmp_path / "data" / "shop" / "minutes.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('faces",20,55,m2', 'faces",20,55,m', 1))
    with pytest.raises(
        TableError, match=r'minutes\.csv line 7: "lay veneer": unit is "m"'
    ):
        read_shop(path.parent)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        (r"Low\tdresser", "name holds a line break or a sign that cannot be printed"),
        (r"\u001b[2JLow", "name holds a line break or a sign that cannot be printed"),
        ("L" * 3000, "name is 3,000 letters long; use 200 at most"),
    ],
)
def test_a_name_that_cannot_be_printed_is_refused(tmp_path, name, said):
    text = (DATA / "pieces" / "low_dresser.toml").read_text(encoding="utf-8")
    path = tmp_path / "piece.toml"
    path.write_text(text.replace("Low dresser", name, 1), encoding="utf-8")
    with pytest.raises(SpecError, match=said):
        read_piece(path)
