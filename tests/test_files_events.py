"""An event file is read to its end, and every fault of it told at once."""

import re
import tomllib

import pytest
from returned_books import EVENT_FILE, RESULTS_FILE

from pricebook import files
from pricebook.errors import SpecError, TableError
from pricebook.event import settle

TEXT = EVENT_FILE.read_text(encoding="utf-8")
RESULTS = RESULTS_FILE.read_text(encoding="utf-8")


def faults_of(text: str) -> str:
    with pytest.raises(SpecError, match=r"spring\.toml") as caught:
        files.event_from_table(tomllib.loads(text), "spring.toml")
    return str(caught.value)


def test_the_demo_event_holds_what_it_should():
    event = files.read_event(EVENT_FILE)
    assert len(event.lots) >= 12
    assert event.sales_tax is not None
    assert all(event.is_published(lot) for lot in event.lots)
    pieces = [EVENT_FILE.parent / lot.piece for lot in event.lots if lot.piece]
    assert len(pieces) == 7
    assert all(path.is_file() for path in pieces)
    for path in pieces:
        assert files.read_piece(path).name


def test_the_demo_lots_name_the_owner_that_their_pieces_name():
    event = files.read_event(EVENT_FILE)
    for lot in event.lots:
        if lot.piece:
            piece = files.read_piece(EVENT_FILE.parent / lot.piece)
            assert (lot.owner, lot.maker) == (piece.owner, piece.maker), lot.key


def test_an_opening_bid_off_the_ladder_is_told_the_nearest_rung():
    said = faults_of(TEXT.replace('opening = "200.00"', 'opening = "213.00"', 1))
    assert "open on one of its rungs, the nearest is 220.00." in said
    low = TEXT.replace(
        '[ladder]\nname = "ten percent"', '[[ladder.rows]]\nstep = "30.00"'
    )
    assert "the nearest is 30.00." in faults_of(low.replace('"20.00"', '"0.05"'))


def test_a_lot_that_leaves_them_open_has_its_pieces_story_maker_owner_and_picture(
    tmp_path,
):
    (tmp_path / "pieces").mkdir()
    piece = (EVENT_FILE.parent.parent / "pieces" / "low_dresser.toml").read_text(
        "utf-8"
    )
    piece = 'picture = "dresser.png"\n' + piece
    (tmp_path / "pieces" / "a.toml").write_text(piece, "utf-8")
    text = TEXT[: TEXT.index("[[lots]]")] + (
        '[[lots]]\nlot = "1"\ntitle = "Dresser"\nopening = "200.00"\n'
        'piece = "pieces/a.toml"\nrepay = "58.20"\ndonated = "25.00"\n'
    )
    text = text.replace('lot = "12"\n\n[[tickets]]', 'lot = "1"\n\n[[tickets]]')
    event_file = tmp_path / "spring.toml"
    event_file.write_text(text, "utf-8")
    lot = files.read_event(event_file).lots[0]
    known = files.read_piece(tmp_path / "pieces" / "a.toml")
    assert known.owner == "charity"
    assert (lot.story, lot.maker, lot.owner) == (known.story, known.maker, known.owner)
    assert (tmp_path / lot.picture) == tmp_path / "pieces" / "dresser.png"
    event_file.write_text(text + 'owner = "maker"\n', "utf-8")
    with pytest.raises(SpecError, match=r'owner is "maker", its piece pieces/a\.toml'):
        files.read_event(event_file)
    event_file.write_text(text + 'story = "Its own."\npicture = "b.png"\n', "utf-8")
    lot = files.read_event(event_file).lots[0]
    assert (lot.story, lot.picture) == ("Its own.", "b.png")


def test_the_demo_results_show_every_state():
    event = files.read_event(EVENT_FILE)
    results = files.read_results(RESULTS_FILE, event)
    states = [result.state for result in results]
    assert {"sold", "passed", "withdrawn", "void"} == set(states)
    assert states.count("passed") >= 2
    assert sum(x.state == "sold" and not x.paid for x in results) == 1
    counted = files.read_counted(RESULTS_FILE, event)
    assert settle(event, results, counted).is_clean


def test_an_event_without_its_tax_can_be_read_but_not_settled():
    start, end = TEXT.index("[sales_tax]"), TEXT.index("# A ladder by its name")
    event = files.event_from_table(tomllib.loads(TEXT[:start] + TEXT[end:]), "x")
    assert event.sales_tax is None


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('opening = "200.00"', "", "[[lots]] 1: opening is missing; write it."),
        (
            'opening = "200.00"',
            'opening = "205.00"',
            "lot 1: opening bid 205.00 is not",
        ),
        ('opening = "200.00"', 'opening = "2e2"', '"2e2" is not an amount of money'),
        ('opening = "200.00"', "opening = 200", "200 is not an amount of money"),
        ('owner = "charity"', 'owner = "charty"', 'did you mean "charity"?'),
        ('lot = "2"', 'lot = "1"', "lot 1 stands twice"),
        ('lot = "2"', 'lott = "2"', "[[lots]] 2: lot is missing"),
        ("sigma = 0.45", "sigma = 0", "lots]] 1: demand sigma is 0"),
        ('by = "the catalogue committee"', 'by = ""', "value by is missing; write it."),
        ('kind = "share"', 'kind = "shar"', 'rule 3: kind is "shar"; did you mean'),
        ("share = 0.05", "share = 1.5", "share is 1.5; it must be from 0 to 1"),
        ('base = "hammer"\n\n', 'base = "bid"\n\n', '[sales_tax]: base is "bid"'),
        ("on = 2027-04-17", 'on = "17 April"', '"17 April" is not a date'),
        ('"2027-04-17 18:00"', '"six"', 'bidding_opens is "six"; write date and time'),
        ('name = "ten percent"', 'name = "tens"', '[ladder]: ladder "tens" is not'),
        ('name = "ten percent"', "", "[ladder]: name or rows: give one of the two"),
        ("hours = 40", 'hours = "many"', "limits.hours is not a number"),
        ("count = 38", "count = 3.5", "3.5 is not a whole number"),
        ('line = "rent"', 'line = "hall"', '[[costs]] 1: cost "Net loft'),
        ('target = "2,400.00"', 'target = "2.400,00"', "target"),
        ('place = "The', 'plaec = "The', '"plaec" is not known; did you mean "place"?'),
    ],
)
def test_a_fault_is_named_with_its_place(old, new, words):
    assert old in TEXT
    assert words in faults_of(TEXT.replace(old, new, 1))


def test_all_faults_of_a_file_are_told_at_once():
    text = TEXT
    for old, new in (
        ('opening = "200.00"', 'opening = "x"'),
        ("sigma = 0.4,", "sigma = -1,"),
        ('unit = "plain piece"', 'unit = ""'),
        ('kind = "in kind"', 'kind = "flowers"'),
        ("as_is = ", "asis = "),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    assert len(faults_of(text).splitlines()) >= 5


def test_a_ladder_may_be_rows_of_its_own():
    rows = """[[ladder.rows]]
up_to = "500.00"
step = "10.00"
[[ladder.rows]]
step = "50.00"
"""
    text = TEXT.replace('[ladder]\nname = "ten percent"\n', rows)
    event = files.event_from_table(tomllib.loads(text), "x")
    assert event.ladder.next_bid(49000) == 50000
    assert event.ladder.next_bid(50000) == 55000
    assert "rows" in faults_of(text.replace('step = "50.00"', 'step = "0"'))


def test_results_of_another_event_and_unknown_lots_are_refused(tmp_path):
    event = files.read_event(EVENT_FILE)
    cases = (
        (
            'event = "spring-bench-2027"',
            'event = "autumn"',
            'is "autumn"; these are not',
        ),
        ('lot = "14"', 'lot = "41"', "lot 41: is not in the catalogue"),
        ('hammer = "480.00"', 'hammer = "48.000"', "is not an amount of money"),
        ('hammer = "480.00"', 'hammer = "190"', "is below the opening bid 200.00"),
        ('state = "withdrawn"', 'state = "gone"', 'state is "gone"'),
        ('cash = "320.25"', 'cash = "-320.25"', "[counted]: cash"),
    )
    for old, new, words in cases:
        path = tmp_path / "results.toml"
        assert old in RESULTS
        path.write_text(RESULTS.replace(old, new, 1), encoding="utf-8")
        with pytest.raises(SpecError, match=re.escape(words)):
            files.read_results(path, event)


def test_a_file_that_is_missing_or_no_toml_is_named(tmp_path):
    with pytest.raises(TableError, match="does not exist"):
        files.read_event(tmp_path / "none.toml")
    (tmp_path / "bad.toml").write_text("lots = [", encoding="utf-8")
    with pytest.raises(TableError, match="is not TOML"):
        files.read_event(tmp_path / "bad.toml")
