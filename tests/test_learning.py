"""Records for next time: planned against used, and what is kept in the price book."""

import csv
import shutil
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from pricebook.commands.planned_used import planned_used, suggestions
from pricebook.cost import cost_sheet
from pricebook.errors import PricebookError, ReportError, SpecError
from pricebook.files import read_event, read_piece, read_shop
from pricebook.files.learning import (
    NewComparable,
    counts_as,
    keep_learnt,
    observations_behind,
    refuse_package,
)
from pricebook.files.market import read_market
from pricebook.files.used import MaterialUsed, PieceUsed, WorkUsed, read_used
from pricebook.records import ComparableRow, suggest_minutes

DATA = Path(__file__).parent.parent / "data"
EVENT = DATA / "events" / "spring_bench_auction.toml"
USED = DATA / "events" / "spring_bench_auction_used.toml"
DAY = date(2027, 4, 17)


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


@pytest.fixture(scope="module")
def table_sheet(shop):
    return cost_sheet(read_piece(DATA / "pieces" / "lamp_table.toml"), shop, DAY)


@pytest.fixture
def book(tmp_path):
    """Return a copy of the price book that a test may change."""
    folder = tmp_path / "shop"
    shutil.copytree(DATA / "shop", folder)
    return folder


def csv_row(name, key, folder=DATA / "shop"):
    with (folder / name).open(encoding="utf-8", newline="") as file:
        return next(row for row in csv.DictReader(file) if row["key"] == key)


def rows_by_name(found):
    return {row.name: row for row in found.rows}


def test_a_sheet_counts_whole_and_at_its_price(table_sheet, shop):
    used = PieceUsed(
        lot="6",
        materials=(
            MaterialUsed(key="white-ash-2x8", used=2, bought=2, paid_cents=9100),
        ),
    )
    found = rows_by_name(planned_used(table_sheet, shop, used))["white-ash-2x8"]

    # by hand from the price book: (45.50 - 48.00) x 2 and (2 - 1) x 48.00
    price = 100 * Fraction(csv_row("sheets.csv", "white-ash-2x8")["price"])
    assert price == 4800
    assert found.variances.rate_cents == -500
    assert found.variances.rate_mark == "F"
    assert found.variances.quantity_cents == 4800
    assert found.variances.quantity_mark == "U"


def test_what_was_not_planned_has_a_planned_quantity_of_nothing(table_sheet, shop):
    used = PieceUsed(
        lot="6",
        work=(WorkUsed(operation="patch", minutes=30),),
        materials=(MaterialUsed(key="walnut-band-25", used=7.62),),
    )
    found = rows_by_name(planned_used(table_sheet, shop, used))

    # a roll of 25 ft is 7.62 m exactly, so the whole roll was used: its price
    assert found["walnut-band-25"].standard_quantity == 0
    assert found["walnut-band-25"].variances.quantity_cents == 1000
    # half an hour at the value of an hour given, 22.00 in the shop's settings
    assert found["patch"].variances.quantity_cents == 1100


def test_the_rate_seen_is_what_is_left_of_the_minutes_after_set_up(table_sheet, shop):
    used = PieceUsed(lot="6", work=(WorkUsed(operation="lay veneer", minutes=84.0),))
    found = planned_used(table_sheet, shop, used)

    # 84 min hold 5 % for doing over and 20 min of set-up: 60 min for the faces
    area_m2 = table_sheet.take_off.veneered_m2
    assert csv_row("minutes.csv", "lay veneer")["setup_min"] == "20"
    assert csv_row("allowances.csv", "rework")["value"] == "0.05"
    ((operation, units, minutes),) = found.observed
    assert operation == "lay veneer"
    assert units == pytest.approx(area_m2)
    assert minutes == pytest.approx(60.0)
    (new,) = suggestions([found], shop, counts_as)
    assert new.observed_min == pytest.approx(60.0 / area_m2)
    # one observation against five that the old figure counts for
    assert new.suggested_min == pytest.approx(55 + (60.0 / area_m2 - 55) / 6)


def test_work_done_within_its_set_up_shows_no_rate(table_sheet, shop):
    used = PieceUsed(lot="6", work=(WorkUsed(operation="lay veneer", minutes=10.0),))
    found = planned_used(table_sheet, shop, used)
    assert found.observed == ()
    assert found.under_setup == ("lay veneer",)


def test_several_steps_of_one_operation_count_as_one_observation(table_sheet, shop):
    steps = [x for x in table_sheet.labour.lines if x.operation == "brush coat"]
    planned = sum(step.person_min for step in steps)
    used = PieceUsed(lot="6", work=(WorkUsed(operation="brush coat", minutes=planned),))
    (new,) = suggestions([planned_used(table_sheet, shop, used)], shop, counts_as)
    assert len(steps) > 1
    assert new.observations == 1
    assert new.observed_min == pytest.approx(13.0)
    assert new.suggested_min == pytest.approx(13.0)


def test_what_was_planned_and_not_noted_is_named(table_sheet, shop):
    used = PieceUsed(lot="6", materials=(MaterialUsed(key="tack cloth", used=1),))
    found = planned_used(table_sheet, shop, used)
    assert "contact cement" in found.not_noted
    assert "lay veneer" in found.not_noted
    assert "tack cloth" not in found.not_noted


def test_every_unknown_key_is_named_at_once(table_sheet, shop):
    used = PieceUsed(
        lot="6",
        work=(WorkUsed(operation="lay venere", minutes=10),),
        materials=(MaterialUsed(key="tack cloths", used=1),),
    )
    with pytest.raises(SpecError, match="tack cloths") as caught:
        planned_used(table_sheet, shop, used)
    assert len(caught.value.faults) == 2
    assert "lay venere" in caught.value.faults[1]


def test_the_demo_file_of_what_was_used_reads():
    pieces = read_used(USED, read_event(EVENT))
    assert [piece.lot for piece in pieces] == ["1", "3", "6"]


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('event = "spring-bench-2027"', 'event = "autumn"', "not the pieces of"),
        ('lot = "3"', 'lot = "33"', "not in the catalogue"),
        ('lot = "3"', 'lot = "1"', "stands twice"),
        ('lot = "3"', 'lot = "8"', "no piece file"),
        ("minutes = 25", "minutes = 0", "more than 0"),
        ("minutes = 25", "minutes = nan", "finite"),
        ("minutes = 25", 'minutes = "soon"', "number"),
        ("minutes = 25", "minuts = 25", "minuts"),
        ('paid = "171.50"', 'paid = "171.505"', "171.505"),
        (', paid = "171.50"', "", "belong together"),
        ("used = 5.6", "used = -1", "0 or more"),
        ('"cut veneer", minutes = 48', '"mark out", minutes = 48', "stands twice"),
    ],
)
def test_a_fault_in_the_file_is_a_sentence(tmp_path, old, new, sentence):
    text = USED.read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "used.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(PricebookError, match=sentence) as caught:
        read_used(path, read_event(EVENT))
    assert all(fault.startswith(str(path)) for fault in caught.value.faults)


def new_row(key="spring-lot-1", price=48000, sold=True):
    row = ComparableRow(
        date=DAY,
        form="chest of drawers",
        species="walnut",
        price_cents=price,
        sold=sold,
        source="own records: spring, lot 1",
    )
    return NewComparable(key=key, row=row, note='Low dresser, "the good one"')


def keep(book, *, event="spring", on=DAY, observed=((2.0, 140.0),), key="lay veneer"):
    rows = read_shop(book).minutes
    row = next(row for row in rows if row.key == key)
    new = suggest_minutes(key, row.rate_min, list(observed), counts_as(row))
    return keep_learnt(book, [new_row()], [new], rows=rows, event=event, on=on)


def test_what_was_learnt_is_kept_and_reads_back(book):
    said = keep(book)

    # 70 min a unit seen once, 55 counted five times: 55 + 15 / 6
    row = next(row for row in read_shop(book).minutes if row.key == "lay veneer")
    assert row.rate_min == 57.5
    assert row.setup_min == 20
    assert row.dated == DAY
    assert row.source == "own records, 1 observation (spring)"
    kept = read_market(book).comparable("spring-lot-1")
    assert (kept.price_cents, kept.kind, kept.date) == (48000, "sold", DAY)
    assert "the good one" in kept.note
    assert len(said) == 2


def test_an_unsold_piece_is_kept_as_unsold(book):
    new = new_row(price=8000, sold=False)
    keep_learnt(book, [new], [], rows=(), event="spring", on=DAY)
    assert read_market(book).comparable("spring-lot-1").kind == "unsold"


@pytest.mark.parametrize("ending", [b"\n", b"\r\n"])
def test_comments_and_other_rows_stay_byte_for_byte(book, ending):
    for name in ("comparables.csv", "minutes.csv"):
        path = book / name
        lines = path.read_bytes().splitlines()
        lines.insert(3, b"# a note of the shop,  with  blanks")
        path.write_bytes(ending.join(lines))  # and no line end at the very end
    before = {
        name: (book / name).read_bytes().split(ending)
        for name in ("comparables.csv", "minutes.csv")
    }
    others = {p: p.read_bytes() for p in book.iterdir() if p.name not in before}

    keep(book)

    rows = (book / "comparables.csv").read_bytes().split(ending)
    assert rows[: len(before["comparables.csv"])] == before["comparables.csv"]
    assert len(rows) == len(before["comparables.csv"]) + 2  # the row, and a line end
    minutes = (book / "minutes.csv").read_bytes().split(ending)
    changed = [
        old
        for old, new in zip(before["minutes.csv"], minutes, strict=True)
        if old != new
    ]
    assert [row.split(b",")[0] for row in changed] == [b"lay veneer"]
    assert all(path.read_bytes() == raw for path, raw in others.items())
    assert not [p for p in book.iterdir() if p.name.startswith(".part")]


def test_the_same_event_is_kept_only_once(book):
    keep(book)
    once = {path: path.read_bytes() for path in book.iterdir()}
    said = keep(book)
    assert {path: path.read_bytes() for path in book.iterdir()} == once
    assert all("already" in sentence for sentence in said)


def test_two_events_after_one_another_teach_what_both_together_would(book):
    keep(book, event="spring", observed=[(2.0, 140.0)])
    keep(book, event="autumn", on=date(2027, 10, 2), observed=[(2.0, 170.0)])
    row = next(row for row in read_shop(book).minutes if row.key == "lay veneer")

    # 70 and 85 seen, 55 counted five times: the plain mean of all seven
    assert row.rate_min == pytest.approx((5 * 55 + 70 + 85) / 7, abs=0.01)
    assert observations_behind(row) == (2, ("spring", "autumn"))
    assert row.dated == date(2027, 10, 2)


def test_a_broken_list_leaves_both_files_alone(book):
    (book / "comparables.csv").write_text("key,form\nx,y\n", encoding="utf-8")
    before = {path: path.read_bytes() for path in book.iterdir()}
    with pytest.raises(PricebookError, match="comparables"):
        keep(book)
    assert {path: path.read_bytes() for path in book.iterdir()} == before


def test_the_installed_package_is_never_changed():
    import pricebook

    inside = Path(pricebook.__file__).parent / "_data" / "shop"
    with pytest.raises(ReportError, match="pricebook new FOLDER"):
        refuse_package(inside)
