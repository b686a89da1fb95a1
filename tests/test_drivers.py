"""What moves a cost: each figure alone, two together, and a changed price."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from pricebook.__main__ import main
from pricebook.cost import GIFT, PAID, TIME, cost_sheet
from pricebook.cost.drivers import (
    CASH,
    price_change,
    price_changes,
    what_drives,
)
from pricebook.cost.drivers_text import drivers_text
from pricebook.cost.inputs import inputs_of, with_price
from pricebook.cost.what_if import what_if
from pricebook.errors import SpecError, TableError
from pricebook.files import read_piece, read_shop
from pricebook.money import exact, times
from pricebook.rates import Allowance, Material, Minutes, Pack, Sheet

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 10)


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


@pytest.fixture(scope="module")
def dresser():
    return read_piece(DATA / "pieces" / "low_dresser.toml")


@pytest.fixture(scope="module")
def drivers(dresser, shop):
    return what_drives(dresser, shop, ON)


def named(drivers, name):
    return next(one for one in drivers if one.name == name)


def test_the_value_of_an_hour_given_moves_the_full_cost_by_the_hours(
    drivers, dresser, shop
):
    # every operation of the demo is given, so the swing is hours x 2 x 10 % of the
    # rate, each line rounded once
    sheet = cost_sheet(dresser, shop, ON)
    lines = [line for line in sheet.lines if line.group == "labour"]
    rate = shop.settings.given_cents_per_hour
    one = named(drivers.full_cost, "an hour that is given")
    expected = 2 * 0.1 * rate * sheet.hours
    assert one.swing == pytest.approx(expected, abs=len(lines))
    assert (one.low, one.high) == (0.9 * rate, pytest.approx(1.1 * rate))
    assert not [d for d in drivers.cash_to_buy if d.name == one.name]


def test_a_fitting_moves_cash_by_its_count_times_the_change(drivers, dresser):
    count = dresser.hardware[0].count
    one = named(drivers.cash_to_buy, "price of bar pull")
    assert one.swing == count * (round(one.high) - round(one.low))


def test_the_widest_swing_stands_first_and_every_figure_is_told(drivers):
    for found in (drivers.full_cost, drivers.cash_to_buy):
        swings = [one.swing for one in found]
        assert swings == sorted(swings, reverse=True)
        assert min(swings) > 0
    assert "an hour that is paid" in drivers.idle
    assert "acclimatise" in drivers.idle
    moving = {one.name for one in (*drivers.full_cost, *drivers.cash_to_buy)}
    assert not moving & set(drivers.idle)


def test_coats_move_by_one_and_more_of_them_never_cost_less(drivers):
    one = named(drivers.full_cost, "coats")
    assert (one.low, one.base, one.high) == (3, 4, 5)
    assert one.at_low < drivers.full_cost_cents < one.at_high


def test_every_price_that_rises_never_lowers_what_is_used_up(drivers):
    for one in drivers.full_cost:
        if one.name.startswith(("price of", "minutes to", "an hour", "all hours")):
            assert one.at_low <= drivers.full_cost_cents <= one.at_high, one.name


def test_a_figure_at_which_the_piece_cannot_be_made_is_named(dresser, shop):
    # five fronts of 6.8 in in one strip take 5 x (6.8 + 2o) in; with an overhang o
    # above 1.4 in no sheet of 48 in holds them
    wide = replace(dresser, veneer=replace(dresser.veneer, overhang_mm=25.4))
    found = what_drives(wide, shop, ON, share=0.9)
    assert any(fault.startswith("overhang: ") for fault in found.refused)


@pytest.mark.parametrize("share", [0, 1, -0.1, True, float("nan")])
def test_a_share_that_is_none_is_refused(dresser, shop, share):
    with pytest.raises(SpecError, match="above 0, below 1"):
        what_drives(dresser, shop, ON, share=share)


def test_a_grid_holds_the_cost_at_every_pair(dresser, shop):
    found = what_if(
        dresser, shop, ON, ("coats", (2, 4)), ("an hour that is given", (0, 2200))
    )
    base = cost_sheet(dresser, shop, ON)
    assert found.results[1][1] == base.full_cost_cents
    assert found.results[1][0] == base.full_cost_cents - base.time_given_cents
    assert found.results[0][1] < found.results[1][1]
    cash = what_if(
        dresser, shop, ON, ("coats", (4,)), ("all hours", (1.0, 9.0)), total=CASH
    )
    assert cash.results == ((base.cash_to_buy_cents,) * 2,)


@pytest.mark.parametrize(
    ("rows", "columns", "words"),
    [
        (("coat", (1,)), ("overhang", (12,)), 'did you mean "coats"'),
        (("coats", (1,)), ("coats", (2,)), "vary two different ones"),
        (("coats", ()), ("overhang", (12,)), "has no values"),
        (("coats", (0,)), ("overhang", (12,)), "at least 1"),
        (("coats", (1.5,)), ("overhang", (12,)), "a whole number"),
        (("coats", (1,)), ("overhang", (float("nan"),)), "must be a number"),
        (("coats", (1,)), ("price of alcohol", (0.5,)), "at least 1"),
    ],
)
def test_a_grid_that_cannot_be_is_refused(dresser, shop, rows, columns, words):
    with pytest.raises(SpecError, match=words):
        what_if(dresser, shop, ON, rows, columns)


def test_an_unknown_total_is_refused(dresser, shop):
    with pytest.raises(SpecError, match='did you mean "full cost"'):
        what_if(
            dresser, shop, ON, ("coats", (1,)), ("overhang", (9,)), total="ful cost"
        )


def test_a_changed_price_moves_each_piece_by_hand(dresser, shop):
    # five pulls at 4.50 each; at 5.25 they cost 5 x 0.75 = 3.75 more
    (move,) = price_change([dresser], shop, "bar pull", 525, ON)
    assert move.cash_difference_cents == 375
    assert move.used_difference_cents == 375
    base = cost_sheet(dresser, shop, ON)
    assert move.cash_before_cents == base.cash_to_buy_cents


def test_a_price_that_a_piece_does_not_use_moves_nothing(dresser, shop):
    (move,) = price_change([dresser], shop, "teak-4x8", 1, ON)
    assert (move.cash_difference_cents, move.used_difference_cents) == (0, 0)


def test_a_cheaper_sheet_can_change_the_layout(dresser, shop):
    # one 4x10 sheet at 164.00 does it now; two 4x8 sheets at 70.00 would be 140.00
    (move,) = price_change([dresser], shop, "walnut-4x8", 7000, ON)
    assert move.cash_difference_cents == 2 * 7000 - 16400


def test_all_packs_of_an_item_move_by_the_same_share(shop):
    changed = with_price(shop, "alcohol", 2400)
    before, after = shop.material("alcohol"), changed.material("alcohol")
    assert after.packs[0].price_cents == 2400
    for old, new in zip(before.packs, after.packs, strict=True):
        share = exact(2400) / before.packs[0].price_cents
        assert new.price_cents == times(old.price_cents, share)


def test_faults_of_changed_prices_are_told_together(dresser, shop):
    with pytest.raises(TableError) as caught:
        price_changes([dresser], shop, {"alcool": 100, "rag": 0, "gloves": True}, ON)
    first, second, third = caught.value.faults
    assert 'did you mean "alcohol"' in first
    assert '"rag" is 0 cents' in second
    assert "whole number above 0" in third


def test_figures_stand_for_all_that_goes_in(dresser, shop):
    sheet = cost_sheet(dresser, shop, ON)
    names = {one.name for one in inputs_of(dresser, sheet, shop)}
    keys = {line.key for line in sheet.lines if line.basis in (PAID, TIME)}
    rows = (*shop.sheets, *shop.rolls, *shop.materials)
    assert {f"price of {row.key}" for row in rows if row.key in keys} <= names
    assert {row.key for row in shop.allowances} <= names
    assert {"overhang", "end allowance", "coats", "all hours"} <= names
    assert GIFT not in names


def test_of_two_sources_the_one_in_use_is_named_where_the_piece_uses_it(dresser, shop):
    def row(kind, key, **values):
        return kind(key=key, dated=ON, source="another list", **values)

    others = (
        row(Allowance, "sanding disc life", value=1.9, unit="m2"),
        row(Allowance, "masking waste", value=0.2, unit="share"),
        row(Minutes, "lay veneer", name="x", setup_min=5, rate_min=70, unit="m2"),
        row(Minutes, "strip", name="x", setup_min=5, rate_min=70, unit="m2"),
        row(
            Material, "alcohol", name="x", group="finish", unit="l",
            packs=(Pack(quantity=0.946, price_cents=1111),),
        ),
        row(
            Sheet, "teak-4x8", species="teak", form="backed", veneer="show",
            along_mm=2438, across_mm=1219, price_cents=9900,
        ),
    )  # fmt: skip
    notes = cost_sheet(dresser, replace(shop, not_chosen=others), ON).notes
    told = [note for note in notes if "is kept beside it" in note]
    disc, laying, alcohol = told
    assert disc.startswith("sanding disc life: 1.4 m2 (common practice")
    assert "1.9 m2 (another list, 2026-11-10) is kept beside it" in disc
    assert "5 min + 70 min/m2" in laying
    assert "12.00 for 0.946 l" in alcohol
    assert "11.11 for 0.946 l" in alcohol


def test_the_table_names_both_totals(drivers):
    text = drivers_text(drivers, "in")
    assert "Full cost, " in text
    assert "Cash to buy, " in text
    assert "all hours" in text
    assert "more move it less" in text


def test_the_command_answers_what_another_price_moves(capsys, tmp_path):
    path = str(DATA / "pieces" / "low_dresser.toml")
    options = ["--on", "2026-11-10", "--out", str(tmp_path), "--json"]
    asked = ["--if", "bar pull=5.25", "--drivers", "--auction", "2026-12-24"]
    assert main(["price", path, *options, *asked]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["price_changes"][0]["cash_difference"] == "3.75"
    assert answer["drivers"][0]["full_cost"][0]["swing"]
    assert answer["elapsed"][0]["in_time"] is True
    assert answer["elapsed"][0]["decides"].startswith("the drying after")


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (["--if", "bar pull"], 'has no "="'),
        (["--if", "bar pull=4.505"], "not an amount of money"),
        (["--if", "bar pul=4.50"], 'did you mean "bar pull"'),
        (["--if", "rag=1", "--if", "rag=2"], "twice"),
        (["--auction", "2026-11-09"], "is in the past"),
        (["--auction", "soon"], "is not a date"),
    ],
)
def test_the_command_refuses_in_one_sentence_and_writes_nothing(
    capsys, tmp_path, asked, words
):
    path = str(DATA / "pieces" / "low_dresser.toml")
    out = tmp_path / "out"
    assert main(["price", path, "--on", "2026-11-10", "--out", str(out), *asked]) == 1
    shown = capsys.readouterr()
    assert words in shown.err
    assert shown.out == ""
    assert not out.exists()
