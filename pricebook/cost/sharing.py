"""What each piece of a batch pays of a thing that several share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from pricebook.cost.lines import CostLine
from pricebook.errors import TableError
from pricebook.money import share_out


class Account:
    """Shares amounts out among pieces, and remembers fractions of a cent.

    Parameters
    ----------
    pieces : int
        How many pieces share. [-]

    Notes
    -----
    A share goes by weight, nobody above what is paid alone if that can be. What
    rounding gave or took is set right with the next amount, so that like pieces
    pay alike to the cent however many lines there are.
    """

    def __init__(self, pieces: int) -> None:
        self._owed = [Fraction(0)] * pieces

    def share(
        self, total_cents: int, weights: Sequence[Fraction], *alone: Sequence[int]
    ) -> tuple[int, ...]:
        """Share an amount out by weight.

        Parameters
        ----------
        total_cents : int
            The amount. [cents]
        weights : sequence of Fraction
            One a piece, 0 for a piece that has no part in it. [-]
        *alone : sequence of int
            What each piece would pay alone. The first of these that bear the whole
            amount together are the most that is paid; where none do, as with a rack
            that each would have had to itself, the shares go by weight. [cents]

        Returns
        -------
        tuple of int
            The shares; they add up to the amount. [cents]

        Examples
        --------
        >>> Account(2).share(90, [Fraction(2), Fraction(1)], [50, 50])
        (50, 40)
        """
        most = [total_cents] * len(weights)
        caps = next((list(c) for c in alone if sum(c) >= total_cents), most)
        caps = [cap if w else 0 for cap, w in zip(caps, weights, strict=True)]
        if not any(weights) or sum(caps) < total_cents:
            return spread(total_cents, weights)
        fair = _filled(total_cents, weights, caps)
        wished = [
            min(max(amount + owed, Fraction(0)), Fraction(cap))
            for amount, owed, cap in zip(fair, self._owed, caps, strict=True)
        ]
        given = capped_shares(total_cents, wished, caps)
        self._owed = [
            owed + amount - cents
            for owed, amount, cents in zip(self._owed, fair, given, strict=True)
        ]
        return given


def evened(
    lines: Sequence[Sequence[CostLine]], alone_cents: Sequence[int]
) -> list[list[CostLine]]:
    """Move cash between lines that pieces share until none pays more than alone.

    Parameters
    ----------
    lines : sequence of sequences of CostLine
        Each piece's lines.
    alone_cents : sequence of int
        What each piece would pay alone. [cents]

    Returns
    -------
    list of list of CostLine
        The lines; of each thing shared the sum stays as it was.

    Notes
    -----
    A piece alone has the whole rack, in a batch its share of it, so that line by
    line it may pay more than alone although the batch saves. What a piece pays too
    much of a thing is paid by those that share it and still pay less than alone,
    the thing with the largest payment first. Nothing is moved where the batch as a
    whole pays more than all pieces alone.
    """
    found = [list(own) for own in lines]
    paid = [sum(line.bought_cents for line in own) for own in found]
    if sum(paid) > sum(alone_cents):
        return found
    room = [most - cents for most, cents in zip(alone_cents, paid, strict=True)]
    for piece in (i for i, cents in enumerate(room) if cents < 0):
        own = found[piece]
        order = sorted(range(len(own)), key=lambda k: -own[k].bought_cents)
        for place in order:
            for other in (i for i, cents in enumerate(room) if cents > 0):
                key = own[place].key
                twin = next(
                    (k for k, x in enumerate(found[other]) if x.key == key), None
                )
                cents = min(-room[piece], room[other], own[place].bought_cents)
                if key and twin is not None and cents > 0:
                    own[place] = _paying(own[place], -cents)
                    found[other][twin] = _paying(found[other][twin], cents)
                    room[piece] += cents
                    room[other] -= cents
    return found


def _paying(line: CostLine, more_cents: int) -> CostLine:
    return replace(line, bought_cents=line.bought_cents + more_cents)


def spread(total_cents: int, weights: Sequence[Fraction]) -> tuple[int, ...]:
    """Share an amount out by weight; without any weight the first one pays.

    Parameters
    ----------
    total_cents : int
        The amount. [cents]
    weights : sequence of Fraction
        One a share. [-]

    Returns
    -------
    tuple of int
        The shares, by largest remainder. [cents]
    """
    if not any(weights):
        return (total_cents,) + (0,) * (len(weights) - 1)
    return share_out(total_cents, list(weights))


def capped_shares(
    total_cents: int, weights: Sequence[Fraction], caps: Sequence[int]
) -> tuple[int, ...]:
    """Share an amount out by weight with no share above its cap.

    Parameters
    ----------
    total_cents : int
        The amount. [cents]
    weights : sequence of Fraction
        One a share. [-]
    caps : sequence of int
        The most that each share may be; together at least the amount. [cents]

    Returns
    -------
    tuple of int
        The shares; they add up to the amount. [cents]

    Notes
    -----
    Shares above their cap are cut to it and the rest is shared out again by
    weight among the others, until none is above.

    Examples
    --------
    >>> capped_shares(240, [Fraction(9), Fraction(7), Fraction(5)], [80, 80, 80])
    (80, 80, 80)
    """
    shares = [0] * len(weights)
    open_ones = list(range(len(weights)))
    rest = total_cents
    while open_ones:
        given = spread(rest, [weights[i] for i in open_ones])
        over = [i for i, cents in zip(open_ones, given, strict=True) if cents > caps[i]]
        if not over:
            for i, cents in zip(open_ones, given, strict=True):
                shares[i] = cents
            return tuple(shares)
        for i in over:
            shares[i] = caps[i]
            rest -= caps[i]
        open_ones = [i for i in open_ones if i not in over]
    if rest:
        raise TableError("the caps of a shared purchase leave part of it unpaid.")
    return tuple(shares)


def _filled(
    total_cents: int, weights: Sequence[Fraction], caps: Sequence[int]
) -> list[Fraction]:
    """Return the exact shares by weight, each up to its cap."""
    amounts = [Fraction(0)] * len(weights)
    open_ones = [i for i, weight in enumerate(weights) if weight]
    rest = Fraction(total_cents)
    while open_ones:
        unit = rest / sum(weights[i] for i in open_ones)
        over = [i for i in open_ones if unit * weights[i] > caps[i]]
        for i in over or open_ones:
            amounts[i] = Fraction(caps[i]) if over else unit * weights[i]
            rest -= amounts[i]
        open_ones = [i for i in open_ones if i not in over] if over else []
    return amounts
