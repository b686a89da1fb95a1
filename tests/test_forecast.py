"""The evening as a whole, which pieces to do, and what drives a result."""

import itertools
import math
import subprocess
import sys
import time
from fractions import Fraction
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from pricebook import bidding, forecast
from pricebook.errors import PricebookError, SpecError

LOT = {"median_cents": 30_000, "sigma": 0.5, "bidders": 4, "opening_cents": 15_000}
ROOM = [(50_000, 2_500), (100_000, 5_000), (250_000, 10_000), (None, 25_000)]


def moments(lot):
    """Mean and mean square of one lot's price by quadrature of P(price > v)."""
    sigma, bidders, opening = lot["sigma"], lot["bidders"], lot["opening_cents"]

    def above(v):
        return norm.sf(math.log(v / lot["median_cents"]) / sigma) if v else 1.0

    def at_least(count, v):
        share = above(v)
        if lot.get("crowd") == "fixed":
            none = (1 - share) ** bidders
            one = bidders * share * (1 - share) ** (bidders - 1)
        else:
            none = math.exp(-bidders * share)
            one = bidders * share * none
        return 1 - none - (one if count == 2 else 0)

    top = lot["median_cents"] * math.exp(7 * sigma)
    sold = at_least(1, opening)
    tail, _ = quad(lambda v: at_least(2, v), opening, top, epsabs=1e-3, limit=300)
    twice, _ = quad(
        lambda v: 2 * v * at_least(2, v), opening, top, epsabs=1e-1, limit=300
    )
    return opening * sold + tail, opening**2 * sold + twice, sold


# --- the evening -------------------------------------------------------------


@pytest.mark.parametrize("opening", [0, 9_000, 15_000, 30_000, 45_000])
@pytest.mark.parametrize(
    ("crowd", "bidders"),
    [("poisson", 0.7), ("poisson", 4), ("fixed", 1), ("fixed", 2), ("fixed", 6)],
)
def test_a_lot_brings_what_order_statistics_say(crowd, bidders, opening):
    lot = {**LOT, "crowd": crowd, "bidders": bidders, "opening_cents": opening}
    mean, square, sold = moments(lot)
    drawn = forecast.evening([lot], 3, 40_000, 0)
    spread = math.sqrt(square - mean**2)
    assert drawn.mean_cents == pytest.approx(mean, abs=4 * spread / 200 + 1)
    assert drawn.sd_cents == pytest.approx(spread, rel=0.05, abs=1)
    found = drawn.lots[0].sold_share
    assert found == pytest.approx(sold, abs=4 * math.sqrt(sold * (1 - sold)) / 200)


@pytest.mark.parametrize(("crowd", "bidders"), [("poisson", 3), ("fixed", 3)])
def test_the_second_highest_bidder_is_found_without_listing_the_others(crowd, bidders):
    # every bidder drawn and sorted, the slow way, on draws of its own
    rng = np.random.default_rng(11)
    prices = []
    for count in (
        rng.poisson(bidders, 20_000) if crowd == "poisson" else [bidders] * 20_000
    ):
        values = np.sort(30_000 * np.exp(0.5 * rng.standard_normal(count)))
        if count == 0 or values[-1] < 15_000:
            prices.append(0.0)
        else:
            prices.append(max(values[-2] if count > 1 else 0.0, 15_000))
    drawn = forecast.evening([(30_000, 0.5, bidders, 15_000, crowd)], 5, 20_000, 0)
    both = math.sqrt(2) * drawn.standard_error_cents
    assert drawn.mean_cents == pytest.approx(np.mean(prices), abs=4 * both)
    for share, cents in drawn.quantiles.items():
        assert cents == pytest.approx(np.quantile(prices, share), rel=0.03)


def test_forty_equal_lots_with_and_without_a_common_factor():
    # a Poisson crowd of 4, opening at half the median: 1.12898499 medians a lot
    # (closed form of bidding, by quadrature above)
    alone = forecast.evening([LOT] * 40, 1, 20_000, 0)
    expected = 40 * moments(LOT)[0]
    assert expected == pytest.approx(40 * 30_000 * 1.12898499, rel=1e-6)
    assert alone.mean_cents == pytest.approx(
        expected, abs=4 * alone.standard_error_cents
    )
    together = forecast.evening([LOT] * 40, 1, 20_000, 0.2)
    assert together.sd_cents > 3 * alone.sd_cents
    assert together.quantiles[0.05] < 0.85 * alone.quantiles[0.05]


def test_it_agrees_with_the_theory_of_one_lot():
    lots = [
        (20_000 + 500 * n, 0.4 + 0.01 * n, 2 + n % 5, 5_000 + 100 * n)
        for n in range(20)
    ]
    expected = sum(bidding.expected_hammer(*lot, "poisson") for lot in lots)
    sold = sum(bidding.chance_of_sale(*lot, "poisson") for lot in lots)
    drawn = forecast.evening(lots, 8, 20_000, 0)
    assert drawn.mean_cents == pytest.approx(
        expected, abs=4 * drawn.standard_error_cents
    )
    assert drawn.lots_sold == pytest.approx(sold, abs=0.05)


def test_the_common_factor_moves_the_median_value_of_an_evening():
    # with hardly any spread between bidders a lot sells at its median times the
    # factor: a log-normal total, whose quantiles are exact
    drawn = forecast.evening([(100_000, 1e-4, 2, 0, "fixed")], 2, 50_000, 0.3)
    for share in (0.1, 0.5, 0.9):
        exact = 100_000 * math.exp(0.3 * norm.ppf(share))
        assert drawn.quantiles[share] == pytest.approx(exact, rel=0.01)


def test_turnout_spreads_the_total_and_keeps_the_mean_number_of_bidders():
    lots = [{**LOT, "opening_cents": 0, "bidders": 0.05}] * 40
    # so few bidders that a lot sells whenever one comes: the share sold is the mean
    # of 1 - exp(-0.05 T) with T of mean 1, to first order 0.05
    drawn = forecast.evening(lots, 4, 20_000, 0, turnout=0.4)
    share = quad(
        lambda z: (1 - math.exp(-0.05 * math.exp(0.4 * z - 0.08))) * norm.pdf(z), -8, 8
    )[0]
    assert drawn.lots_sold / 40 == pytest.approx(share, abs=0.001)
    steady = forecast.evening([LOT] * 40, 4, 20_000, 0)
    assert forecast.evening([LOT] * 40, 4, 20_000, 0, turnout=0.4).sd_cents > (
        1.5 * steady.sd_cents
    )


@pytest.mark.parametrize(
    ("crowd", "bidders"), [("poisson", 3), ("poisson", 8), ("fixed", 2), ("fixed", 5)]
)
def test_on_a_ladder_the_hammer_falls_as_the_rungs_say(crowd, bidders):
    lot = (30_000, 0.5, bidders, 10_000, crowd)
    chances = bidding.rungs(30_000, 0.5, bidders, ROOM, crowd, 10_000)
    drawn = forecast.evening([lot], 6, 40_000, 0, ladder=ROOM)
    mean = bidding.expected_on_ladder(chances)
    assert drawn.mean_cents == pytest.approx(mean, abs=4 * drawn.standard_error_cents)
    totals = np.asarray(drawn.totals_cents)
    assert set(totals) <= {0 if price is None else price for price in chances}
    for price, chance in chances.items():
        found = float((totals == (price or 0)).mean())
        error = math.sqrt(chance * (1 - chance) / 40_000)
        assert found == pytest.approx(chance, abs=4.5 * error + 1e-9)


def test_nobody_bids_above_the_last_rung():
    ladder = [10_000, 15_000, 20_000]
    drawn = forecast.evening([(30_000, 0.5, 4, 10_000)], 6, 5_000, 0.1, ladder=ladder)
    assert max(drawn.totals_cents) == 20_000


def test_an_opening_bid_off_the_ladder_is_named():
    with pytest.raises(SpecError, match=r"lot 1: opening_cents is 11000, no rung"):
        forecast.evening([(30_000, 0.5, 4, 11_000)], 1, 100, 0, ladder=ROOM)


def test_the_same_seed_gives_the_same_evenings_and_another_does_not():
    first = forecast.evening([LOT] * 3, 1, 500, 0.2)
    assert forecast.evening([LOT] * 3, 1, 500, 0.2) == first
    assert forecast.evening([LOT] * 3, 2, 500, 0.2).totals_cents != first.totals_cents


def test_a_changed_lot_leaves_the_draws_of_the_others_alone():
    before = forecast.evening([LOT, LOT, LOT], 1, 500, 0.2)
    after = forecast.evening([LOT, {**LOT, "bidders": 8}, LOT, LOT], 1, 500, 0.2)
    assert before.lots[0].mean_cents == after.lots[0].mean_cents
    assert before.lots[2].mean_cents == after.lots[2].mean_cents
    assert before.lots[1].mean_cents < after.lots[1].mean_cents


@settings(max_examples=25, deadline=None)
@given(
    lots=st.lists(
        st.tuples(
            st.integers(1_000, 10**6),
            st.floats(0.05, 1.2),
            st.floats(0.1, 12),
            st.integers(0, 10**6),
        ),
        min_size=1,
        max_size=6,
    ),
    common=st.floats(0, 0.6),
    target=st.integers(0, 10**7),
)
@example(lots=[(1_000, 0.5, 1.0, 10**6)], common=0.0, target=0)
def test_the_figures_of_an_evening_hang_together(lots, common, target):
    drawn = forecast.evening(lots, 1, 400, common)
    totals = drawn.totals_cents
    assert drawn.evenings == len(totals) == 400
    assert totals == tuple(sorted(totals))
    assert totals[0] >= 0
    quantiles = list(drawn.quantiles.values())
    assert quantiles == sorted(quantiles)
    assert sum(lot.mean_cents for lot in drawn.lots) == pytest.approx(
        drawn.mean_cents, abs=len(lots) + 1
    )
    assert drawn.lots_sold <= len(lots)
    assert drawn.chance_of(0) == 1
    # E(T - X)+ - E(X - T)+ = T - E(X)
    over = sum(max(total - target, 0) for total in totals) / 400
    assert drawn.shortfall(target) - over == pytest.approx(
        target - sum(totals) / 400, abs=0.6
    )
    missed = drawn.mean_shortfall_when_missed(target)
    if missed is None:
        assert drawn.shortfall(target) == 0
        assert drawn.chance_of(target) == 1
    else:
        share = 1 - drawn.chance_of(target)
        assert missed * share == pytest.approx(drawn.shortfall(target), abs=1.1)
    assert drawn.chance_standard_error(target) <= 0.5 / math.sqrt(400)


def test_doubling_all_money_doubles_the_evening():
    once = forecast.evening([(40_000, 0.5, 4, 20_000)] * 5, 1, 1_000, 0.2)
    twice = forecast.evening([(80_000, 0.5, 4, 40_000)] * 5, 1, 1_000, 0.2)
    assert twice.mean_cents == pytest.approx(2 * once.mean_cents, abs=5)
    assert twice.lots_sold == once.lots_sold


def test_a_weight_counts_part_of_a_hammer_price():
    whole = forecast.evening([LOT], 1, 1_000, 0)
    part = forecast.evening([{**LOT, "weight": 0.85}], 1, 1_000, 0)
    assert part.mean_cents == pytest.approx(0.85 * whole.mean_cents, abs=1)


def test_lots_come_as_rows_mappings_and_objects():
    row = forecast.evening([(30_000, 0.5, 4, 15_000, "fixed")], 1, 200, 0.1)
    entry = {**LOT, "crowd": "fixed", "name": "chest"}
    for lot in (
        entry,
        SimpleNamespace(**entry),
        forecast.Lot(**entry),
        {"median": 30_000, "opening": 15_000, "sigma": 0.5, "bidders": 4}
        | {"crowd": "fixed"},
    ):
        drawn = forecast.evening([lot], 1, 200, 0.1)
        assert drawn.totals_cents == row.totals_cents
    assert forecast.evening([entry], 1, 200, 0.1).lots[0].name == "chest"
    unnamed = forecast.evening([LOT, forecast.Lot(**LOT)], 1, 200, 0.1).lots
    assert [lot.name for lot in unnamed] == ["lot 1", "lot 2"]


def test_a_lot_that_opens_far_too_high_passes_every_time():
    drawn = forecast.evening([{**LOT, "opening_cents": 10**9}], 1, 200, 0)
    assert (drawn.mean_cents, drawn.sd_cents, drawn.lots_sold) == (0, 0, 0)
    assert drawn.mean_shortfall_when_missed(5_000) == 5_000


def test_progress_is_told_lot_by_lot():
    told = []
    forecast.evening([LOT] * 3, 1, 50, 0, progress=lambda *done: told.append(done))
    assert told == [(1, 3), (2, 3), (3, 3)]


def test_inputs_are_left_as_they_were():
    lots = [dict(LOT), dict(LOT)]
    forecast.evening(lots, 1, 50, 0)
    assert lots == [LOT, LOT]


NAN = float("nan")


@pytest.mark.parametrize(
    ("lot", "sentence"),
    [
        ({"sigma": 0}, r"lot 2: sigma is 0; it must be more than 0"),
        ({"sigma": -0.5, "name": "chest"}, r"chest: sigma is -0.5"),
        ({"sigma": NAN}, r"lot 2: sigma is nan; it must be a finite number"),
        ({"median_cents": -1}, r"lot 2: median_cents is -1; it must be more"),
        ({"median_cents": "300"}, r"lot 2: median_cents is '300'; it must be a number"),
        ({"median_cents": True}, r"lot 2: median_cents is True; it must be a number"),
        ({"opening_cents": -100}, r"lot 2: opening_cents is -100; it must be 0 or"),
        ({"opening_cents": math.inf}, r"lot 2: opening_cents is inf"),
        ({"bidders": 0}, r"lot 2: bidders is 0; it must be more than 0"),
        ({"bidders": 2.5, "crowd": "fixed"}, r"a fixed crowd is a whole number"),
        ({"bidders": NAN, "crowd": "fixed"}, r"lot 2: bidders is nan"),
        ({"crowd": "random"}, r"lot 2: crowd is 'random'; write \"poisson\""),
        ({"weight": 0}, r"lot 2: weight is 0; it must be more than 0"),
        ({"sigmma": 0.5}, r"lot 2: \"sigmma\" is not known; did you mean \"sigma\""),
        ({"median_cents": 1e14}, r"lot 2: a price beyond 10000000000000 cents"),
        ({"sigma": 300}, r"lot 2: a price beyond 10000000000000 cents"),
    ],
)
def test_a_lot_that_cannot_be_is_named(lot, sentence):
    with pytest.raises(SpecError, match=sentence):
        forecast.evening([LOT, {**LOT, **lot}], 1, 100, 0)


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (([], 1, 100, 0), r"an evening has no lots"),
        (({}, 1, 100, 0), r"lots are \{\}; give a list"),
        (("lots", 1, 100, 0), r"lots are 'lots'; give a list"),
        (([3], 1, 100, 0), r"lot 1 is 3; give its median_cents"),
        (([(1, 2, 3)], 1, 100, 0), r"lot 1 has 3 values; write median_cents"),
        (([{"sigma": 0.5}], 1, 100, 0), r"lot 1: median_cents, bidders, opening_cents"),
        (([LOT], 1, 0, 0), r"evenings is 0; it must be a whole number, 2 or more"),
        (([LOT], 1, 1, 0), r"evenings is 1; it must be a whole number, 2 or more"),
        (([LOT], 1, 10.5, 0), r"evenings is 10.5; it must be a whole number"),
        (([LOT], 1, True, 0), r"evenings is True; it must be a whole number"),
        (([LOT], 1, 10**8, 0), r"draw 1000000 at most"),
        (([LOT], -1, 100, 0), r"seed is -1; it must be a whole number, 0 or more"),
        (([LOT], 1, 100, -0.1), r"common is -0.1; it must be 0 or more"),
        (([LOT], 1, 100, NAN), r"common is nan; it must be a finite number"),
    ],
)
def test_an_evening_that_cannot_be_is_refused(arguments, sentence):
    with pytest.raises(SpecError, match=sentence):
        forecast.evening(*arguments)


def test_all_faults_of_all_lots_are_told_at_once():
    with pytest.raises(SpecError) as caught:
        forecast.evening([{**LOT, "sigma": 0, "bidders": -1}, (1, 2)], 1, 0, -1)
    assert len(caught.value.faults) == 5


def test_turnout_cannot_move_fixed_crowds():
    with pytest.raises(SpecError, match=r"turnout is 0.3 but every lot has a fixed"):
        forecast.evening([{**LOT, "crowd": "fixed"}], 1, 100, 0, turnout=0.3)


@pytest.mark.parametrize("target", [-1, 10.5, NAN, True, "100", None])
def test_a_target_is_whole_cents(target):
    drawn = forecast.evening([LOT], 1, 100, 0)
    for ask in (
        drawn.shortfall,
        drawn.chance_of,
        drawn.chance_standard_error,
        drawn.mean_shortfall_when_missed,
    ):
        with pytest.raises(SpecError, match="target_cents is"):
            ask(target)


def test_totals_out_of_order_are_refused():
    with pytest.raises(SpecError, match="totals are out of order"):
        forecast.Evening(totals_cents=(2, 1), lots=())
    with pytest.raises(SpecError, match="1 evenings were drawn"):
        forecast.Evening(totals_cents=(2,), lots=())


def test_the_standard_error_is_how_far_means_of_other_seeds_lie_apart():
    drawn = [forecast.evening([LOT] * 5, seed, 500, 0.2) for seed in range(60)]
    apart = np.std([each.mean_cents for each in drawn], ddof=1)
    # the spread of 60 means is known to about 9 %; three times that is allowed
    assert drawn[0].standard_error_cents == pytest.approx(apart, rel=0.28)


def test_slow_libraries_stay_out_until_they_are_needed():
    code = (
        "import sys, pricebook.forecast, pricebook.records;"
        "sys.exit(bool({'numpy', 'scipy', 'pandas'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


# --- which pieces to do ------------------------------------------------------


def by_trial(pieces, limits):
    """Try every choice: most uplift, then fewest pieces, then more of the earlier."""

    def takes(counts, key):
        return sum(
            Fraction(str(piece[key])) * n
            for piece, n in zip(pieces, counts, strict=True)
        )

    ranges = [range(piece.get("most", 1) + 1) for piece in pieces]
    able = [
        counts
        for counts in itertools.product(*ranges)
        if all(takes(counts, key) <= Fraction(str(lim)) for key, lim in limits.items())
    ]
    return max(
        able, key=lambda counts: (takes(counts, "uplift_cents"), -sum(counts), counts)
    )


amounts = st.one_of(
    st.integers(0, 12), st.sampled_from([0.1, 0.25, 0.3, 1.5, 2.75, 6.1])
)
offers = st.lists(
    st.fixed_dictionaries(
        {
            "uplift_cents": st.integers(-2, 6),
            "hours": amounts,
            "sheets": st.integers(0, 3),
        },
        optional={"most": st.integers(1, 3)},
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=150, deadline=None)
@given(offers, st.one_of(amounts, st.integers(0, 30)), st.integers(0, 8))
def test_the_choice_is_what_trying_all_finds(offered, hours, sheets):
    pieces = [{"name": f"piece {n}", **piece} for n, piece in enumerate(offered)]
    limits = {"hours": hours, "sheets": sheets}
    choice = forecast.choose(pieces, limits)
    best = by_trial(pieces, limits)
    assert tuple(count for _, count in choice.counts) == best
    uplift = sum(p["uplift_cents"] * n for p, n in zip(pieces, best, strict=True))
    assert choice.uplift_cents == uplift
    for key, limit in limits.items():
        assert choice.used[key] + choice.left[key] == pytest.approx(limit)
        assert choice.left[key] >= 0
        wider = by_trial(pieces, {**limits, key: Fraction(str(limit)) + 1})
        gain = sum(p["uplift_cents"] * n for p, n in zip(pieces, wider, strict=True))
        assert choice.worth_of_one_more[key] == gain - uplift
        assert choice.lp_worth[key] >= 0


def chests(*rows):
    return [
        {"name": name, "uplift_cents": uplift, "hours": hours}
        for name, uplift, hours in rows
    ]


def test_taking_the_best_piece_first_can_lose():
    # 10 h: the best piece an hour (60 for 6) leaves 4 idle; the other two fill it
    pieces = chests(("chest", 6_000, 6), ("bookcase", 4_500, 5), ("stand", 4_400, 5))
    choice = forecast.choose(pieces, {"hours": 10})
    assert choice.chosen == ("bookcase", "stand")
    assert choice.left_out == ("chest",)
    assert choice.uplift_cents == 8_900
    # the eleventh hour makes room for chest and bookcase: 10,500
    assert choice.worth_of_one_more == {"hours": 1_600}
    assert (choice.used, choice.left) == ({"hours": 10}, {"hours": 0})


def test_equal_uplift_goes_to_fewer_pieces_then_to_the_earlier():
    pieces = chests(("a", 100, 2), ("b", 100, 2), ("c", 200, 4), ("d", 200, 4))
    assert forecast.choose(pieces, {"hours": 4}).chosen == ("c",)
    assert forecast.choose(pieces[:2], {"hours": 2}).chosen == ("a",)


def test_a_piece_that_adds_nothing_is_left_alone():
    pieces = chests(("gain", 1, 0), ("nothing", 0, 0), ("loss", -500, 0))
    choice = forecast.choose(pieces, {"hours": 10})
    assert choice.chosen == ("gain",)


def test_the_step_of_a_limit_says_how_much_one_more_is():
    pieces = [{"name": "chest", "uplift_cents": 9_000, "money_cents": 5_000}]
    assert forecast.choose(pieces, {"money_cents": 4_000}).worth_of_one_more == {
        "money_cents": 0
    }
    ten = forecast.choose(pieces, {"money_cents": 4_000}, {"money_cents": 1_000})
    assert ten.worth_of_one_more == {"money_cents": 9_000}


def test_hours_that_add_up_in_decimals_fit():
    # 0.1 + 0.2 is a hair above 0.3 in binary numbers
    pieces = chests(("a", 5, 0.1), ("b", 5, 0.2))
    assert forecast.choose(pieces, {"hours": 0.3}).chosen == ("a", "b")
    assert forecast.choose(pieces, {"hours": 0.1 + 0.2}).left == {"hours": 0}


def test_without_limits_all_that_gain_are_done():
    assert forecast.choose(chests(("a", 5, 1))[:1], {"hours": 9}).chosen == ("a",)
    pieces = [{"name": "a", "uplift_cents": 5}, {"name": "b", "uplift_cents": -5}]
    assert forecast.choose(pieces, {}).chosen == ("a",)


def test_what_a_piece_takes_of_a_thing_without_a_limit_does_not_count():
    pieces = [{"name": "a", "uplift_cents": 5, "hours": 1, "sheets": 99}]
    assert forecast.choose(pieces, {"hours": 1}).chosen == ("a",)


@pytest.mark.parametrize(
    ("piece", "sentence"),
    [
        ({"hours": -1}, r"chest: hours is -1; it must be 0 or more"),
        ({"hours": NAN}, r"chest: hours is nan; it must be a finite number"),
        ({"hours": "6"}, r"chest: hours is '6'; it must be a number"),
        ({"hours": True}, r"chest: hours is True; it must be a number"),
        ({"uplift_cents": 10.5}, r"chest: uplift_cents is 10.5; it must be a whole"),
        ({"most": 0}, r"chest: most is 0; it must be a whole number, 1 or more"),
        ({"hour": 2}, r"chest: \"hour\" is neither a limit nor known"),
        ({"name": "stand"}, r"two pieces are called \"stand\""),
        ({"name": ""}, r"piece 2 has no name"),
    ],
)
def test_a_piece_that_cannot_be_is_named(piece, sentence):
    pieces = [{"name": "stand", "uplift_cents": 5, "hours": 1}]
    pieces.append({"name": "chest", "uplift_cents": 5, "hours": 1} | piece)
    with pytest.raises(SpecError, match=sentence):
        forecast.choose(pieces, {"hours": 5})


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (([], {"hours": 5}), r"there are no pieces to choose from"),
        (({"name": "a"}, {"hours": 5}), r"give a list with one mapping a piece"),
        ((chests(("a", 1, 1)), {"hours": -5}), r"limit hours is -5; it must be 0 or"),
        ((chests(("a", 1, 1)), {"hours": math.inf}), r"limit hours is inf"),
        ((chests(("a", 1, 1)), {"hours": 5, "sheets": 2}), r"a: sheets is missing"),
        ((chests(("a", 1, 1)), [5]), r"limits and steps map a name to a number"),
        ((chests(("a", 1, 1)), {"most": 5}), r"a limit is called \"most\""),
        ((chests(("a", 1, 1)), {"hours": 5}, {"hours": 0}), r"step of hours is 0"),
        ((chests(("a", 1, 1)), {"hours": 5}, {"hour": 1}), r"\"hour\" has a step but"),
        (([{"name": "a", "hours": 1}], {"hours": 5}), r"a: uplift_cents is missing"),
    ],
)
def test_a_choice_that_cannot_be_made_is_refused(arguments, sentence):
    with pytest.raises(SpecError, match=sentence):
        forecast.choose(*arguments)


def many_pieces(count):
    rng = np.random.default_rng(3)
    hours = rng.integers(8, 80, count) / 4
    sheets = rng.integers(1, 7, count)
    uplift = (hours * 500 + sheets * 1_500) * rng.uniform(0.8, 1.2, count)
    return [
        {"name": f"piece {n}", "uplift_cents": int(uplift[n])}
        | {"hours": float(hours[n]), "sheets": int(sheets[n])}
        for n in range(count)
    ]


def test_forty_pieces_are_chosen_no_worse_than_by_a_library_solver():
    from scipy.optimize import LinearConstraint, milp

    pieces = many_pieces(40)
    needs = [[p["hours"] for p in pieces], [p["sheets"] for p in pieces]]
    found = milp(
        [-p["uplift_cents"] for p in pieces],
        integrality=[1] * 40,
        bounds=(0, 1),
        constraints=LinearConstraint(needs, ub=[120, 30]),
        options={"mip_rel_gap": 0},
    )
    choice = forecast.choose(pieces, {"hours": 120, "sheets": 30})
    assert choice.uplift_cents == round(-found.fun)


# --- what drives a result ----------------------------------------------------

BASE = {"hammer": 320, "fee": 0.05, "material": 72, "hours": 6.5, "rate": 22}
RANGES = {
    "rate": (18, 28),
    "material": (60, 95),
    "fee": (0, 0.10),
    "hours": (5, 9),
    "hammer": (220, 420),
}


def surplus(x):
    return x["hammer"] * (1 - x["fee"]) - x["material"] - x["hours"] * x["rate"]


def test_swings_are_ranked_widest_first():
    # by hand: 320 x .95 - 72 - 6.5 x 22 = 89; hammer 220: 209 - 215 = -6, 420: 184;
    # hours 5: 122, 9: 34; rate 18: 115, 28: 50; material 60: 101, 95: 66; fee 105, 73
    found = forecast.swings(BASE, RANGES, surplus)
    assert surplus(BASE) == pytest.approx(89)
    told = [(each.name, each.at_low, each.at_high) for each in found]
    assert [name for name, *_ in told] == ["hammer", "hours", "rate", "material", "fee"]
    ends = [end for _, *both in told for end in both]
    assert ends == pytest.approx([-6, 184, 122, 34, 115, 50, 101, 66, 105, 73])
    assert [each.swing for each in found] == pytest.approx([190, 88, 65, 35, 32])


def test_elasticities_of_a_sum_of_products():
    # a linear term's share of the result: .95 x 320 / 89, -143 / 89, -72 / 89, -16 / 89
    found = forecast.elasticities(BASE, list(BASE), surplus)
    shares = {"hammer": 304, "fee": -16, "material": -72, "hours": -143, "rate": -143}
    assert found == pytest.approx({k: v / 89 for k, v in shares.items()})


def test_elasticity_of_a_hammer_price_with_its_median_is_one():
    def hammer(x):
        return bidding.expected_hammer(x["median"], 0.5, x["bidders"], 0, "poisson")

    base = {"median": 300, "bidders": 3}
    found = forecast.elasticities(base, ["median", "bidders"], hammer)
    assert found["median"] == pytest.approx(1, abs=1e-7)
    assert 0.7 < found["bidders"] < 1


def test_a_grid_holds_the_result_at_each_pair():
    at = forecast.grid(BASE, "hammer", [220, 320], "hours", [5, 6.5, 9], surplus)
    assert at.results[1][1] == pytest.approx(89)
    assert at.results[0] == pytest.approx((27, -6, -61))
    assert (at.row_values, at.column_values) == ((220, 320), (5, 6.5, 9))


def test_the_base_is_left_as_it_was():
    base = dict(BASE)
    forecast.swings(base, RANGES, surplus)
    forecast.grid(base, "hammer", [1], "hours", [2], surplus)
    assert base == BASE


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (
            lambda: forecast.swings(BASE, {"hamer": (1, 2)}, surplus),
            r"\"hamer\" is not one of the figures; did you mean \"hammer\"",
        ),
        (
            lambda: forecast.swings(BASE, {"hammer": (2, 1)}, surplus),
            r"the range of hammer is \(2, 1\); give the low end first",
        ),
        (
            lambda: forecast.swings(BASE, {"hammer": (2,)}, surplus),
            r"the range of hammer is \(2,\); give a low and a high",
        ),
        (
            lambda: forecast.swings(BASE, {"hammer": (NAN, 1)}, surplus),
            r"hammer is nan; it must be a finite number",
        ),
        (
            lambda: forecast.swings({"x": NAN}, {}, surplus),
            r"x is nan; it must be a finite number",
        ),
        (
            lambda: forecast.swings({"x": 1}, {"x": (0, 1)}, lambda x: NAN),
            r"the result at x 0 is nan, no number",
        ),
        (
            lambda: forecast.elasticities({"x": 0}, ["x"], lambda x: 1),
            r"x is 0, of which 1 % is no step",
        ),
        (
            lambda: forecast.elasticities({"x": 1}, ["x"], lambda x: 0),
            r"the result is 0, of which no per cent",
        ),
        (
            lambda: forecast.grid(BASE, "hours", [1], "hours", [2], surplus),
            r"both figures are hours",
        ),
        (
            lambda: forecast.grid(BASE, "hammer", [], "hours", [2], surplus),
            r"hammer has no values",
        ),
    ],
)
def test_a_question_that_has_no_answer_is_refused(call, sentence):
    with pytest.raises(PricebookError, match=sentence):
        call()


# --- measured ----------------------------------------------------------------


@pytest.mark.benchmark
def test_times_are_printed():
    lots = [{**LOT, "median_cents": 20_000 + 100 * n} for n in range(200)]
    start = time.perf_counter()
    forecast.evening(lots, 1, 20_000, 0.2)
    drawn = time.perf_counter()
    forecast.choose(many_pieces(40), {"hours": 120, "sheets": 30})
    chosen = time.perf_counter()
    print(f"200 lots x 20,000 evenings: {drawn - start:.2f} s")
    print(f"40 pieces chosen: {1000 * (chosen - drawn):.0f} ms")
