"""Draw the evenings: two highest bidders a lot, without listing the others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.bidders import chance_above, exceedances, on_ladder
from pricebook.forecast.evening_total import Evening, LotForecast
from pricebook.forecast.faults import number_fault, whole_fault
from pricebook.forecast.lots import Lot, read_lots
from pricebook.money import half_up

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pricebook.bidding import Ladder
    from pricebook.bidding.ladders import LadderLike

    Floats = NDArray[np.float64]

MOST_EVENINGS = 1_000_000
_MOST_CENTS = 10**13


def evening(
    lots: Sequence[object],
    seed: int,
    evenings: int,
    common: float,
    *,
    turnout: float = 0.0,
    ladder: LadderLike | None = None,
    progress: Callable[[int, int], object] | None = None,
) -> Evening:
    """Draw what an evening may raise, many times over.

    Parameters
    ----------
    lots : sequence
        One entry a lot, in any form that `read_lots` takes.
    seed : int
        Where the draws begin, 0 or more; the same seed gives the same result.
    evenings : int
        How many evenings to draw, 2 to 1,000,000; 20,000 puts the mean within
        1 % for any spread that an auction has.
    common : float
        Standard deviation of the logarithm of a factor that all bidders of one
        evening share (weather, mood, budgets); 0 for none. [-]
    turnout : float
        Standard deviation of the logarithm of a factor on how many bid, one for
        all lots of an evening. It has mean 1, so that the numbers of bidders
        stated stay the means. [-]
    ladder : optional
        A ladder of bids in any form that `bidding.ladder_of` reads, every opening
        bid on it; without one prices run on to the cent. [cents]
    progress : callable, optional
        Called after each lot with lots done and lots in all.

    Returns
    -------
    Evening
        The totals drawn and the lots.

    Raises
    ------
    SpecError
        If there are no lots, or an input is not one that an evening can have.

    Notes
    -----
    Bidder j of lot i values it at exp(mu_i + common Z + sigma e_j), Z once an
    evening. The price is the second highest value, not below the opening bid; the
    lot passes when the highest is below it. Only the two highest are drawn: with E
    standard exponential, a Poisson crowd of mean m exceeds its highest value with
    chance E1 / m and its second with (E1 + E2) / m (none when above 1); of n known
    bidders the highest has rank exp(-E1 / n), the second that times
    exp(-E2 / (n - 1)). On a ladder any willing bidder but the holder may take the
    next rung: with c bidders between the rung of the second value and the top, the
    highest holds that rung with chance 1 / c, else takes the next if worth it.
    Each lot has draws of its own: a changed lot leaves the others' alone. Prices
    are rounded half up to the cent, once a lot.
    Method: order statistics of exponential spacings, from memory.

    Examples
    --------
    >>> lots = [{"median_cents": 30000, "sigma": 0.5, "bidders": 4,
    ...          "opening_cents": 15000}] * 40
    >>> drawn = evening(lots, 1, 2000, 0.2)
    >>> drawn.evenings, 1_300_000 < drawn.mean_cents < 1_450_000
    (2000, True)
    >>> evening([], 1, 2000, 0.2)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: an evening has no lots; it must have at least one.
    """
    import numpy as np

    read = _checked(lots, seed, evenings, common, turnout)
    rungs = None if ladder is None else _fitting(ladder, read)
    roots = np.random.SeedSequence(int(seed)).spawn(len(read) + 2)
    moods, crowds = (np.random.default_rng(root) for root in roots[:2])
    shift = float(common) * moods.standard_normal(int(evenings))
    log_crowd = float(turnout) * crowds.standard_normal(int(evenings))
    drawn = _Conditions(shift, np.exp(log_crowd - float(turnout) ** 2 / 2), rungs)
    totals = np.zeros(int(evenings), dtype=np.int64)
    rows = []
    for done, (lot, root) in enumerate(zip(read, roots[2:], strict=True), 1):
        cents, sold = _draw(lot, np.random.default_rng(root), drawn)
        totals += cents
        rows.append(_row(lot, cents, sold))
        if progress is not None:
            progress(done, len(read))
    totals.sort()
    return Evening(
        totals_cents=tuple(totals.tolist()),
        lots=tuple(rows),
        seed=int(seed),
        common=float(common),
        turnout=float(turnout),
    )


def _fitting(ladder: LadderLike, lots: Sequence[Lot]) -> Ladder:
    """Return the ladder, which must hold every opening bid."""
    from pricebook.bidding import ladder_of

    read = ladder_of(ladder)
    off = [
        lot
        for lot in lots
        if lot.opening_cents % 1 or not read.holds(int(lot.opening_cents))
    ]
    raise_all(
        SpecError,
        [
            f"{lot.name}: opening_cents is {lot.opening_cents}, no rung of the ladder "
            f'"{read.name}"; open on a rung.'
            for lot in off
        ],
    )
    return read


class _Conditions:
    """What all lots of an evening share: level of values, crowd, ladder."""

    __slots__ = ("crowd", "ladder", "shift")

    def __init__(self, shift: Floats, crowd: Floats, ladder: Ladder | None) -> None:
        self.shift, self.crowd, self.ladder = shift, crowd, ladder


def _checked(
    lots: Sequence[object], seed: int, evenings: int, common: float, turnout: float
) -> tuple[Lot, ...]:
    faults = [*whole_fault("seed", seed), *whole_fault("evenings", evenings, least=2)]
    if not faults and evenings > MOST_EVENINGS:
        faults.append(
            f"evenings is {evenings}; draw {MOST_EVENINGS} at most, 20000 will do."
        )
    faults += [*number_fault("common", common), *number_fault("turnout", turnout)]
    read: tuple[Lot, ...] = ()
    try:
        read = read_lots(lots)
    except SpecError as error:
        faults += error.faults
    raise_all(SpecError, faults)
    if turnout > 0 and all(lot.crowd == "fixed" for lot in read):
        raise SpecError(
            f"turnout is {turnout} but every lot has a fixed crowd, which no turnout "
            'moves; use crowd "poisson" or turnout 0.'
        )
    return read


def _row(lot: Lot, cents: NDArray[np.int64], sold: NDArray[np.bool_]) -> LotForecast:
    return LotForecast(
        name=lot.name,
        mean_cents=half_up(float(cents.mean())),
        sd_cents=half_up(float(cents.std(ddof=1))),
        sold_share=float(sold.mean()),
    )


def _draw(
    lot: Lot, rng: np.random.Generator, drawn: _Conditions
) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """Draw a lot's price for every evening, 0 where it passes."""
    import numpy as np
    from scipy.special import ndtri

    middle = np.log(float(lot.median_cents)) + drawn.shift
    first, second = exceedances(lot, rng, drawn.crowd)
    reach = chance_above(lot, middle, lot.opening_cents)
    sold, contested = first <= reach, second < reach
    price = np.where(sold, float(lot.opening_cents), 0.0)
    with np.errstate(over="ignore"):
        worth = np.exp(middle[contested] - lot.sigma * ndtri(second[contested]))
    if worth.size and not worth.max() < _MOST_CENTS:
        raise SpecError(
            f"{lot.name}: a price beyond {_MOST_CENTS} cents was drawn; lower its "
            "median_cents or sigma, or common."
        )
    price[contested] = worth
    if drawn.ladder is not None and worth.size:
        parts = (middle, first, second, drawn.crowd)
        rest = (part[contested] for part in parts)
        price[contested] = on_ladder(lot, rng, drawn.ladder, worth, *rest)
    cents = np.floor(price * float(lot.weight) + 0.5).astype(np.int64)
    return cents, sold
