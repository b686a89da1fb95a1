"""Events and results made by hypothesis: any rules that a file could state."""

from datetime import date, datetime

from hypothesis import strategies as st

from pricebook.errors import PricebookError
from pricebook.event import Cost, Event, Gift, Lot, LotCost, Result, Ticket, Value
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

ON = date(2027, 4, 17)
CHARITY = "the Share"
_SHARES = (0.05, 0.025, 0.1, 0.0725, 0.03, 0.125)
_PAYEES = ("guild", "hall", "maker", CHARITY)
_TIERS = (
    ((10_000, 0.12), (50_000, 0.05), (None, 0.02)),
    ((25_000, 0.1), (None, 0.025)),
)
cents = st.integers(1, 250_000)


def taxes():
    rated = st.sampled_from(("hammer", "hammer_plus_premium", "min_hammer_fmv"))
    rates = st.sampled_from((0.05, 0.0725, 0.08375, 0.06))
    some = st.builds(lambda base, rate: SalesTax("revenue", rate, base), rated, rates)
    return st.one_of(st.just(SalesTax("revenue", base="none")), some)


def premiums():
    owner = st.sampled_from((None, "house", CHARITY))
    flat = st.builds(Premium, owner, st.sampled_from(_SHARES))
    tiers = st.builds(lambda p, t: Premium(p, tiers=t), owner, st.sampled_from(_TIERS))
    return st.one_of(flat, tiers)


def shares(number):
    return st.builds(
        lambda payee, share, of, tiers, ends: Share(
            payee,
            None if tiers else share,
            of,
            label=f"share {number}",
            tiers=tiers or (),
            floor_cents=ends[0],
            cap_cents=ends[1],
        ),
        st.sampled_from(_PAYEES),
        st.sampled_from(_SHARES),
        st.sampled_from(
            ("hammer", "premium", "hammer_plus_premium", "charged", "left")
        ),
        st.one_of(st.none(), st.none(), st.sampled_from(_TIERS)),
        st.sampled_from(((None, None), (None, 2_500), (1_000, None), (500, 4_050))),
    )


def claims(number):
    fixed = st.builds(lambda c: Fixed("clerk", c % 4_000, f"lot fee {number}"), cents)
    repay = st.builds(
        lambda cap: Repay("maker", cap_cents=cap, label=f"materials {number}"),
        st.one_of(st.none(), st.integers(0, 6_000)),
    )
    fee = st.just(CardFee("processor", 0.029, 30, f"card fee {number}"))
    return st.one_of(shares(number), shares(number), fixed, repay, fee)


def _anchored(rules):
    """Let a last share be of what was left after the first rule."""
    first = rules[0]
    return [*rules, Share("guild", 0.25, "left", after=first.label, label="after")]


@st.composite
def deductions(draw):
    found = [draw(claims(number)) for number in range(draw(st.integers(0, 4)))]
    if found and draw(st.booleans()):
        found = _anchored(found)
    if draw(st.booleans()):
        found.insert(draw(st.integers(0, len(found))), draw(premiums()))
    weights = ((CHARITY, 60), ("guild", 30), ("hall", 10.5))
    rest = st.sampled_from((Rest(CHARITY), RestByWeight(weights, "shared")))
    return (*found, draw(rest))


@st.composite
def results_of(draw, lot):
    """Draw what became of a lot, or None where that is open."""
    state = draw(st.sampled_from(("sold",) * 5 + ("passed", "withdrawn", "void", None)))
    if state is None:
        return None
    if state in {"passed", "withdrawn"}:
        return Result(lot=lot, state=state, note="-1 hand went up")
    hammer = draw(cents)
    paid = draw(st.sampled_from(("yes", "no", "part")))
    part = draw(st.integers(0, hammer)) if paid == "part" else None
    return Result(
        lot=lot,
        state=state,
        hammer_cents=hammer,
        paddle=str(draw(st.integers(1, 40))),
        paid=paid == "yes",
        amount_cents=part,
        method=draw(st.sampled_from(("cash", "cheque", "card"))),
        on=ON,
        initials="K.L.",
        note="=agreed",
    )


@st.composite
def evenings(draw):
    """Draw an event that a file could state, and the results known of it."""
    while True:
        try:
            event = draw(_events())
            break
        except PricebookError:  # shares that come to more than there is
            continue
    results = [draw(results_of(lot.key)) for lot in event.lots]
    return event, tuple(result for result in results if result is not None)


@st.composite
def _events(draw):
    lots = tuple(
        Lot(
            key=str(number),
            title=f"=Lot+{number}",
            opening_cents=1_000 * draw(st.integers(1, 10)),
            maker=draw(st.sampled_from(("Ann", "@Bo", CHARITY))),
            value=Value(cents=draw(cents), method="two sales", by="committee", on=ON),
            repay_cents=0,
            cost=LotCost(used_up_cents=draw(cents), time_cents=draw(cents), hours=2.5),
        )
        for number in range(1, draw(st.integers(2, 5)))
    )
    event = Event(
        key="made-2027",
        name="Made evening",
        charity=CHARITY,
        on=ON,
        bidding_opens=datetime(2027, 4, 17, 18),  # noqa: DTZ001 # local time
        sales_tax=draw(taxes()),
        deductions=draw(deductions()),
        lots=lots,
        costs=(Cost(item="Hall", amount_cents=draw(cents), line="rent"),),
        tickets=(Ticket(item="Soup", price_cents=1_050, value_cents=700, count=7),),
        gifts=(Gift(item="Jar", value_cents=draw(cents), by="guests", kind="cash"),),
    )
    return _with_own_rules(draw, event)


def _with_own_rules(draw, event):
    """Let one lot have an order of its own, and let lots document their cost."""
    from dataclasses import replace

    own = draw(st.one_of(st.just(()), deductions()))
    lots = []
    for number, lot in enumerate(event.lots):
        rules = own if number == 0 else ()
        repaid = any(isinstance(x, Repay) for x in rules or event.deductions)
        cost = draw(st.integers(0, 9_000)) if repaid else 0
        lots.append(replace(lot, deductions=rules, repay_cents=cost))
    return replace(event, lots=tuple(lots))
