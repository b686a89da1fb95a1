"""The advice that `price` prints: its market file, its words, its split."""

import json
import shutil
from datetime import date
from pathlib import Path

import pytest

from pricebook import proceeds
from pricebook.commands import advice_text, advising
from pricebook.errors import TableError
from pricebook.files.market import read_market
from pricebook.price import Comparable, PieceCosts, PricePolicy, advise_price

ROOT = Path(__file__).parents[1]
DAY = date(2026, 10, 1)
COSTS = PieceCosts(9_000, 7_200, 21_500, 6.5)
SALES = [Comparable(cents, date(2026, 3, 14)) for cents in (18_000, 22_000, 26_000)]


@pytest.fixture
def shop(tmp_path):
    """Copy the price book, so that it can be spoiled."""
    return shutil.copytree(ROOT / "data" / "shop", tmp_path / "shop")


def change(shop, old, new):
    path = shop / "market.toml"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def advice(**wishes):
    policy = PricePolicy(bidders=4, unsold_value_cents=5_000)
    given = {"on": DAY, "by": "the maker", "comparables": SALES, **wishes}
    return advise_price(COSTS, policy, **given)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("sigma = 0.5 ", "sigma = 0 ", r"market\.toml: sigma is 0.*more than 0"),
        ("low_share = 0.25", "low_share = 0.9", r"market\.toml: low_share is 0\.9 and"),
        ('"poisson"', '"many"', r"market\.toml: crowd is 'many'"),
        ('ladder = "ten percent"', 'ladder = "ten"', r'market\.toml: ladder "ten"'),
        ("share = 0.05", "share = 1.05", r"market\.toml: rule 3: share is 1\.05"),
        ("share = 0.05", "share = 0.98", r"market\.toml: the shares of .* come to"),
        ('payee = "charity"', "", r"market\.toml: rule 4: payee is missing"),
    ],
)
def test_a_market_that_cannot_be_is_refused_by_file(shop, old, new, sentence):
    change(shop, old, new)
    with pytest.raises(TableError, match=sentence):
        read_market(shop)


def test_sales_tax_on_the_value_of_each_lot_belongs_in_the_event(shop):
    tax = '[[deductions]]\nkind = "sales_tax"\npayee = "state"\nrate = 0.06\n'
    tax += 'base = "min_hammer_fmv"\n\n[[deductions]]\nkind = "card_fee"'
    change(shop, '[[deductions]]\nkind = "card_fee"', tax)
    with pytest.raises(TableError, match="state it in the event"):
        read_market(shop)


def test_a_comparable_that_is_not_listed_is_named_with_its_place():
    market = read_market(ROOT / "data" / "shop")
    with pytest.raises(TableError, match=r'price\.comparables: "dresser-2025-c" is'):
        market.comparable("dresser-2025-c")


def test_every_figure_that_is_printed_has_its_reason_below():
    found = advice()
    text = advice_text.advice_text(found, "$")

    figures, reasons = text.split("Why\n")
    names = [line.strip().rsplit("  ", 1)[0].strip() for line in figures.splitlines()]
    for name in names[1:]:
        assert not name or f"\n  {name}: " in f"\n{reasons}"
    answer = advice_text.advice_answer(found)
    assert len(answer["reasons"]) == len([name for name in names[1:] if name])


def test_the_answer_for_programs_names_who_decides():
    answer = json.loads(json.dumps(advice_text.advice_answer(advice())))

    assert "licensed tax practitioner" in answer["warnings"][-1]


def test_a_split_says_what_was_charged_and_whether_tax_counts():
    plain = proceeds.split(100_00, [proceeds.Rest("charity")])
    assert advice_text.NO_TAX in advice_text.split_text(plain, "$")
    rules = [
        proceeds.Premium(share=0.1),
        proceeds.SalesTax("state", 0.07, "hammer_plus_premium"),
        proceeds.Rest("charity"),
    ]
    text = advice_text.split_text(proceeds.split(120_00, rules), "$")
    # 120.00 + 12.00 + 7 % of 132.00
    assert "141.24  charged: 120.00 hammer price + 12.00 premium + 9.24 sales tax" in (
        text
    )
    assert advice_text.NO_TAX not in text


class Sheet:
    """As much of a cost sheet as the split asks for."""

    lines = ()


def test_what_pays_for_the_work_is_all_that_others_do_not_take(shop):
    market = read_market(shop)
    left = advising.left_for_the_work(Sheet(), market)

    # demo rules: card 2.9 % + 0.30, guild 5 %; nothing documented, so no repayment
    assert left(120_00) == 120_00 - 348 - 30 - 600
