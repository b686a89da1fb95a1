"""The command line on real input, and its refusals: a sentence a fault, exit 1."""

import json
import shutil
from pathlib import Path

import openpyxl
import pytest

from pricebook.__main__ import main

DATA = Path(__file__).parent.parent / "data"
DRESSER = DATA / "pieces" / "low_dresser.toml"
DAY = ["--on", "2026-11-25"]


@pytest.fixture
def copy(tmp_path):
    """Return a working copy of the demo data, free to be spoiled."""
    folder = tmp_path / "data"
    shutil.copytree(DATA, folder)
    return folder


def spoil(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def refused(capsys, out, *arguments):
    """Run a command that must refuse; return its sentences and check the silence."""
    code = main([*arguments, *DAY, "--out", str(out)])
    printed = capsys.readouterr()
    assert code == 1
    assert printed.out == ""
    assert "Traceback" not in printed.err
    assert not out.exists()
    return printed.err.strip().splitlines()


def test_pricing_prints_the_sheet_and_writes_workbook_and_picture(tmp_path, capsys):
    assert main(["price", str(DRESSER), *DAY, "--out", str(tmp_path)]) == 0
    text = capsys.readouterr().out
    for words in ("drawer front 5", "cash to buy", "time given", "full cost",
                  "Left over as stock", "sheet 1, cut 1", "opening bid"):  # fmt: skip
        assert words in text
    assert {p.name for p in tmp_path.iterdir()} == {
        "low_dresser.xlsx",
        "low_dresser_layout.png",
    }


def test_the_printed_column_adds_up(tmp_path, capsys):
    assert main(["price", str(DRESSER), *DAY, "--json", "--out", str(tmp_path)]) == 0
    answer = json.loads(capsys.readouterr().out)
    cents = {
        key: round(100 * float(text.replace(",", "")))
        for key, text in answer["totals"].items()
    }
    lines = answer["lines"]

    def total(field, *bases):
        return sum(
            round(100 * float(line[field].replace(",", "")))
            for line in lines
            if line["basis"] in bases
        )

    every = ("paid", "gift in kind", "time given")
    assert cents["cash_to_buy"] == total("bought", *every)
    assert cents["used_up"] == total("used", "paid")
    assert cents["gifts_in_kind"] == total("used", "gift in kind") == 2500
    assert cents["time_given"] == total("used", "time given")
    assert cents["full_cost"] == total("used", *every)
    assert answer["piece"] == "Low dresser"
    assert {f["name"]: f["along_mm"] for f in answer["faces"]}["top"] == 939.8
    assert set(answer["layout"]) >= {"sheets", "cost", "least_possible", "proven"}
    placed = [p["face"] for s in answer["layout"]["sheets"] for p in s["placements"]]
    assert sorted(placed) == sorted(f["name"] for f in answer["faces"])
    assert set(answer["advice"]) >= {
        "fair_market_value", "estimate_low", "estimate_high", "opening_bid", "reserve",
        "chance_of_sale", "expected_hammer", "break_even",
    }  # fmt: skip


def test_an_opening_bid_and_a_reserve_of_the_piece_file_take_the_advised_ones_place(
    copy, tmp_path, capsys
):
    path = copy / "pieces" / "low_dresser.toml"
    asked = ["price", str(path), *DAY, "--out", str(tmp_path / "out")]
    assert main([*asked, "--json"]) == 0
    advised = json.loads(capsys.readouterr().out)["advice"]
    spoil(path, "[price]", '[price]\nopening_bid = "150.00"\nreserve = "200.00"')
    assert main(asked) == 0
    printed = " ".join(capsys.readouterr().out.split())
    own = f"Chosen, not advised; the advice itself is {advised['opening_bid']}: "
    assert f"opening bid: {own}" in printed
    assert "reserve: Chosen, not advised; the advice itself is " in printed
    assert main([*asked, "--json"]) == 0
    chosen = json.loads(capsys.readouterr().out)["advice"]
    assert (chosen["opening_bid"], chosen["reserve"]) == ("150.00", "200.00")
    assert advised["opening_bid"] != "150.00"
    reason = own + advised["reasons"]["opening bid"]
    assert chosen["reasons"]["opening bid"] == reason
    assert chosen["chance_of_sale"] < advised["chance_of_sale"]
    book = openpyxl.load_workbook(tmp_path / "out" / "low_dresser.xlsx")
    cells = [cell for page in book for row in page.values for cell in row]
    assert reason in cells


def test_an_opening_bid_off_the_ladder_is_refused_by_file_and_key(
    copy, tmp_path, capsys
):
    path = copy / "pieces" / "low_dresser.toml"
    spoil(path, "[price]", '[price]\nopening_bid = "201.00"\nreserve = "333.33"')
    said = refused(capsys, tmp_path / "out", "price", str(path))
    # the demo market climbs in tenths, "ten percent": 200, 220, 240 ...
    assert len(said) == 2
    for line, key, amount in zip(
        said, ("opening_bid", "reserve"), ("201.00", "333.33"), strict=True
    ):
        assert f"low_dresser.toml: price.{key} of {amount} is not on the" in line
    assert said[0].endswith("take 200.00 or 220.00.")
    event = str(copy / "events" / "spring_bench_auction.toml")
    lines = refused(capsys, tmp_path / "out", "forecast", event)
    assert any("low_dresser.toml: price.opening_bid of 201.00" in x for x in lines)


def test_a_reserve_below_the_opening_bid_or_above_the_estimate_is_refused(
    copy, tmp_path, capsys
):
    path = copy / "pieces" / "low_dresser.toml"
    spoil(path, "[price]", '[price]\nopening_bid = "150.00"\nreserve = "100.00"')
    (said,) = refused(capsys, tmp_path / "out", "price", str(path))
    assert "low_dresser.toml: the reserve of 100.00 lies below the opening bid" in said
    spoil(path, 'reserve = "100.00"', 'reserve = "5,000.00"')
    (said,) = refused(capsys, tmp_path / "out", "price", str(path))
    assert "low_dresser.toml: the reserve of 5,000.00 lies above the low" in said


def test_several_pieces_share_sheets_and_no_piece_pays_more_than_alone(
    tmp_path, capsys
):
    names = ["guest_night_stand", "low_dresser", "lamp_table"]
    paths = [str(DATA / "pieces" / f"{name}.toml") for name in names]

    def cash(*pieces):
        out = ["--json", "--out", str(tmp_path), *DAY]
        assert main(["price", *pieces, *out]) == 0
        answer = json.loads(capsys.readouterr().out)
        return float(answer["totals"]["cash_to_buy"].replace(",", "")), answer

    together, answer = cash(*paths)
    alone = [cash(path)[0] for path in paths]
    assert together <= sum(alone)
    own = [float(p["totals"]["cash_to_buy"].replace(",", "")) for p in answer["pieces"]]
    assert sum(own) == pytest.approx(together)
    for paid, single in zip(own, alone, strict=True):
        assert paid <= single + 0.005


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('species = "walnut"', 'species = "walnutt"', 'did you mean "walnut"?'),
        ('item = "bar pull"', 'item = "bar pul"', 'did you mean "bar pull"?'),
        ('system = "brushed shellac"', 'system = "shellack"', "not a finish system"),
        ('width = "37 in"', 'width = "187 in"', "top"),
    ],
)
def test_what_the_price_book_cannot_serve_is_refused(
    copy, tmp_path, capsys, old, new, words
):
    spoil(copy / "pieces" / "low_dresser.toml", old, new)
    piece = str(copy / "pieces" / "low_dresser.toml")
    faults = refused(capsys, tmp_path / "out", "price", piece)
    assert any(words in fault for fault in faults), faults


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        ("sheets.csv", "72.00", "lots", "line 2: price"),
        ("sheets.csv", "96 in", "96", "has no unit"),
        ("sheets.csv", "walnut-4x8,", "walnut-2x8,", "lines 2 and 3: two rows"),
        ("sheets.csv", "2026-09-14", "14.9.2026", "is not a date"),
        ("sheets.csv", "key,species", "key,spices", 'column "species" is missing'),
        ("materials.csv", ",l,0.946,21.00", ",litres,0.946,21.00", 'unit is "litres"'),
        ("materials.csv", "0.946,21.00", "nan,21.00", "not a finite number"),
        ("materials.csv", "0.946,21.00", "-1,21.00", "it must be more than 0"),
        ("minutes.csv", ",20,55,m2", ",20,55,sqft", 'unit is "sqft"'),
        ("shop.toml", 'lengths = "in"', 'lengths = "ft"', 'lengths is "ft"'),
        ("shop.toml", 'currency = "$"', "currency = ", "is not TOML"),
        ("finishes.toml", "cut_lb = 1\n", "cut_lb = 9\n", "cut"),
        ("market.toml", "share = 0.05", "share = 1.2", "share"),
        ("comparables.csv", "310.00", "", "price is missing"),
    ],
)
def test_a_price_book_with_a_fault_is_refused(
    copy, tmp_path, capsys, name, old, new, words
):
    spoil(copy / "shop" / name, old, new)
    piece = str(copy / "pieces" / "low_dresser.toml")
    faults = refused(capsys, tmp_path / "out", "price", piece)
    assert any(words in fault and name in fault for fault in faults), faults


def test_faults_of_several_pieces_come_together(copy, tmp_path, capsys):
    paths = [copy / "pieces" / f"{n}.toml" for n in ("low_dresser", "lamp_table")]
    spoil(paths[0], 'width = "37 in"', 'width = "37"')
    spoil(paths[1], 'width = "22 in"', 'width = "22"')
    faults = refused(capsys, tmp_path / "out", "price", *map(str, paths))
    assert len(faults) == 2


def test_a_folder_an_empty_file_and_a_missing_one_are_named(tmp_path, capsys):
    empty = tmp_path / "empty.toml"
    empty.write_text("")
    for path, words in ((tmp_path, "is a folder"), (empty, "is empty"),
                        (tmp_path / "none.toml", "does not exist")):  # fmt: skip
        faults = refused(capsys, tmp_path / "out", "price", str(path))
        assert words in faults[0]


def test_an_old_price_is_used_and_named(copy, tmp_path, capsys):
    spoil(copy / "shop" / "rolls.csv", "walnut-band-25,walnut,iron-on,7/8 in,25 ft,"
          "10.00,0,,,2026-08-20", "walnut-band-25,walnut,iron-on,7/8 in,25 ft,"
          "10.00,0,,,2023-08-20")  # fmt: skip
    piece = str(copy / "pieces" / "low_dresser.toml")
    assert main(["price", piece, *DAY, "--out", str(tmp_path / "out")]) == 0
    assert "walnut-band-25 is of 2023-08-20" in capsys.readouterr().out


def test_a_working_copy_is_made_once_and_never_over_another(tmp_path, capsys):
    folder = tmp_path / "mine"
    assert main(["new", str(folder)]) == 0
    assert (folder / "data" / "pieces" / "low_dresser.toml").exists()
    capsys.readouterr()
    assert main(["new", str(folder)]) == 1
    assert "stays as it is" in capsys.readouterr().err


def test_opening_a_folder_without_notebooks_is_refused(tmp_path, capsys):
    assert main(["open", str(tmp_path), "--no-browser"]) == 1
    assert "pricebook new" in capsys.readouterr().err


def test_a_catalogue_that_comes_out_after_bidding_began_is_named(tmp_path, capsys):
    folder = shutil.copytree(DATA, tmp_path / "data")
    event = folder / "events" / "spring_bench_auction.toml"
    text = event.read_text("utf-8")
    event.write_text(text.replace("2027-03-20 09:00", "2027-04-18 09:00"), "utf-8")
    assert main(["book", str(event), *DAY, "--out", str(tmp_path)]) == 0
    words = "No fair market value is published before bidding opens for any lot"
    assert words in capsys.readouterr().out
    event.write_text(text, "utf-8")
    assert main(["book", str(event), *DAY, "--out", str(tmp_path)]) == 0
    assert "No fair market value" not in capsys.readouterr().out


def test_choosing_keeps_within_the_limits(tmp_path, capsys):
    event = str(DATA / "events" / "spring_bench_auction.toml")
    assert main(["choose", event, *DAY, "--json", "--out", str(tmp_path)]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["used"]["hours"] <= 40
    assert answer["used"]["sheets"] <= 6
    assert answer["chosen"]
    assert answer["used"]["money"] == "180.50"
    assert main(["choose", event, *DAY, "--out", str(tmp_path)]) == 0
    assert "260.00  180.50" in capsys.readouterr().out


def test_a_target_that_no_evening_reached_is_not_said_to_be_sure(tmp_path, capsys):
    folder = shutil.copytree(DATA, tmp_path / "data")
    event = folder / "events" / "spring_bench_auction.toml"
    text = event.read_text("utf-8").replace('"2,400.00"', '"99,999.00"')
    event.write_text(text, "utf-8")
    assert main(["forecast", str(event), *DAY, "--out", str(tmp_path)]) == 0
    # 3 of 20,000: the rule of three, for no event in n independent trials
    words = "reached in none of the evenings drawn (the chance to reach it is below "
    assert words + "0.015 %, at 95 %)" in capsys.readouterr().out


def test_a_forecast_says_how_sure_it_is(tmp_path, capsys):
    event = str(DATA / "events" / "spring_bench_auction.toml")
    assert main(["forecast", event, *DAY, "--out", str(tmp_path)]) == 0
    text = capsys.readouterr().out
    for words in ("target 2,400.00", "expected shortfall", "Monte Carlo", "seed 1"):
        assert words in text


def test_every_fault_names_the_file_it_came_from(copy, tmp_path, capsys):
    wood, wide, pull, sale = (
        copy / "pieces" / f"{name}.toml" for name in ("wood", "wide", "pull", "sale")
    )
    for path in (wood, wide, pull, sale):
        shutil.copy(DRESSER, path)
        spoil(path, 'name = "Low dresser"', f'name = "The {path.stem} one"')
    spoil(wood, 'species = "walnut"', 'species = "walnt"')
    spoil(wide, 'width = "37 in"', 'width = "137 in"')
    spoil(pull, 'item = "bar pull"', 'item = "bar pul"')
    spoil(sale, "dresser-2025-b", "dresser-2025-x")
    said = refused(capsys, tmp_path / "out", "price", *map(str, (wood, wide, pull)))
    assert [line.split(": ")[0] for line in said] == [
        str(wood),
        *[str(pull), str(wide), str(wide), str(wide)],
    ]
    assert all("The wood one" not in line for line in said[:2])
    (line,) = refused(capsys, tmp_path / "out", "price", str(sale))
    assert line.startswith(f"{sale}: price.comparables: ")


def test_two_files_that_give_one_name_are_both_named(copy, tmp_path, capsys):
    other = copy / "pieces" / "other.toml"
    shutil.copy(DRESSER, other)
    said = refused(capsys, tmp_path / "out", "price", str(DRESSER), str(other))
    assert said == [
        f'{DRESSER} and {other}: two pieces are called "Low dresser"; give each its '
        "own name."
    ]


def test_a_piece_that_fits_no_sheet_of_any_wood_is_refused_in_few_words(
    copy, tmp_path, capsys
):
    path = copy / "pieces" / "low_dresser.toml"
    spoil(path, 'width = "37 in"', 'width = "137 in"')
    said = refused(capsys, tmp_path / "out", "compare", str(path))
    assert said[0].startswith(f"{path}: no wood, form or size of the price book holds")
    assert len(said) == 4  # the run of fronts, the top and the plinth


def test_json_holds_the_films_of_the_finish(tmp_path, capsys):
    assert main(["price", str(DRESSER), *DAY, "--json", "--out", str(tmp_path)]) == 0
    finish = json.loads(capsys.readouterr().out)["finish"]
    assert [coat["times"] for coat in finish["coats"]] == [1, 4]
    # wet 1000 / 8.6 um, dry a sixth of it
    assert finish["coats"][1]["wet_um"] == pytest.approx(116.28, abs=0.01)
    assert finish["coats"][1]["dry_um"] == pytest.approx(19.38, abs=0.01)
    assert finish["build"] == "usual"


def test_a_fault_of_an_option_names_no_piece(tmp_path, capsys):
    said = refused(
        capsys, tmp_path / "out", "price", str(DRESSER), "--auction", "2026-11-24"
    )
    assert said[0].startswith("--auction 2026-11-24 is in the past")
