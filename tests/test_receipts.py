"""What a buyer, a maker and the accountant are told, and what is refused."""

import csv
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from pricebook import proceeds, receipts
from pricebook.errors import MoneyError, ReportError, TableError

REFERENCE = Path(__file__).parent.parent / "data" / "reference"
FILES = (
    "irc_6115",
    "irc_6714",
    "irc_170",
    "form_8283_2021",
    "form_8282_2009",
    "form_990_2021",
    "irs_fs_2025_08",
    "pl_119_21_70433",
)


def rows_of(name):
    text = (REFERENCE / f"{name}.csv").read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def test_the_thresholds_in_use_are_those_of_the_reference_files():
    filed = [row for name in FILES for row in receipts.read_figures(rows_of(name))]
    plain = sorted((replace(row, note="") for row in filed), key=str)
    assert plain == sorted(receipts.THRESHOLDS, key=str)


def test_every_dated_figure_can_be_read():
    for name in ("low_cost_articles", "volunteer_hour", "greenfield_1999"):
        assert len(receipts.read_figures(rows_of(name))) == len(rows_of(name))


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("figure", "nan"),
        ("figure", "-1"),
        ("figure", "1,000"),
        ("year", "last"),
        ("confirmed", "maybe"),
        ("source", ""),
        ("name", ""),
    ],
)
def test_a_row_that_is_no_dated_figure_is_named(column, value):
    rows = [*rows_of("irc_170"), {**rows_of("irc_170")[0], column: value}]
    with pytest.raises(TableError, match=r"row 4: .* is no dated figure"):
        receipts.read_figures(rows)


def test_a_threshold_before_its_time_is_refused():
    with pytest.raises(TableError, match="known from 1994 on, not for 1990"):
        receipts.buyer(100_00, 40_00, True, as_of=1990)
    with pytest.raises(TableError, match='did you mean "disclosure above"'):
        receipts.in_force(receipts.THRESHOLDS, "disclosures above", 2026)


def test_a_new_year_may_bring_a_new_threshold():
    newer = receipts.Figure(
        name="disclosure above",
        year=2031,
        figure=Decimal(150),
        unit="usd",
        source="irc_6115",
        confirmed=False,
    )
    table = (*receipts.THRESHOLDS, newer)
    asked = [
        receipts.buyer(100_00, 40_00, True, thresholds=table, as_of=year).disclosure
        for year in (2030, 2031)
    ]
    assert asked == [True, False]


def test_a_lot_sold_below_its_value_holds_no_gift():
    told = receipts.buyer(250_00, 400_00, True)
    assert (told.gift_cents, told.deductible_cents) == (0, 0)
    assert not told.disclosure
    assert not told.acknowledgment
    assert told.acknowledgment_on_payment  # 250.00 was paid


def test_without_a_value_nothing_is_stated_and_every_paper_is_called_for():
    told = receipts.buyer(300_00, None, False)
    assert (told.gift_cents, told.deductible_cents) == (None, None)
    assert told.disclosure
    assert told.acknowledgment
    assert not receipts.buyer(0, None, False).disclosure


@pytest.mark.parametrize("published", [True, False])
@pytest.mark.parametrize("paid", [0, 75_00, 80_00, 300_00, 700_00])
def test_every_receipt_carries_year_sources_and_the_practitioners_line(paid, published):
    words = receipts.buyer(paid, 40_00, published).words
    assert len(words) == 6
    assert words[-2].startswith("Thresholds as of 2026: irc_6115")
    assert "licensed tax practitioner" in words[-1]


def test_the_words_agree_with_the_figures():
    told = receipts.buyer(650_00, 400_00, True)
    assert (
        told.words[0] == "Paid 650.00 for goods worth 400.00: 250.00 of it is a gift."
    )
    assert told.words[2].startswith("A written disclosure is due")
    assert told.words[3].startswith("A written acknowledgment is needed")
    unpublished = receipts.buyer(650_00, 400_00, False)
    assert unpublished.words[1].startswith("No deductible part is stated")


@pytest.mark.parametrize(
    ("paid", "value", "published", "sentence"),
    [
        (-1, 0, True, "paid is -1; it must be whole cents"),
        (100.5, 0, True, "paid is 100.5"),
        (True, 0, True, "paid is True"),
        (100, -5, True, "fair market value is -5"),
        (100, float("nan"), True, "fair market value is nan"),
        (100, 50, "yes", "published before bidding is 'yes'"),
        (100, None, True, "yet it is said to be published"),
    ],
)
def test_a_receipt_that_cannot_be_is_refused(paid, value, published, sentence):
    with pytest.raises(MoneyError, match=sentence):
        receipts.buyer(paid, value, published)


@dataclass(frozen=True)
class Sold:
    fair_market_value_cents: int
    hammer_cents: int | None


@pytest.mark.parametrize(
    "lot",
    [
        (400_00, 550_00),
        {"lot": "7", "fair_market_value_cents": 400_00, "hammer_cents": 550_00},
        Sold(400_00, 550_00),
        receipts.SoldLot(fair_market_value_cents=400_00, hammer_cents=550_00),
    ],
    ids=["pair", "mapping", "object", "value"],
)
def test_a_lot_may_come_in_any_plain_form(lot):
    lines = receipts.event_lines([lot])
    assert lines[1] == lines["1"] == 950_00
    assert list(lines) == list(range(1, 12)) == list(receipts.LABELS)
    with pytest.raises(KeyError, match="12"):
        lines[12]


def test_a_passed_lot_that_is_kept_is_a_gift_and_nothing_else():
    lines = receipts.event_lines([(400_00, None)])
    assert [lines[n] for n in (1, 2, 3, 9, 11)] == [400_00, 400_00, 0, 0, 0]


def test_a_lot_that_went_back_to_its_giver_is_nowhere():
    lot = {"fair_market_value_cents": 400_00, "hammer_cents": None, "returned": True}
    assert set(receipts.event_lines([lot]).values()) == {0}


def test_a_carcase_that_was_given_and_refinished_counts_at_its_own_value():
    """40 given, 118.40 of material repaid, worth 400, sold for 550: cash 431.60."""
    lot = receipts.SoldLot(
        fair_market_value_cents=400_00,
        hammer_cents=550_00,
        donated_cents=40_00,
        direct_costs_cents=118_40,
    )
    lines = receipts.event_lines([lot])
    assert [lines[n] for n in (1, 2, 3, 9)] == [590_00, 190_00, 400_00, 158_40]
    assert lines[2] + lines[11] == 550_00 - 118_40


def test_a_premium_that_the_charity_keeps_is_gross_income():
    lines = receipts.event_lines([(400_00, 400_00)], kept_premiums_cents=40_00)
    assert (lines[1], lines[3], lines[11]) == (840_00, 440_00, 40_00)


@pytest.mark.parametrize(
    ("lot", "sentence"),
    [
        ((None, 100), "lot 1: fair_market_value_cents is None"),
        ((100, -1), "lot 1: hammer_cents is -1"),
        ((100, 1.5), "lot 1: hammer_cents is 1.5"),
        ({"hammer_cents": 5}, "fair_market_value_cents is missing"),
        (
            {"fair_market_value_cents": 5, "hammer_cents": 5, "donatd_cents": 1},
            'key "donatd_cents" is not known; did you mean "donated_cents"',
        ),
        (
            {"fair_market_value_cents": 5, "hammer_cents": 5, "returned": True},
            "sold and also returned",
        ),
        (7, "7 is no lot"),
        ("ab", "'ab' is no lot"),
    ],
)
def test_a_lot_that_cannot_be_is_named(lot, sentence):
    with pytest.raises(MoneyError, match=sentence):
        receipts.event_lines([lot])


def test_lots_that_are_no_list_are_refused():
    with pytest.raises(MoneyError, match="lots are None; give a list"):
        receipts.event_lines(None)


def test_faults_of_all_lots_and_amounts_are_told_at_once():
    with pytest.raises(MoneyError, match="lot 1") as caught:
        receipts.event_lines([(1, -1), (-1, 1)], tickets=[(5, None)], rent_cents=-1)
    assert [fault.split(" ")[0] for fault in caught.value.faults] == [
        "lot",
        "lot",
        "ticket",
        "rent_cents",
    ]


def test_a_set_of_lots_or_tickets_is_refused_for_like_ones_count_once_in_it():
    with pytest.raises(MoneyError, match="lots are a set"):
        receipts.event_lines({(400_00, 550_00), (400_00, 400_00)})
    with pytest.raises(MoneyError, match=r"lot 1: .* is no lot"):
        receipts.event_lines([{400_00, 550_00}])
    with pytest.raises(MoneyError, match="tickets are a set"):
        receipts.event_lines([], tickets={(20_00, 12_00)})


def test_gifts_in_kind_of_one_event_are_not_said_to_be_those_of_the_year():
    told = receipts.triggers(receipts.event_lines([]), noncash_cents=1_00)
    assert told.words[2].startswith("gifts in kind counted: 1.00, not above 25,000.00")


def test_triggers_say_what_they_compare():
    lines = receipts.event_lines([(400_00, 550_00)])
    told = receipts.triggers(lines, noncash_cents=400_00, other_events_cents=15_000_00)
    assert told.event_schedule
    assert told.words[0] == (
        "contributions and gross income of events: 15,950.00, above 15,000.00 "
        "(form_990_2021, 2021)."
    )
    assert told.words[-1] == f"As of 2026. {receipts.PRACTITIONER}"
    assert lines.note.endswith(receipts.PRACTITIONER)
    with pytest.raises(MoneyError, match="noncash is -1"):
        receipts.triggers(lines, noncash_cents=-1)


def test_a_maker_of_an_own_piece_gives_its_cost_never_more_than_its_value():
    made = receipts.maker_basis(
        "maker",
        materials_cents=118_40,
        carcase_cents=40_00,
        fair_market_value_cents=150_00,
    )
    assert (made.cost_cents, made.deductible_cents) == (158_40, 150_00)
    assert not made.statement_needed


def test_what_was_repaid_or_expensed_is_no_gift():
    for given in ({"repaid_cents": 118_40}, {"expensed_cents": 200_00}):
        made = receipts.maker_basis("charity", materials_cents=118_40, **given)
        assert made.deductible_cents == 0
    above = receipts.maker_basis("charity", materials_cents=100_00, repaid_cents=120_00)
    assert "Repaid 20.00 above cost: that much is pay." in above.words


def test_costs_on_the_charitys_own_piece_are_a_gift_of_money():
    made = receipts.maker_basis("charity", materials_cents=700_00)
    assert made.deductible_cents == 700_00
    assert made.noncash_form == "none"  # above 500.00, yet not a gift of things
    assert made.statement_needed
    assert receipts.maker_basis("maker", materials_cents=700_00).noncash_form == (
        "section A"
    )


def test_pay_for_work_on_the_charitys_piece_is_left_to_the_practitioner():
    made = receipts.maker_basis("charity", materials_cents=50_00, received_cents=10_00)
    assert made.deductible_cents is None
    assert "not for this package to say" in made.words[1]
    assert made.words[-1].startswith("Rules as of 2026: irc_170")
    assert made.words[-1].endswith(receipts.PRACTITIONER)


@pytest.mark.parametrize(
    ("owner", "given", "sentence"),
    [
        ("makr", {}, 'owned by is "makr"; did you mean "maker"'),
        ("charity", {"carcase_cents": 5}, "its carcase is no cost of the work"),
        ("maker", {"received_cents": 5}, "give its fair market value"),
        ("maker", {"repaid_cents": -5}, "repaid is -5"),
        ("maker", {"materials_cents": 1.5}, "materials is 1.5"),
    ],
)
def test_a_makers_cost_that_cannot_be_is_refused(owner, given, sentence):
    with pytest.raises(MoneyError, match=sentence):
        receipts.maker_basis(owner, **{"materials_cents": 100, **given})


def gift_letter(**changes):
    given = {
        "charity": "Quillback Bay Furniture Share",
        "giver": "A. Maker",
        "description": "one plain five-drawer chest, particle board",
        "received_on": date(2026, 3, 7),
    }
    return receipts.letter_for_gift(**{**given, **changes})


def test_the_letter_for_a_gift_describes_it_and_states_no_value():
    text = gift_letter()
    assert "one plain five-drawer chest" in text
    assert "7 March 2026" in text
    assert "no goods or services in return" in text
    assert not any(sign in text for sign in "$£€")
    assert ".00" not in text


def test_a_letter_names_what_was_given_in_return_with_its_value():
    text = gift_letter(goods_in_return="a supper", goods_value_cents=25_00)
    assert "gave: a supper. Our good-faith estimate of its value is 25.00." in text


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"description": "a chest worth 400"}, "description states a value"),
        ({"description": "a chest, $400"}, "description states a value"),
        ({"goods_in_return": "a supper"}, "needs both its description and its value"),
        ({"goods_value_cents": -5}, "goods_value_cents is -5"),
        ({"giver": " "}, "giver is ' '; write it out"),
        ({"received_on": "7 March"}, "received_on is '7 March'; give a date"),
    ],
)
def test_a_letter_that_cannot_be_sent_is_refused(changes, sentence):
    with pytest.raises(ReportError, match=sentence):
        gift_letter(**changes)


def statement(**changes):
    given = {
        "charity": "Quillback Bay Furniture Share",
        "volunteer": "A. Maker",
        "services": "veneered a chest of drawers of ours",
        "first_day": date(2026, 3, 7),
        "last_day": date(2026, 4, 2),
    }
    return receipts.expense_statement(**{**given, **changes})


def test_the_volunteers_statement_names_the_services_and_not_the_costs():
    text = statement(repaid_cents=20_00)
    assert "veneered a chest of drawers of ours." in text
    assert "repaid 20.00 of your costs" in text
    assert "The time itself is not deductible." in text


def test_days_that_run_backwards_are_refused():
    with pytest.raises(ReportError, match="last day 1 March 2026 is before first day"):
        statement(last_day=date(2026, 3, 1))


def test_a_buyers_receipt_of_an_unpublished_value_states_no_deductible_part():
    text = receipts.receipt_text(
        receipts.buyer(550_00, 400_00, False),
        charity="Quillback Bay Furniture Share",
        lot="12",
        title="Chest of drawers in walnut",
        paddle="31",
        paid_on=date(2026, 5, 16),
    )
    assert "No deductible part is stated" in text
    assert "may be deductible" not in text
    assert text.endswith(receipts.PRACTITIONER)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: receipts.CostToRaise(-1, 5), "cost is -1"),
        (lambda: receipts.hours_cents(-1, 100), "hours are -1"),
        (lambda: receipts.hours_cents(True, 100), "hours are True"),
        (lambda: receipts.hours_cents(float("nan"), 100), "nan"),
        (lambda: receipts.miles_cents(-1), "miles are -1"),
        (lambda: receipts.miles_cents("12"), "miles are '12'"),
        (lambda: receipts.noncash_form(-1), "deduction is -1"),
        (lambda: receipts.missed_disclosures_cents(1.5), "missed is 1.5"),
        (lambda: receipts.remeasured_cents(1, None), "sold is None"),
        (lambda: receipts.card_report_due(1, -1), "payments is -1"),
        (lambda: receipts.payee_report_due(-1, 2026), "paid is -1"),
    ],
)
def test_figures_that_cannot_be_are_refused(call, sentence):
    with pytest.raises(MoneyError, match=sentence):
        call()


def test_hours_given_are_worth_their_rate_to_the_board_alone():
    assert receipts.hours_cents(6, 10_00) == 60_00
    made = receipts.maker_basis("charity", materials_cents=0)
    assert made.deductible_cents == 0  # IRS Publication 526: time counts for nothing
    assert "hours count for nothing" in made.words[0]


def test_nothing_spent_has_no_return():
    raised = receipts.CostToRaise(0, 100_00)
    assert (raised.for_one, raised.return_for_one) == (0, None)
    assert raised.return_on_investment is None


def test_limits_that_break_their_own_rule_are_refused():
    rows = receipts.read_figures(rows_of("low_cost_articles"))
    broken = [
        replace(row, figure=row.figure + 1)
        if (row.name, row.year) == ("token value up to", 2024)
        else row
        for row in rows
    ]
    with pytest.raises(MoneyError, match="limits of 2024 do not stand at 5 and 10"):
        receipts.token_limits(2024, broken)


def test_every_name_that_is_offered_exists():
    for package in (receipts, proceeds):
        assert [n for n in package.__all__ if not hasattr(package, n)] == []


def test_the_limits_of_tokens_in_use_are_those_of_the_reference_file():
    filed = receipts.read_figures(rows_of("low_cost_articles"))
    plain = sorted((replace(row, note="") for row in filed), key=str)
    ours = sorted(receipts.TOKENS, key=str)
    assert [(r.name, r.year, r.figure, r.confirmed) for r in plain] == [
        (r.name, r.year, r.figure, r.confirmed) for r in ours
    ]


def test_limits_of_tokens_say_their_year_and_who_decides():
    seen, recalled = receipts.token_limits(2024), receipts.token_limits(2026)
    assert "from memory" in recalled.words[0]
    assert "from memory" not in seen.words[0]
    assert "13.20" in seen.words[0]
    assert seen.words[-1].endswith(receipts.PRACTITIONER)


def test_a_line_is_found_by_number_and_by_text():
    numpy = pytest.importorskip("numpy")
    lines = receipts.event_lines(numpy.array([[400_00, 550_00]]))
    assert lines[1] == lines["1"] == lines.get("1") == 950_00
    assert lines.get("12", 0) == 0
    assert {type(amount) for amount in lines.values()} == {int}


@pytest.mark.parametrize("lots", ["", None, 5, {"fair_market_value_cents": 1}])
def test_lots_are_a_list(lots):
    with pytest.raises(MoneyError, match="give a list of lots"):
        receipts.event_lines(lots)


@pytest.mark.parametrize("tickets", [None, True, "12", 5])
def test_tickets_are_a_list(tickets):
    with pytest.raises(MoneyError, match=r"give \(paid, value\) pairs"):
        receipts.event_lines([], tickets=tickets)


@pytest.mark.parametrize("lines", [None, "x", {1: 5}, 3])
def test_only_event_lines_are_carried_to_the_return(lines):
    with pytest.raises(MoneyError, match="give lines 1 to 11"):
        receipts.tie_out(lines)
    with pytest.raises(MoneyError, match="give lines 1 to 11"):
        receipts.triggers(lines)


@pytest.mark.parametrize("year", ["2026", None, True, Decimal("NaN")])
def test_a_year_is_a_whole_number(year):
    with pytest.raises(TableError, match="give it as a whole number"):
        receipts.buyer(100, 50, True, as_of=year)
    with pytest.raises(TableError, match="give it as a whole number"):
        receipts.maker_basis("maker", materials_cents=5, as_of=year)


@pytest.mark.parametrize("table", ["x", None, [], [1], True])
def test_thresholds_are_dated_figures(table):
    with pytest.raises(TableError, match="give dated figures"):
        receipts.buyer(100, 50, True, thresholds=table)


@pytest.mark.parametrize("number", [Decimal("NaN"), float("inf"), "6", None, -1, True])
def test_miles_and_hours_are_numbers_of_0_or_more(number):
    with pytest.raises(MoneyError, match="give a number of 0 or more"):
        receipts.miles_cents(number)
    with pytest.raises(MoneyError, match="give a number of 0 or more"):
        receipts.hours_cents(number, 1000)


@pytest.mark.parametrize("amount", ["250", 2.5, None, True])
def test_only_cents_are_shown_in_whole_units(amount):
    with pytest.raises(MoneyError, match="give whole cents"):
        receipts.whole_units(amount)


def test_a_receipt_keeps_whole_numbers_of_any_type():
    numpy = pytest.importorskip("numpy")
    told = receipts.buyer(numpy.int64(500_00), numpy.int64(100_00), True)
    assert type(told.gift_cents) is int
    assert told.gift_cents == 400_00


def test_an_answer_about_given_work_is_yes_or_no():
    with pytest.raises(MoneyError, match="skilled is 'no'; say True or False"):
        receipts.service_is_recorded(
            makes_or_betters_an_asset=False, skilled="no", would_be_bought=True
        )


def test_a_receipt_without_a_gift_says_so_plainly():
    told = receipts.buyer(240_00, 260_00, True)
    assert told.words[1] == "No part of it may be deductible."
    known, unknown = (
        receipts.buyer(400_00, 100_00, True),
        receipts.buyer(400_00, None, False),
    )
    assert "the gift is 250.00 or more" in known.words[3]
    assert "the gift may be 250.00 or more" in unknown.words[3]
