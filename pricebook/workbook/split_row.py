"""The row of one lot in the split: its formulas, and what they come to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.proceeds import Premium, Rules, SalesTax, SplitLine
from pricebook.workbook.cells import EMPTY, Cell, a1, text
from pricebook.workbook.event_values import BookLot
from pricebook.workbook.results_page import ResultCells
from pricebook.workbook.split_columns import HAMMER, LOT, STATE, TITLE, Columns
from pricebook.workbook.split_formulas import (
    RowCells,
    amount,
    claim_formulas,
    claims_of,
    left_formula,
    premium_formula,
    tax_formula,
)


def amounts_of(one: BookLot, columns: Columns) -> dict[int, int]:
    """Return what a lot's money columns come to; none for a lot that is not sold.

    Parameters
    ----------
    one : BookLot
        The lot.
    columns : Columns
        Which column holds what.

    Returns
    -------
    dict of int to int
        Cents by column. [cents]
    """
    if not one.is_sold or one.result is None:
        return {}
    found = {HAMMER: one.result.hammer_cents or 0}
    done = one.settled
    if done is None or done.split is None or one.rules is None:
        return found
    parts = done.split
    if columns.premium:
        found[columns.premium] = parts.premium_cents
    found[columns.tax] = parts.tax_cents
    found[columns.charged] = parts.charged_cents
    found[columns.received] = done.received_cents
    found[columns.owed] = done.unpaid_cents
    found[columns.mine] = parts.charity_cents
    found[columns.others] = sum(
        line.amount_cents for line in parts.lines if _is_spent(line, parts.charity)
    )
    final = one.rules.final
    if final.kind == "rest_by_weight":
        rest = [x.amount_cents for x in parts.lines if x.rule is final]
        found[columns.left] = sum(rest)
    for (key, _, _), line in zip(claims_of(one.rules), parts.lines, strict=True):
        if key in columns.claims:
            found[columns.claims[key]] = line.amount_cents
    return found


def _is_spent(line: SplitLine, charity: str) -> bool:
    """Tell whether a line goes to another, and was the charity's to spend."""
    return line.payee != charity and not isinstance(line.rule, SalesTax | Premium)


@dataclass(frozen=True, slots=True)
class SplitRow:
    """The row of one lot.

    Parameters
    ----------
    one : BookLot
        The lot, and what is known of it.
    columns : Columns
        Which column holds what.
    row : int
        Where it stands, from 0.
    results : ResultCells
        Where the results stand.
    """

    one: BookLot
    columns: Columns
    row: int
    results: ResultCells

    def at(self, place: int) -> str:
        """Return the address of one of its cells."""
        return a1(self.row, place)

    def looked_up(self, name: str) -> str:
        """Return how to find what the results say of the lot."""
        return f"INDEX({self.results.column(name)},{self.at(self.columns.row)})"

    def cells(self, place: int, documented: str) -> list[Cell]:
        """Return the cells of the lot from the left."""
        found = [EMPTY] * len(self.columns.heads)
        found[LOT] = text(self.one.lot.key, "bold")
        found[TITLE] = text(self.one.lot.title)
        match = f"MATCH({self.at(LOT)},{self.results.column('lot')},0)"
        found[self.columns.row] = Cell(place, "whole", f'=IFERROR({match},"")')
        found[STATE] = self._state()
        amounts = amounts_of(self.one, self.columns)
        for column, formula in self._money(documented):
            cents = amounts.get(column)
            shown = "" if cents is None else cents / 100
            found[column] = Cell(shown, "money", formula)
        if self.one.rules is not None:
            for column, value, formula in self._words():
                found[column] = Cell(value, "middle", formula)
        return found

    def _state(self) -> Cell:
        state, price = f'TRIM({self.looked_up("state")}&"")', self.looked_up("hammer")
        formula = (
            f'=IF({self.at(self.columns.row)}="","lost",IF({state}<>"",LOWER({state}),'
            f'IF(ISNUMBER({price}),"sold","")))'
        )
        return Cell(self.one.result.state if self.one.result else "", "text", formula)

    def _if_sold(self, expression: str) -> str:
        return f'=IF({self.at(HAMMER)}="","",{expression})'

    def _rounded(self, expression: str) -> str:
        return self._if_sold(f"ROUND({expression},2)")

    def _money(self, documented: str) -> Iterator[tuple[int, str]]:
        """Yield column and formula of every cell of money."""
        rules = self.one.rules
        price = self.looked_up("hammer")
        yield (
            HAMMER,
            f'=IF({self.at(STATE)}="sold",IF(ISNUMBER({price}),ROUND({price},2),""),"")',
        )
        if rules is not None:
            own = self._own(documented)
            yield from self._charged(rules, own)
            yield from self._claims(rules, own)
            yield from self._received(own)

    def _charged(self, rules: Rules, own: RowCells) -> Iterator[tuple[int, str]]:
        columns = self.columns
        if columns.premium:
            yield columns.premium, self._rounded(premium_formula(rules, own))
        yield columns.tax, self._rounded(tax_formula(rules, own))
        charged = "+".join(part for part in (own.hammer, own.premium, own.tax) if part)
        yield columns.charged, self._rounded(charged)

    def _claims(self, rules: Rules, own: RowCells) -> Iterator[tuple[int, str]]:
        columns = self.columns
        if own.left:
            yield columns.left, self._rounded(left_formula(rules, own))
        for key, formula in claim_formulas(rules, own):
            if key in columns.claims:
                yield columns.claims[key], self._rounded(formula)
        charity = rules.final.payee
        mine, others = ["0"], ["0"]
        for key, _, payee in claims_of(rules):
            if payee == charity:
                mine.append(own.claims[key])
            elif key[0] not in {"sales_tax", "premium"}:
                others.append(own.claims[key])
        yield columns.mine, self._rounded("+".join(mine))
        yield columns.others, self._rounded("+".join(others))

    def _received(self, own: RowCells) -> Iterator[tuple[int, str]]:
        columns = self.columns
        paid, received = self.looked_up("paid"), self.at(columns.received)
        part = f"IF(ISNUMBER({paid}),ROUND({paid},2),0)"
        whole = f'IF({paid}="yes",{own.charged},{part})'
        yield columns.received, self._if_sold(whole)
        yield columns.owed, self._rounded(f"{own.charged}-{received}")

    def _own(self, documented: str) -> RowCells:
        columns, value = self.columns, self.one.lot.fair_market_value_cents
        claims = {key: self.at(place) for key, place in columns.claims.items()}
        assert self.one.rules is not None
        for key, _, _ in claims_of(self.one.rules):
            if key[0] == "sales_tax":
                claims[key] = self.at(columns.tax)
        by_weight = self.one.rules.final.kind == "rest_by_weight"
        return RowCells(
            hammer=self.at(HAMMER),
            premium=self.at(columns.premium) if columns.premium else "",
            tax=self.at(columns.tax),
            charged=self.at(columns.charged),
            by_card=f'{self.at(columns.method)}="card"',
            value="" if value is None else amount(value),
            documented=documented,
            claims=claims,
            left=self.at(columns.left) if by_weight else "",
        )

    def _words(self) -> Iterator[tuple[int, str, str]]:
        """Yield column, value and formula of: foots, paid in full, how."""
        one, columns = self.one, self.columns
        assert one.rules is not None
        sold = one.is_sold and one.settled is not None
        parts = [self.at(columns.tax)]
        parts += [
            self.at(columns.claims[key])
            for key, _, _ in claims_of(one.rules)
            if key in columns.claims
        ]
        charged = self.at(columns.charged)
        sums = f"ROUND({charged}-({'+'.join(parts)}),2)=0"
        yield (
            columns.foots,
            "PASS" if sold else "",
            self._if_sold(f'IF({sums},"PASS","FAIL")'),
        )
        paid = "yes" if one.settled and one.settled.is_paid else "no"
        yield (
            columns.full,
            paid if sold else "",
            self._if_sold(f'IF({self.at(columns.owed)}=0,"yes","no")'),
        )
        method = f'LOWER(TRIM({self.looked_up("method")}&""))'
        how = one.result.method if sold and one.result else ""
        yield columns.method, how, self._if_sold(method)
