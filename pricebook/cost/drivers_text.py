"""What drives a cost, and what changed prices move, as plain text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from pricebook.cost.drivers import Driver, Drivers
from pricebook.cost.price_moves import PriceMove
from pricebook.cost.printing import text_table
from pricebook.lengths import show as length
from pricebook.money import half_up
from pricebook.money import show as money

MOST_ROWS = 15
"""Figures printed for each total; the rest are named in a line."""

_FT, _GAL = 0.3048, 3.785411784
_IN_INCHES = {
    "m": (1 / _FT, "ft"),
    "m2": (1 / _FT**2, "sq ft"),
    "m2/l": (_GAL / _FT**2, "sq ft/gal"),
    "m/m2": (_FT, "ft/sq ft"),
    "min/m": (_FT, "min/ft"),
    "min/m2": (_FT**2, "min/sq ft"),
}
"""What a reader in inches reads for a metric unit, and its size (nist_sp_811)."""


def figure_words(value: float, unit: str, lengths: str) -> str:
    """Print a figure in its unit: money, a length, or a number.

    Parameters
    ----------
    value : float
        The figure. [unit]
    unit : str
        Its unit; "cents" for money, "mm" for a length.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        The figure.

    Examples
    --------
    >>> figure_words(7200, "cents", "in"), figure_words(0.05, "share", "in")
    ('72.00', '5 %')
    >>> figure_words(6.1, "m2/l", "mm"), figure_words(6.1, "m2/l", "in")
    ('6.1 m2/L', '248.6 sq ft/gal')
    """
    if unit == "cents":
        return money(half_up(value))
    if unit == "mm":
        return length(value, lengths)
    if unit == "share":
        return f"{100 * value:.3g} %"
    size, words = (1.0, unit) if lengths == "mm" else _IN_INCHES.get(unit, (1.0, unit))
    return f"{value * size:.4g} {words.replace('/each', ' each').replace('/l', '/L')}"


def drivers_text(drivers: Drivers, lengths: str) -> str:
    """Print what drives the cost of a piece, for each total.

    Parameters
    ----------
    drivers : Drivers
        The figures, ranked.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        Plain text.
    """
    share = f"{100 * drivers.share:g} %"
    parts = [
        f"{drivers.piece}: what drives the cost, each figure moved {share} down and up "
        "by itself (a count by 1 at the least)"
    ]
    for name, cents, found in (
        ("Full cost", drivers.full_cost_cents, drivers.full_cost),
        ("Cash to buy", drivers.cash_to_buy_cents, drivers.cash_to_buy),
    ):
        rows = [_row(one, lengths) for one in found[:MOST_ROWS]]
        head = ("figure", "from", "to", "at low", "at high", "moves by")
        table = text_table(head, rows, right=(1, 2, 3, 4, 5))
        more = len(found) - len(rows)
        rest = f"\n  ({more} more move it less)" if more else ""
        parts.append(f"{name}, {money(cents)} as it stands\n{table}{rest}")
    if drivers.refused:
        parts.append("\n".join(f"  - {fault}" for fault in drivers.refused))
    return "\n\n".join(parts)


def _row(one: Driver, lengths: str) -> Sequence[str]:
    return (
        one.name,
        figure_words(one.low, one.unit, lengths),
        figure_words(one.high, one.unit, lengths),
        money(one.at_low),
        money(one.at_high),
        money(one.swing),
    )


def moves_text(moves: Sequence[PriceMove], changes: Iterable[str]) -> str:
    """Print how each piece's cost moves with changed prices, before and after.

    Parameters
    ----------
    moves : sequence of PriceMove
        One a piece.
    changes : iterable of str
        The changed prices, in words.

    Returns
    -------
    str
        Plain text.
    """
    rows = [_move(move) for move in moves]
    if len(moves) > 1:
        rows.append(_move(all_of_them(moves)))
    head = (
        "", "cash before", "after", "moves by", "used up before", "after", "moves by",
    )  # fmt: skip
    table = text_table(head, rows, right=(1, 2, 3, 4, 5, 6))
    return f"What changed prices move: {'; '.join(changes)}\n{table}"


def all_of_them(moves: Sequence[PriceMove]) -> PriceMove:
    """Return the moves of all pieces added up.

    Parameters
    ----------
    moves : sequence of PriceMove
        One a piece.

    Returns
    -------
    PriceMove
        Their sum.
    """
    return PriceMove(
        piece="in all",
        cash_before_cents=sum(move.cash_before_cents for move in moves),
        cash_after_cents=sum(move.cash_after_cents for move in moves),
        used_before_cents=sum(move.used_before_cents for move in moves),
        used_after_cents=sum(move.used_after_cents for move in moves),
    )


def _move(move: PriceMove) -> Sequence[str]:
    return (
        move.piece,
        money(move.cash_before_cents),
        money(move.cash_after_cents),
        signed(move.cash_difference_cents),
        money(move.used_before_cents),
        money(move.used_after_cents),
        signed(move.used_difference_cents),
    )


def signed(cents: int) -> str:
    """Print a difference with its sign.

    Parameters
    ----------
    cents : int
        The difference. [cents]

    Returns
    -------
    str
        The amount, with a plus where it is above 0.

    Examples
    --------
    >>> signed(150), signed(-150), signed(0)
    ('+1.50', '-1.50', '0.00')
    """
    return f"+{money(cents)}" if cents > 0 else money(cents)
