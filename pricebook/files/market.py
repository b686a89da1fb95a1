"""Read what a shop knows and assumes about the market."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pricebook.bidding import Ladder, ladder_of
from pricebook.errors import PricebookError, TableError, nearest
from pricebook.files.opening import read_csv, read_toml
from pricebook.files.taking import Taker
from pricebook.price import Comparable, PricePolicy
from pricebook.proceeds import Rules, read_rules

COMPARABLE_COLUMNS = (
    "key", "form", "species", "price", "kind", "condition_factor", "note", "date",
    "source",
)  # fmt: skip
FEATURE_COLUMNS = ("width", "height", "depth", "drawers")
"""Columns that the list of comparables may have: sizes with their unit, a count."""

_NUMBERS = (
    "sigma",
    "comparable_sigma",
    "yearly_change",
    "retail_share",
    "retail_sigma",
    "opening_share",
    "low_share",
    "high_share",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Market:
    """What a shop knows and assumes about the market.

    Parameters
    ----------
    assumptions : mapping
        Fields of a price policy, by name.
    rules : Rules
        Who gets what of a hammer price.
    comparables : mapping of str to Comparable
        Like pieces that were offered for sale, by key.
    """

    assumptions: Mapping[str, Any]
    rules: Rules
    comparables: Mapping[str, Comparable]

    def comparable(self, key: str) -> Comparable:
        """Return a comparable by its key.

        Raises
        ------
        TableError
            If the list has no such row; the nearest key is named.
        """
        if key not in self.comparables:
            known = nearest(key, self.comparables)
            raise TableError(
                f'price.comparables: "{key}" is not in the list of comparables; {known}'
            )
        return self.comparables[key]


def read_market(folder: str | Path) -> Market:
    """Read market.toml and comparables.csv of a price book.

    Parameters
    ----------
    folder : str or Path
        The folder of the price book.

    Returns
    -------
    Market
        What is known and assumed.

    Raises
    ------
    TableError
        With one sentence for every fault of both files.
    """
    base = Path(folder)
    faults: list[str] = []
    path = base / "market.toml"
    t = Taker(str(path), read_toml(path), faults)
    assumptions: dict[str, Any] = {name: t.number(name) for name in _NUMBERS}
    assumptions["crowd"] = t.text("crowd")
    assumptions["comparable_bidders"] = t.whole("comparable_bidders")
    assumptions["comparable_age_days"] = t.whole("comparable_age_days")
    assumptions["ladder"] = _ladder(t, str(path), faults)
    faults += _policy_faults(assumptions, str(path)) if not faults else []
    rules = _rules(t, str(path), faults)
    comparables = _comparables(base / "comparables.csv", faults)
    made = t.build(
        Market, assumptions=assumptions, rules=rules, comparables=comparables
    )
    if made is None:
        raise TableError(*faults)
    return made


def _ladder(t: Taker, where: str, faults: list[str]) -> Ladder | None:
    name = t.text("ladder", None)
    rows = [
        (row.money("up_to", None), row.money("step"))
        for row in (
            Taker(f"{where} [[ladder_rows]] {n}", found, faults)
            for n, found in enumerate(t.tables("ladder_rows"), start=1)
        )
    ]
    try:
        return ladder_of(rows or name or "ten percent")
    except PricebookError as error:
        faults += [f"{where}: {fault}" for fault in error.faults]
        return None


def _rules(t: Taker, where: str, faults: list[str]) -> Rules | None:
    try:
        rules = read_rules(t.tables("deductions"))
    except PricebookError as error:
        faults += [f"{where}: {fault}" for fault in error.faults]
        return None
    if rules.sales_tax is not None and rules.sales_tax.base == "min_hammer_fmv":
        faults.append(
            f"{where}: sales tax on the lower of hammer price and fair market value "
            "needs the value of each lot; state it in the event, and another base here."
        )
    return rules


def _policy_faults(assumptions: Mapping[str, Any], where: str) -> list[str]:
    """Say which assumptions no price can be advised with."""
    try:
        PricePolicy(bidders=1, unsold_value_cents=0, **assumptions)
    except PricebookError as error:
        return [f"{where}: {fault}" for fault in error.faults]
    return []


def _comparables(path: Path, faults: list[str]) -> dict[str, Comparable]:
    found: dict[str, Comparable] = {}
    try:
        rows = read_csv(path, COMPARABLE_COLUMNS, FEATURE_COLUMNS)
    except TableError as error:
        faults += error.faults
        return found
    for line, cells in rows:
        t = Taker(f"{path} line {line}", cells, faults)
        key = t.text("key")
        words = [
            t.text("form"),
            t.text("species"),
            t.text("note", ""),
            t.text("source"),
        ]
        made = t.build(
            Comparable,
            price_cents=t.money("price"),
            date=t.day("date"),
            condition_factor=t.number("condition_factor", 1),
            kind=t.text("kind", "sold"),
            note=", ".join(word for word in words if word),
            features=_features(t),
        )
        if made is None:
            continue
        if key in found:
            faults.append(f'{path} line {line}: two rows have the key "{key}".')
        found[key] = made
    return found


def _features(t: Taker) -> tuple[tuple[str, float], ...]:
    """Take what a row notes of its piece."""
    *sizes, count = FEATURE_COLUMNS
    found = {name: t.length(name, None) for name in sizes}
    found[count] = t.whole(count, None)
    return tuple(
        (name, float(number)) for name, number in found.items() if number is not None
    )
