"""Faces and edges measured one by one are typed, priced, saved and read back."""

import json
import shutil
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from ipywidgets import HTML

from pricebook import panel
from pricebook.__main__ import main
from pricebook.files import read_piece
from pricebook.lengths import read
from pricebook.money import show
from pricebook.panel.piece_form import filled_in, held_values, on_screen

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 25)


@pytest.fixture
def bench(tmp_path):
    """Return a maker's own data folder, free to be written to."""
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def listed(bench):
    """Return the panel with a new plain list open."""
    some = panel.cost_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    some.controls["file"].box.value = "list"
    assert "New list is open." in some.said
    return some


def row(some, key, number):
    return some.controls[key]._rows[number].controls


def put(some, key, number, **typed):
    for name, text in typed.items():
        row(some, key, number)[name].box.value = text


def said(some, key):
    return unescape(some.controls[key].said)


def html_of(widget):
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(html_of(child) for child in getattr(widget, "children", ()))


def test_a_plain_list_is_named_measured_priced_and_saved(listed, bench, capsys):
    listed.controls["name"].box.value = "Odd cabinet"
    put(listed, "faces", 0, name="end", along_mm="15 in", across_mm="13 1/4 in")
    put(listed, "faces", 0, count="2")
    listed.controls["faces"].add()
    put(listed, "faces", 1, name="top", along_mm="31 1/2 in", across_mm="356 mm")
    put(listed, "faces", 1, count="1")
    put(listed, "edges", 0, name="top edge", length_mm="2 ft 7 1/2 in", count="2")
    assert "31 1/2 in = 800 mm" in html_of(listed.controls["faces"].widget)
    listed.save()
    assert "odd_cabinet.toml" in listed.said
    path = bench / "pieces" / "odd_cabinet.toml"
    saved = read_piece(path)
    assert saved == listed.piece
    assert [(f.name, f.along_mm, f.across_mm, f.count) for f in saved.faces] == [
        ("end", read("15 in"), read("13 1/4 in"), 2),
        ("top", read("31 1/2 in"), 356.0, 1),
    ]
    (edge,) = saved.edges
    assert (edge.length_mm, edge.width_mm, edge.count) == (
        read("31 1/2 in"), read("3/4 in"), 2,
    )  # fmt: skip
    out = ["--out", str(bench.parent / "output"), "--json"]
    assert main(["price", str(path), "--on", f"{ON}", *out]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["totals"]["full_cost"] == show(listed.sheet.full_cost_cents)
    assert answer["totals"]["cash_to_buy"] == show(listed.sheet.cash_to_buy_cents)


def test_a_new_row_is_a_copy_of_the_last_under_a_name_that_is_free(listed):
    faces = listed.controls["faces"]
    put(listed, "faces", 0, along_mm="20 in")
    faces.add()
    faces.remove(0)
    faces.add()
    assert [face.name for face in listed.piece.faces] == ["face 2", "face 3"]
    assert {face.along_mm for face in listed.piece.faces} == {read("20 in")}
    assert said(listed, "faces") == ""


def test_a_refusal_stands_under_the_box_that_was_typed_into(listed):
    before = listed.piece
    put(listed, "faces", 0, along_mm="31 1/2")
    assert "has no unit" in row(listed, "faces", 0)["along_mm"].said
    listed.save()
    assert "while a control is refused (Faces)" in listed.said
    put(listed, "faces", 0, along_mm="0 in")
    sentence = row(listed, "faces", 0)["along_mm"].said
    assert "along is 0 mm; it must be more than 0." in sentence
    assert listed.piece is before
    put(listed, "faces", 0, along_mm="31 1/2 in")
    assert said(listed, "faces") == ""
    assert listed.piece.faces[0].along_mm == read("31 1/2 in")


@pytest.mark.parametrize(
    ("key", "typed", "sentence"),
    [
        ("faces", {"name": " "}, "a face has no name; give it one."),
        ("edges", {"name": ""}, "an edge has no name; give it one."),
        ("faces", {"count": "0"}, "count is 0; it must be 1 or more."),
        ("faces", {"count": "2.5"}, "is not a whole number"),
        ("faces", {"across_mm": "\u00bd"}, "is not a length"),
        ("edges", {"length_mm": "-3 in"}, "has a sign"),
        ("edges", {"width_mm": "1e9 in"}, "is not a length"),
        ("faces", {"along_mm": "200 ft"}, "furniture measures at most"),
        ("faces", {"along_mm": "120 in"}, "120"),
    ],
)
def test_what_cannot_be_is_answered_and_reset_recovers(listed, key, typed, sentence):
    start = listed.piece
    put(listed, key, 0, **typed)
    assert sentence in said(listed, key)
    assert listed.piece == start
    listed.reset()
    assert said(listed, key) == ""
    assert listed.piece == start


def test_a_list_without_a_face_is_refused_and_one_without_an_edge_is_not(listed):
    listed.controls["edges"].remove(0)
    assert listed.piece.edges == ()
    kept = listed.piece
    listed.controls["faces"].remove(0)
    assert "a plain list needs at least one face" in said(listed, "faces")
    assert listed.piece is kept
    listed.controls["faces"].add()
    assert said(listed, "faces") == ""
    assert listed.piece == kept
    listed.controls["edges"].add()
    assert len(listed.piece.edges) == 1


def test_two_faces_of_one_name_are_refused(listed):
    listed.controls["faces"].add()
    put(listed, "faces", 1, name="face 1")
    assert '"face 1" is listed twice' in said(listed, "faces")


def test_a_backing_face_asks_for_its_wood_by_a_control(listed):
    listed.controls["faces"].add()
    put(listed, "faces", 1, treatment="backing")
    assert "Backing veneer is none, but a face has it; choose" in said(listed, "faces")
    listed.controls["backing"].box.value = "any backing"
    assert said(listed, "faces") == ""
    assert listed.piece.veneer.backing_species == "any backing"


def test_a_file_without_the_wood_of_its_backing_opens_and_asks_for_it(bench):
    path = bench / "pieces" / "plain_list.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('backing_species = "any backing"\n', ""), "utf-8")
    some = panel.cost_panel(path, on=ON)
    whole = html_of(some.widget)
    assert "Backing veneer is none, but a face has it; choose its wood." in whole
    assert "None" not in whole
    some.controls["backing"].box.value = "any backing"
    assert some.piece.veneer.backing_species == "any backing"
    assert "choose its wood" not in html_of(some.widget)


def test_a_name_that_is_html_stays_words(listed):
    put(listed, "faces", 0, name="<img src=x>")
    assert listed.piece.faces[0].name == "<img src=x>"
    assert "<img src=x>" not in html_of(listed.widget)


def test_what_a_row_has_no_control_for_goes_with_it(bench):
    some = panel.cost_panel(bench / "pieces" / "plain_list.toml", on=ON)
    some.controls["faces"].remove(1)
    put(some, "faces", 1, across_mm="9 1/2 in")
    left = {face.name: face for face in some.piece.faces}
    assert left["front, left"].run == "front"
    assert left["front, left"].across_mm == read("9 1/2 in")
    assert left["curved top, flattened"].centred
    some.reset()
    assert some.piece == read_piece(bench / "pieces" / "plain_list.toml")


def test_every_box_of_a_row_has_a_label_of_its_own(listed):
    for key in ("faces", "edges"):
        listed.controls[key].add()
    labels = [
        control.box.description
        for key in ("faces", "edges")
        for control in listed.controls[key]._controls()
    ]
    assert len(labels) == len(set(labels)) == 22
    assert "Face 2 along (in or mm)" in labels


def test_lists_are_hidden_where_a_form_has_none(bench):
    some = panel.cost_panel(bench / "pieces" / "low_dresser.toml", on=ON)
    assert some.controls["faces"].widget.layout.display == "none"
    some.controls["file"].box.value = "plain_list.toml"
    assert some.controls["faces"].widget.layout.display == ""


# A refusal says what stands on the screen


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"height": 0.0}, "Height is 0 mm; it must be more than 0."),
        ({"height": 50.8}, "Height leaves nothing between top and base"),
        ({"rows": 0}, "Rows of drawers is 0; it must be 1 or more."),
        ({"name": " "}, "Name of the piece is empty; give the piece a name."),
        ({"coats": 101}, "Build coats is 101"),
        ({"hours": 0.0}, "Hours of work is 0"),
        ({"heights": (100.0,)}, "Front heights lists 1 heights"),
    ],
)
def test_a_refusal_names_the_control_by_its_label(changed, sentence):
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    with pytest.raises(ValueError, match=sentence):
        filled_in(piece, held_values(piece) | changed)


def test_what_has_no_control_keeps_the_name_that_its_file_knows():
    assert on_screen("drawers.gap is -1 mm.") == "drawers.gap is -1 mm."


def test_a_refused_file_names_its_own_keys(bench):
    path = bench / "pieces" / "low_dresser.toml"
    text = path.read_text(encoding="utf-8")
    flat = text.replace('"40 1/2 in"', '"0 in"', 1)
    assert flat != text
    path.with_name("flat.toml").write_text(flat, encoding="utf-8")
    some = panel.cost_panel(path, on=ON)
    some.controls["file"].box.value = "flat.toml"
    assert "size.height is 0 mm" in said(some, "file")
