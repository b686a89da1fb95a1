"""Every fault of a file is named at once, with its place."""

from pathlib import Path

import pytest

from pricebook.errors import PricebookError, SpecError, TableError
from pricebook.files import read_piece

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
