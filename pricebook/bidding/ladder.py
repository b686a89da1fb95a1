"""The ladder of bids, as data: which price may follow which."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.bidding.arguments import number_faults
from pricebook.bidding.rows import Step, repeat_faults, row_faults
from pricebook.errors import SpecError, raise_all
from pricebook.money import show

PRICE_MOST_CENTS = 10**15
"""The highest price that bids are reckoned with. [cents]"""


@dataclass(frozen=True, slots=True)
class Ladder:
    """Steps by which bids rise, in rows from the lowest price up.

    Parameters
    ----------
    name : str
        What the ladder is called.
    steps : tuple of (int or None, int)
        Rows (up to, step): below the price `up to`, the next bid is `step` more.
        None in the last row: without end. A last row with a price ends the
        ladder there. [cents]
    repeats_from_cents : int, optional
        The rows from this price on come again tenfold, hundredfold and so on;
        the last row must then end at ten times this price. [cents]
    first_cents : int
        The lowest rung. [cents]

    Raises
    ------
    SpecError
        If the ladder goes backwards, a step is 0 or less, or a step does not
        divide its stretch; one sentence each.

    Examples
    --------
    >>> plain = Ladder("plain", ((50_000, 2_500), (None, 5_000)))
    >>> plain.next_bid(47_500), plain.next_bid(50_000)
    (50000, 55000)
    """

    name: str
    steps: tuple[Step, ...]
    repeats_from_cents: int | None = None
    first_cents: int = 0

    def __post_init__(self) -> None:
        faults = row_faults(self.name, self.steps, self.first_cents)
        if not faults and self.repeats_from_cents is not None:
            faults = repeat_faults(
                self.name, self.steps, self.first_cents, self.repeats_from_cents
            )
        raise_all(SpecError, faults)
        object.__setattr__(self, "first_cents", int(self.first_cents))
        steps = ((None if end is None else int(end), int(s)) for end, s in self.steps)
        object.__setattr__(self, "steps", tuple(steps))

    @property
    def top_cents(self) -> int | None:
        """The highest rung, or None when the ladder has no end [cents]."""
        return self.steps[-1][0] if self.repeats_from_cents is None else None

    def _stretch(self, price_cents: int) -> tuple[int, int]:
        """Return the lower end and the step of the stretch a price lies in."""
        last, scale = self.steps[-1][0], 1
        while (
            self.repeats_from_cents is not None
            and last is not None
            and price_cents >= last * scale
        ):
            scale *= 10
        low = self.first_cents
        for up_to, step in self.steps:
            if up_to is None or price_cents < up_to * scale:
                return low * scale, step * scale
            low = up_to
        return low, 0  # the very top: no step leads on

    def at_or_below(self, price_cents: int) -> int:
        """Return the highest rung that is not above a price.

        Parameters
        ----------
        price_cents : int
            The price. [cents]

        Returns
        -------
        int
            The rung. [cents]

        Raises
        ------
        SpecError
            If the price lies below the lowest rung, or is no whole cents.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.at_or_below(21_234)
        20000
        """
        price_cents = self._whole(price_cents)
        low, step = self._stretch(price_cents)
        return low + (price_cents - low) // step * step if step else low

    def at_or_above(self, price_cents: int) -> int:
        """Return the lowest rung that is not below a price.

        Parameters
        ----------
        price_cents : int
            The price. [cents]

        Returns
        -------
        int
            The rung. [cents]

        Raises
        ------
        SpecError
            If the ladder ends below the price, or the price is no whole cents.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.at_or_above(21_234)
        22000
        """
        if number_faults("", price_cents, least=0, whole=True) == []:
            price_cents = max(int(price_cents), self.first_cents)
        below = self.at_or_below(price_cents)
        return below if below == price_cents else self._after(below)

    def nearest(self, price_cents: int) -> int:
        """Return the rung nearest to a price, the lower one when midway.

        Parameters
        ----------
        price_cents : int
            The price. [cents]

        Returns
        -------
        int
            The rung. [cents]

        Raises
        ------
        SpecError
            If the price is no whole cents, or below the lowest rung.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.nearest(21_234), ladder.nearest(21_000)
        (22000, 20000)
        """
        below = self.at_or_below(price_cents)
        if self.top_cents is not None and below >= self.top_cents:
            return below
        after = self._after(below)
        return below if price_cents - below <= after - price_cents else after

    def holds(self, price_cents: int) -> bool:
        """Tell whether a price is a rung of the ladder.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.holds(22_000), ladder.holds(21_000)
        (True, False)
        """
        is_low = not number_faults("", price_cents, least=self.first_cents, whole=True)
        return is_low and self.at_or_below(price_cents) == price_cents

    def next_bid(self, price_cents: int) -> int:
        """Return the bid that follows a price on the ladder.

        Parameters
        ----------
        price_cents : int
            The standing bid, a rung. [cents]

        Returns
        -------
        int
            The next bid. [cents]

        Raises
        ------
        SpecError
            If the price is not on the ladder, or the ladder ends there.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.next_bid(19_000), ladder.next_bid(28_000)
        (20000, 30000)
        """
        self.check_rung("the bid", price_cents)
        return self._after(price_cents)

    def check_rung(self, what: str, price_cents: int) -> None:
        """Refuse a price that is not on the ladder.

        Parameters
        ----------
        what : str
            What the price is, for the sentence.
        price_cents : int
            The price. [cents]

        Raises
        ------
        SpecError
            If it is not a rung.
        """
        below = self.at_or_below(price_cents)
        if below != price_cents:
            raise SpecError(
                f"{what} of {show(int(price_cents))} is not on the ladder "
                f'"{self.name}"; '
                f"take {show(below)} or {show(self._after(below))}."
            )

    def rungs(self, opening_cents: int, cap_cents: int) -> tuple[int, ...]:
        """Return every rung from an opening bid up to a cap.

        Parameters
        ----------
        opening_cents : int
            The opening bid, a rung. [cents]
        cap_cents : int
            The highest price to list, not below the opening bid. [cents]

        Returns
        -------
        tuple of int
            The rungs; the last is not above the cap. [cents]

        Raises
        ------
        SpecError
            If the opening bid is not on the ladder, or the cap lies below it.

        Examples
        --------
        >>> from pricebook.bidding import TEN_PERCENT as ladder
        >>> ladder.rungs(28_000, 38_000)
        (28000, 30000, 32000, 35000, 38000)
        """
        rule = number_faults("cap_cents", cap_cents, least=opening_cents, whole=True)
        raise_all(SpecError, rule)
        self.check_rung("the opening bid", opening_cents)
        found = [opening_cents]
        while self.top_cents != found[-1]:
            after = self._after(found[-1])
            if after > cap_cents:
                break
            found.append(after)
        return tuple(found)

    def _after(self, rung_cents: int) -> int:
        low, step = self._stretch(rung_cents)
        if not step:
            raise SpecError(
                f'the ladder "{self.name}" ends at {show(low)}; add a row for higher '
                "prices."
            )
        return rung_cents + step

    def _whole(self, price_cents: int) -> int:
        """Return a price as a plain whole number, or refuse one off the ends."""
        faults = number_faults(
            "the price in cents",
            price_cents,
            least=self.first_cents,
            most=PRICE_MOST_CENTS,
            whole=True,
        )
        if not faults and self.top_cents is not None and price_cents > self.top_cents:
            faults = [
                f'{show(int(price_cents))} lies above the ladder "{self.name}", which '
                f"ends at {show(self.top_cents)}; add a row for higher prices."
            ]
        raise_all(SpecError, faults)
        return int(price_cents)
