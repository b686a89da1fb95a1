"""The hammer price: distributions, ladders, anchors, and what is refused."""

import math
import time
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from pricebook import bidding
from pricebook.bidding import Ladder, LogNormal, ladder_of
from pricebook.bidding.outlook import NORMAL_NODES, room_values
from pricebook.errors import PricebookError, SpecError

CROWDS = ["fixed", "poisson"]
ROWS = ((50_000, 2_500), (100_000, 5_000), (None, 10_000))
BAD_NUMBERS = [0, -1, math.nan, math.inf, True, None, "300", 10**400]


# --- one lot ---------------------------------------------------------------------


@pytest.mark.parametrize("crowd", CROWDS)
@pytest.mark.parametrize(("bidders", "opening"), [(1, 200), (2, 0), (4, 150), (9, 400)])
def test_a_simulation_agrees_within_its_standard_error(crowd, bidders, opening):
    draws = 200_000
    room = (300, 0.5, bidders, opening, crowd)

    prices = bidding.simulate(*room, draws, 20260314)

    gap = prices.mean() - bidding.expected_hammer(*room)
    assert abs(gap) < 4 * prices.std() / math.sqrt(draws) + 1e-9
    sale = bidding.chance_of_sale(*room)
    if opening:
        seen = (prices > 0).mean()
        assert abs(seen - sale) < 4 * math.sqrt(sale * (1 - sale) / draws)
    for share in (0.25, 0.5, 0.9):
        price = bidding.hammer_quantile(*room, share)
        at_or_below = (prices <= price * (1 + 1e-12)).mean()
        below = (prices < price * (1 - 1e-12)).mean()
        error = 4 * math.sqrt(share * (1 - share) / draws)
        assert below - error < share < at_or_below + error


def test_bidders_drawn_one_by_one_agree_with_the_sampler():
    rng, draws = np.random.default_rng(5), 100_000
    worth = np.sort(np.exp(0.5 * rng.standard_normal((draws, 4))), axis=1)
    sold = np.where(worth[:, -1] >= 0.8, np.maximum(worth[:, -2], 0.8), 0)

    drawn = bidding.simulate(1, 0.5, 4, 0.8, "fixed", draws, 6)

    assert stats.ks_2samp(sold, drawn).pvalue > 1e-3


@pytest.mark.benchmark
def test_time_of_a_million_draws(capsys):
    bidding.simulate(300, 0.5, 4, 150, "poisson", 1_000, 1)

    start = time.perf_counter()
    bidding.simulate(300, 0.5, 4, 150, "poisson", 1_000_000, 1)
    taken_ms = (time.perf_counter() - start) * 1_000

    with capsys.disabled():
        print(f"\na million hammer prices: {taken_ms:.0f} ms")


def test_the_same_seed_draws_the_same_prices():
    room = (300, 0.5, 3.5, 100, "poisson", 500)

    first = bidding.simulate(*room, 1)

    assert (first == bidding.simulate(*room, 1)).all()
    assert (first != bidding.simulate(*room, 2)).any()


@settings(max_examples=60, deadline=None)
@given(
    median=st.floats(1, 1e6),
    sigma=st.floats(0.05, 2),
    bidders=st.integers(1, 200),
    opening=st.floats(0, 3),
    crowd=st.sampled_from(CROWDS),
)
def test_laws_of_one_lot(median, sigma, bidders, opening, crowd):
    opening *= median
    mean = bidding.expected_hammer(median, sigma, bidders, opening, crowd)
    sale = bidding.chance_of_sale(median, sigma, bidders, opening, crowd)

    assert 0 <= sale <= 1
    assert mean >= opening * sale * (1 - 1e-12)
    in_cents = bidding.expected_hammer(
        100 * median, sigma, bidders, 100 * opening, crowd
    )
    assert in_cents == pytest.approx(100 * mean, rel=1e-9)
    one_more = bidding.expected_hammer(median, sigma, bidders + 1, opening, crowd)
    assert one_more >= mean * (1 - 1e-11)
    # a sale is never likelier at a higher opening
    higher = bidding.chance_of_sale(median, sigma, bidders, 1.1 * opening, crowd)
    assert higher <= sale * (1 + 1e-12)


def test_an_opening_far_above_every_value_brings_nothing():
    assert bidding.expected_hammer(300, 0.05, 5, 1e9, "fixed") == 0
    assert bidding.chance_of_sale(300, 0.05, 5, 1e9, "poisson") == 0


def test_a_small_chance_keeps_its_digits():
    # 20 spreads above the median: 1 - (1 - q)^3 is 3 q to the last digit
    tail = stats.norm.sf(20)

    found = bidding.chance_of_sale(1, 0.1, 3, math.exp(2), "fixed")

    assert found == pytest.approx(3 * tail, rel=1e-9)


@pytest.mark.parametrize("bad", BAD_NUMBERS)
@pytest.mark.parametrize("place", [0, 1, 2])
def test_numbers_that_cannot_be_are_refused(bad, place):
    room = [300, 0.5, 4, 150]
    room[place] = bad
    name = ("median", "sigma", "bidders")[place]

    for door in (bidding.expected_hammer, bidding.chance_of_sale):
        with pytest.raises(SpecError, match=name):
            door(*room, "fixed")


@pytest.mark.parametrize("bad", [-0.01, math.nan, math.inf, False, None, "150"])
def test_an_opening_that_cannot_be_is_refused(bad):
    with pytest.raises(SpecError, match="opening"):
        bidding.expected_hammer(300, 0.5, 4, bad, "fixed")


def test_a_fixed_crowd_is_whole_and_a_poisson_one_need_not_be():
    with pytest.raises(SpecError, match=r"bidders is 2\.5; it must be a whole number"):
        bidding.chance_of_sale(300, 0.5, 2.5, 0, "fixed")

    assert 0 < bidding.chance_of_sale(300, 0.5, 2.5, 0, "poisson") < 1
    assert bidding.chance_of_sale(300, 0.5, 3.0, 0, "fixed") == 1


def test_rooms_beyond_the_checked_range_are_refused():
    with pytest.raises(SpecError, match="bidders is 1e"):
        bidding.expected_hammer(300, 0.5, 1e300, 0, "poisson")
    with pytest.raises(SpecError, match=r"sigma is 6; it must be 5\.0 or less"):
        bidding.expected_hammer(300, 6, 3, 0, "fixed")
    assert math.isfinite(bidding.expected_hammer(300, 5, 1_000_000, 0, "fixed"))


def test_every_fault_of_a_room_is_named_at_once():
    with pytest.raises(SpecError, match="did you mean") as refusal:
        bidding.expected_hammer(-300, 0, 0, -5, "poison")

    assert len(refusal.value.faults) == 5


@pytest.mark.parametrize("bad", [-1, math.nan, None])
def test_an_unsold_value_that_cannot_be_is_refused(bad):
    with pytest.raises(SpecError, match="unsold_value"):
        bidding.best_reserve(300, 0.5, bad)


@pytest.mark.parametrize("bad", [0, 1, -0.1, math.nan])
def test_a_quantile_share_that_cannot_be_is_refused(bad):
    with pytest.raises(SpecError, match="share"):
        bidding.hammer_quantile(300, 0.5, 3, 0, "fixed", bad)


@pytest.mark.parametrize(("draws", "seed"), [(0, 1), (10.5, 1), (10, -1), (10, 0.5)])
def test_draws_and_seeds_that_cannot_be_are_refused(draws, seed):
    with pytest.raises(SpecError, match=r"draws|seed"):
        bidding.simulate(300, 0.5, 3, 0, "fixed", draws, seed)


# --- ladders ---------------------------------------------------------------------


def test_a_ladder_is_read_from_every_form():
    forms = [
        Ladder("plain", ROWS),
        ROWS,
        [list(row) for row in ROWS],
        [(0, 2_500), (50_000, 5_000), (100_000, 10_000)],
        [(0, 50_000, 2_500), (50_000, 100_000, 5_000), (100_000, None, 10_000)],
        [{"up_to": up_to, "step": step} for up_to, step in ROWS],
        [
            {"from_cents": 0, "step_cents": 2_500},
            {"from_cents": 50_000, "step_cents": 5_000},
            {"from_cents": 100_000, "step_cents": 10_000},
        ],
        dict(ROWS),
        [*ROWS[:-1], (math.inf, ROWS[-1][1])],
        [(None if end is None else np.int64(end), np.int64(by)) for end, by in ROWS],
    ]

    for form in forms:
        ladder = ladder_of(form)
        assert ladder.rungs(45_000, 60_000) == (45_000, 47_500, 50_000, 55_000, 60_000)
    assert bidding.next_bid(150, [100, 150, 225]) == 225
    assert bidding.next_bid(500_000, "plain") == 510_000


@given(price=st.integers(0, 10**9))
@settings(max_examples=100)
def test_rungs_enclose_every_price(price):
    for ladder in (bidding.TEN_PERCENT, bidding.PLAIN_STEPS):
        below, above = ladder.at_or_below(price), ladder.at_or_above(price)

        assert below <= price <= above
        assert ladder.holds(below)
        assert ladder.holds(above)
        assert above in (below, ladder.next_bid(below))
        assert ladder.nearest(price) in (below, above)


def test_steps_of_the_ten_percent_ladder_stay_between_4_and_10_per_cent():
    rungs = bidding.TEN_PERCENT.rungs(10_000, 10**9)

    steps = [(b - a) / a for a, b in pairwise(rungs)]
    assert min(steps) > 0.04
    assert max(steps) <= 0.1


@pytest.mark.parametrize(
    ("ladder", "match"),
    [
        ([(500, 25), (400, 50)], "row 2 goes backwards"),
        ([(500, 25), (500, 50)], "row 2 goes backwards"),
        ([(-500, 25), (None, 50)], "row 1 goes backwards"),
        ([(0, 25), (500, 50), (400, 100)], "goes backwards"),
        ([100, 150, 150], "150 follows 150"),
        ([100, 90], "90 follows 100"),
        ([100, 110.5], "a whole number"),
        ([100], "two or more"),
        ([(500, -25), (None, 50)], "step is -25"),
        ([(500, 0), (None, 50)], "step is 0"),
        ([(500, 30), (None, 50)], "does not divide"),
        ([(500, 2.5), (None, 50)], "a whole number"),
        ([(500, 25), (None, 50), (900, 100)], "no end"),
        ([(500, 25, 1)], "row 1 goes backwards"),
        ([(0, 500, 25), (600, None, 50)], "begins at 600, but the row before it ends"),
        ([(0, 500, 25), (400, None, 50)], "begins at 400, but the row before it ends"),
        ([(500, 25, 1, 1)], "must be"),
        ([{"up_to": 500}], "must be"),
        ([{"up_to": 500, "stp": 25}], "must be"),
        ({"rungs": [100, 150]}, "must be a number"),
        ([(np.int64(500), 25), (np.int64(400), 50)], "row 2 goes backwards"),
        ([("500", 25)], "must be a number"),
        ([(500, None)], "must be a number"),
        ([True, 200], "must be a number"),
        ([], "give a name"),
        (None, "give a name"),
        (25, "give a name"),
        ("1-2-6", 'did you mean "1-2-5"'),
    ],
)
def test_ladders_that_cannot_be_are_refused(ladder, match):
    with pytest.raises(SpecError, match=match):
        bidding.next_bid(100, ladder)


@pytest.mark.parametrize("price", [105, 1_010])
def test_a_bid_off_the_ladder_is_refused(price):
    with pytest.raises(SpecError, match="is not on the ladder"):
        bidding.next_bid(price, [(1_000, 25), (None, 50)])


@pytest.mark.parametrize("price", [-100, 10.5, math.nan, True, None, "100"])
def test_a_bid_that_is_no_money_is_refused(price):
    with pytest.raises(SpecError, match="price in cents"):
        bidding.next_bid(price, "1-2-5")


def test_a_next_bid_is_a_plain_whole_number():
    for price in (19_000, 19_000.0, np.int64(19_000), Decimal(19_000)):
        bid = bidding.next_bid(price, "1-2-5")
        assert type(bid) is int
        assert bid == 20_000
    with pytest.raises(SpecError, match=r"the bid of 190\.50 is not on the ladder"):
        bidding.next_bid(Fraction(19_050), "1-2-5")


@pytest.mark.parametrize("steps", ["x", True, math.nan, [5], [(1, 2, 3)], [None]])
def test_a_ladder_is_made_of_rows(steps):
    with pytest.raises(SpecError, match=r"give \(up to, step\) rows"):
        Ladder("odd", steps)


@pytest.mark.parametrize("first", ["x", None, math.nan, Decimal("sNaN"), -5, True])
def test_a_first_rung_is_whole_cents(first):
    with pytest.raises(SpecError, match="first_cents is"):
        Ladder("odd", ((1_000, 5),), first_cents=first)


def test_rows_that_state_where_they_start_open_there():
    # the start of bidding and its steps: open 100, by 25 below 500, by 50 above
    rows = [(100, 500, 25), (500, None, 50)]
    by_opening = bidding.rungs(300, 0.5, 3, [(500, 25), (None, 50)], "fixed", 100)

    assert bidding.rungs(300, 0.5, 3, rows, "fixed") == by_opening


@pytest.mark.parametrize("crowd", [np.array([1, 2]), np.array([]), None, 3, ["fixed"]])
def test_a_crowd_is_a_word(crowd):
    with pytest.raises(SpecError, match="crowd is"):
        bidding.expected_hammer(300, 0.5, 3, 100, crowd)


def test_a_spread_too_narrow_to_reckon_with_is_refused():
    with pytest.raises(SpecError, match="sigma is 1e-300; it must be 1e-09 or more"):
        bidding.shrink([100, 200], 1e-300, (200, 0.3))
    with pytest.raises(SpecError, match="sigma is 1e-300; it must be 1e-09 or more"):
        bidding.log_likelihood(5, 1e-300, [150], [200])


def test_more_draws_than_memory_holds_are_refused():
    with pytest.raises(SpecError, match="draws is 1000000000"):
        bidding.simulate(300, 0.5, 3, 100, "fixed", 10**9, 1)


def test_a_ladder_that_ends_says_so():
    short = [(500, 25)]

    assert bidding.next_bid(475, short) == 500
    assert ladder_of(short).rungs(450, 900) == (450, 475, 500)
    assert ladder_of(short).nearest(500) == 500
    for price in (500, 525):
        with pytest.raises(SpecError, match="ends at"):
            bidding.next_bid(price, short)


def test_a_stretch_that_repeats_must_be_a_decade():
    with pytest.raises(SpecError, match="repeats from 100 cents"):
        Ladder("bad", ((100, 10), (500, 50)), repeats_from_cents=100)


def test_rungs_need_an_opening_on_the_ladder():
    with pytest.raises(SpecError, match="needs an opening bid"):
        bidding.rungs(300, 0.5, 3, ROWS, "fixed")
    with pytest.raises(SpecError, match=r"the opening bid of 105\.00 is not on"):
        bidding.rungs(30_000, 0.5, 3, "1-2-5", "fixed", opening=10_500)
    with pytest.raises(SpecError, match="160 is not on the ladder"):
        bidding.rungs(300, 0.5, 3, [150, 200], "fixed", opening=160)
    with pytest.raises(SpecError, match="90 follows 100"):
        bidding.rungs(300, 0.5, 3, [100, 90], "fixed")
    with pytest.raises(SpecError, match="rung 1"):
        bidding.rungs(300, 0.5, 3, [-5, 90], "fixed")
    with pytest.raises(SpecError, match="at least the opening bid"):
        bidding.rungs(300, 0.5, 3, [], "fixed")


@settings(max_examples=60, deadline=None)
@given(
    sigma=st.floats(0.05, 2),
    bidders=st.integers(1, 200),
    crowd=st.sampled_from(CROWDS),
    first=st.floats(1, 2_000),
    steps=st.lists(st.floats(0.5, 500), max_size=40),
)
def test_chances_of_the_rungs_sum_to_one(sigma, bidders, crowd, first, steps):
    prices = [first + total for total in np.cumsum([0, *steps])]

    chances = bidding.rungs(300, sigma, bidders, prices, crowd)

    assert list(chances) == [*prices, None]
    assert min(chances.values()) >= 0
    assert sum(chances.values()) == pytest.approx(1, abs=1e-12)
    sale = bidding.chance_of_sale(300, sigma, bidders, prices[0], crowd)
    assert 1 - chances[None] == pytest.approx(sale, abs=1e-12)


@pytest.mark.parametrize("crowd", CROWDS)
def test_a_ladder_moves_the_mean_by_less_than_one_step(crowd):
    chances = bidding.rungs(300, 0.5, 3, ((None, 25),), crowd, opening=100)

    without = bidding.expected_hammer(300, 0.5, 3, 100, crowd)
    assert abs(bidding.expected_on_ladder(chances) - without) < 25


def test_arrays_and_ranges_do_for_rows():
    by_list = bidding.rungs(300, 0.5, 3, [100, 200, 300], "fixed")

    assert bidding.rungs(300, 0.5, 3, range(100, 400, 100), "fixed") == by_list
    assert bidding.rungs(300, 0.5, 3, np.array([100, 200, 300]), "fixed") == by_list
    anchors = np.array([(180, 0.5), (240, 0.3)])
    assert bidding.blend(anchors) == bidding.blend([(180, 0.5), (240, 0.3)])
    assert bidding.next_bid(100, np.array([100, 150])) == 150


def test_fractions_and_decimals_do_for_rungs():
    chances = bidding.rungs(3, 0.5, 3, [Fraction(1), Fraction(2)], "fixed")

    assert sum(chances.values()) == pytest.approx(1, abs=1e-12)


# --- opinions --------------------------------------------------------------------


def test_two_anchors_blend_by_precision():
    # weights 1/.25 = 4 and 1/.09 = 11.111; (4 ln 180 + 11.111 ln 240)/15.111
    weights = 4, 1 / 0.09
    mu = (weights[0] * math.log(180) + weights[1] * math.log(240)) / sum(weights)

    opinion = bidding.blend([(180, 0.5), (240, 0.3)])

    assert tuple(opinion) == pytest.approx((mu, sum(weights) ** -0.5), rel=1e-12)
    assert opinion.median == pytest.approx(math.exp(mu), rel=1e-12)
    assert bidding.blend([opinion]) == pytest.approx(opinion)
    by_name = {"retail": {"median": 180, "sigma": 0.5}, "sales": (240, 0.3)}
    assert bidding.blend(by_name) == pytest.approx(opinion)
    again = bidding.blend([LogNormal.of_median(180, 0.5), (240, 0.3)])
    assert again == pytest.approx(opinion)


@pytest.mark.parametrize(
    ("anchors", "match"),
    [
        ([], "no anchor"),
        (None, "pairs"),
        ("180", "pairs"),
        ([180, 0.5], "anchor 1 is 180"),
        ({180: 0.5}, "anchor 1 is 0.5"),
        ([{"median": 180}], "anchor 1 is"),
        ([(180, 0.5, 1)], "must be"),
        ([(0, 0.5)], "the median is 0"),
        ([(-180, 0.5)], "the median is -180"),
        ([(180, 0)], "the spread is 0"),
        ([(180, math.nan)], "the spread is nan"),
        ([(180, 0.5), (240, -0.3)], "anchor 2"),
    ],
)
def test_anchors_that_cannot_be_are_refused(anchors, match):
    with pytest.raises(SpecError, match=match):
        bidding.blend(anchors)


def test_two_quantiles_make_an_opinion():
    opinion = bidding.from_quantiles(150, 300)

    assert opinion.quantile(0.1) == pytest.approx(150, rel=1e-12)
    assert opinion.quantile(0.9) == pytest.approx(300, rel=1e-12)
    with pytest.raises(SpecError, match="high is 150"):
        bidding.from_quantiles(150, 150)


def test_few_sales_shrink_to_the_prior():
    prior, sales = (200, 0.35), [180, 220, 260, 310, 150]

    known = 1 / 0.35**2 + 5 / 0.4**2
    mean = (math.log(200) / 0.35**2 + sum(map(math.log, sales)) / 0.4**2) / known
    belief = bidding.shrink(sales, 0.4, prior)

    assert tuple(belief.median) == pytest.approx((mean, known**-0.5), rel=1e-12)
    assert belief.weight_on_data == pytest.approx(5 / 0.4**2 / known, rel=1e-12)
    spread = math.hypot(known**-0.5, 0.4)
    expected = stats.lognorm(spread, scale=math.exp(mean)).ppf([0.1, 0.9])
    seen = [belief.next_price.quantile(share) for share in (0.1, 0.9)]
    assert seen == pytest.approx(list(expected), rel=1e-10)
    one = bidding.shrink(sales[-1:], 0.4, prior)
    assert belief.weight_on_data > one.weight_on_data
    assert bidding.shrink([], 0.4, prior).median.median == pytest.approx(200)


def test_an_unsold_piece_draws_the_middle_down():
    def middle(unsold):
        return bidding.shrink([180, 220], 0.4, (200, 0.35), unsold).median.median

    # that nobody gave 100 says more than that nobody gave 150
    assert middle([100]) < middle([150]) < middle([])
    assert middle([2_000]) == pytest.approx(middle([]), rel=1e-6)


def test_nothing_to_go_by_is_refused():
    with pytest.raises(SpecError, match="neither a sale nor a prior"):
        bidding.shrink([], 0.4, None, [100])


def test_an_unknown_spread_gives_students_t():
    sales = np.array([180, 220, 260, 310, 150])
    y, k0, a0, b0 = np.log(sales), 2, 3, 0.48
    b = b0 + ((y - y.mean()) ** 2).sum() / 2
    b += k0 * 5 * (y.mean() - math.log(200)) ** 2 / (2 * 7)
    scale = math.sqrt(b * 8 / (5.5 * 7))
    middle = (2 * math.log(200) + y.sum()) / 7

    belief = bidding.shrink_with_unknown_spread(sales.tolist(), 200, k0, a0, b0)

    expected = np.exp(stats.t(11, middle, scale).ppf([0.1, 0.5, 0.9]))
    assert [belief.quantile(q) for q in (0.1, 0.5, 0.9)] == pytest.approx(expected)


@pytest.mark.parametrize(
    ("sold", "unsold", "match"),
    [
        ([], [100], "two different"),
        ([120], [], "two different"),
        ([120, 120], [100], "two different"),
        ([120, 0], [], "price 2, is 0"),
        ([120, 150], [-1], "unsold_reserves, price 1"),
        ([120, math.nan], [], "price 2"),
        ([120, "150"], [], "must be a number"),
        (120, [], "row of prices"),
        ([120, 150], None, "row of prices"),
    ],
)
def test_sales_that_cannot_be_fitted_are_refused(sold, unsold, match):
    with pytest.raises(SpecError, match=match):
        bidding.fit_sold_and_unsold(sold, unsold)


@settings(max_examples=40, deadline=None)
@given(
    sold=st.lists(st.floats(1, 1e5), min_size=2, max_size=12, unique=True),
    unsold=st.lists(st.floats(1, 1e5), max_size=12),
)
def test_a_fit_scales_with_the_unit_of_money(sold, unsold):
    if max(sold) / min(sold) < 1.01:
        return
    mu, sigma = bidding.fit_sold_and_unsold(sold, unsold)

    tenfold = bidding.fit_sold_and_unsold(
        [10 * price for price in sold], [10 * r for r in unsold]
    )
    assert tenfold.mu - math.log(10) == pytest.approx(mu, abs=1e-6 * (1 + sigma))
    assert tenfold.sigma == pytest.approx(sigma, rel=1e-6)


@pytest.mark.parametrize(("mu", "sigma"), [(math.nan, 1), (1, 0), (1, -1), (1e9, 1)])
def test_a_log_normal_that_cannot_be_is_refused(mu, sigma):
    with pytest.raises(SpecError, match=r"mu|sigma"):
        LogNormal(mu, sigma)


# --- several rooms ---------------------------------------------------------------


def test_the_rooms_follow_gauss_and_hermite():
    nodes, weights = np.polynomial.hermite_e.hermegauss(7)
    ours = np.array(sorted(NORMAL_NODES))

    assert ours[:, 0] == pytest.approx(nodes, abs=1e-14)
    assert ours[:, 1] == pytest.approx(weights / math.sqrt(2 * math.pi), rel=1e-12)


def test_an_outlook_agrees_with_rooms_drawn_by_chance():
    rng, draws = np.random.default_rng(11), 150_000
    belief, opening = LogNormal.of_median(300, 0.3), 150
    scale = np.exp(0.3 * rng.standard_normal(draws))
    crowd = rng.poisson(4, draws)
    worth = 300 * scale[:, None] * np.exp(0.5 * rng.standard_normal((draws, 20)))
    worth[np.arange(20) >= crowd[:, None]] = 0
    worth.sort(axis=1)
    sold = worth[:, -1] >= opening

    lot = bidding.outlook(
        belief, 0.5, bidding.PoissonCrowd(4), Ladder("ones", ((None, 1),)), opening
    )

    assert sum(weight for _, weight in room_values(belief, 0.5)) == pytest.approx(1)
    error = math.sqrt(0.05 * 0.95 / draws)
    assert lot.chance_of_sale == pytest.approx(sold.mean(), abs=4 * error)
    prices = np.where(sold, np.maximum(worth[:, -2], opening), 0)
    assert lot.mean == pytest.approx(  # rungs of 1 move the mean by less than 1
        prices.mean(), abs=1 + 4 * prices.std() / math.sqrt(draws)
    )
    assert lot.quantile(0.75) == pytest.approx(
        np.quantile(prices[sold], 0.75), rel=0.01
    )


def test_every_refusal_is_a_value_error():
    with pytest.raises(ValueError, match="sigma") as refusal:
        bidding.expected_hammer(300, -1, 3, 0, "fixed")

    assert isinstance(refusal.value, PricebookError)


@pytest.mark.parametrize("spread", [1e-300, 1e300])
def test_an_opinion_too_sure_or_too_unsure_to_weigh_is_refused(spread):
    with pytest.raises(SpecError, match="the spread is"):
        bidding.blend([(180, spread), (240, 0.3)])
