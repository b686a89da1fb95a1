"""A price by features: an anchor from 30 other sales on, else it is said why not."""

import datetime
import math
import shutil
from pathlib import Path

import numpy as np
import pytest

from pricebook.commands.advising import advise, features_of
from pricebook.cost import cost_sheet
from pricebook.errors import SpecError
from pricebook.files import read_piece, read_shop
from pricebook.files.learning import NewComparable, keep_learnt
from pricebook.files.market import read_market
from pricebook.price import Comparable, PieceCosts, PricePolicy, advise_price
from pricebook.price.features import price_by_features
from pricebook.records import ComparableRow

ROOT = Path(__file__).parents[1]
ON = datetime.date(2026, 10, 1)
SALE = datetime.date(2026, 3, 14)
COSTS = PieceCosts(9_000, 7_200, 21_500, 6.5)
NAMED = [Comparable(cents, SALE) for cents in (18_000, 22_000, 26_000)]


def made(count, seed=4, kind="sold"):
    """Draw sales about ln price = 9 + 0.001 width + 0.1 drawers, spread 0.3."""
    chance = np.random.default_rng(seed)
    rows = []
    for _ in range(count):
        width, drawers = chance.uniform(400, 1500), chance.integers(0, 8)
        log = 9 + 0.001 * width + 0.1 * drawers + chance.normal(0, 0.3)
        noted = (("width", float(width)), ("drawers", float(drawers)))
        rows.append(Comparable(round(math.exp(log)), SALE, kind=kind, features=noted))
    return rows


def advice(listed, features, **wishes):
    policy = PricePolicy(bidders=4, unsold_value_cents=0)
    given = {"on": ON, "by": "the maker", "comparables": NAMED, **wishes}
    return advise_price(COSTS, policy, listed=listed, features=features, **given)


def test_the_line_is_that_of_numpy():
    rows = made(40)
    x = np.array([[1, *(n for _, n in row.features)] for row in rows])
    y = np.log([row.price_cents for row in rows])
    at = np.array([1, 900, 4])
    line, left, *_ = np.linalg.lstsq(x, y, rcond=None)
    variance = left[0] / (40 - 3)
    spread = math.sqrt(variance * (1 + at @ np.linalg.inv(x.T @ x) @ at))

    found = price_by_features({"width": 900, "drawers": 4}, rows, on=ON)

    assert found.median_cents == pytest.approx(math.exp(at @ line), rel=1e-9)
    assert found.spread == pytest.approx(spread, rel=1e-9)
    assert "40 sales on record, by width and drawers" in found.said


def test_unsold_pieces_take_off_what_the_sold_alone_put_too_high():
    rows = made(400)
    middle = math.exp(9 + 0.001 * 900 + 0.1 * 4)  # what they were drawn about
    split = [
        row
        if row.price_cents > middle
        else Comparable(round(middle), SALE, kind="unsold", features=row.features)
        for row in rows
    ]
    sold = [row for row in split if row.is_sold]
    at = {"width": 900, "drawers": 4}

    alone = price_by_features(at, sold, on=ON).median_cents
    whole = price_by_features(at, split, on=ON)

    assert alone > 1.1 * middle
    assert whole.median_cents == pytest.approx(middle, rel=4 * 0.3 / math.sqrt(400))
    assert whole.spread == pytest.approx(0.3, rel=0.2)
    assert "unsold on record" in whole.said


def test_from_30_other_sales_on_the_line_is_an_anchor_of_the_advice():
    at = {"width": 1500, "drawers": 7}
    without = advice(made(29), at)
    with_line = advice(made(30), at)
    plain = advice((), None)

    assert without.estimate_high == plain.estimate_high
    assert any("takes 30 sales" in w and "29" in w for w in without.warnings)
    assert with_line.median_value_cents > 1.3 * plain.median_value_cents
    assert "30 sales by their features" in with_line.estimate_low.reason
    assert any("spread by 0.3" in w for w in with_line.warnings)
    assert with_line.fair_market_value == plain.fair_market_value


def test_named_comparables_and_later_sales_are_no_part_of_the_line():
    rows = made(31)
    later = [Comparable(9, ON + datetime.timedelta(1), features=rows[0].features)]
    at = {"width": 900, "drawers": 4}

    assert price_by_features(at, rows + later, on=ON).sales == 31
    warned = advice(rows, at, comparables=rows[:2]).warnings
    assert any("there are 29" in warning for warning in warned)


def test_a_feature_that_few_sales_note_is_left_out_and_not_named():
    rows = [
        Comparable(
            r.price_cents,
            SALE,
            features=(*r.features, ("height", 800.0))[: 2 + (i < 3)],
        )
        for i, r in enumerate(made(35))
    ]
    found = price_by_features({"width": 900, "drawers": 4, "height": 700}, rows, on=ON)

    assert "by width and drawers, put" in found.said


def test_a_piece_beyond_all_sales_is_called_a_guess():
    found = price_by_features({"width": 3000, "drawers": 4}, made(40), on=ON)
    assert "Its width lies outside those sales: a guess." in found.said


def test_features_that_tell_nothing_apart_are_said_and_nothing_is_anchored():
    same = [
        Comparable(20_000 + 100 * i, SALE, features=(("width", 900.0),))
        for i in range(40)
    ]
    found = price_by_features({"width": 900}, same, on=ON)

    assert found.anchors == []
    assert "No price by features: all 40 sales share the same width" in found.said


def test_a_piece_without_sizes_is_said_to_have_none():
    assert "the piece states no sizes" in price_by_features({}, made(40), on=ON).said


@pytest.mark.parametrize(
    ("features", "sentence"),
    [
        ({"width": -1}, "the piece: width is -1; it must be 0 or more"),
        ({"width": math.nan}, "the piece: width is nan"),
        ([1], r"features are \[1\]; give numbers by name"),
    ],
)
def test_features_that_cannot_be_are_refused(features, sentence):
    with pytest.raises(SpecError, match=sentence):
        advice(made(30), features)


def test_a_comparable_with_a_feature_twice_is_refused():
    with pytest.raises(SpecError, match="a feature is given twice"):
        Comparable(1, SALE, features=(("width", 1.0), ("width", 2.0)))


@pytest.fixture
def shop(tmp_path):
    """Copy the price book with 36 sales more that note sizes."""
    folder = shutil.copytree(ROOT / "data" / "shop", tmp_path / "shop")
    path = folder / "comparables.csv"
    head, *rest = path.read_text("utf-8").splitlines()
    rows = [f"{head},width,height,depth,drawers", *(f"{row},,,," for row in rest)]
    chance = np.random.default_rng(5)
    for i in range(36):
        width, height, drawers = 20 + i, int(chance.integers(24, 50)), i % 6
        price = 5 * width + 10 * drawers + int(chance.integers(0, 60))
        rows.append(
            f"sale-{i},chest of drawers,oak,{price}.00,sold,1,,2025-05-01,"
            f"invented for the test,{width} in,{height} in,18 in,{drawers}"
        )
    path.write_text("\n".join(rows) + "\n", "utf-8")
    return folder


def test_the_price_book_notes_sizes_in_columns_of_their_own(shop):
    market = read_market(shop)

    assert market.comparable("sale-3").noted["width"] == pytest.approx(23 * 25.4)
    assert market.comparable("sale-3").noted["drawers"] == 3
    assert market.comparable("dresser-2025-a").noted == {}


def test_the_advice_of_a_piece_leaves_out_a_depth_that_all_sales_share(shop):
    piece = read_piece(ROOT / "data" / "pieces" / "low_dresser.toml")
    sheet = cost_sheet(piece, read_shop(shop), ON)
    assert features_of(piece)["drawers"] == 5

    found = advise(piece, sheet, read_market(shop), ON)

    said = [w for w in found.warnings if w.startswith("Price by features: 36 sales")]
    assert len(said) == 1
    assert "by width, height and drawers, put" in said[0]


def test_sizes_of_an_event_are_kept_where_the_list_notes_them(shop):
    row = ComparableRow(
        date=SALE, form="bookcase", species="oak", price_cents=9_000, sold=True,
        source="invented",
    )  # fmt: skip
    noted = {"width": 609.6, "height": 900.0, "depth": 300.0, "drawers": 0.0}
    new = NewComparable(key="kept", row=row, note="", features=noted)
    keep_learnt(shop, [new], [], rows=[], event="spring", on=SALE)

    assert read_market(shop).comparable("kept").noted == pytest.approx(
        {"width": 610, "height": 900, "depth": 300, "drawers": 0}
    )
