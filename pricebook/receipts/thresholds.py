"""The thresholds that receipts and the public return stand on.

data/reference/ holds the same rows, one file a source; a test compares the two.
"""

from __future__ import annotations

from decimal import Decimal

from pricebook.receipts.figures import Figure

AS_OF = 2026
PRACTITIONER = (
    "Estimate for discussion; a licensed tax practitioner or the charity's "
    "accountant decides."
)


def _row(
    name: str, year: int, figure: str, unit: str, source: str, confirmed: bool = True
) -> Figure:
    return Figure(
        name=name,
        year=year,
        figure=Decimal(figure),
        unit=unit,
        source=source,
        confirmed=confirmed,
    )


class _Rows(tuple[Figure, ...]):
    """Rows that show what they begin with, so that a signature stays readable."""

    __slots__ = ()

    def __repr__(self) -> str:
        return f"<dated figures, {self[0].name} and others>"


THRESHOLDS = _Rows(
    (
        _row("disclosure above", 1994, "75", "usd", "irc_6115"),
        _row("penalty a missed disclosure", 1994, "10", "usd", "irc_6714"),
        _row("penalty an event at most", 1994, "5000", "usd", "irc_6714"),
        _row("acknowledgment from", 1994, "250", "usd", "irc_170"),
        _row("volunteer's mile", 1998, "0.14", "usd per mile", "irc_170"),
        _row("noncash form above", 2021, "500", "usd", "form_8283_2021"),
        _row("appraisal above", 2021, "5000", "usd", "form_8283_2021"),
        _row("sale report within", 2009, "125", "days", "form_8282_2009"),
        _row("event schedule above", 2021, "15000", "usd", "form_990_2021"),
        _row("event listed above", 2021, "5000", "usd", "form_990_2021"),
        _row("noncash schedule above", 2021, "25000", "usd", "form_990_2021"),
        _row("paid by third party above", 2025, "20000", "usd", "irs_fs_2025_08"),
        _row("payments by third party above", 2025, "200", "each", "irs_fs_2025_08"),
        _row("paid for services from", 1954, "600", "usd", "pl_119_21_70433"),
        _row("paid for services from", 2026, "2000", "usd", "pl_119_21_70433"),
    )
)

_ARTICLES = (
    (2007, "8.90", True),
    (2013, "10.20", True),
    (2014, "10.40", True),
    (2015, "10.50", True),
    (2023, "12.50", True),
    (2024, "13.20", True),
    (2025, "13.60", False),
    (2026, "13.90", False),
)
"""Highest cost of a token by year, and whether the figure was seen in print."""

TOKENS = _Rows(
    _row(name, year, str(times * Decimal(figure)), "usd", "low_cost_articles", seen)
    for year, figure, seen in _ARTICLES
    for name, times in (
        ("low-cost article", 1),
        ("token payment from", 5),
        ("token value up to", 10),
    )
)
"""Limits for thank-you tokens: the payment is 5 and the value 10 times the article."""
