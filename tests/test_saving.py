"""A piece that is saved reads back as the same piece, and nothing is lost."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.errors import PricebookError, ReportError, SpecError
from pricebook.files import read_piece
from pricebook.files.saving import piece_text, save_piece
from pricebook.lengths import read

DEMOS = sorted((Path(__file__).parent.parent / "data" / "pieces").glob("*.toml"))
PIECES = [read_piece(path) for path in DEMOS]
MEASURED = [piece for piece in PIECES if piece.size]


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_every_demo_piece_reads_back_the_same(piece, unit, tmp_path):
    saved = save_piece(piece, tmp_path / "piece.toml", unit=unit)
    assert read_piece(saved) == piece


@given(
    piece=st.sampled_from(MEASURED),
    more_mm=st.floats(0, 2000, allow_nan=False),
    unit=st.sampled_from(["in", "mm"]),
)
@settings(max_examples=60, deadline=None)
def test_any_size_reads_back_to_the_last_bit(piece, more_mm, unit, tmp_path_factory):
    size = replace(
        piece.size,
        width_mm=piece.size.width_mm + more_mm,
        height_mm=piece.size.height_mm + more_mm / 3,
        panel_mm=piece.size.panel_mm * (1 + more_mm / 2_000_000),
    )
    try:
        changed = replace(piece, size=size)
    except PricebookError:
        return
    path = tmp_path_factory.mktemp("saved") / "piece.toml"
    assert read_piece(save_piece(changed, path, unit=unit)) == changed


@pytest.mark.parametrize(
    ("opening_bid_cents", "reserve_cents"), [(15_000, 20_050), (0, None), (None, 0)]
)
def test_a_chosen_opening_bid_and_reserve_read_back_to_the_cent(
    opening_bid_cents, reserve_cents, tmp_path
):
    wishes = replace(
        PIECES[0].price,
        opening_bid_cents=opening_bid_cents,
        reserve_cents=reserve_cents,
    )
    piece = replace(PIECES[0], price=wishes)
    saved = read_piece(save_piece(piece, tmp_path / "piece.toml"))
    assert saved == piece
    assert saved.price.opening_bid_cents == opening_bid_cents
    assert saved.price.reserve_cents == reserve_cents


@pytest.mark.parametrize("bad", [-1, 150.0, True, "150.00", float("nan")])
@pytest.mark.parametrize(
    "name", ["opening_bid", "reserve", "retail_new", "wanted_net", "unsold_value"]
)
def test_money_of_a_piece_that_is_no_whole_cents_is_refused(name, bad):
    with pytest.raises(SpecError, match=rf"price\.{name}_cents is .*whole cents"):
        replace(PIECES[0].price, **{f"{name}_cents": bad})


@given(words=st.text(max_size=20).map(str.strip))
@settings(max_examples=60, deadline=None)
def test_any_words_read_back_or_are_refused(words, tmp_path_factory):
    piece = replace(PIECES[0], story=words)
    path = tmp_path_factory.mktemp("saved") / "piece.toml"
    try:
        save_piece(piece, path)
    except ReportError:
        assert not path.exists()
    else:
        assert read_piece(path) == piece


def test_words_that_a_file_would_change_are_refused(tmp_path):
    piece = replace(PIECES[0], story=" with blanks round it ")
    with pytest.raises(ReportError, match="a text that a piece file would change"):
        save_piece(piece, tmp_path / "piece.toml")
    assert list(tmp_path.iterdir()) == []


def test_sixteenths_are_written_as_inches_and_anything_else_exactly():
    dresser = next(p for p in MEASURED if p.form == "chest of drawers")
    for written, width_mm in (
        ("37 1/16 in", read("37 1/16 in")),
        ("940.123 mm", 940.123),
    ):
        size = replace(dresser.size, width_mm=width_mm)
        assert f'width = "{written}"' in piece_text(replace(dresser, size=size))


def test_another_piece_is_never_written_over_unless_asked(tmp_path):
    path = save_piece(PIECES[0], tmp_path / "piece.toml")
    before = path.read_bytes()
    with pytest.raises(ReportError, match="is there already and stays as it is"):
        save_piece(PIECES[1], path)
    assert path.read_bytes() == before
    save_piece(PIECES[1], path, replace=True)
    assert read_piece(path) == PIECES[1]


def test_a_file_with_another_ending_is_refused(tmp_path):
    with pytest.raises(ReportError, match=r"does not end in \.toml"):
        save_piece(PIECES[0], tmp_path / "piece.txt")
    assert list(tmp_path.iterdir()) == []
