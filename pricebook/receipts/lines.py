"""The event lines of the public return.

A worksheet for the charity's accountant, never the return itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import cast

from pricebook.errors import MoneyError, nearest, raise_all
from pricebook.money import is_cents
from pricebook.receipts.thresholds import PRACTITIONER

LABELS = {
    1: "gross receipts, donated pieces at their value included",
    2: "less: contributions",
    3: "gross income, line 1 less line 2",
    4: "cash prizes",
    5: "noncash prizes",
    6: "rent and facility costs",
    7: "food and beverages",
    8: "entertainment",
    9: "other direct expenses, donated pieces that were sold included",
    10: "direct expenses, lines 4 to 9",
    11: "net income, line 3 less line 10",
}
_KEYS = (
    "fair_market_value_cents",
    "hammer_cents",
    "donated_cents",
    "direct_costs_cents",
    "returned",
)
_NAMES = ("lot", "name", "title")  # may stand in a mapping, for the reader


class EventLines(dict[int, int]):
    """The lines by number, in cents; a number written as text finds its line too.

    Examples
    --------
    >>> lines = event_lines([(40000, 55000)])
    >>> lines[1], lines["1"], lines.get("12")
    (95000, 95000, None)
    """

    note = f"A worksheet for the charity's accountant. {PRACTITIONER}"

    def __missing__(self, key: object) -> int:
        if isinstance(key, str) and key.isdecimal() and int(key) in self:
            return self[int(key)]
        raise KeyError(key)

    def get(self, key: object, default: int | None = None) -> int | None:  # type: ignore[override]
        """Return a line by its number, also when written as text, or the default."""
        try:
            return self[key]  # type: ignore[index]
        except KeyError:
            return default


@dataclass(frozen=True, slots=True, kw_only=True)
class SoldLot:
    """One lot as the public return sees it.

    Parameters
    ----------
    fair_market_value_cents : int
        Its stated value. [cents]
    hammer_cents : int or None
        What it was sold for; None if it passed and the charity still has it. [cents]
    donated_cents : int or None
        What was given of it, at its value when received: the whole piece by
        default, the plain carcase if the charity had it refinished. [cents]
    direct_costs_cents : int
        What the charity paid for it: materials repaid, card fee. [cents]
    returned : bool
        Whether it went back to the giver, so that there was no gift.

    Examples
    --------
    >>> SoldLot(fair_market_value_cents=40000, hammer_cents=55000).contribution_cents
    55000
    """

    fair_market_value_cents: int
    hammer_cents: int | None = None
    donated_cents: int | None = None
    direct_costs_cents: int = 0
    returned: bool = False

    def __post_init__(self) -> None:
        faults = [
            f"{name} is {getattr(self, name)!r}; it must be whole cents, 0 or more."
            for name in ("fair_market_value_cents", "direct_costs_cents")
            if not is_cents(getattr(self, name))
        ]
        for name in ("hammer_cents", "donated_cents"):
            value = getattr(self, name)
            if value is not None and not is_cents(value):
                faults.append(
                    f"{name} is {value!r}; it must be whole cents, 0 or more, or None."
                )
        if not isinstance(self.returned, bool):
            faults.append(f"returned is {self.returned!r}; say True or False.")
        elif self.returned and self.hammer_cents is not None:
            faults.append("the lot was sold and also returned; keep one of the two.")
        raise_all(MoneyError, faults)
        for name in _KEYS[:4]:
            value = getattr(self, name)
            object.__setattr__(self, name, None if value is None else int(value))

    @property
    def gift_in_kind_cents(self) -> int:
        """What was given of it, at its value when received [cents]."""
        if self.returned:
            return 0
        if self.donated_cents is None:
            return self.fair_market_value_cents
        return self.donated_cents

    @property
    def contribution_cents(self) -> int:
        """The gift in kind and what the buyer paid above the value [cents]."""
        above = max((self.hammer_cents or 0) - self.fair_market_value_cents, 0)
        return self.gift_in_kind_cents + above

    @property
    def gross_income_cents(self) -> int:
        """What was paid for the goods themselves [cents]."""
        return min(self.hammer_cents or 0, self.fair_market_value_cents)

    @property
    def expense_cents(self) -> int:
        """The gift in kind of a lot that was sold, and its direct costs [cents]."""
        sold = self.hammer_cents is not None
        return self.direct_costs_cents + (self.gift_in_kind_cents if sold else 0)


def event_lines(
    lots: Iterable[object],
    *,
    tickets: Iterable[tuple[int, int]] = (),
    cash_gifts_cents: int = 0,
    kept_premiums_cents: int = 0,
    cash_prizes_cents: int = 0,
    noncash_prizes_cents: int = 0,
    rent_cents: int = 0,
    food_cents: int = 0,
    entertainment_cents: int = 0,
    other_direct_cents: int = 0,
) -> EventLines:
    """Work out the public return's lines for one event.

    Parameters
    ----------
    lots : iterable
        Each a `SoldLot`, a mapping or an object with its fields, or a pair
        (fair market value, hammer price or None). [cents]
    tickets : iterable of (int, int)
        Price paid and value of what the guest got, one pair a ticket. [cents]
    cash_gifts_cents : int
        Gifts of money at the event. [cents]
    kept_premiums_cents : int
        Buyer's premiums that the charity keeps, as gross income. [cents]
    cash_prizes_cents, noncash_prizes_cents, rent_cents, food_cents,
    entertainment_cents, other_direct_cents : int
        Direct expenses of lines 4 to 9. [cents]

    Returns
    -------
    EventLines
        Amounts by line number, 1 to 11; `LABELS` names the lines. [cents]

    Raises
    ------
    MoneyError
        With a sentence for each lot or amount that cannot be.

    Notes
    -----
    Lines 1 and 2 count a donated piece at its value, line 9 takes it out again when
    it is sold: 3 = 1 - 2, 10 = sum of 4 to 9, 11 = 3 - 10, and 2 + 11 = cash in
    less cash paid, plus the gifts in kind still on hand. A passed lot that the
    charity keeps is in lines 1 and 2 only; a returned one nowhere. Line 11 may
    well be below 0; that is no loss of money. An auctioneer's fee goes to line 9
    (no source says 8 or 9). Sales tax and what belongs to others stay out.
    Source: schedule_g_2021.

    Examples
    --------
    >>> lines = event_lines([{"fair_market_value_cents": 40000, "hammer_cents": 25000}])
    >>> [lines[number] for number in (1, 2, 3, 9, 11)]
    [65000, 40000, 25000, 40000, -15000]
    """
    sold, faults = _read_lots(lots)
    places, found = _read_tickets(tickets)
    cash = {"cash_gifts": cash_gifts_cents, "kept_premiums": kept_premiums_cents}
    costs = {
        "cash_prizes": cash_prizes_cents,
        "noncash_prizes": noncash_prizes_cents,
        "rent": rent_cents,
        "food": food_cents,
        "entertainment": entertainment_cents,
        "other_direct": other_direct_cents,
    }
    raise_all(MoneyError, [*faults, *found, *_amount_faults({**cash, **costs})])
    gifts = sum(lot.contribution_cents for lot in sold) + cash_gifts_cents
    gifts += sum(max(paid - value, 0) for paid, value in places)
    income = sum(lot.gross_income_cents for lot in sold) + kept_premiums_cents
    income += sum(min(paid, value) for paid, value in places)
    lines = EventLines({1: gifts + income, 2: gifts, 3: income})
    lines.update(zip(range(4, 10), costs.values(), strict=True))
    lines[9] += sum(lot.expense_cents for lot in sold)
    lines[10] = sum(lines[number] for number in range(4, 10))
    lines[11] = lines[3] - lines[10]
    return lines


def _amount_faults(amounts: Mapping[str, object]) -> list[str]:
    return [
        f"{name}_cents is {value!r}; it must be whole cents, 0 or more."
        for name, value in amounts.items()
        if not is_cents(value)
    ]


def _read_lots(lots: Iterable[object]) -> tuple[list[SoldLot], list[str]]:
    """Read every lot, in whichever form, with a sentence for each fault."""
    if isinstance(lots, str | Mapping) or not isinstance(lots, Iterable):
        return [], [f"lots are {lots!r:.80}; give a list of lots."]
    if isinstance(lots, Set):
        return [], ["lots are a set, which holds like lots only once; give a list."]
    sold: list[SoldLot] = []
    faults: list[str] = []
    for number, lot in enumerate(lots, start=1):
        try:
            sold.append(_read_lot(lot))
        except MoneyError as error:
            faults += [f"lot {number}: {fault}" for fault in error.faults]
    return sold, faults


def _read_lot(lot: object) -> SoldLot:
    if isinstance(lot, SoldLot):
        return lot
    if isinstance(lot, Mapping):
        unknown = [key for key in lot if key not in _KEYS + _NAMES]
        faults = [f'key "{k}" is not known; {nearest(str(k), _KEYS)}' for k in unknown]
        needed = [key for key in _KEYS[:2] if key not in lot]
        faults += [f"{key} is missing; add it." for key in needed]
        raise_all(MoneyError, faults)
        return SoldLot(**{key: lot[key] for key in lot if key in _KEYS})
    is_row = isinstance(lot, Iterable) and not isinstance(lot, str | bytes | Set)
    pair = tuple(cast("Iterable[int]", lot)) if is_row else ()
    if len(pair) == 2:
        return SoldLot(fair_market_value_cents=pair[0], hammer_cents=pair[1])
    stated = {key: getattr(lot, key) for key in _KEYS if hasattr(lot, key)}
    if not set(_KEYS[:2]) <= set(stated):
        raise MoneyError(
            f"{lot!r:.80} is no lot; give its fair_market_value_cents and hammer_cents."
        )
    return SoldLot(**stated)


def _read_tickets(
    tickets: Iterable[tuple[int, int]],
) -> tuple[list[tuple[int, int]], list[str]]:
    """Read the tickets, with a sentence for each that is no pair of amounts."""
    if isinstance(tickets, str | Mapping) or not isinstance(tickets, Iterable):
        return [], [f"tickets are {tickets!r:.80}; give (paid, value) pairs."]
    if isinstance(tickets, Set):
        return [], ["tickets are a set, which holds like pairs only once; give a list."]
    every = list(tickets)
    faults = [
        f"ticket {number} is {ticket!r}; give (paid, value) in whole cents."
        for number, ticket in enumerate(every, start=1)
        if not (isinstance(ticket, Sequence) and len(ticket) == 2)
        or not all(is_cents(part) for part in ticket)
    ]
    return every, faults
