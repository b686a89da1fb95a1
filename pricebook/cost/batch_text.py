"""Several pieces together: what to buy once for all of them, and what each costs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from pricebook.cost.lines import CostLine, CostSheet
from pricebook.cost.printing import counted, packs_in_words, text_table
from pricebook.money import show as money

_PER_PIECE = frozenset({"labour", "overhead", "spoilage", "gifts"})


def batch_text(sheets: Sequence[CostSheet]) -> str:
    """Print the totals of several pieces, and one list of what to buy for all.

    Parameters
    ----------
    sheets : sequence of CostSheet
        Cost sheets of pieces that share what they buy.

    Returns
    -------
    str
        Plain text; empty for one piece, whose cost sheet says it all.
    """
    if len(sheets) < 2:
        return ""
    return f"All pieces together\n{_totals(sheets)}\n\nTo buy for all of them\n" + (
        _shopping(sheets) or "  nothing; all of it is on hand"
    )


def _totals(sheets: Sequence[CostSheet]) -> str:
    names = [*(sheet.piece for sheet in sheets), "in all"]
    amounts = [
        (
            sheet.cash_to_buy_cents,
            sheet.used_up_cents,
            sheet.gifts_in_kind_cents,
            sheet.time_given_cents,
            sheet.full_cost_cents,
        )
        for sheet in sheets
    ]
    amounts.append(tuple(map(sum, zip(*amounts, strict=True))))  # type: ignore[arg-type]
    head = ("", "cash to buy", "used up", "gifts in kind", "time given", "full cost")
    rows = [
        (name, *map(money, cents)) for name, cents in zip(names, amounts, strict=True)
    ]
    return text_table(head, rows, right=range(1, 6))


def _shopping(sheets: Sequence[CostSheet]) -> str:
    """List what is paid for, each thing once with all its packs."""
    bought: dict[tuple[str, str], list[CostLine]] = {}
    for sheet in sheets:
        for line in sheet.lines:
            if line.group not in _PER_PIECE and line.packs:
                bought.setdefault((line.key, line.item), []).append(line)
    cut = dict(_cut_up(sheets[0]))
    rows = []
    for (key, item), lines in bought.items():
        words = lines[0].packs.removesuffix(", shared")
        cents = sum(line.bought_cents for line in lines)
        if lines[0].group in ("veneer", "edge banding"):
            words, cents = cut.get(key, ("", 0))  # each piece has a part of it
        if cents:
            rows.append((item, words, money(cents)))
    return text_table(("", "to buy", "cash"), rows, right=(2,)) if rows else ""


def _cut_up(sheet: CostSheet) -> Iterator[tuple[str, tuple[str, int]]]:
    """Yield sheets, rolls and bundles by key: how many to buy, and what they cost."""
    plans = [p.sheet for p in sheet.layout.sheets if not p.from_rack]
    for one, count in Counter(plans).items():
        yield one.key, (counted(f"{count}", "sheet"), count * one.price_cents)
    rolls = sheet.banding.rolls if sheet.banding else ()
    for roll, count in Counter(p.roll for p in rolls if not p.from_rack).items():
        words = "1 roll" if count == 1 else f"{count} rolls"
        yield roll.key, (words, count * roll.price_cents)
    for plan in sheet.leaves:
        words = packs_in_words(plan.bundles, plan.flitch.bundle, "leaf")
        yield plan.flitch.key, (words, plan.cost_cents)
