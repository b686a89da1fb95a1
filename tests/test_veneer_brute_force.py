"""Small layouts against brute force, which tries every cut at every place.

The brute force shares nothing with the package: it splits sets of parts and sheets of
whole numbers in every way that cuts from edge to edge allow.
"""

from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer import check, fit, lay_out
from pricebook.veneer.columns import coarser
from pricebook.veneer.model import Problem
from pricebook.veneer.reading import blocks_of, read_sheets
from pricebook.veneer.search import Search

MANY = 99


def subsets(mask):
    """Yield the sets inside a set, neither empty nor whole."""
    part = (mask - 1) & mask
    while part:
        yield part
        part = (part - 1) & mask


def fitter(items):
    """Return whether a set of parts can be cut from a sheet, by trying every cut."""

    @cache
    def fits(mask, along, across):
        held = [items[n] for n in range(len(items)) if mask >> n & 1]
        if any(a > along or c > across for a, c in held):
            return False
        if sum(a * c for a, c in held) > along * across:
            return False
        return len(held) < 2 or any(
            fits(part, *one) and fits(mask ^ part, *two)
            for one, two in halves(along, across)
            for part in subsets(mask)
        )

    return fits


def halves(along, across):
    """Yield both pieces of every cut."""
    for at in range(1, along):
        yield (at, across), (along - at, across)
    for at in range(1, across):
        yield (along, at), (along, across - at)


def two_stage_fitter(items):
    """Return whether strips hold a set of parts, by trying every set of strips."""

    @cache
    def length(mask, axis, width):
        found = []
        for part in (mask, *subsets(mask)):
            held = [items[n] for n in range(len(items)) if part >> n & 1]
            if part & mask & -mask and sum(one[1 - axis] for one in held) <= width:
                rest = length(mask ^ part, axis, width) if mask ^ part else 0
                found.append(max(one[axis] for one in held) + rest)
        return min(found, default=MANY)

    def fits(mask, along, across):
        return length(mask, 0, across) <= along or length(mask, 1, along) <= across

    return fits


def least_cost(parts, sheets, way=fitter):
    """Return the least cost, or None when the sheets cannot hold the parts."""
    items = [(a, c) for a, c, n in parts for _ in range(n)]
    fits = way(items)

    @cache
    def cost(mask, left):
        if not mask:
            return 0
        found = [
            price + rest
            for part in (mask, *subsets(mask))
            if part & mask & -mask
            for kind, (along, across, price, *_) in enumerate(sheets)
            if left[kind] and fits(part, along, across)
            for rest in [cost(mask ^ part, used(left, kind))]
            if rest is not None
        ]
        return min(found, default=None)

    def used(left, kind):
        return (*left[:kind], left[kind] - 1, *left[kind + 1 :])

    limits = tuple(sheet[3] if len(sheet) > 3 else MANY for sheet in sheets)
    return cost((1 << len(items)) - 1, limits)


small_parts = st.lists(
    st.tuples(st.integers(1, 6), st.integers(1, 6), st.integers(1, 2)),
    min_size=1,
    max_size=4,
).filter(lambda parts: sum(n for *_, n in parts) <= 6)
size = st.integers(3, 8)
sheet = st.tuples(size, size, st.integers(2, 12)) | st.tuples(
    size, size, st.integers(2, 12), st.integers(0, 2)
)
few_sheets = st.lists(sheet, min_size=1, max_size=3)


@given(small_parts, few_sheets)
@settings(max_examples=60, deadline=None)
def test_a_small_layout_costs_what_brute_force_finds(parts, sheets):
    expected = least_cost(parts, sheets)
    if expected is None:
        with pytest.raises(ValueError, match="sheet"):
            fit(parts, sheets)
        return
    plan = fit(parts, sheets)
    check(plan, parts, sheets)
    assert (plan.cost_cents, plan.proven) == (expected, True)


@given(small_parts, few_sheets)
@settings(max_examples=15, deadline=None)
def test_the_method_for_batches_never_undercuts_brute_force(parts, sheets):
    expected = least_cost(parts, sheets)
    if expected is None:
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Search, "_exact", lambda *_: False)
        plan = fit(parts, sheets)
    assert plan.least_possible_cents <= expected <= plan.cost_cents


@given(small_parts, few_sheets)
@settings(max_examples=40, deadline=None)
def test_filling_or_ruling_out_sets_of_sheets_finds_what_brute_force_finds(
    parts, sheets
):
    expected = least_cost(parts, sheets)
    if expected is None:
        return
    problem = Problem(blocks=blocks_of(parts, ()), stocks=read_sheets(sheets))
    search = Search(problem)
    search._first()
    search._bound_of_few()
    if search.best is None:
        return
    search._sets()
    assert (search.cost, search.bound) == (expected, expected)


@given(small_parts, few_sheets)
@settings(max_examples=40, deadline=None)
def test_a_layout_in_two_stages_costs_what_brute_force_finds(parts, sheets):
    expected = least_cost(parts, sheets, two_stage_fitter)
    if expected is None:
        with pytest.raises(ValueError, match="sheet"):
            fit(parts, sheets, stages=2)
        return
    plan = fit(parts, sheets, stages=2)
    assert plan.least_possible_cents <= expected <= plan.cost_cents
    if all(len(one) == 3 for one in sheets):
        assert plan.proven


@given(small_parts, few_sheets)
@settings(max_examples=25, deadline=None)
def test_fewer_stages_never_cost_less(parts, sheets):
    offered = [row[:3] for row in sheets]
    if least_cost(parts, offered) is None:
        return
    costs = [fit(parts, offered, stages=stages).cost_cents for stages in (None, 3, 2)]
    assert costs == sorted(costs)


@given(small_parts, few_sheets, st.integers(2, 3))
@settings(max_examples=25, deadline=None)
def test_a_bound_in_coarser_units_never_exceeds_brute_force(parts, sheets, unit):
    offered = [row[:3] for row in sheets]
    expected = least_cost(parts, offered)
    if expected is None:
        return
    problem = Problem(blocks=blocks_of(parts, ()), stocks=read_sheets(offered))
    rounded = coarser(problem, unit, unit)
    blocks = tuple(block for block in rounded.blocks if block.count)
    if blocks:
        rough = Search(replace(rounded, blocks=blocks))
        rough.run()
        assert rough.bound <= expected


def face(number, along, across, count):
    return Face(
        name=f"face {number}", piece="box", group="faces", along_mm=along,
        across_mm=across, count=count, overhang_mm=0, veneer="show", species="walnut",
    )  # fmt: skip


def sheet_row(number, along, across, price, value, on_hand, to_buy):
    return Sheet(
        key=f"row {number}", dated=date(2026, 1, 5), source="invented",
        species="walnut", form="backed", veneer="show", along_mm=along,
        across_mm=across, price_cents=price, value_cents=value, on_hand=on_hand,
        to_buy=to_buy,
    )  # fmt: skip


@given(
    st.lists(
        st.tuples(st.integers(2, 6), st.integers(2, 6), st.integers(1, 2)),
        min_size=1,
        max_size=3,
    ).filter(lambda rows: sum(n for *_, n in rows) <= 5),
    st.lists(
        st.tuples(
            st.integers(5, 8), st.integers(5, 8), st.integers(2, 9), st.integers(1, 9),
            st.integers(0, 2), st.booleans(),
        ),
        min_size=1, max_size=3,
    ),
)  # fmt: skip
@settings(max_examples=40, deadline=None)
def test_cash_first_and_then_the_rack_is_what_brute_force_finds(rows, offered):
    """The brute force sums one number: the price times 1,000, or the rack's value."""
    sheets = [(a, c, 1000 * price) for a, c, price, _, _, buy in offered if buy]
    sheets += [(a, c, value, n) for a, c, _, value, n, _ in offered]
    fitting = least_cost([(a, c, n) for a, c, n in rows], sheets)
    faces = [face(number, *row) for number, row in enumerate(rows)]
    stock = [sheet_row(number, *row) for number, row in enumerate(offered)]
    if fitting is None:
        with pytest.raises(ValueError, match="sheet"):
            lay_out(faces, stock)
        return
    layout = lay_out(faces, stock)
    cash, value = divmod(fitting, 1000)
    assert (layout.cash_cents, layout.cost_cents) == (cash, cash + value)
    assert layout.proven


def test_brute_force_itself_knows_a_plan_that_no_edge_to_edge_cut_frees():
    """Five parts round a square: they fit, but nobody can cut them free."""
    pinwheel = [(2, 4, 2), (4, 2, 2), (2, 2, 1)]
    assert least_cost(pinwheel, [(6, 6, 5)]) == 10
    assert fit(pinwheel, [(6, 6, 5)]).cost_cents == 10
