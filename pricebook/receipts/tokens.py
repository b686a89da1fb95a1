"""How small a thank-you must be for a gift to stay whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pricebook import money
from pricebook.errors import MoneyError
from pricebook.receipts.figures import Figure, of_year
from pricebook.receipts.raising import need_cents
from pricebook.receipts.thresholds import PRACTITIONER, TOKENS

_LIMITS = ("low-cost article", "token payment from", "token value up to")


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
    confirmed : bool
        Whether the published figures were seen; else they are from memory.

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
    confirmed: bool = True

    @property
    def words(self) -> tuple[str, ...]:
        """A sentence for each limit, the practitioner's line last."""
        seen = "" if self.confirmed else "; from memory, confirm it before use"
        return (
            f"In {self.year} all that is given in return may be worth 2 % of the "
            f"payment, {money.show(self.value_cents)} at most; or it is a token with "
            f"the charity's name that cost at most {money.show(self.article_cents)}, "
            f"for a payment of {money.show(self.payment_cents)} or more{seen}.",
            f"Source: low_cost_articles. {PRACTITIONER}",
        )

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


def token_limits(year: int, figures: Iterable[Figure] = TOKENS) -> TokenLimits:
    """Find the limits for thank-you tokens in a year.

    Parameters
    ----------
    year : int
        The year of the gift.
    figures : iterable of Figure
        Dated figures; those of this package by default.

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
    >>> limits = token_limits(2024)
    >>> limits.article_cents, limits.payment_cents, limits.value_cents
    (1320, 6600, 13200)
    """
    table = tuple(figures) if isinstance(figures, Iterable) else ()
    rows = [of_year(table, name, year) for name in _LIMITS]
    article, payment, value = (row.cents for row in rows)
    if payment != 5 * article or value != 10 * article:
        raise MoneyError(
            f"the limits of {year} do not stand at 5 and 10 times the low-cost "
            "article; look at that row again."
        )
    return TokenLimits(
        year=year,
        article_cents=article,
        payment_cents=payment,
        value_cents=value,
        confirmed=all(row.confirmed for row in rows),
    )
