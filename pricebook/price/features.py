"""What sales of other pieces say of a price, by the pieces' features."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import mul

from pricebook.bidding import censored_regression, hedonic
from pricebook.bidding.hedonic import SALES_LEAST
from pricebook.errors import SpecError
from pricebook.money import Number, half_up, show
from pricebook.price.comparables import Comparable


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceByFeatures:
    """What the features of a piece say of its price, or why they say nothing.

    Parameters
    ----------
    said : str
        The sentence for the reader.
    median_cents, spread : float, optional
        The middle price, and the spread of one such piece round it on the log
        scale; None when there is no such price. [cents, -]
    sales : int
        How many sales it rests on. [-]
    """

    said: str
    median_cents: float | None = None
    spread: float | None = None
    sales: int = 0

    @property
    def anchors(self) -> list[tuple[float, float]]:
        """The price as an anchor (median, spread), if there is one [cents, -]."""
        if self.median_cents is None or self.spread is None:
            return []
        return [(self.median_cents, self.spread)]


def price_by_features(
    features: Mapping[str, float],
    listed: Iterable[Comparable],
    *,
    on: datetime.date,
    yearly_change: Number = 0,
) -> PriceByFeatures:
    """Tell from 30 sales or more what a piece of these features would fetch.

    Parameters
    ----------
    features : mapping of str to float
        Features of the piece, by name. [any unit, the same as those of the sales]
    listed : iterable of Comparable
        Pieces that were offered, each with the features that were noted.
    on : datetime.date
        The day of the advice; what was sold later is not known yet.
    yearly_change : number
        By what share such prices rise in a year. [-]

    Returns
    -------
    PriceByFeatures
        The price and its spread; without them, and with the reason, below 30 sales
        or where the features tell the sales not apart.

    Notes
    -----
    Of the features, those count that 30 sales note and that differ among them. A line
    goes through the logarithms of the prices (`bidding.hedonic`); where noted pieces
    stayed unsold, the most likely line that takes their prices to lie below their
    reserves (`bidding.censored_regression`). The spread is that of one more price:
    the scatter about the line and what is not known of the line. Which pieces are in
    the list is for the shop to judge; that 30 sales are enough is common practice, no
    source.

    Examples
    --------
    >>> day = datetime.date(2026, 3, 14)
    >>> sales = [
    ...     Comparable(20_000 + 500 * i + 3_000 * (i % 3), day,
    ...         features=(("height", 600 + 20 * i),))
    ...     for i in range(30)
    ... ]
    >>> found = price_by_features({"height": 900}, sales, on=day)
    >>> round(found.median_cents), round(found.spread, 3)
    (30062, 0.089)
    >>> price_by_features({"height": 900}, sales[:12], on=day).said
    'No price by features: it takes 30 sales that note height; there are 12. ...'
    """
    known = [row for row in listed if row.date <= on]
    sold = [row for row in known if row.is_sold]
    counts = {name: sum(name in row.noted for row in sold) for name in features}
    names = [name for name, count in counts.items() if count >= SALES_LEAST]
    rows = [row for row in known if names and all(name in row.noted for name in names)]
    sales = sum(row.is_sold for row in rows)
    if sales < SALES_LEAST:
        return PriceByFeatures(said=_too_few(names or list(features), counts, sales))
    counted = {
        name: features[name]
        for name in names
        if len({row.noted[name] for row in rows if row.is_sold}) > 1
    }
    if not counted:
        return PriceByFeatures(
            said=f"No price by features: all {sales} sales share the same "
            f"{together(names)}, so nothing tells them apart."
        )
    try:
        return _fitted(counted, rows, on, yearly_change)
    except SpecError as error:
        return PriceByFeatures(said=f"No price by features: {error}")


def together(names: Sequence[str]) -> str:
    """Join names in a sentence.

    Examples
    --------
    >>> together(["width", "height", "depth"]), together(["cost"])
    ('width, height and depth', 'cost')
    """
    return " and ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)


def _too_few(names: Sequence[str], counts: Mapping[str, int], sales: int) -> str:
    """Say what is missing, and what is done in its place."""
    instead = "Few sales are drawn to what retail and cost say instead."
    if not names:
        return f"No price by features: the piece states no sizes. {instead}"
    most = sales or max(counts.values())
    return (
        f"No price by features: it takes {SALES_LEAST} sales that note "
        f"{together(names)}; there are {most or 'none'}. {instead}"
    )


def _fitted(
    features: Mapping[str, float],
    rows: Sequence[Comparable],
    on: datetime.date,
    yearly_change: Number,
) -> PriceByFeatures:
    """Fit the line and read it off at the piece."""
    rows = sorted(rows, key=lambda row: not row.is_sold)  # those that sold come first
    sales = sum(row.is_sold for row in rows)
    table = [[row.noted[name] for name in features] for row in rows]
    prices = [row.aged_cents(on, yearly_change) for row in rows]
    line = hedonic(prices[:sales], table[:sales], features)
    belief = line.predict(features.values())
    mu, spread = belief.mu, belief.scale
    unsold = len(rows) - sales
    if unsold:
        logs = [math.log(price) for price in prices]
        limits = [-math.inf] * sales + logs[sales:]
        whole = censored_regression(logs, table, censored_below=limits)
        constant, *slopes = whole.coefficients
        mu = constant + math.fsum(map(mul, slopes, features.values()))
        # the likeliest spread divides by the rows; that of the line by its degrees
        wider = belief.scale / line.residual_standard_error
        spread = whole.sigma * wider * math.sqrt(sales / line.degrees)
    median = math.exp(mu)
    return PriceByFeatures(
        said=_said(features, table[:sales], (half_up(median), spread), unsold),
        median_cents=median,
        spread=spread,
        sales=sales,
    )


def _said(
    features: Mapping[str, float],
    seen: Sequence[Sequence[float]],
    found: tuple[int, float],
    unsold: int,
) -> str:
    """Say what the line gives, on how many sales, and where it is a guess."""
    median_cents, spread = found
    also = f" and {unsold} unsold" if unsold else ""
    text = (
        f"Price by features: {len(seen)} sales{also} on record, by "
        f"{together(list(features))}, put such a piece at {show(median_cents)}, spread "
        f"by {spread:.2f} on the log scale; it is one of the anchors."
    )
    beyond = [
        name
        for name, column in zip(features, zip(*seen, strict=True), strict=True)
        if not min(column) <= features[name] <= max(column)
    ]
    if beyond:
        verb = "lies" if len(beyond) == 1 else "lie"
        text += f" Its {together(beyond)} {verb} outside those sales: a guess."
    return text
