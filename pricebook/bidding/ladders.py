"""Ladders of bids in use, and the forms in which one may be written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from pricebook.bidding.arguments import number_faults
from pricebook.bidding.ladder import Ladder
from pricebook.bidding.written import of_rows
from pricebook.errors import SpecError, nearest, raise_all

TEN_PERCENT = Ladder(
    "ten percent",
    (
        (10_000, 1_000),
        (20_000, 1_000),
        (30_000, 2_000),
        (32_000, 2_000),
        (38_000, 3_000),
        (42_000, 2_000),
        (48_000, 3_000),
        (50_000, 2_000),
        (100_000, 5_000),
    ),
    repeats_from_cents=10_000,
)
"""Steps of about a tenth, 1-2-5 style: 100, 110 … 200, 220 … 300, 320, 350, 380,
400, 420, 450, 480, 500, 550 … 1,000, and the same tenfold; below 100 by 10. Common
practice among auctioneers (an auctioneer's published explainer, 2018)."""

PLAIN_STEPS = Ladder(
    "plain steps",
    (
        (10_000, 100),
        (50_000, 500),
        (100_000, 1_000),
        (250_000, 2_500),
        (500_000, 5_000),
        (None, 10_000),
    ),
)
"""By 1 to 100, by 5 to 500, by 10 to 1,000, by 25 to 2,500, by 50 to 5,000, then by
100: a table seen at estate sales, common practice."""

LADDERS = {"1-2-5": TEN_PERCENT, TEN_PERCENT.name: TEN_PERCENT, "plain": PLAIN_STEPS}
"""The ladders that a name stands for."""

LadderLike = (
    Ladder
    | str
    | Sequence[int]
    | Sequence[tuple[int | None, int]]
    | Sequence[tuple[int, int | None, int]]
    | Sequence[Mapping[str, int | None]]
    | Mapping[int | None, int]
)


def ladder_of(ladder: LadderLike) -> Ladder:
    """Return a ladder, from any of the forms in which one may be written.

    Parameters
    ----------
    ladder : Ladder, str, mapping, or sequence of rows or of int
        A ladder; the name of one ("1-2-5", "plain"); rows (up to, step), the last
        with None when it has no end; rows (from, step), the first from 0; rows
        (from, up to, step); mappings with `from`, `up_to` and `step`, the names also
        with `_cents`; one mapping of up to: step; or the rungs themselves, rising.
        [cents]

    Returns
    -------
    Ladder
        The ladder.

    Raises
    ------
    SpecError
        If it is none of these, or goes backwards.

    Examples
    --------
    >>> ladder_of([(50_000, 2_500), (None, 5_000)]).next_bid(50_000)
    55000
    >>> ladder_of([(0, 2_500), (50_000, 5_000)]).next_bid(50_000)
    55000
    >>> ladder_of([(0, 50_000, 2_500), (50_000, None, 5_000)]).next_bid(50_000)
    55000
    >>> ladder_of([100, 150, 225]).next_bid(150)
    225
    >>> ladder_of([100, 90])
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: ladder "rungs" goes backwards: 90 follows 100; ...
    """
    if isinstance(ladder, Ladder):
        return ladder
    if isinstance(ladder, str):
        if ladder not in LADDERS:
            hint = nearest(ladder, LADDERS)
            raise SpecError(f'ladder "{ladder}" is not known; {hint}')
        return LADDERS[ladder]
    given = ladder.items() if isinstance(ladder, Mapping) else ladder
    rows = list(given) if isinstance(given, Iterable) else []
    if not rows:
        raise SpecError(
            f"a ladder is {ladder!r}; give a name, rows (up to, step), or rungs."
        )
    if all(isinstance(row, Iterable) for row in rows):
        return of_rows(rows)
    return _of_rungs(rows)


def _of_rungs(rungs: Sequence[object]) -> Ladder:
    """Build from the rungs themselves, one stretch between neighbours."""
    prices = [_whole(rung) for rung in rungs]
    if len(prices) < 2:
        raise SpecError('ladder "rungs" has one rung; give two or more.')
    pairs = list(pairwise(prices))
    raise_all(
        SpecError,
        (
            f'ladder "rungs" goes backwards: {high} follows {low}; each rung must be '
            "higher than the one before."
            for low, high in pairs
            if high <= low
        ),
    )
    steps = tuple((high, high - low) for low, high in pairs)
    return Ladder("rungs", steps, first_cents=prices[0])


def _whole(rung: object) -> int:
    raise_all(SpecError, number_faults("a rung", rung, least=0, whole=True))
    return int(rung)  # type: ignore[call-overload, no-any-return]


def next_bid(price_cents: int, ladder: LadderLike) -> int:
    """Return the bid that follows a standing bid.

    Parameters
    ----------
    price_cents : int
        The standing bid, a rung of the ladder. [cents]
    ladder : Ladder, str, mapping, or sequence of rows or of int
        The ladder, in any form that `ladder_of` reads. [cents]

    Returns
    -------
    int
        The next bid. [cents]

    Raises
    ------
    SpecError
        If the ladder goes backwards, the price is not on it, or it ends there.

    Examples
    --------
    >>> next_bid(50_000, "1-2-5"), next_bid(950_000, "1-2-5")
    (55000, 1000000)
    >>> next_bid(51_000, "1-2-5")
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: the bid of 510.00 is not on the ladder ...
    """
    return int(ladder_of(ladder).next_bid(price_cents))
