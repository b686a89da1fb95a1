"""The evening and the years: forecast, lots, estimates, totals."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pricebook.event import Event
from pricebook.forecast import Evening
from pricebook.frames.building import CENTS, NUMBER, PERHAPS_CENTS, TEXT, frame_of
from pricebook.money import show
from pricebook.records import EventTotals, LotOutcome, Year

if TYPE_CHECKING:
    import pandas as pd

Totals = Year | EventTotals


def forecast_frame(evening: Evening) -> pd.DataFrame:
    """Return what an evening may raise: mean and quantiles of its picture.

    Parameters
    ----------
    evening : Evening
        The evening, drawn many times.

    Returns
    -------
    pandas.DataFrame
        A row a figure. Columns: `figure` (string), `total_cents` (int64).
    """
    rows: list[list[object]] = [
        [f"{share:.0%} of evenings stay at or below".replace("%", " %"), cents]
        for share, cents in evening.quantiles.items()
    ]
    rows += [["mean", evening.mean_cents], ["standard deviation", evening.sd_cents]]
    return frame_of({"figure": TEXT, "total_cents": CENTS}, rows)


def forecast_lots_frame(evening: Evening) -> pd.DataFrame:
    """Return what each lot adds to the forecast.

    Parameters
    ----------
    evening : Evening
        The evening, drawn many times.

    Returns
    -------
    pandas.DataFrame
        A row a lot. Columns: `lot` (string), `mean_cents`, `sd_cents` (int64),
        `sold_share` (float64).
    """
    columns = {
        "lot": TEXT,
        "mean_cents": CENTS,
        "sd_cents": CENTS,
        "sold_share": NUMBER,
    }
    rows = [[x.name, x.mean_cents, x.sd_cents, x.sold_share] for x in evening.lots]
    return frame_of(columns, rows)


def forecast_sentence(
    evening: Evening, target_cents: int | None = None, currency: str = ""
) -> str:
    """Say in one sentence what an evening may raise, and how sure that is.

    Parameters
    ----------
    evening : Evening
        The evening, drawn many times.
    target_cents : int or None
        What is hoped for. [cents]
    currency : str
        The sign of the money.

    Returns
    -------
    str
        The middle 80 % of evenings, and the chance of reaching the target.
    """
    low, high = (show(evening.quantiles[share], currency) for share in (0.1, 0.9))
    words = f"Eight evenings of ten raise between {low} and {high}"
    if target_cents is None:
        return f"{words}, {show(evening.mean_cents, currency)} in the mean."
    chance = 100 * evening.chance_of(target_cents)
    return (
        f"{words}; the target of {show(target_cents, currency)} is reached with a "
        f"chance of {chance:.0f} %."
    )


def event_frame(event: Event) -> pd.DataFrame:
    """Return the lots of an event's catalogue.

    Parameters
    ----------
    event : Event
        The event.

    Returns
    -------
    pandas.DataFrame
        A row a lot, in the order of the catalogue. Columns: `lot`, `title`, `maker`
        (string), `fair_market_value_cents`, `estimate_low_cents`,
        `estimate_high_cents` (Int64), `opening_bid_cents` (int64), `reserve_cents`
        (Int64).
    """
    columns = {
        "lot": TEXT,
        "title": TEXT,
        "maker": TEXT,
        "fair_market_value_cents": PERHAPS_CENTS,
        "estimate_low_cents": PERHAPS_CENTS,
        "estimate_high_cents": PERHAPS_CENTS,
        "opening_bid_cents": CENTS,
        "reserve_cents": PERHAPS_CENTS,
    }
    rows = [
        [
            *(lot.key, lot.title, lot.maker, lot.fair_market_value_cents),
            *(lot.estimate_low_cents, lot.estimate_high_cents),
            *(lot.opening_cents, lot.reserve_cents),
        ]
        for lot in event.lots
    ]
    return frame_of(columns, rows)


def estimates_frame(lots: Sequence[LotOutcome]) -> pd.DataFrame:
    """Return estimates beside hammer prices: the numbers of their picture.

    Parameters
    ----------
    lots : sequence of LotOutcome
        What was expected of each lot and what came.

    Returns
    -------
    pandas.DataFrame
        A row a lot. Columns: `lot` (string), `estimate_low_cents`,
        `estimate_high_cents` (int64), `hammer_cents` (Int64, missing when unsold),
        `outcome` (string: inside, below, above or not sold).
    """
    columns = {
        "lot": TEXT,
        "estimate_low_cents": CENTS,
        "estimate_high_cents": CENTS,
        "hammer_cents": PERHAPS_CENTS,
        "outcome": TEXT,
    }
    rows = [
        [
            *(x.lot, x.estimate_low_cents, x.estimate_high_cents, x.hammer_cents),
            outcome_words(x),
        ]
        for x in lots
    ]
    return frame_of(columns, rows)


def outcome_words(lot: LotOutcome) -> str:
    """Tell where a hammer price fell.

    Parameters
    ----------
    lot : LotOutcome
        The lot.

    Returns
    -------
    str
        "inside", "below", "above" or "not sold".
    """
    if lot.hammer_cents is None:
        return "not sold"
    if lot.is_inside:
        return "inside"
    return "below" if lot.hammer_cents < lot.estimate_low_cents else "above"


def estimates_sentence(lots: Sequence[LotOutcome]) -> str:
    """Say in one sentence how well the estimates did.

    Parameters
    ----------
    lots : sequence of LotOutcome
        What was expected of each lot and what came.

    Returns
    -------
    str
        How many sold inside, below and above, and how many not at all.
    """
    found = [outcome_words(lot) for lot in lots]
    sold = len(found) - found.count("not sold")
    if not sold:
        return "No lot was sold, so the estimates were not tried."
    return (
        f"Of {sold} lots sold, {found.count('inside')} fell inside the estimate, "
        f"{found.count('below')} below and {found.count('above')} above; "
        f"{found.count('not sold')} did not sell."
    )


def totals_name(totals: Totals) -> str:
    """Return what a year or an event is called in a picture.

    Parameters
    ----------
    totals : Year or EventTotals
        The totals.

    Returns
    -------
    str
        An event's name and year, or the year or years of its events.
    """
    if isinstance(totals, EventTotals):
        return f"{totals.name}, {totals.on.year}"
    years = sorted({event.on.year for event in totals.events})
    return " to ".join(str(year) for year in years[:: max(1, len(years) - 1)])


def years_frame(totals: Sequence[Totals]) -> pd.DataFrame:
    """Return totals year by year, or event by event: the numbers of their picture.

    Parameters
    ----------
    totals : sequence of Year or EventTotals
        In order of time.

    Returns
    -------
    pandas.DataFrame
        A row each. Columns: `year` (string), `raised_cents`, `spent_cents`,
        `net_cents`, `gifts_in_kind_cents`, `time_given_cents` (int64),
        `cost_to_raise_a_dollar` (float64, missing when nothing was raised).
    """
    columns = {
        "year": TEXT,
        "raised_cents": CENTS,
        "spent_cents": CENTS,
        "net_cents": CENTS,
        "gifts_in_kind_cents": CENTS,
        "time_given_cents": CENTS,
        "cost_to_raise_a_dollar": NUMBER,
    }
    rows = [
        [
            *(totals_name(x), x.raised_cents, x.cost_cents, x.net_cents),
            *(x.gifts_in_kind_cents, x.time_given_cents, x.cost_to_raise_a_dollar),
        ]
        for x in totals
    ]
    return frame_of(columns, rows)


def years_sentence(totals: Sequence[Totals], currency: str = "") -> str:
    """Say in one sentence what the last year brought, against the one before.

    Parameters
    ----------
    totals : sequence of Year or EventTotals
        In order of time.
    currency : str
        The sign of the money.

    Returns
    -------
    str
        Raised, net, and the change.
    """
    if not totals:
        return "There is no year to tell of."
    last = totals[-1]
    name = totals_name(last)
    raised, net = show(last.raised_cents, currency), show(last.net_cents, currency)
    words = f"{name[:1].upper()}{name[1:]} raised {raised} and netted {net}"
    if len(totals) == 1:
        return f"{words}."
    change = last.net_cents - totals[-2].net_cents
    more = "more" if change >= 0 else "less"
    before = totals_name(totals[-2])
    return f"{words}, {show(abs(change), currency)} {more} than {before}."
