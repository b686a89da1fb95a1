"""Which column of the split holds what, and the rules in words above it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from pricebook.event.naming import some_lots
from pricebook.proceeds import RestByWeight, Rules
from pricebook.workbook.cells import a1
from pricebook.workbook.event_values import BookValues
from pricebook.workbook.page import Page
from pricebook.workbook.split_formulas import Key, claims_of

LOT, TITLE, STATE, HAMMER = range(4)
UNSET = (
    "The sales tax is not set, so nothing is totalled here: there is no default. The "
    "treasurer states its rate and base, or that there is none; then write this "
    "workbook anew."
)


@dataclass(slots=True)
class Columns:
    """Which column of the split holds what.

    Parameters
    ----------
    heads : list of str
        Heads, from the left.
    claims : dict of Key to int
        Column of each claim but the sales tax.
    premium, tax, charged, left, mine, others : int
        Columns of money; 0 for one that is not needed.
    foots, received, owed, full, method, row : int
        Columns about the money; 0 likewise.
    """

    heads: list[str] = field(default_factory=lambda: ["Lot", "Title", "State"])
    claims: dict[Key, int] = field(default_factory=dict)
    premium: int = 0
    tax: int = 0
    charged: int = 0
    left: int = 0
    mine: int = 0
    others: int = 0
    foots: int = 0
    received: int = 0
    owed: int = 0
    full: int = 0
    method: int = 0
    row: int = 0

    def add(self, head: str) -> int:
        """Add a column and return its place."""
        self.heads.append(head)
        return len(self.heads) - 1

    @property
    def money(self) -> list[int]:
        """The columns that are summed up, from the left."""
        found = [HAMMER, self.premium, self.tax, self.charged, *self.claims.values()]
        found += [self.mine, self.others, self.received, self.owed]
        return sorted({*found} - {0})


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitCells:
    """Where the split stands, as other sheets refer to it.

    Parameters
    ----------
    sheet : str
        Name of the sheet as formulas write it.
    first, last : int
        Rows of the first and last lot, from 0.
    columns : Columns
        Which column holds what.
    """

    sheet: str
    first: int
    last: int
    columns: Columns

    def whole(self, place: int) -> str:
        """Return the rows of all lots in a column."""
        ends = (a1(row, place, fixed=True) for row in (self.first, self.last))
        return f"{self.sheet}!{':'.join(ends)}"

    def total(self, place: int) -> str:
        """Return the sum of a column over all lots."""
        return f"{self.sheet}!{a1(self.last + 1, place, fixed=True)}"

    def paid(self, place: int) -> str:
        """Return the sum of a column over the lots that are paid in full."""
        return f"{self.sheet}!{a1(self.last + 2, place, fixed=True)}"


def place_columns(values: BookValues) -> Columns:
    """Say which columns the lots' rules ask for."""
    found = Columns()
    found.add("Hammer price")
    if not values.can_total:
        found.row = found.add("Row")
        return found
    rules = list({id(x.rules): x.rules for x in values.lots if x.rules}.values())
    if any(one.premium for one in rules):
        found.premium = found.add("Premium")
    found.tax = found.add("Sales tax")
    found.charged = found.add("Charged")
    _add_claims(found, rules)
    found.mine = found.add("Charity's part")
    found.others = found.add("To others")
    found.foots = found.add("Foots")
    found.received = found.add("Received")
    found.owed = found.add("Owed")
    found.full = found.add("Paid in full")
    found.method = found.add("Paid by")
    found.row = found.add("Row")
    return found


def _add_claims(found: Columns, rules: Sequence[Rules]) -> None:
    """Add a column a claim, those that take the rest last."""
    finals: list[tuple[Key, str]] = []
    for one in rules:
        for key, label, _ in claims_of(one):
            if key[0] == one.final.kind:
                finals.append((key, label))
            elif key[0] != "sales_tax" and key not in found.claims:
                head = f"{label}, paid on" if key[0] == "premium" else label
                found.claims[key] = found.add(head)
    if any(isinstance(one.final, RestByWeight) for one in rules):
        found.left = found.add("Left to share")
    for key, label in finals:
        if key not in found.claims:
            found.claims[key] = found.add(label)


def place_split(page: Page, values: BookValues) -> SplitCells:
    """Say where the split will stand, before it is written."""
    first = FIRST_ROW + len(rule_words(values))
    return SplitCells(
        sheet=page.own,
        first=first,
        last=first + len(values.lots) - 1,
        columns=place_columns(values),
    )


FIRST_ROW = 6
"""Title, day, a gap, the words above the rules, a gap, and the heads. [rows]"""


def rule_words(values: BookValues) -> tuple[str, ...]:
    """Return the order of deductions in words, a sentence a rule, lots apart."""
    if not values.can_total:
        return (UNSET,)
    found: dict[tuple[tuple[str, str, str], ...], list[str]] = {}
    for one in values.lots:
        if one.rules is not None:
            maker = one.lot.paid_as_maker
            words = tuple(
                (label, "the maker" if payee == maker else payee, rule)
                for label, payee, rule in one.rules.words
            )
            found.setdefault(words, []).append(one.lot.key)
    sentences = []
    for rules, keys in found.items():
        whom = "" if len(found) == 1 else f"Lots {some_lots(keys)}. "
        for place, (label, payee, rule) in enumerate(rules, 1):
            to = f", to {payee}" if payee and payee != label else ""
            sentences.append(f"{whom}{place}. {label}: {rule}{to}.")
            whom = ""
    return tuple(sentences)


def widths_of(columns: Columns) -> list[float]:
    """Return widths for the columns: money 11.5, words as they need."""
    own = {LOT: 7.0, TITLE: 22.0, STATE: 9.5, columns.row: 5.5, columns.foots: 7.5}
    own |= {columns.full: 8.0, columns.method: 8.5}
    return [own.get(place, 11.5) for place in range(len(columns.heads))]
