"""The same piece in every species: each row is a whole cost sheet of its own."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.__main__ import main
from pricebook.cost import cost_sheet
from pricebook.cost.compare import compare_species
from pricebook.cost.compare_text import comparison_text
from pricebook.cost.laying import Layouts
from pricebook.cost.options import ALL_SIZES
from pricebook.errors import PricebookError, SpecError
from pricebook.files import read_piece, read_shop
from pricebook.frames import compare_frame
from pricebook.money import times
from pricebook.panel import species_table
from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.layout import lay_out

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 10)
MM = 25.4


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


def piece_called(name):
    return read_piece(DATA / "pieces" / f"{name}.toml")


@pytest.fixture(scope="module")
def dresser(shop):
    return compare_species(piece_called("low_dresser"), shop, ON)


def sheet_of(piece, option, shop):
    """Cost a piece by hand in the wood, form and sheets of one row."""
    veneer = replace(piece.veneer, species=option.species, form=option.form)
    banding = piece.banding and replace(piece.banding, species=option.banding_species)
    backing = tuple(sheet for sheet in shop.sheets if sheet.veneer == "backing")
    own = replace(shop, sheets=(*option.offered, *backing))
    return cost_sheet(replace(piece, veneer=veneer, banding=banding), own, ON)


@pytest.mark.parametrize("name", ["low_dresser", "plain_list", "guest_night_stand"])
def test_every_row_is_the_cost_sheet_of_its_own_species_form_and_sheets(name, shop):
    piece = piece_called(name)
    for option in compare_species(piece, shop, ON).options[::9]:
        sheet = sheet_of(piece, option, shop)
        assert option.cash_to_buy_cents == sheet.cash_to_buy_cents, option.name
        assert option.hours == pytest.approx(sheet.hours)
        assert option.layout.proven
        assert len(option.layout.sheets) == len(sheet.layout.sheets)
        spread = option.used_up_cents + option.left_cents
        assert abs(spread - sheet.used_up_cents - sheet.left_cents) <= 60  # spoilage


def test_the_row_of_the_piece_itself_is_its_price(dresser, shop):
    sheet = cost_sheet(piece_called("low_dresser"), shop, ON)
    own = dresser.own
    assert own.size == ALL_SIZES
    assert own.cash_to_buy_cents == sheet.cash_to_buy_cents
    assert own.used_up_cents == sheet.used_up_cents
    assert own.full_cost_cents == sheet.full_cost_cents
    assert own.left_cents == sheet.left_cents


def test_fifteen_species_are_ranked_by_cash_then_by_what_is_used_up(dresser):
    ranks = [(o.cash_to_buy_cents, o.used_up_cents) for o in dresser.options]
    assert ranks == sorted(ranks)
    assert len(dresser.best_of_species) == 15
    assert dresser.runner_up.species != dresser.cheapest.species


def test_all_sizes_together_never_cost_more_than_one_size_alone(dresser):
    whole = {
        (o.species, o.form): o.cash_to_buy_cents
        for o in dresser.options
        if o.size == ALL_SIZES
    }
    for option in dresser.options:
        best = whole.get((option.species, option.form), option.cash_to_buy_cents)
        assert best <= option.cash_to_buy_cents


def test_the_price_at_which_the_runner_up_wins_is_exact_to_the_cent(dresser, shop):
    second, fall = dresser.runner_up, dresser.fall
    piece = piece_called("low_dresser")

    def cash_at(price_cents):
        share = price_cents / fall.sheet.price_cents
        rows = tuple(
            replace(row, price_cents=times(row.price_cents, share))
            if row.to_buy
            else row
            for row in second.offered
        )
        return sheet_of(piece, replace(second, offered=rows), shop).cash_to_buy_cents

    best = dresser.cheapest.cash_to_buy_cents
    assert cash_at(fall.to_cents) <= best < cash_at(fall.to_cents + 1)
    assert fall.fall_cents == fall.sheet.price_cents - fall.to_cents
    assert any("must fall by" in sentence for sentence in dresser.sentences)


def test_movement_is_the_published_one(shop):
    # wood_handbook_2010, Table 13-5: flat-sawn walnut 18 in wide, 4 points of
    # moisture, moves 18 x 0.00274 x 4 = 0.197 in
    piece = piece_called("plain_list")
    faces = tuple(replace(face, across_mm=18 * MM) for face in piece.faces)
    found = compare_species(
        replace(piece, faces=faces), shop, ON, moisture_percent=(6, 10)
    )
    walnut = next(o for o in found.options if o.species == "walnut")
    assert walnut.movement_mm / MM == pytest.approx(0.197, abs=0.0005)
    assert walnut.hardness_n == pytest.approx(4492, abs=5)  # fpl_gtr_83_1995


def test_a_wood_without_a_published_coefficient_has_no_movement(dresser):
    sapele = next(o for o in dresser.options if o.species == "sapele")
    assert sapele.movement_mm is None
    assert sapele.hardness_n is not None


def test_a_restricted_wood_carries_its_caution(dresser):
    listed = {o.species for o in dresser.options if o.restrictions}
    assert listed == {"mahogany", "Indian rosewood", "padauk"}
    text = comparison_text(dresser)
    assert "CITES Appendix II" in text
    assert "from memory" in text


def test_a_form_without_stock_is_left_out_and_named(shop):
    found = compare_species(piece_called("low_dresser"), replace(shop, flitches=()), ON)
    assert any(note.startswith("raw: the price book has no") for note in found.left_out)


def test_the_table_of_woods_counts_sheets_and_raw_leaves_apart(shop, dresser):
    frame = compare_frame(dresser)
    raw = frame["form"] == "raw"
    assert (frame["leaves"][~raw] == 0).all()
    assert (frame["sheets"][~raw] > 0).all()
    assert (frame["leaves"][raw] > 0).all()
    piece = piece_called("low_dresser")
    first = dresser.options[frame.index[raw][0]]
    veneer = replace(piece.veneer, form="raw", species=first.species)
    sheet = cost_sheet(replace(piece, veneer=veneer), shop, ON)
    used = sum(len(plan.leaves_used) for plan in sheet.leaves)
    assert frame["leaves"][raw].iloc[0] == used
    heads = [head.words for head in species_table(dresser).heads]
    assert heads[heads.index("sheets") + 1] == "leaves"


def test_raw_leaves_cost_what_their_own_cost_sheet_says(shop, dresser):
    rows = {o.species: o for o in dresser.options if o.form == "raw"}
    assert set(rows) == {row.species for row in shop.flitches}
    piece = piece_called("low_dresser")
    raw = replace(piece, veneer=replace(piece.veneer, form="raw"))
    sheet = cost_sheet(raw, shop, ON)
    assert rows["walnut"].cash_to_buy_cents == sheet.cash_to_buy_cents
    # by hand: 35 in wide blocks of 7 in leaves, 8 leaves a bundle at 96.00
    assert sheet.leaves[0].cost_cents == 9600 * sheet.leaves[0].bundles
    assert sheet.leaves[0].leaves_to_buy == 8 * sheet.leaves[0].bundles


def test_a_sheet_too_small_for_a_face_is_left_out_and_named(dresser):
    # five fronts of one strip stand 39 in high; that sheet is 24 in wide
    small = [note for note in dresser.left_out if "96 in x 24 in" in note]
    assert small
    assert all("fits no sheet" in note for note in small)
    assert not any(o.size == "96 in x 24 in" for o in dresser.options)


def test_banding_follows_the_wood_or_stays_and_says_so(shop):
    rolls = tuple(roll for roll in shop.rolls if roll.species != "cherry")
    found = compare_species(piece_called("low_dresser"), replace(shop, rolls=rolls), ON)
    by_wood = {o.species: o for o in found.options}
    assert by_wood["cherry"].banding_species == "walnut"
    assert by_wood["cherry"].notes == ("no cherry banding fits; it stays walnut",)
    assert by_wood["teak"].banding_species == "teak"


def test_banding_of_another_wood_by_wish_stays(shop):
    piece = piece_called("low_dresser")
    contrast = replace(piece, banding=replace(piece.banding, species="hard maple"))
    found = compare_species(contrast, shop, ON)
    assert {o.banding_species for o in found.options} == {"hard maple"}
    assert not any(o.notes for o in found.options if o.form != "raw")


@pytest.mark.parametrize("moisture", [(5, 10), (6, 15), (float("nan"), 10)])
def test_a_moisture_outside_the_published_range_is_refused(shop, moisture):
    with pytest.raises(SpecError, match="from 6 to 14 %"):
        compare_species(
            piece_called("low_dresser"), shop, ON, moisture_percent=moisture
        )


def test_a_piece_that_shows_no_veneer_is_refused(shop):
    piece = piece_called("plain_list")
    faces = tuple(replace(face, treatment="backing") for face in piece.faces)
    veneer = replace(piece.veneer, backing_species="any backing")
    with pytest.raises(SpecError, match="no face shows veneer"):
        compare_species(replace(piece, faces=faces, veneer=veneer), shop, ON)


def test_a_missing_fitting_is_refused_by_name(shop):
    piece = piece_called("low_dresser")
    odd = tuple(replace(row, item="bar pul") for row in piece.hardware)
    with pytest.raises(PricebookError, match='did you mean "bar pull"'):
        compare_species(replace(piece, hardware=odd), shop, ON)


def a_sheet(number, along, across, price, on_hand=0):
    return Sheet(
        key=f"s{number}", species="oak", form="backed", veneer="show",
        along_mm=along, across_mm=across, price_cents=price, on_hand=on_hand,
        value_cents=price, dated=ON, source="invented",
    )  # fmt: skip


def a_face(number, along, across, count):
    return Face(
        name=f"f{number}", piece="p", group="g", along_mm=along, across_mm=across,
        count=count, overhang_mm=0, veneer="show", species="oak",
    )  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(150, 900), st.integers(100, 500), st.integers(1, 3)),
        min_size=1,
        max_size=4,
    ),
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 60)), min_size=2, max_size=5),
    st.integers(0, 2),
)
def test_a_layout_taken_over_for_new_prices_costs_what_a_search_finds(
    sizes, prices, racked
):
    faces = [a_face(n, *size) for n, size in enumerate(sizes)]
    layouts = Layouts(faces, smallest_mm=150, stages=None)
    for small, large in prices:
        stock = (
            a_sheet(0, 1000, 600, 100 * small),
            a_sheet(1, 1300, 1000, 100 * large, racked),
        )
        reused = layouts.of("oak", stock)
        fresh = lay_out(faces, stock)
        if fresh.proven:
            assert reused.cost_cents == fresh.cost_cents
        assert reused.least_possible_cents <= reused.cost_cents
        placed = sorted(q.name for plan in reused.sheets for q in plan.placed)
        assert placed == sorted(q.name for p in fresh.sheets for q in p.placed)
        used = sum(plan.from_rack for plan in reused.sheets)
        assert used <= racked


def test_the_command_prints_the_table_or_json(capsys, tmp_path):
    path = str(DATA / "pieces" / "plain_list.toml")
    options = ["--on", "2026-11-10", "--out", str(tmp_path)]
    assert main(["compare", path, *options]) == 0
    printed = capsys.readouterr().out
    assert "What it says" in printed
    assert main(["compare", path, *options, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    first = answer["options"][0]
    assert answer["cheapest"].startswith(first["species"])
    assert first["layout"]["proven"] is True
    assert set(answer["price_fall"]) == {"sheet", "from", "to", "by", "share"}


def test_a_raw_row_tells_what_is_of_raw_leaves_and_nothing_of_the_finish(shop):
    found = compare_species(piece_called("guest_night_stand"), shop, ON)
    notes = {note for o in found.options if o.form == "raw" for note in o.notes}
    assert len(notes) == 1
    assert notes.pop().startswith("Contact cement under raw leaf")


def test_the_leaves_of_a_raw_row_are_counted_and_not_its_sheets(shop, dresser):
    raw = next(o for o in dresser.options if (o.species, o.form) == ("walnut", "raw"))
    # a top of 4 leaves, fronts of 6, sides of 3 and a plinth of 1
    assert (raw.leaves, raw.sheet_count) == (14, 0)
    assert "14 leaves" in comparison_text(dresser)


def test_a_form_without_minutes_is_left_out_and_the_others_are_compared(shop):
    rows = tuple(row for row in shop.minutes if row.key != "lay self-adhesive")
    found = compare_species(
        piece_called("low_dresser"), replace(shop, minutes=rows), ON
    )
    assert {option.form for option in found.options} == {"backed", "raw"}
    assert any('"lay self-adhesive" has no row' in note for note in found.left_out)


def test_a_missing_fitting_is_refused_by_name_for_a_piece_in_raw_leaves_too(shop):
    piece = piece_called("low_dresser")
    raw = replace(piece, veneer=replace(piece.veneer, form="raw"))
    fitting = replace(raw.hardware[0], item="brass ring")
    with pytest.raises(SpecError, match='"brass ring" is not an item'):
        compare_species(replace(raw, hardware=(fitting,)), shop, ON)
