"""Edge banding: the cheapest rolls, proven, and never a splice within an edge."""

import math
from dataclasses import replace
from datetime import date
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import banding
from pricebook.banding import Rolls
from pricebook.errors import LayoutError
from pricebook.rates import Roll
from pricebook.takeoff import Edge

INCH = 25.4


def fits(lengths, rooms):
    """Try every edge on every roll: brute force, no bounds."""
    if not lengths:
        return True
    for k, room in enumerate(rooms):
        if lengths[0] <= room:
            rest = [*rooms[:k], room - lengths[0], *rooms[k + 1 :]]
            if fits(lengths[1:], rest):
                return True
    return False


def least_cost(lengths, rolls):
    """Try every set of rolls in the order of its cost."""
    most = [len(lengths) if len(r) < 3 else min(r[2], len(lengths)) for r in rolls]
    sets = [
        (sum(n * r[1] for n, r in zip(ns, rolls, strict=True)), ns)
        for ns in product(*(range(m + 1) for m in most))
    ]
    for cost, ns in sorted(sets):
        rooms = [r[0] for n, r in zip(ns, rolls, strict=True) for _ in range(n)]
        if sum(rooms) >= sum(lengths) and fits(lengths, rooms):
            return cost
    return None


def arc_flow_optimum(lengths, rolls):
    """Solve the arc-flow programme (Valério de Carvalho 1999) with a MILP solver."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_matrix

    sizes = sorted(set(lengths), reverse=True)
    most = max(r[0] for r in rolls)
    n, arcs = most + 1, []
    for start in range(most + 1):
        if start < most:
            arcs.append(([(start, -1), (start + 1, 1)], 0, math.inf))
        for i, size in enumerate(sizes):
            if start + size <= most:
                entries = [(start, -1), (start + size, 1), (n + i, 1)]
                arcs.append((entries, 0, lengths.count(size)))
    for roll in rolls:
        limit = roll[2] if len(roll) > 2 else len(lengths)
        arcs.append(([(roll[0], -1), (0, 1)], roll[1], limit))
    triples = [(r, c, v) for c, (entries, _, _) in enumerate(arcs) for r, v in entries]
    rows, columns, values = zip(*triples, strict=True)
    matrix = coo_matrix((values, (rows, columns)), shape=(n + len(sizes), len(arcs)))
    wanted = [0] * n + [lengths.count(size) for size in sizes]
    upper = [0] * n + [math.inf] * len(sizes)
    answer = milp(
        np.array([cost for _, cost, _ in arcs], dtype=float),
        constraints=LinearConstraint(matrix.tocsr(), wanted, upper),
        bounds=Bounds(0, np.array([limit for _, _, limit in arcs], dtype=float)),
        integrality=np.ones(len(arcs)),
    )
    return None if answer.status == 2 else round(answer.fun)


def cost_or_none(lengths, rolls):
    try:
        answer = banding.rolls(lengths, rolls)
    except LayoutError:
        return None
    assert answer.proven
    return answer.cost_cents


some_rolls = st.lists(
    st.one_of(
        st.tuples(st.integers(8, 20), st.integers(1, 30)),
        st.tuples(st.integers(8, 20), st.integers(1, 30), st.integers(0, 2)),
    ),
    min_size=1,
    max_size=2,
)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 8), min_size=1, max_size=5), some_rolls)
def test_no_set_of_rolls_found_by_brute_force_is_cheaper(lengths, rolls):
    if all(len(roll) > 2 and roll[2] == 0 for roll in rolls):
        assert cost_or_none(lengths, rolls) is None
        return
    present = max(r[0] for r in rolls if len(r) < 3 or r[2])
    expected = least_cost(lengths, rolls) if max(lengths) <= present else None

    assert cost_or_none(lengths, rolls) == expected


@settings(max_examples=15, deadline=None)
@given(st.data())
def test_a_milp_solver_agrees_on_the_least_cost(data):
    sizes = data.draw(st.lists(st.integers(5, 28), min_size=1, max_size=5))
    lengths = data.draw(st.lists(st.sampled_from(sizes), min_size=1, max_size=18))
    rolls = [(30, data.draw(st.integers(10, 40))), (47, data.draw(st.integers(20, 60)))]
    rolls.append((60, 25, data.draw(st.integers(0, 3))))

    assert cost_or_none(lengths, rolls) == arc_flow_optimum(lengths, rolls)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.floats(1, 900), min_size=1, max_size=30),
    st.lists(st.tuples(st.floats(900, 5000), st.integers(1, 5000)), min_size=1),
)
def test_every_edge_is_cut_once_and_the_bound_holds(lengths, rolls):
    answer = banding.rolls(lengths, rolls)

    cut = sorted(edge for _, part in answer.plan for edge in part)
    assert cut == list(range(len(lengths)))
    by_length = min(price / length for length, price in rolls) * sum(lengths)
    assert answer.cost_cents >= answer.least_possible_cents >= by_length - 1e-6
    bought = sum(rolls[kind][0] for kind, _ in answer.plan)
    assert sum(lengths) + sum(answer.left_mm) == pytest.approx(bought)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(1, 60), min_size=1, max_size=12), st.integers(1, 9))
def test_the_same_lengths_in_another_unit_cost_the_same(lengths, sixteenths):
    rolls = [(60, 500), (150, 1100)]
    unit = sixteenths * INCH / 16

    plain = banding.rolls(lengths, rolls)
    scaled = banding.rolls(
        [n * unit for n in lengths], [(n * unit, c) for n, c in rolls]
    )
    assert plain.cost_cents == scaled.cost_cents
    assert plain.plan == scaled.plan


def test_a_roll_that_is_exactly_filled_in_64ths_of_an_inch_is_enough():
    # 7 x 3 3/64 in = 21 21/64 in
    answer = banding.rolls([(3 + 3 / 64) * INCH] * 7, [((21 + 21 / 64) * INCH, 700)])

    assert answer.cost_cents == 700
    assert answer.left_mm == (0.0,)


def test_rounding_a_fractional_answer_is_not_enough_here():
    # Edges of 38, 20, 41, 35 and 7 in, 1 in more for each, on rolls of 25, 50 and
    # 250 ft at 12, 20 and 80: 4,610 in = 384 ft 2 in. Less than 140 buys 375 ft at
    # most (250 + 5 x 25 = 140 - 8; 250 + 2 x 50 + 25 = 132), so 140 is least;
    # rounding the fractional optimum up gives 144.
    counts = {38: 10, 20: 20, 41: 20, 35: 60, 7: 100}
    lengths = [(size + 1) * INCH for size, n in counts.items() for _ in range(n)]
    rolls = [(300 * INCH, 12), (600 * INCH, 20), (3000 * INCH, 80)]

    answer = banding.rolls(lengths, rolls)
    assert (answer.cost_cents, answer.proven) == (140, True)
    assert answer.bought == {1: 3, 2: 1}


def test_four_edges_with_an_inch_at_each_end_take_104_in():
    # 30 + 30 + 18 + 18 in and 2 in each: 104 in = 8 ft 8 in (arithmetic).
    lengths = [(net + 2) * INCH for net in (30, 30, 18, 18)]
    just_enough = banding.rolls(lengths, [(104 * INCH, 900)])
    too_short = banding.rolls(lengths, [(103.9 * INCH, 900)])

    assert len(just_enough.plan) == 1
    assert len(too_short.plan) == 2


def test_the_rest_stays_in_one_piece_on_one_roll():
    answer = banding.rolls([500.0] * 3 + [300.0] * 2, [(1000.0, 100)])

    # 2,100 mm take three rolls. Every roll carries an edge, the shortest is 300 mm,
    # so no rest is longer than 700; 500 + 500, 500 + 300 and 300 reach that.
    assert answer.cost_cents == 300
    assert max(answer.left_mm) == pytest.approx(700)


def test_fewest_rolls_among_equal_costs():
    answer = banding.rolls([400.0, 400.0], [(500.0, 100), (1000.0, 200)])

    assert answer.plan == ((1, (0, 1)),)


def test_no_edges_need_no_rolls():
    assert banding.rolls([], [(1000.0, 100)]).plan == ()


@pytest.mark.parametrize("length", [0, -5.0, math.nan, math.inf, True, "30", None])
def test_an_edge_that_has_no_length_is_refused(length):
    with pytest.raises(LayoutError, match=r"edge 2 is .* mm long; .* above 0"):
        banding.rolls([100.0, length], [(1000.0, 100)])


@pytest.mark.parametrize(
    ("roll", "sentence"),
    [
        ((0, 100), "roll 1 is 0 mm long"),
        ((math.nan, 100), "roll 1 is nan mm long"),
        ((1000, 0), "roll 1 costs 0 cents; a price is a whole number"),
        ((1000, -5), "roll 1 costs -5 cents"),
        ((1000, 9.5), "roll 1 costs 9.5 cents"),
        ((1000, True), "roll 1 costs True cents"),
        ((1000, 100, -1), "roll 1 may be used -1 times at most"),
        ((1000, 100, 1.5), "roll 1 may be used 1.5 times at most"),
        ((1000,), "give its length in mm and its price in cents"),
        ("ab", "give its length in mm and its price in cents"),
    ],
)
def test_a_roll_that_makes_no_sense_is_refused(roll, sentence):
    with pytest.raises(LayoutError, match=sentence):
        banding.rolls([100.0], [roll])


def test_an_edge_longer_than_every_roll_is_named_with_the_longest_roll():
    with pytest.raises(LayoutError, match=r"edge 2 is 2,500 mm .*roll is 2,000 mm"):
        banding.rolls([100.0, 2500.0], [(1000.0, 100), (2000.0, 190), (3000, 200, 0)])


def test_all_faults_are_told_at_once():
    with pytest.raises(LayoutError, match="edge 1 is -1 mm") as caught:
        banding.rolls([-1, 5], [(0, 0), (10, 0)])

    assert len(caught.value.faults) == 3


def test_too_few_rolls_are_refused_with_both_lengths():
    with pytest.raises(LayoutError, match=r"3 edges need .*1,500 mm.* hold .*1,400 mm"):
        banding.rolls([500.0] * 3, [(700.0, 100, 2)])
    with pytest.raises(LayoutError, match="cannot be cut without a splice"):
        banding.rolls([500.0] * 3, [(800.0, 100, 2)])


LENGTHS = [400.0, 300.0, 300.0]
OFFER = [(1000.0, 900), (500.0, 500, 1)]


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"plan": ((0, (0, 1)),)}, "edge 3 is on no roll"),
        ({"plan": ((0, (0, 1, 2, 2)),)}, "edge 3 is cut 2 times"),
        ({"plan": ((0, (0, 1, 2, 7)),)}, "edge 8 of the plan is not among the edges"),
        ({"plan": ((5, (0, 1, 2)),)}, "roll 6 of the plan is not among the rolls"),
        ({"plan": ((1, (0, 1, 2)),)}, "roll 1 of the plan is too full by 500 mm"),
        (
            {
                "plan": ((1, (0,)), (1, (1,)), (0, (2,))),
                "left_mm": (100.0, 200.0, 700.0),
            },
            "roll 2 is taken 2 times; there are 1 at most",
        ),
        (
            {"cost_cents": 800, "least_possible_cents": 800},
            "the rolls .* cost 900 cents",
        ),
        ({"least_possible_cents": 901}, "least possible cost is given as 901"),
        ({"left_mm": (1.0,)}, "has 0 mm left, the answer says 1"),
        ({"left_mm": ()}, "the rest must be given once for each roll"),
    ],
)
def test_the_checker_finds_what_is_wrong(changes, sentence):
    right = Rolls(
        cost_cents=900,
        plan=((0, (0, 1, 2)),),
        least_possible_cents=900,
        left_mm=(0.0,),
    )
    banding.check(right, LENGTHS, OFFER)

    with pytest.raises(LayoutError, match=sentence):
        banding.check(replace(right, **changes), LENGTHS, OFFER)


def roll(key, length_ft=25, **changes):
    base = {
        "species": "walnut",
        "form": "iron-on",
        "width_mm": 22.225,
        "length_mm": length_ft * 12 * INCH,
        "price_cents": 1100,
        "dated": date(2026, 1, 1),
        "source": "invented",
    }
    return Roll(key=key, **(base | changes))


def edge(name, length_in, count=1, **changes):
    base = {
        "piece": "case",
        "length_mm": length_in * INCH,
        "width_mm": 0.75 * INCH,
        "end_allowance_mm": INCH,
        "species": "walnut",
    }
    return Edge(name=name, count=count, **(base | changes))


def test_the_rack_is_used_before_anything_is_bought():
    stock = [roll("new"), roll("rest", 6, on_hand=1, value_cents=200, to_buy=False)]

    plan = banding.band([edge("shelf", 30, 2)], stock)
    assert plan.cash_cents == 0
    assert plan.bands[0].from_rack == (("rest", 1),)
    # 64 of 72 in of a rest worth 200 cents: 177.8
    assert plan.used_cents == 178
    assert plan.bands[0].rolls[0].left_mm == pytest.approx(8 * INCH)


def test_cash_counts_before_the_value_of_the_rack():
    stock = [
        roll("dear rest", 6, on_hand=2, value_cents=90000, to_buy=False),
        roll("rest", 6, on_hand=1, value_cents=100, to_buy=False),
        roll("new", 25, price_cents=1),
    ]

    one = banding.band([edge("shelf", 30)], stock)
    three = banding.band([edge("shelf", 60, 3)], stock)
    assert one.bands[0].from_rack == (("rest", 1),)
    assert three.cash_cents == 0
    assert three.bands[0].from_rack == (("dear rest", 2), ("rest", 1))


def test_banding_is_a_sixteenth_wider_than_the_panel_at_the_least():
    stock = [
        roll("3/4", width_mm=0.75 * INCH),
        roll("13/16", width_mm=13 / 16 * INCH),
        roll("7/8", width_mm=7 / 8 * INCH),
    ]

    plan = banding.band([edge("thin", 30), edge("thick", 30, width_mm=20.6)], stock)
    assert [(b.to_buy, b.rolls[0].edges[0].name) for b in plan.bands] == [
        ((("13/16", 1),), "thin"),
        ((("7/8", 1),), "thick"),
    ]


def test_a_narrow_rest_in_the_rack_does_not_stand_in_the_way():
    stock = [
        roll("rest", 4, width_mm=13 / 16 * INCH, on_hand=1, to_buy=False),
        roll("7/8", width_mm=7 / 8 * INCH),
    ]

    plan = banding.band([edge("shelf", 30, 3)], stock)
    assert plan.bands[0].to_buy == (("7/8", 1),)
    assert plan.cash_cents == 1100


def test_edges_without_wide_or_long_enough_banding_are_all_named():
    edges = [
        edge("top", 30, width_mm=60),
        edge("rail", 400),
        edge("cherry lip", 10, species="cherry"),
    ]

    with pytest.raises(LayoutError, match=r'(?s)"top" is .* thick .*"rail"') as caught:
        banding.band(edges, [roll("only")])
    assert len(caught.value.faults) == 3
    assert 'no banding of cherry for "cherry lip"' in caught.value.faults[2]


def test_the_form_that_costs_least_is_taken_unless_one_is_asked_for():
    stock = [roll("iron"), roll("peel", form="self-adhesive", price_cents=900)]

    assert banding.band([edge("shelf", 30)], stock).cash_cents == 900
    assert banding.band([edge("shelf", 30)], stock, form="iron-on").cash_cents == 1100


def test_pieces_share_a_roll_by_length():
    edges = [edge("a", 30), edge("b", 62, piece="other")]

    plan = banding.band(edges, [roll("only", 8, price_cents=960)])
    # 96 in for 960 cents: 32 in and 64 in
    assert plan.used_by_piece == {"case": 320, "other": 640}
    assert plan.rolls[0].words() == (
        "Roll 1, only, 96 in (to buy): a 32 in, b 64 in; nothing left."
    )


@pytest.mark.parametrize("names", [("left",), 7, ("left", 3)])
def test_names_that_are_not_one_an_edge_are_refused(names):
    with pytest.raises(LayoutError, match=r"give one a length|in a row"):
        banding.rolls([100, 200], [(1000, 500)], names)


def test_a_price_that_nothing_costs_is_refused():
    with pytest.raises(LayoutError, match="above 0, at most 1,000,000,000,000"):
        banding.rolls([100], [(1000, 10**200)])
