"""A price is split to the last cent, in the order of the rules."""

import time
import tomllib
from dataclasses import FrozenInstanceError
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import proceeds
from pricebook.errors import MoneyError, PricebookError
from pricebook.proceeds import (
    CardFee,
    Fixed,
    Premium,
    Repay,
    Rest,
    RestByWeight,
    SalesTax,
    Share,
)

EVENING = (
    SalesTax("state", 0.06, "hammer_plus_premium"),
    Premium(share=0.10),
    Share("auctioneer", 0.10, label="commission"),
    CardFee("card processor", 0.029, 30),
    Repay("maker", 118_40, label="materials"),
    Share("guild", 0.05),
    Rest("charity"),
)
WATERFALL = (
    Fixed("auctioneer", 35_00, "lot fee"),
    CardFee("card processor", 0.029, 30),
    Repay("maker", 212_40, 180_00, "materials"),
    Share("maker", 0.20, "left", 50_00, 150_00, label="maker's share"),
    RestByWeight({"charity": 60, "guild": 30, "venue": 10}),
)
IN_A_FILE = (
    {"kind": "fixed", "payee": "auctioneer", "amount": "35.00", "label": "lot fee"},
    {"kind": "card_fee", "payee": "card processor", "rate": 0.029, "fixed": "0.30"},
    {
        "kind": "repay",
        "payee": "maker",
        "cost": "212.40",
        "cap": "180",
        "label": "materials",
    },
    {
        "kind": "share",
        "payee": "maker",
        "share": 0.20,
        "of": "left",
        "floor": "50",
        "cap": "150",
        "label": "maker's share",
    },
    {"kind": "rest_by_weight", "weights": {"charity": 60, "guild": 30, "venue": 10}},
)


AN_EVENTS_FILE = """
[[deductions]]
kind = "sales_tax"
payee = "state"
rate = 0.06
base = "hammer_plus_premium"

[[deductions]]
kind = "premium"
share = 0.10

[[deductions]]
kind = "share"
payee = "auctioneer"
label = "commission"
tiers = [{ up_to = "1,000", share = 0.10 }, { share = 0.05 }]

[[deductions]]
kind = "card_fee"
payee = "card processor"
rate = 0.029
fixed = "0.30"

[[deductions]]
kind = "repay"
payee = "maker"
label = "materials"

[[deductions]]
kind = "share"
payee = "guild"
share = 0.05

[[deductions]]
kind = "rest"
payee = "charity"
"""


def lines_of(split):
    return [line.amount_cents for line in split.lines]


def cents(amount):
    return int(amount.quantize(Decimal(1), ROUND_HALF_UP))


# Worked by hand: the lot fee, the card fee, the materials up to their cap, a fifth of
# the rest between floor and cap, and 60 : 30 : 10 of what is then left.
@pytest.mark.parametrize("rules", [WATERFALL, IN_A_FILE], ids=["values", "mappings"])
@pytest.mark.parametrize(
    ("price", "lines"),
    [
        (1000_00, [35_00, 29_30, 180_00, 150_00, 363_42, 181_71, 60_57]),
        (400_00, [35_00, 11_90, 180_00, 50_00, 73_86, 36_93, 12_31]),
        (30_00, [30_00, 0, 0, 0, 0, 0, 0]),
    ],
)
def test_the_worked_prices_are_split_as_by_hand(rules, price, lines):
    split = proceeds.split(price, rules)
    assert lines_of(split) == lines
    assert sum(split.amounts.values()) == price


def test_a_full_settlement_foots_as_by_hand():
    """900.00, premium 90.00, tax 59.40, card fee 30.73: 705.87 to the charity."""
    split = proceeds.split(900_00, EVENING)
    assert (split.premium_cents, split.tax_cents) == (90_00, 59_40)
    assert split.charged_cents == 1_049_40
    assert dict(split.amounts) == {
        "state": 59_40,
        "auctioneer": 90_00,
        "card processor": 30_73,
        "maker": 118_40,
        "guild": 45_00,
        "charity": 705_87,
    }
    assert split.charity_cents == 705_87


def test_a_premium_paid_to_the_charity_comes_to_the_same():
    rules = (EVENING[0], Premium("charity", 0.10), *EVENING[2:])
    assert proceeds.split(900_00, rules).charity_cents == 705_87


def test_a_premium_paid_to_the_house_is_not_the_charitys():
    rules = (EVENING[0], Premium("auction house", 0.10), *EVENING[2:])
    assert proceeds.split(900_00, rules).charity_cents == 705_87 - 90_00


def test_every_line_says_how_it_was_worked_out():
    words = [line.how for line in proceeds.split(900_00, EVENING).lines]
    assert words[0] == "6 % of hammer price and premium: 990.00"
    assert words[2] == ("2.9 % of the amount charged + 0.30, if paid by card: 1,049.40")
    assert words[-1] == "all that is left: 705.87"


def test_the_order_of_deductions_can_be_printed_without_a_price():
    words = proceeds.read_rules(WATERFALL).words
    assert words[0] == ("lot fee", "auctioneer", "a fixed amount a lot")
    assert words[3] == (
        "maker's share",
        "maker",
        "20 % of what is left, at least 50.00, at most 150.00",
    )
    assert words[4][1:] == (
        "charity, guild, venue",
        "all that is left, shared 60 : 30 : 10",
    )


def test_two_payees_may_share_one_base_by_its_name():
    rules = [
        Repay("maker", 100_00, label="materials"),
        Share("guild", 0.10, "left", after="materials"),
        Share("venue", 0.10, "left", after="materials"),
        Rest("charity"),
    ]
    split = proceeds.split(300_00, rules)
    assert lines_of(split) == [100_00, 20_00, 20_00, 160_00]


def test_without_a_named_base_each_takes_its_share_of_what_is_then_left():
    rules = [
        Share("guild", 0.10, "left"),
        Share("venue", 0.10, "left"),
        Rest("charity"),
    ]
    assert lines_of(proceeds.split(200_00, rules)) == [20_00, 18_00, 162_00]


def test_a_commission_may_fall_by_marginal_tiers():
    rules = [
        Share("auctioneer", tiers=((500_00, 0.10), (None, 0.05))),
        Rest("charity"),
    ]
    assert proceeds.split(700_00, rules).amounts["auctioneer"] == 60_00


def test_tiers_in_a_file_are_read_alike():
    tiers = [{"up_to": "500", "share": 0.10}, {"share": 0.05}]
    rules = [
        {"kind": "share", "payee": "auctioneer", "tiers": tiers},
        {"kind": "rest", "payee": "charity"},
    ]
    assert proceeds.split(700_00, rules).amounts["auctioneer"] == 60_00


def test_no_card_fee_is_due_on_cash():
    split = proceeds.split(900_00, EVENING, by_card=False)
    assert split.amounts["card processor"] == 0
    assert split.charity_cents == 705_87 + 30_73


def test_tax_on_the_lower_of_price_and_value():
    rules = [SalesTax("state", 0.06, "min_hammer_fmv"), Rest("charity")]
    above = proceeds.split(550_00, rules, fair_market_value_cents=400_00)
    below = proceeds.split(250_00, rules, fair_market_value_cents=400_00)
    assert (above.tax_cents, below.tax_cents) == (24_00, 15_00)


def test_each_lot_may_state_its_own_cost():
    rules = [Repay("maker", cap_cents=180_00, label="materials"), Rest("charity")]
    split = proceeds.split(500_00, rules, costs_cents={"materials": 118_40})
    assert split.charity_cents == 381_60


def test_an_events_file_states_the_same_settlement():
    rules = tomllib.loads(AN_EVENTS_FILE)["deductions"]
    split = proceeds.split(900_00, rules, costs_cents={"materials": 118_40})
    assert lines_of(split) == lines_of(proceeds.split(900_00, EVENING))


def test_a_shortage_goes_by_the_order_of_the_rules_and_is_told():
    split = proceeds.split(100_00, WATERFALL)
    assert lines_of(split) == [35_00, 3_20, 61_80, 0, 0, 0, 0]
    assert split.lines[2].how.endswith("118.20 could not be paid")
    assert split.short_cents == 118_20 + 50_00


def test_a_split_cannot_be_changed():
    split = proceeds.split(100_00, WATERFALL)
    with pytest.raises(FrozenInstanceError, match="hammer_cents"):
        split.hammer_cents = 0
    with pytest.raises(TypeError, match="does not support item assignment"):
        split.amounts["charity"] = 1


def by_hand(hammer):
    """Settle the evening's rules in decimals, in the order of the invoice."""
    price = Decimal(hammer)
    premium = cents(price * Decimal("0.10"))
    tax = cents((price + premium) * Decimal("0.06"))
    charged = hammer + premium + tax
    fee = cents(charged * Decimal("0.029")) + 30 if charged else 0
    claims = [
        tax,
        cents(price * Decimal("0.10")),
        fee,
        118_40,
        cents(price * Decimal("0.05")),
    ]
    left = charged
    paid = []
    for claim in claims:
        paid.append(min(claim, left))
        left -= paid[-1]
    return [*paid, left]


PRICES = [*range(0, 300_00), *range(300_00, 1_000_000, 101), 1_000_000]


def test_every_price_foots_and_nothing_goes_negative():
    ready = proceeds.read_rules(EVENING)
    for price, split in zip(PRICES, proceeds.what_if(PRICES, ready), strict=True):
        paid = lines_of(split)
        assert sum(paid) == split.charged_cents
        assert min(paid) >= 0
        assert paid == by_hand(price)


def test_more_money_takes_no_more_than_a_cent_from_anyone():
    last = None
    for split in proceeds.what_if(range(250_00, 450_00), WATERFALL):
        if last is not None:
            falls = [
                a - b for a, b in zip(lines_of(last), lines_of(split), strict=True)
            ]
            assert max(falls) <= 1
        last = split


SHARES = st.fractions(0, Fraction(1, 6), max_denominator=1000)
MONEY = st.integers(0, 300_00)


@st.composite
def rule_lists(draw):
    rules = []
    if draw(st.booleans()):
        base = draw(st.sampled_from(["none", "hammer", "hammer_plus_premium"]))
        rate = None if base == "none" else draw(SHARES)
        rules.append(SalesTax("state", rate, base))
    if draw(st.booleans()):
        owner = draw(st.sampled_from([None, "house", "charity"]))
        rules.append(Premium(owner, draw(SHARES)))
    one = st.one_of(
        st.builds(Share, st.just("guild"), SHARES, st.sampled_from(["hammer", "left"])),
        st.builds(CardFee, st.just("card"), st.fractions(0, Fraction(1, 20)), MONEY),
        st.builds(Fixed, st.just("venue"), MONEY),
        st.builds(Repay, st.just("maker"), MONEY, MONEY),
    )
    rules += draw(st.lists(one, max_size=3))
    weights = {"charity": 3, "guild": 1}
    rest = st.sampled_from([Rest("charity"), RestByWeight(weights)])
    return [*rules, draw(rest)]


@settings(max_examples=120, deadline=None)
@given(hammer=st.integers(0, 2_000_000), rules=rule_lists(), by_card=st.booleans())
def test_any_split_sums_to_what_was_charged(hammer, rules, by_card):
    split = proceeds.split(hammer, rules, by_card=by_card)
    assert sum(split.amounts.values()) == split.charged_cents
    assert min(lines_of(split)) >= 0
    assert split.charged_cents == hammer + split.premium_cents + split.tax_cents
    for line in split.lines:
        assert line.amount_cents + line.short_cents == line.claim_cents


@settings(max_examples=40, deadline=None)
@given(net=st.integers(0, 60_00), rules=rule_lists())
def test_the_price_for_a_net_is_the_smallest_that_leaves_it(net, rules):
    price = proceeds.hammer_for_net(net, rules)
    leaves = proceeds.net_to_charity(rules)
    assert leaves(price) >= net
    assert all(leaves(lower) < net for lower in range(max(price - 4000, 0), price))


def test_the_price_for_a_net_agrees_with_the_gross_up():
    """P = (N + f) / (1 - sum of shares): (150 + 4.30) / 0.821 = 187.9415."""
    rules = [
        Share("auctioneer", 0.05),
        CardFee("card processor", 0.029),
        Share("venue", 0.10),
        Fixed("printer", 4_30),
        Rest("charity"),
    ]
    assert proceeds.hammer_for_net(150_00, rules) == 187_94
    assert proceeds.net_to_charity(rules)(187_94) == 150_00


def test_the_price_for_a_net_with_fees_on_the_total():
    """H = (N + k) / ((1 + b) - p - c(1 + b)(1 + t)) = 151.9377 by algebra."""
    rules = [
        SalesTax("state", 0.08, "hammer_plus_premium"),
        Premium(share=0.10),
        Share("platform", 0.05),
        CardFee("card processor", 0.029, 30),
        Fixed("printer", 4_00),
        Rest("charity"),
    ]
    exact = (Fraction(15430)) / (
        Fraction("1.10") - Fraction("0.05") - Fraction("0.029") * Fraction("1.188")
    )
    assert float(exact) == pytest.approx(15193.7673, abs=0.0001)
    assert proceeds.hammer_for_net(150_00, rules) == pytest.approx(float(exact), abs=1)


@pytest.mark.parametrize(
    ("rules", "sentence"),
    [
        ([Share("guild", 0.6), Share("venue", 0.5), Rest("charity")], "come to 1.1"),
        (
            [CardFee("card", 0.7), Share("guild", 0.4), Rest("charity")],
            "shares of card fee, guild come to 1.1",
        ),
        ([Share("guild", 0.5)], "no rule says who gets what is left"),
        ([Rest("charity"), Share("guild", 0.5)], "takes the rest, so no rule may"),
        ([Rest("charity"), Rest("guild")], "both take the rest"),
        ([SalesTax("state"), Rest("charity")], "sales tax is not set"),
        ([SalesTax("state", 0.06), Rest("charity")], "sales tax is not set"),
        (
            [Fixed("venue", 1), SalesTax("state", 0.06, "hammer"), Rest("charity")],
            "move it to the top",
        ),
        ([Premium("a", 0.1), Premium("b", 0.1), Rest("charity")], "two premiums"),
        (
            [Share("guild", 0.1, "left", after="glue"), Rest("charity")],
            'after names "glue", and no rule before it',
        ),
        (
            [{"kind": "gift", "payee": "x"}, Rest("charity")],
            'kind is "gift"; use one of',
        ),
        ([{"kind": "fixed", "payee": "x"}, Rest("charity")], "amount_cents is missing"),
        (
            [{"kind": "fixed", "payee": "x", "ammount": "3"}, Rest("charity")],
            'key "ammount" is not known for fixed; did you mean "amount_cents"',
        ),
        (
            [{"kind": "fixed", "payee": "x", "amount": "-3"}, Rest("charity")],
            '"-3" is not an amount of money',
        ),
        ([3, Rest("charity")], "rule 1: 3 is no rule"),
        ("rest", "rules are 'rest'; give a list"),
        ([], "no rule says who gets what is left"),
    ],
)
def test_rules_that_cannot_be_are_refused(rules, sentence):
    with pytest.raises(MoneyError, match=sentence):
        proceeds.split(100_00, rules)


@pytest.mark.parametrize(
    ("build", "sentence"),
    [
        (lambda: Share("guild", 1.2), "share is 1.2; it must be from 0 to 1"),
        (lambda: Share("guild", -0.1), "share is -0.1; it must be from 0 to 1"),
        (lambda: Share("guild", float("nan")), "share is nan"),
        (lambda: Share("guild", True), "share is True"),
        (lambda: Share("guild", 0.1, "hamer"), 'of is "hamer"; did you mean "hammer"'),
        (lambda: Share("", 0.1), "payee is ''; name who is paid"),
        (lambda: Share("maker", 0.1, "left", 50_00, 40_00), "cap 40.00 is below floor"),
        (lambda: Share("maker"), "give a share or tiers"),
        (lambda: Share("maker", Decimal("sNaN")), r"share is Decimal\('sNaN'\)"),
        (lambda: Share("maker", 0.1, "left", after=5), "after is 5; write text"),
        (lambda: Fixed("venue", 1, label=None), "label is None; write text"),
        (lambda: SalesTax("state", label=3), "label is 3; write text"),
        (lambda: Rest(3), "payee is 3; name who is paid"),
        (lambda: CardFee("card", 1), "eats the whole price"),
        (lambda: CardFee("card", 0.03, -30), "fixed_cents is -30; it must be whole"),
        (lambda: Fixed("venue", -1), "amount_cents is -1"),
        (lambda: Fixed("venue", 1.5), "amount_cents is 1.5"),
        (lambda: Repay("maker", -1), "cost_cents is -1"),
        (lambda: SalesTax("state", 0.06, "price"), 'base is "price"; use one of'),
        (lambda: SalesTax("state", 0.06, "none"), "on base none"),
        (
            lambda: Premium("house", tiers=[(500, 0.1), (400, 0.2), (None, 0)]),
            "upwards",
        ),
        (lambda: Premium("house", tiers=[(500, 0.1)]), "let it run on with None"),
        (lambda: RestByWeight({}), "give a weight for each payee"),
        (lambda: RestByWeight({"charity": 0}), "must be above 0"),
        (lambda: RestByWeight([("a", 1), ("a", 2)]), "name a payee twice"),
    ],
)
def test_a_rule_that_cannot_be_is_refused_when_it_is_made(build, sentence):
    with pytest.raises(MoneyError, match=sentence):
        build()


@pytest.mark.parametrize("price", [-1, 1.5, True, None, "100", float("nan")])
def test_a_price_that_is_not_whole_cents_is_refused(price):
    with pytest.raises(MoneyError, match="hammer price is"):
        proceeds.split(price, WATERFALL)


def test_an_unknown_payee_is_named_with_the_nearest():
    payees = ("state", "auctioneer", "card processor", "maker", "gild", "charity")
    with pytest.raises(MoneyError, match=r'"guild" is unknown; did you mean "gild"'):
        proceeds.split(900_00, EVENING, payees=payees)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"by_card": "no"}, "by_card is 'no'; say True or False"),
        ({"payees": "charity"}, 'payees are "charity"; give a list'),
        ({"costs_cents": 5}, "costs are 5; give a mapping"),
        ({"fair_market_value_cents": -1}, "fair market value is -1"),
    ],
)
def test_terms_of_a_lot_that_cannot_be_are_refused(given, sentence):
    with pytest.raises(MoneyError, match=sentence):
        proceeds.split(100_00, [Rest("charity")], **given)


def test_a_list_that_must_state_its_tax_is_refused_without():
    with pytest.raises(MoneyError, match="sales tax is not set, so no total"):
        proceeds.read_rules(WATERFALL, tax_required=True)
    stated = [SalesTax("state", base="none"), *WATERFALL]
    assert proceeds.split(400_00, stated).tax_cents == 0


def test_tax_on_the_lower_needs_the_value():
    rules = [SalesTax("state", 0.06, "min_hammer_fmv"), Rest("charity")]
    with pytest.raises(MoneyError, match="no fair market value is given"):
        proceeds.split(100_00, rules)


def test_a_cost_that_is_missing_or_that_no_rule_repays_is_refused():
    rules = [Repay("maker", label="materials"), Rest("charity")]
    with pytest.raises(MoneyError, match='no documented cost is given for "materials"'):
        proceeds.split(100_00, rules)
    with pytest.raises(MoneyError, match='no repayment waits for a cost of "glue"'):
        proceeds.split(100_00, rules, costs_cents={"materials": 0, "glue": 5})


def test_all_faults_of_a_list_are_told_at_once():
    rules = [
        {"kind": "shar", "payee": "guild"},
        {"kind": "share", "payee": "", "share": 2, "base": "hammer"},
        {"kind": "fixed", "payee": "venue", "amount": "1.234"},
    ]
    with pytest.raises(PricebookError, match="rule 1: kind") as caught:
        proceeds.split(100_00, rules)
    assert [fault[:6] for fault in caught.value.faults] == ["rule 1"] + 3 * [
        "rule 2"
    ] + ["rule 3"]


def test_a_truth_value_is_not_taken_for_a_number_that_was_read_before():
    rules = [{"kind": "fixed", "payee": "venue", "amount_cents": 1}, Rest("charity")]
    assert proceeds.split(5, rules).amounts["venue"] == 1
    rules[0] = {**rules[0], "amount_cents": True}
    with pytest.raises(MoneyError, match="amount_cents is True"):
        proceeds.split(5, rules)


def test_a_net_that_no_price_leaves_is_refused():
    rules = [Share("guild", 1.0), Rest("charity")]
    with pytest.raises(MoneyError, match="no hammer price up to"):
        proceeds.hammer_for_net(1, rules)


@pytest.mark.parametrize(
    ("tiers", "sentence"),
    [
        ([(None, 0.1), (500, 0.2)], "tier 1 has no end, yet a tier follows"),
        ([(500, 0.1), (500, 0.2)], "tier 2 ends at 5.00, not above 5.00"),
        ([(500, 1.1)], "share is 1.1"),
        ([(500, 0.1)], "lies above the last tier"),
        ([], "tiers are empty"),
        (0.1, "tiers are 0.1"),
    ],
)
def test_tiers_that_cannot_be_are_refused(tiers, sentence):
    with pytest.raises(MoneyError, match=sentence):
        proceeds.premium_cents(600, tiers)


@pytest.mark.parametrize(
    ("prices", "rate", "per", "sentence"),
    [
        ([100], 0.05, "lot", 'per is "lot"; use one of item, invoice'),
        ([-1], 0.05, "item", "price 1 is -1"),
        ([100], 1.5, "item", "rate is 1.5"),
    ],
)
def test_tax_that_cannot_be_is_refused(prices, rate, per, sentence):
    with pytest.raises(MoneyError, match=sentence):
        proceeds.sales_tax_cents(prices, rate, per=per)


@pytest.mark.benchmark
def test_a_grid_of_50_prices_and_20_shares(capsys):
    prices = range(100_00, 1100_00, 20_00)
    lists = [(*EVENING[:5], Share("guild", n / 100), EVENING[6]) for n in range(20)]
    start = time.perf_counter()
    done = [proceeds.split(price, rules) for rules in lists for price in prices]
    taken = time.perf_counter() - start
    with capsys.disabled():
        print(f"\n{len(done)} splits in {1000 * taken:.0f} ms")
    assert len(done) == 1000


def test_amounts_of_any_whole_type_are_split_as_plain_whole_numbers():
    numpy = pytest.importorskip("numpy")
    rules = [
        {"kind": "premium", "tiers": [(numpy.int64(100_00), 0.2), (numpy.inf, 0.1)]},
        {"kind": "fixed", "payee": "auctioneer", "amount_cents": numpy.int32(35_00)},
        {"kind": "repay", "payee": "maker", "cap_cents": numpy.int64(60_00)},
        {"kind": "share", "payee": "guild", "share": numpy.float32(0.05),
         "cap_cents": numpy.int16(100_00)},
        {"kind": "rest", "payee": "charity"},
    ]  # fmt: skip
    done = proceeds.split(
        numpy.int64(900_00), rules, costs_cents={"maker": numpy.int64(70_00)}
    )
    assert dict(done.amounts) == {
        "auctioneer": 35_00,
        "maker": 60_00,
        "guild": 45_00,
        "charity": 860_00,  # premium 20.00 + 80.00 kept: 1,000.00 in all
    }
    assert {type(amount) for amount in done.amounts.values()} == {int}


def test_a_floor_above_a_cap_is_refused_whatever_their_type():
    numpy = pytest.importorskip("numpy")
    with pytest.raises(MoneyError, match=r"cap 40\.00 is below floor 50\.00"):
        Share("a", 0.1, floor_cents=numpy.int64(5000), cap_cents=numpy.int64(4000))


@pytest.mark.parametrize("prices", [None, 5, "12", True])
def test_prices_are_a_row(prices):
    with pytest.raises(MoneyError, match="give a row of whole cents"):
        proceeds.what_if(prices, EVENING)
    with pytest.raises(MoneyError, match="give a row of whole cents"):
        proceeds.sales_tax_cents(prices, 0.05, per="item")


@pytest.mark.parametrize("payees", [True, 3, "charity"])
def test_payees_are_a_list_of_names(payees):
    with pytest.raises(MoneyError, match="give a list of names"):
        proceeds.split(100, [Rest("charity")], payees=payees)


def test_a_weight_of_true_is_refused_although_a_weight_of_1_was_read_before():
    def rules(weight):
        return [{"kind": "rest_by_weight", "weights": {"charity": weight, "guild": 1}}]

    assert dict(proceeds.split(10, rules(1)).amounts) == {"charity": 5, "guild": 5}
    with pytest.raises(MoneyError, match="weight of 'charity' is True"):
        proceeds.split(10, rules(True))


def test_rules_as_mappings_are_read_once():
    rows = [[100_00, 0.2], [None, 0.1]]
    first, again = (
        proceeds.read_rules(
            [
                {"kind": "premium", "tiers": list(rows)},
                {"kind": "rest_by_weight", "weights": {"charity": 2, "guild": 1}},
            ]
        )
        for _ in range(2)
    )
    assert first.deductions[0] is again.deductions[0]
    assert first.final is again.final


def test_rows_of_numpy_do_for_tiers():
    numpy = pytest.importorskip("numpy")
    rows = numpy.array([(None, 0.1)], dtype=object)
    assert Premium(tiers=rows).on(900_00) == 90_00
    with pytest.raises(MoneyError, match="tier 1 is"):
        Premium(tiers=numpy.array([1.0, 2.0]))
