"""The controls and the command line say the same of the same piece, to the cent."""

import json
import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from pricebook import panel
from pricebook.__main__ import main
from pricebook.commands.advice_text import advice_answer
from pricebook.commands.answers import line_answer
from pricebook.money import show

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 25)
FORMS = sorted(path.stem for path in (DATA / "pieces").glob("*.toml"))


@pytest.fixture
def bench(tmp_path):
    """Return a maker's own data folder, free to be written to."""
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def command(bench, tmp_path, capsys):
    """Return a function that prices a piece by the command line."""

    def run(form, *more):
        path = bench / "pieces" / f"{form}.toml"
        out = ["--on", f"{ON}", "--out", str(tmp_path / "output")]
        assert main(["price", str(path), *out, *more]) == 0
        return capsys.readouterr().out

    return run


def price_of(bench, form):
    return panel.price_panel(bench / "pieces" / f"{form}.toml", on=ON)


@pytest.mark.parametrize("form", FORMS)
def test_advice_and_cost_on_the_panels_are_those_of_the_command(form, bench, command):
    answer = json.loads(command(form, "--json"))
    cost = panel.cost_panel(bench / "pieces" / f"{form}.toml", on=ON)
    assert [line_answer(line) for line in cost.sheet.lines] == answer["lines"]
    assert show(cost.sheet.full_cost_cents) == answer["totals"]["full_cost"]
    price = price_of(bench, form)
    if answer["advice"] is None:
        assert "How many people are likely to bid" in price.said
    else:
        assert advice_answer(price.advice) == answer["advice"]


def test_a_fee_moved_on_the_panel_is_the_fee_written_in_the_market_file(bench, command):
    price = price_of(bench, "low_dresser")
    before = price.advice.break_even["used up"].cents
    for rule, typed in ((0, "4.5"), (1, "20"), (2, "12")):
        price.controls[f"rule {rule}"].box.value = typed
    market = bench / "shop" / "market.toml"
    text = market.read_text(encoding="utf-8")
    for old, new in (
        ("rate = 0.029", "rate = 0.045"),
        ('cap = "60.00"', 'cap = "20.00"'),
        ("share = 0.05", "share = 0.12"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    market.write_text(text, encoding="utf-8")
    assert (
        advice_answer(price.advice)
        == json.loads(command("low_dresser", "--json"))["advice"]
    )
    assert price.advice.break_even["used up"].cents > before
    printed = command("low_dresser")
    for line in price.split.lines:
        assert show(line.amount_cents) in printed


def test_the_workbook_holds_what_was_chosen_on_the_panel(bench):
    price = price_of(bench, "low_dresser")
    price.controls["opening"].box.value = "150.00"
    price.controls["reserve"].box.value = "200.00"
    price.write()
    book = openpyxl.load_workbook(bench.parent / "output" / "low_dresser.xlsx")
    cells = {
        row[0]: row[1:]
        for sheet in book
        for row in sheet.iter_rows(values_only=True)
        if row and isinstance(row[0], str)
    }
    assert 150 in cells["Opening bid"]
    assert 200 in cells["Reserve"]


def test_what_was_chosen_on_the_panel_is_saved_and_counts_from_then_on(bench, command):
    price = price_of(bench, "low_dresser")
    price.controls["opening"].box.value = "150.00"
    price.controls["reserve"].box.value = "200.00"
    price.controls["over"].box.value = True
    price.save()
    assert "Saved:" in price.said
    assert "event file" not in price.said
    answer = json.loads(command("low_dresser", "--json"))["advice"]
    assert (answer["opening_bid"], answer["reserve"]) == ("150.00", "200.00")
    assert answer == advice_answer(price.advice)

    again = price_of(bench, "low_dresser")
    assert again.controls["opening"].box.value == "150.00"
    assert again.controls["reserve"].box.value == "200.00"
    assert again.piece == price.piece
    again.controls["opening"].box.value = ""
    again.controls["reserve"].box.value = ""
    assert again.advice.opening_bid.reason.startswith("50 % of")
    again.reset()
    assert again.advice.opening_bid.cents == 15_000
    assert again.advice.reserve.cents == 20_000


def test_a_piece_brings_its_own_opening_bid_to_the_panel(bench):
    kept = bench / "pieces" / "reading_bookcase.toml"
    text = kept.read_text("utf-8")
    kept.write_text(text.replace("[price]", '[price]\nopening_bid = "50.00"'), "utf-8")
    price = price_of(bench, "low_dresser")
    price.controls["file"].box.value = "reading_bookcase.toml"
    assert price.controls["opening"].value == 5_000
    assert price.advice.opening_bid.cents == 5_000
    price.controls["file"].box.value = "low_dresser.toml"
    assert price.controls["opening"].value is None
