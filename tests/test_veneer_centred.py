"""Centred faces against brute force, which tries every cut at every place.

A rectangle remembers where it lay on its sheet, so that a centred face fits only where
its middle can lie on the centre line of the figure.
"""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_veneer_brute_force import face, sheet_row, subsets

from pricebook.veneer import lay_out


def centred_fitter(items, centre):
    """Return whether faces can be cut so that those centred lie on a line."""

    @cache
    def fits(mask, along, left, right):
        held = [items[n] for n in range(len(items)) if mask >> n & 1]
        if sum(a * c for a, c, _ in held) > along * (right - left):
            return False
        if len(held) == 1:
            a, c, on_line = held[0]
            inside = left <= centre - c / 2 and centre + c / 2 <= right
            return a <= along and c <= right - left and (inside or not on_line)
        return any(
            fits(part, *one) and fits(mask ^ part, *two)
            for one, two in halves_of(along, left, right)
            for part in subsets(mask)
        )

    return fits


def halves_of(along, left, right):
    for at in range(1, along):
        yield (at, left, right), (along - at, left, right)
    for at in range(left + 1, right):
        yield (along, left, at), (along, at, right)


def least_centred(rows, offered):
    items = [(a, c, on_line) for a, c, n, on_line in rows for _ in range(n)]
    fitters = [centred_fitter(items, centre) for *_, centre in offered]

    @cache
    def cost(mask):
        found = [0] if not mask else []
        for part in (mask, *subsets(mask)):
            for fits, (along, across, price, _) in zip(fitters, offered, strict=True):
                if part & mask & -mask and fits(part, along, 0, across):
                    rest = cost(mask ^ part)
                    found += [] if rest is None else [price + rest]
        return min(found, default=None)

    return cost((1 << len(items)) - 1)


@given(
    st.lists(
        st.tuples(
            st.integers(1, 5), st.sampled_from([2, 4]), st.integers(1, 2), st.booleans()
        )
        | st.tuples(
            st.integers(1, 5), st.integers(1, 5), st.integers(1, 2), st.just(False)
        ),
        min_size=2, max_size=3,
    ).filter(lambda rows: sum(n for *_, n, _ in rows) <= 5),
    st.lists(
        st.tuples(
            st.integers(5, 7), st.sampled_from([6, 8]), st.integers(2, 9),
            st.integers(2, 4),
        ),
        min_size=1, max_size=2,
    ),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_a_bound_with_centred_faces_never_exceeds_brute_force(rows, offered):
    expected = least_centred(rows, offered)
    faces = [
        replace(face(number, *row[:3]), centred=row[3])
        for number, row in enumerate(rows)
    ]
    stock = [
        replace(sheet_row(n, *one[:3], 1, 0, True), figure_centre_mm=float(one[3]))
        for n, one in enumerate(offered)
    ]
    if expected is None:
        return
    layout = lay_out(faces, stock)
    assert layout.least_possible_cents <= expected <= layout.cost_cents


@pytest.mark.parametrize("across", [16, 18])
def test_a_bound_knows_that_nothing_fits_beside_a_centred_face(across):
    # 40 wide, 16 or more in the middle: at most 12 on either side, and 13 is needed
    rows = [replace(face(0, 60, across, 1), centred=True), face(1, 50, 13, 1)]
    layout = lay_out(rows, [sheet_row(0, 100, 40, 500, 1, 0, True)])
    assert layout.cost_cents == layout.least_possible_cents == 1000
    assert (
        lay_out(
            [replace(rows[0], centred=False), rows[1]],
            [sheet_row(0, 100, 40, 500, 1, 0, True)],
        ).cost_cents
        == 500
    )
