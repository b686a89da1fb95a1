"""How small a thank-you must be for a gift to stay whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pricebook.errors import MoneyError
from pricebook.receipts.figures import Figure, of_year
from pricebook.receipts.raising import need_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class TokenLimits:
    """How small a thank-you must be for a gift to stay whole.

    Parameters
    ----------
    year : int
        The year of the gift.
    article_cents, payment_cents, value_cents : int
        Highest cost of a token, lowest payment with one, highest value of all
        benefits. [cents]

    Examples
    --------
    >>> limits = TokenLimits(
    ...     year=2013, article_cents=1020, payment_cents=5100, value_cents=10200
    ... )
    >>> limits.is_small(paid_cents=500000, value_cents=10000)
    True
    """

    year: int
    article_cents: int
    payment_cents: int
    value_cents: int

    def is_small(
        self, *, paid_cents: int, value_cents: int, token_cost_cents: int | None = None
    ) -> bool:
        """Say whether what was given in return is too small to count.

        Parameters
        ----------
        paid_cents : int
            The payment. [cents]
        value_cents : int
            Value of all that was given in return. [cents]
        token_cost_cents : int, optional
            The charity's cost, when nothing but tokens with its name were given.
            [cents]

        Returns
        -------
        bool
            True when it does not count. A piece bought at auction always counts.
        """
        need_cents(paid=paid_cents, value=value_cents)
        within = 50 * value_cents <= paid_cents and value_cents <= self.value_cents
        if token_cost_cents is None:
            return within
        need_cents(token_cost=token_cost_cents)
        token = token_cost_cents <= self.article_cents
        return within or (token and paid_cents >= self.payment_cents)


def token_limits(year: int, figures: Iterable[Figure]) -> TokenLimits:
    """Find the limits for thank-you tokens in a year.

    Parameters
    ----------
    year : int
        The year of the gift.
    figures : iterable of Figure
        The rows of data/reference/low_cost_articles.csv.

    Returns
    -------
    TokenLimits
        The three limits.

    Raises
    ------
    TableError
        If the table has no row for that year.
    MoneyError
        If the rows break the rule that the payment is 5 times and the value 10
        times the article's cost.

    Notes
    -----
    Source: low_cost_articles.

    Examples
    --------
    >>> from decimal import Decimal
    >>> rows = [
    ...     Figure(name=name, year=2024, figure=Decimal(figure), unit="usd",
    ...            source="low_cost_articles", confirmed=True)
    ...     for name, figure in [("low-cost article", "13.20"),
    ...                          ("token payment from", "66"),
    ...                          ("token value up to", "132")]
    ... ]
    >>> token_limits(2024, rows).payment_cents
    6600
    """
    table = tuple(figures)
    article = of_year(table, "low-cost article", year).cents
    payment = of_year(table, "token payment from", year).cents
    value = of_year(table, "token value up to", year).cents
    if payment != 5 * article or value != 10 * article:
        raise MoneyError(
            f"the limits of {year} do not stand at 5 and 10 times the low-cost "
            "article; look at that row again."
        )
    return TokenLimits(
        year=year, article_cents=article, payment_cents=payment, value_cents=value
    )
