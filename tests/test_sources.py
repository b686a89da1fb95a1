"""Every published figure names its source, and every source listed is used."""

import csv
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
REFERENCE = sorted((ROOT / "data" / "reference").glob("*.csv"))
COLUMNS = ["key", "title", "edition", "table", "page", "confirmed", "note"]


def rows_of(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


SOURCES = rows_of(ROOT / "data" / "SOURCES.csv")
KEYS = [row["key"] for row in SOURCES]


def test_the_list_of_sources_has_its_columns():
    assert list(SOURCES[0]) == COLUMNS


def test_every_key_is_given_once():
    assert len(KEYS) == len(set(KEYS))


def test_every_source_has_a_title_and_says_whether_it_was_seen():
    wanting = [
        row["key"]
        for row in SOURCES
        if not row["title"].strip() or row["confirmed"] not in ("yes", "no")
    ]
    assert wanting == []


def test_no_row_has_a_column_too_many():
    assert [row["key"] for row in SOURCES if None in row or None in row.values()] == []


@pytest.mark.parametrize("path", REFERENCE, ids=lambda path: path.stem)
def test_every_reference_file_names_its_source(path):
    rows = rows_of(path)
    if "source" in rows[0]:
        assert {row["source"] for row in rows} - set(KEYS) == set()
    else:
        assert [key for key in KEYS if key in path.stem] != []


def test_every_source_is_used_somewhere():
    places = [
        *(ROOT / "pricebook").rglob("*.py"),
        *(ROOT / "tests").rglob("*.py"),
        *(ROOT / "data" / "shop").glob("*"),
        *REFERENCE,
    ]
    text = "\n".join(path.read_text(encoding="utf-8") for path in places)
    text += "\n".join(path.stem for path in places)
    assert [key for key in KEYS if key not in text] == []


def test_a_source_named_in_a_docstring_is_listed():
    named = set()
    for path in (ROOT / "pricebook").rglob("*.py"):
        text = " ".join(path.read_text(encoding="utf-8").split())
        named |= set(re.findall(r"Source: ([a-z0-9]+(?:_[a-z0-9]+)+)", text))
    assert named - set(KEYS) == set()
    assert named >= {"nist_sp_811", "rand_rm_6191_1970"}  # the pattern does find some
