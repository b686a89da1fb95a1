"""An evening settled: checked against published figures and against laws."""

import random
import re
import time
from dataclasses import replace
from datetime import date, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from returned_books import RESULTS_FILE, spring, spring_results

from pricebook import files
from pricebook.errors import MoneyError, SpecError
from pricebook.event import (
    Candidate,
    Cost,
    Counted,
    Demand,
    Event,
    Gift,
    Lot,
    LotAdvice,
    LotCost,
    NetPaysFor,
    Result,
    Ticket,
    Value,
    board_report,
    choice_pieces,
    evening_lots,
    settle,
    settlement_name,
    to_totals,
    with_advice,
    with_candidates,
    with_costs,
)
from pricebook.event.board_values import Amount
from pricebook.event.controls import controls
from pricebook.forecast import choose, evening
from pricebook.proceeds import CardFee, Premium, Repay, Rest, SalesTax, Share
from pricebook.records import EventTotals, roll_up

SHARE = "the Share"
OPENS = datetime.fromisoformat("2027-04-17 18:00")
PUBLISHED = datetime.fromisoformat("2027-03-20 09:00")
NO_TAX = SalesTax("nobody", base="none")


def value(cents: int, published: datetime | None = PUBLISHED) -> Value:
    return Value(
        cents=cents,
        method="two sales",
        by="the committee",
        on=date(2027, 2, 1),
        published=published,
    )


def lot(key: str = "1", **changed) -> Lot:
    return Lot(
        **({"key": key, "title": f"Piece {key}", "opening_cents": 2000} | changed)
    )


def event(*lots: Lot, **changed) -> Event:
    stated = {
        "key": "spring",
        "name": "Spring sale",
        "charity": SHARE,
        "on": date(2027, 4, 17),
        "bidding_opens": OPENS,
        "deductions": (Rest(SHARE),),
        "sales_tax": NO_TAX,
        "lots": lots or (lot(),),
    }
    return Event(**(stated | changed))


def sold(key: str = "1", cents: int = 30000, **changed) -> Result:
    stated = {
        "lot": key,
        "state": "sold",
        "hammer_cents": cents,
        "paddle": "4",
        "paid": True,
        "method": "cash",
    }
    return Result(**(stated | changed))


def passed(key: str = "1") -> Result:
    return Result(lot=key, state="passed")


# ---- against published figures


def test_a_worked_settlement_comes_out_to_the_cent():
    # Order of the invoice: state tax bulletin TSB-A-24(48)S (premium is part of the
    # taxable receipt). By hand: 900.00; premium 10 % = 90.00; tax 6 % of 990 = 59.40;
    # charged 1,049.40; card 2.9 % + 0.30 = 30.7326 -> 30.73; commission 90.00;
    # guild 45.00; materials 118.40; rest 990 - 90 - 45 - 30.73 - 118.40 = 705.87.
    sale = event(
        lot(maker="Bo", repay_cents=11840),
        sales_tax=SalesTax("state", 0.06, "hammer_plus_premium"),
        deductions=(
            Premium(share=0.10),
            Share("auctioneer", 0.10),
            CardFee("processor", 0.029, 30),
            Repay("maker", 0),
            Share("guild", 0.05),
            Rest(SHARE),
        ),
    )
    done = settle(sale, [sold(cents=90000, method="card")])
    assert {x.payee: x.due_cents for x in done.payouts} == {
        "state": 5940,
        "auctioneer": 9000,
        "processor": 3073,
        "Bo": 11840,
        "guild": 4500,
        SHARE: 70587,
    }
    assert (done.charged_cents, done.raised_cents) == (104940, 99000)
    assert done.net_cents == 70587
    assert done.is_clean


@pytest.mark.parametrize(
    ("hammer", "lines"),
    [
        (55000, (95000, 55000, 40000, 40000, 0)),
        (40000, (80000, 40000, 40000, 40000, 0)),
        (25000, (65000, 40000, 25000, 40000, -15000)),
    ],
)
def test_the_event_lines_follow_the_public_form(hammer, lines):
    # Form 990, Schedule G Part II (2021), lines 1, 2, 3, 9, 11 of a donated piece
    # worth 400 that is sold above, at and below its value
    done = settle(event(lot(value=value(40000))), [sold(cents=hammer)])
    assert done.lines is not None
    assert tuple(done.lines[number] for number in (1, 2, 3, 9, 11)) == lines
    assert done.is_clean


def test_a_supper_ticket_counts_as_part_gift():
    # Form 990 Part VIII lines 1c, 8a, 8b, 8c; legal questions and answers: paid 300,
    # dinner worth 50 that cost 50: 250, 50, 50, 0
    sale = event(
        lot(value=value(40000), if_unsold="back to the giver"),
        tickets=(Ticket(item="Seat", price_cents=30000, value_cents=5000, count=1),),
        costs=(Cost(item="Dinner", amount_cents=5000, line="food"),),
    )
    report = board_report(settle(sale, [passed()]))
    found = {row.line: row.cents for row in report.return_lines}
    assert [found[line] for line in ("1c", "8a", "8b", "8c")] == [25000, 5000, 5000, 0]


def test_a_buyer_is_told_of_a_gift_only_if_the_value_was_published_before_bidding():
    # Reg. 1.170A-1(h) example as tax guides print it: 500 for a vase listed at 100
    # is a gift of 400; unpublished, nothing may be stated (IRS, Charity Auctions)
    early = settle(event(lot(value=value(10000))), [sold(cents=50000)])
    assert early.receipts[0].deductible_cents == 40000
    late = settle(event(lot(value=value(10000, OPENS))), [sold(cents=50000)])
    assert late.receipts[0].deductible_cents is None
    assert late.receipts[0].gift_cents == 40000


def test_papers_are_due_above_75_and_from_250():
    # IRC 6115(a): "in excess of $75"; IRC 170(f)(8): "$250 or more"
    def told(paid, worth):
        sale = event(lot(opening_cents=1000, value=value(worth)))
        return settle(sale, [sold(cents=paid)]).receipts[0]

    assert [told(7500, 1000).disclosure, told(7501, 1000).disclosure] == [False, True]
    assert [told(25999, 1000).acknowledgment, told(26000, 1000).acknowledgment] == [
        False,
        True,
    ]


def test_two_lots_of_one_paddle_are_also_tested_together():
    # two payments of 50.00, each below 75.00, together above it: prudent practice
    lots = (lot("1", value=value(1000)), lot("2", value=value(1000)))
    done = settle(event(*lots), [sold("1", 5000), sold("2", 5000)])
    receipt = done.receipts[0]
    assert [x.receipt.disclosure for x in receipt.lots] == [False, False]
    assert receipt.disclosure
    assert receipt.gift_cents == 8000


def test_cost_to_raise_a_dollar_is_printed_with_its_denominator():
    # a chapter of a charity rated by a watchdog in 2007 raised 2,361,849, spent
    # 363,199 and kept 1,998,650; 363199 / 2361849 = 0.15378
    sale = event(
        gifts=(Gift(item="Gifts", value_cents=236184900, by="all", kind="cash"),),
        costs=(Cost(item="All", amount_cents=36319900, line="other"),),
    )
    done = settle(sale, [passed()])
    rate = board_report(done).rates[0]
    assert done.net_cents == 199865000
    assert rate.figure == "0.1538"
    assert rate.how == "363,199.00 over 2,361,849.00"


def test_nothing_raised_has_no_cost_to_raise_a_dollar():
    report = board_report(settle(event(), [passed()]))
    assert report.rates[0].figure == ""
    assert "undefined" in report.rates[0].how


@pytest.mark.parametrize(
    ("cents", "whole"), [(139, 1), (250, 3), (12949, 129), (23550, 236), (-250, -3)]
)
def test_whole_units_are_rounded_half_up(cents, whole):
    # instructions to Form 990 (1.39 -> 1, 2.50 -> 3) and Iowa's (129.49, 235.50);
    # the negative one mirrors them
    assert Amount(label="x", cents=cents).whole == whole


def test_whole_units_of_a_total_are_rounded_once():
    lots = tuple(lot(str(n)) for n in (1, 2, 3))
    done = settle(event(*lots), [sold(str(n), 10040) for n in (1, 2, 3)])
    assert board_report(done).money[0].whole == 301  # 301.20, not three times 100


# ---- the demo evening, added up by hand from its file


def test_the_demo_evening_adds_up_as_by_hand():
    counted = files.read_counted(RESULTS_FILE, spring())
    done = settle(spring(), spring_results(), counted)
    # hammer: 480 + 240 + 130 + 320 + 280 + 90 + 70 + 15 + 200 + 220
    assert done.hammer_cents == 204500
    # 5 % tax on each; lot 5 (280.00 + 14.00) is unpaid
    assert done.charged_cents == 214725
    assert done.unpaid_cents == 29400
    # tickets 38 x 20.00, jar 96.75, paid hammer 2,045 - 280
    assert done.raised_cents == 76000 + 9675 + 176500
    # card 2.9 % + 0.30 of 504.00, 136.50, 336.00, 210.00; guild 5 % of 1,765.00;
    # materials 58.20 + 41.75 + 22.10 + 60.00 (capped) + 18.25 + 9.40 + 36.15
    fees = 1492 + 426 + 1004 + 639
    materials = 5820 + 4175 + 2210 + 6000 + 1825 + 940 + 3615
    evening_costs = 18000 + 14250 + 6435 + 1840
    assert done.deductions_cents == fees + 8825 + materials
    assert done.spent_cents == fees + 8825 + materials + evening_costs
    assert done.is_clean, [x.words for x in done.controls if not x.passes]
    assert [x.key for x in done.unpaid] == ["5"]
    assert [x.key for x in done.unsold] == ["7", "9", "11", "12"]
    assert [x.number for x in done.receipts] == [1, 2, 3, 4, 5, 6]
    assert [x.paddle for x in done.receipts] == ["3", "5", "7", "14", "22", "31"]


def test_the_demo_report_says_what_the_net_pays_for():
    report = board_report(settle(spring(), spring_results()))
    assert [(x.unit, x.count, x.left_cents) for x in report.net_pays_for] == [
        ("plain piece", 21, 6179),  # 1,846.79 = 21 x 85.00 + 61.79
        ("furnished home", 1, 39679),  # 1,846.79 = 1,450.00 + 396.79
    ]
    assert "as stated by the treasurer of the Share on 2026-09-30" in (
        report.net_pays_for[0].words
    )


def test_the_demo_report_compares_with_the_forecast():
    sale = spring()
    drawn = evening(evening_lots(sale), 1, 2000, sale.common, ladder=sale.ladder)
    report = board_report(settle(sale, spring_results()), drawn)
    labels = [row.label for row in report.forecast]
    assert labels[0] == "Hammer prices against the target"
    assert report.forecast[0].figure == "-355.00"  # 2,045.00 less 2,400.00
    assert "Place in the forecast's middle eight tenths" in labels


def test_the_demo_candidates_can_be_chosen_from():
    pieces, limits = choice_pieces(spring())
    chosen = choose(pieces, limits)
    assert chosen.used["hours"] <= 40
    assert chosen.used["money"] <= 260


# ---- what is paid, owed, undone


def test_an_unpaid_lot_is_owed_and_is_no_cash():
    done = settle(event(), [sold(paid=False, method="")])
    assert (done.raised_cents, done.unpaid_cents, done.receipts) == (0, 30000, ())
    assert [(x.payee, x.due_cents, x.pending_cents) for x in done.payouts] == [
        (SHARE, 0, 30000)
    ]
    assert board_report(done).unpaid == ("Lot 1, Piece 1: paddle 4 owes 300.00.",)


def test_a_part_payment_is_held_and_no_cash_raised():
    done = settle(event(), [sold(paid=False, amount_cents=10000)])
    assert (done.raised_cents, done.unpaid_cents) == (0, 20000)
    assert done.deposits_cents == 10000
    assert done.received_by_method["cash"] == 10000
    assert done.is_clean
    whole = settle(event(), [sold(paid=False, amount_cents=30000)])
    assert whole.raised_cents == 30000


def test_more_than_was_charged_is_refused():
    with pytest.raises(
        SpecError, match=re.escape("301.00 was paid for 300.00 charged")
    ):
        settle(event(), [sold(amount_cents=30100)])
    with pytest.raises(
        SpecError, match=re.escape("is marked as paid, but 299.00 is less")
    ):
        settle(event(), [sold(amount_cents=29900)])


def test_a_sale_made_void_stays_in_the_ledger_with_a_row_that_reverses_it():
    void = sold(
        state="void", note="wrong paddle", initials="K.L.", on=date(2027, 4, 17)
    )
    done = settle(event(lot(), lot("2")), [void, sold("2", 10000)])
    rows = [row for row in done.ledger if row.lot == "1"]
    assert [(row.kind, row.hammer_cents) for row in rows] == [
        ("sale", 30000),
        ("reversal", -30000),
    ]
    assert rows[1].words == "wrong paddle (K.L., 2027-04-17)"
    assert (done.raised_cents, done.hammer_cents) == (10000, 10000)
    assert done.refunds[0].refund_cents == 30000  # it had been paid
    assert done.is_clean


def test_a_card_fee_is_due_only_when_paid_by_card():
    sale = event(deductions=(CardFee("processor", 0.029, 30), Rest(SHARE)))
    assert settle(sale, [sold(cents=10000)]).net_cents == 10000
    # 2.9 % of 100.00 + 0.30 = 3.20
    assert settle(sale, [sold(cents=10000, method="card")]).net_cents == 9680


def test_card_fees_that_were_charged_are_shared_out_to_the_cent():
    # largest remainder, worked by hand: 31.07 over 900, 450 and 125 of 1,475 is
    # 18.958, 9.479, 2.633 -> 18.95 + 9.47 + 2.63, the two cents left to the first two
    lots = tuple(lot(str(n)) for n in (1, 2, 3))
    sale = event(*lots, deductions=(CardFee("processor", 0.02), Rest(SHARE)))
    results = [
        sold(str(n), cents, method="card")
        for n, cents in ((1, 90000), (2, 45000), (3, 12500))
    ]
    done = settle(sale, results, Counted(card_fees_cents=3107))
    assert [x.card_fee_cents for x in done.lots] == [1896, 948, 263]
    assert (done.card_fees_by_rule_cents, done.spent_cents) == (2950, 3107)
    assert done.is_clean
    words = (
        "Card fees are those charged, 31.07; the rule alone would have reckoned 29.50"
    )
    assert any(words in caution for caution in board_report(done).cautions)


def test_card_fees_charged_without_a_card_sale_refuse_a_clean_bill():
    done = settle(event(), [sold()], Counted(card_fees_cents=100))
    assert not done.is_clean


def test_materials_are_repaid_up_to_what_is_documented_and_what_is_left():
    sale = event(
        lot(maker="Bo", repay_cents=4000, opening_cents=1000),
        lot("2", maker="Lin", repay_cents=9000),
        deductions=(Repay("maker", 0, 6000), Rest(SHARE)),
    )
    done = settle(sale, [sold(cents=3000), sold("2", 20000)])
    due = {x.payee: x.due_cents for x in done.payouts}
    assert due == {"Bo": 3000, SHARE: 14000, "Lin": 6000}


def test_a_premium_of_an_outside_house_is_not_raised():
    sale = event(deductions=(Premium("house", 0.10), Rest(SHARE)))
    done = settle(sale, [sold()])
    assert (done.charged_cents, done.raised_cents, done.spent_cents) == (
        33000,
        30000,
        0,
    )
    kept = event(deductions=(Premium(share=0.10), Rest(SHARE)))
    assert settle(kept, [sold()]).raised_cents == 33000


def test_a_lot_may_have_deductions_of_its_own():
    own = lot("2", deductions=(Share("lender", 0.5), Rest(SHARE)))
    done = settle(event(lot(), own), [sold(), sold("2")])
    assert {x.payee: x.due_cents for x in done.payouts} == {
        SHARE: 45000,
        "lender": 15000,
    }


def test_an_unset_sales_tax_may_be_planned_but_not_settled():
    for tax in (None, SalesTax("state"), SalesTax("state", rate=0.05)):
        sale = event(sales_tax=tax)
        with pytest.raises(MoneyError, match="sales tax is not set, so no total"):
            settle(sale, [sold()])


def test_a_tax_on_the_lower_of_price_and_value_needs_the_value():
    sale = event(sales_tax=SalesTax("state", 0.05, "min_hammer_fmv"))
    with pytest.raises(SpecError, match="lot 1: sales tax is due on the lower of"):
        settle(sale, [sold()])


def test_without_a_value_there_are_no_event_lines_and_the_report_says_so():
    done = settle(event(lot(), lot("2", value=value(100))), [sold(), passed("2")])
    report = board_report(done)
    assert (done.lines, report.return_lines) == (None, ())
    assert any("lots 1 state no fair market value" in word for word in report.cautions)


def test_what_becomes_of_a_lot_that_did_not_sell_is_said():
    lots = (lot(if_unsold="into a home"), lot("2", if_unsold="back to the giver"))
    report = board_report(settle(event(*lots), [passed(), passed("2")]))
    assert report.unsold == (
        "Lot 1, Piece 1: passed; into a home.",
        "Lot 2, Piece 2: passed; back to the giver.",
    )


# ---- results that cannot be


@pytest.mark.parametrize(
    ("result", "words"),
    [
        (sold(state="gone"), 'state is "gone"; use one of sold, passed'),
        (sold(cents=1500), "15.00 is below the opening bid 20.00; correct it, or"),
        (sold(paddle=""), "is sold, but to no paddle"),
        (sold(cents=-100), "it must be more than 0"),
        (sold(cents=0), "it must be more than 0"),
        (sold(cents=True), "hammer price is True; it must be whole cents"),
        (sold(cents=300.5), "hammer price is 300.5; it must be whole cents"),
        (sold(cents=None), "is sold without a hammer price"),
        (sold(method=""), "is paid, but not how"),
        (sold(method="barter"), 'method is "barter"'),
        (sold(paid="yes"), "paid is 'yes'; say True or False"),
        (sold(on=date(2027, 4, 16)), "is before bidding opened"),
        (Result(lot="1", state="passed", hammer_cents=900), "yet has a hammer price"),
        (Result(lot="1", state="withdrawn", paddle="3"), "and yet has a paddle"),
        (sold(state="void"), "is void without a reason"),
    ],
)
def test_a_result_that_cannot_be_right_is_refused(result, words):
    with pytest.raises(SpecError, match=re.escape(words)) as caught:
        settle(event(), [result])
    assert all(fault.startswith("lot 1: ") for fault in caught.value.faults)


def test_a_price_off_the_ladder_is_allowed_for_bidders_jump():
    assert settle(event(), [sold(cents=20137)]).raised_cents == 20137


def test_every_lot_has_one_result_and_only_lots_have():
    with pytest.raises(SpecError, match="stands twice") as caught:
        settle(event(lot(), lot("2")), [sold(), sold("01"), sold("9")])
    said = "\n".join(caught.value.faults)
    assert "lot 9: is not in the catalogue of Spring sale" in said
    assert "lot 2 has no result" in said


def test_a_reserve_not_met_needs_a_word_of_why():
    sale = event(lot(reserve_cents=25000))
    with pytest.raises(SpecError, match=re.escape("does not reach the reserve 250.00")):
        settle(sale, [sold(cents=20000)])
    done = settle(sale, [sold(cents=20000, note="the maker agreed")])
    assert done.raised_cents == 20000


# ---- events that cannot be


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"lots": ()}, "the event has no lots"),
        ({"lots": (lot("7"), lot("07"))}, "lot 07 stands twice"),
        ({"lots": (lot(opening_cents=2100),)}, "21.00 is not on the ladder"),
        ({"deductions": ()}, "no rule says who gets what is left"),
        (
            {"deductions": (Rest("a"), Rest("b"))},
            "both",
        ),
        (
            {"deductions": (NO_TAX, Rest(SHARE))},
            "sales tax stands among the deductions",
        ),
        ({"deductions": (Repay("maker", 500), Rest(SHARE))}, "states a cost; leave it"),
        ({"deductions": (Share("maker", 0.1), Rest(SHARE))}, "who has no name"),
        ({"lots": (lot(repay_cents=500),)}, "but no rule repays them"),
        ({"key": "=x"}, "a key is letters"),
        ({"common": -0.1}, "common is -0.1; it must be 0 or more"),
        ({"limits": (("hours", float("nan")),)}, "limit hours is nan"),
        ({"target_cents": -1}, "target is -1 cents"),
        (
            {"costs": (Cost(item="Feet", amount_cents=100, line="other", lot="9"),)},
            'cost "Feet" names lot 9, which is not there',
        ),
    ],
)
def test_an_event_that_cannot_be_is_refused(changed, words):
    with pytest.raises(SpecError, match=re.escape(words)):
        event(**changed)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"reserve_cents": 1500}, "reserve 15.00 is below opening bid 20.00"),
        (
            {
                "reserve_cents": 9000,
                "estimate_low_cents": 5000,
                "estimate_high_cents": 9500,
            },
            "reserve 90.00 is above the low estimate 50.00",
        ),
        ({"estimate_low_cents": 5000}, "the estimate has one end"),
        (
            {"estimate_low_cents": 5000, "estimate_high_cents": 4000},
            "estimate 50.00 to 40.00 runs backwards",
        ),
        ({"opening_cents": 0}, "it must be more than 0"),
        ({"owner": "guild"}, 'owner is "guild"'),
        ({"if_unsold": "burn"}, 'if_unsold is "burn"'),
        ({"title": " "}, "title is ' '; write it"),
    ],
)
def test_a_lot_that_cannot_be_is_refused(changed, words):
    with pytest.raises(SpecError, match=re.escape(words)):
        lot(**changed)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Cost(item="Hall", amount_cents=-1, line="rent"), "amount is -1 cents"),
        (lambda: Cost(item="Hall", amount_cents=1, line="hall"), 'line is "hall"'),
        (lambda: Gift(item="x", value_cents=1, by="", kind="cash"), "by is ''"),
        (
            lambda: Ticket(item="x", price_cents=1, value_cents=1, count=True),
            "count is True",
        ),
        (
            lambda: NetPaysFor(
                unit="home", cost_cents=0, stated_by="T", stated_on=date(2027, 1, 1)
            ),
            "cost is 0 cents; it must be more than 0",
        ),
        (lambda: Demand(median_cents=1, sigma=0, bidders=1), "sigma is 0"),
        (lambda: Candidate(name="x", most=0), "most is 0"),
        (lambda: LotCost(hours=float("inf")), "hours is inf"),
        (lambda: Counted(cash_cents=-5), "cash_cents is -5 cents"),
    ],
)
def test_a_value_that_cannot_be_is_refused(make, words):
    with pytest.raises((SpecError, MoneyError), match=re.escape(words)):
        make()


# ---- control totals


def test_control_totals_catch_papers_that_were_tampered_with():
    done = settle(spring(), spring_results())
    first = done.invoices[0]
    tampered = {
        "hammer prices are on the invoices": replace(done, invoices=done.invoices[1:]),
        "charged is hammer, premium and tax": replace(done, ledger=done.ledger[1:]),
        "sales made void are taken back": replace(
            done, ledger=tuple(x for x in done.ledger if x.kind == "sale")
        ),
        "payouts make what was charged": replace(done, payouts=done.payouts[1:]),
        "every paddle that paid has a receipt": replace(
            done, receipts=done.receipts[1:]
        ),
        "receipts are numbered without a gap": replace(
            done, receipts=tuple(replace(x, number=x.number + 1) for x in done.receipts)
        ),
        "every lot has a result": replace(done, lots=done.lots[1:]),
        "cash by the lots and as counted": replace(done, counted=Counted(cash_cents=1)),
    }
    assert first.unpaid_cents == 0
    for name, other in tampered.items():
        failed = {x.name for x in controls(other) if not x.passes}
        assert name in failed
        report = board_report(replace(other, controls=controls(other)))
        assert not report.is_clean
        assert report.verdict.startswith("NOT CLEAN")
        assert name in report.verdict


def test_money_counted_that_differs_refuses_a_clean_bill():
    done = settle(event(), [sold()], Counted(cash_cents=29999))
    assert not done.is_clean
    failed = next(x for x in done.controls if not x.passes)
    assert failed.words == (
        "FAIL: cash by the lots and as counted: by the lots 300.00, counted apart from "
        "them 299.99."
    )


PRICES = st.integers(min_value=2000, max_value=10**7)
STATES = st.sampled_from(["cash", "cheque", "card", "unpaid", "passed", "void"])


@settings(max_examples=60, deadline=None)
@given(
    rows=st.lists(st.tuples(PRICES, PRICES, STATES), min_size=1, max_size=12),
    fee=st.integers(min_value=0, max_value=99),
    rate=st.sampled_from([0, 0.05, 0.0725, 0.1]),
    base=st.sampled_from(["hammer", "hammer_plus_premium", "min_hammer_fmv"]),
    premium=st.sampled_from([0.0, 0.1, 0.175]),
    costs=st.integers(min_value=0, max_value=10**6),
)
def test_every_evening_foots_to_the_cent(rows, fee, rate, base, premium, costs):
    lots, results = [], []
    for number, (price, worth, state) in enumerate(rows, start=1):
        key = str(number)
        repay = worth % 7000
        lots.append(lot(key, value=value(worth), maker=f"m{key}", repay_cents=repay))
        hammered = {
            "hammer_cents": price,
            "paddle": str(price % 5),
            "paid": state in ("cash", "cheque", "card"),
            "method": state if state in ("cash", "cheque", "card") else "",
        }
        if state == "passed":
            results.append(passed(key))
        elif state == "void":
            why = {"note": "x", "initials": "x", "on": date(2027, 4, 18)}
            results.append(Result(lot=key, state="void", **(hammered | why)))
        else:
            results.append(Result(lot=key, state="sold", **hammered))
    sale = event(
        *lots,
        sales_tax=SalesTax("state", rate, base),
        deductions=(
            Premium(share=premium),
            CardFee("processor", 0.029, fee),
            Repay("maker", 0, 5000),
            Share("guild", 0.05),
            Rest(SHARE),
        ),
        costs=(Cost(item="Hall", amount_cents=costs, line="rent"),),
    )
    done = settle(sale, results)
    assert done.is_clean, [x.words for x in done.controls if not x.passes]
    parts = sum(x.due_cents + x.pending_cents for x in done.payouts)
    assert parts == done.charged_cents
    random.Random(1).shuffle(results)
    assert settle(sale, results) == done
    totals = EventTotals(**to_totals(done))
    assert (totals.raised_cents, totals.net_cents) == (
        done.raised_cents,
        done.net_cents,
    )


def test_several_events_roll_up_into_a_year():
    one = settle(event(), [sold()])
    two = settle(event(name="Autumn sale", on=date(2027, 10, 2)), [sold(cents=10000)])
    year = roll_up(EventTotals(**to_totals(done)) for done in (one, two))
    assert (year.raised_cents, year.lots_sold) == (40000, 2)


# ---- filling in, naming, speed


def test_what_a_lot_states_stays_and_the_rest_is_filled_in():
    stated = LotCost(used_up_cents=100)
    sale = event(lot(cost=stated), lot("2"))
    filled = with_costs(sale, {"1": LotCost(used_up_cents=9), "02": LotCost(hours=3)})
    assert [x.cost for x in filled.lots] == [stated, LotCost(hours=3)]
    with pytest.raises(SpecError, match='"9" is no lot of Spring sale'):
        with_costs(sale, {"9": stated})
    demand = Demand(median_cents=20000, sigma=0.4, bidders=3)
    advised = with_advice(
        event(lot(estimate_low_cents=5000, estimate_high_cents=6000), lot("2")),
        {
            key: LotAdvice(
                estimate_low_cents=1000, estimate_high_cents=9000, demand=demand
            )
            for key in ("1", "2")
        },
    )
    assert [x.estimate_low_cents for x in advised.lots] == [5000, 1000]
    assert [x["median_cents"] for x in evening_lots(advised)] == [20000, 20000]


def test_a_reserve_between_two_rungs_opens_the_forecast_at_the_next_one():
    demand = Demand(median_cents=30_000, sigma=0.4, bidders=3)
    sale = event(lot(opening_cents=20_000, reserve_cents=21_300, demand=demand))
    assert not sale.ladder.holds(21_300)
    assert evening_lots(sale)[0]["opening_cents"] == 22_000
    assert evening(evening_lots(sale), 1, 500, 0.1, ladder=sale.ladder).mean_cents > 0


def test_candidates_are_filled_in_and_refused_while_a_figure_is_open():
    limits = (("hours", 40), ("money", 100))
    sale = event(candidates=(Candidate(name="Chest", cost_cents=900),), limits=limits)
    with pytest.raises(SpecError, match='"Chest": finished is not known'):
        choice_pieces(sale)
    found = Candidate(
        name="Chest",
        as_is_cents=1000,
        finished_cents=9000,
        cost_cents=5,
        needs=(("hours", 4),),
    )
    pieces, _ = choice_pieces(with_candidates(sale, [found]))
    assert pieces[0]["uplift_cents"] == 9000 - 1000 - 900
    with pytest.raises(SpecError, match='"Chost" is no candidate'):
        with_candidates(sale, [replace(found, name="Chost")])


def test_a_second_settlement_never_takes_the_name_of_the_first():
    names: list[str] = []
    for _ in range(3):
        names.append(settlement_name(event(), names) + ".xlsx")
    assert names == [f"spring settlement {n}.xlsx" for n in (1, 2, 3)]
    assert settlement_name(event(), ["SPRING SETTLEMENT 1"]) == "spring settlement 2"


def test_a_thousand_lots_settle_within_the_budget():
    lots = tuple(
        lot(str(n), maker=f"m{n}", repay_cents=n % 500) for n in range(1, 1001)
    )
    sale = event(
        *lots,
        deductions=(CardFee("processor", 0.029, 30), Repay("maker", 0), Rest(SHARE)),
    )
    results = [sold(str(n), 20000 + n, paddle=str(n % 90 + 1)) for n in range(1, 1001)]
    began = time.perf_counter()
    done = settle(sale, results)
    took = time.perf_counter() - began
    assert done.is_clean
    assert took < 2, took  # 1 s is the goal on a quiet machine
