"""Several events rolled up into a year, as plain text and as a JSON answer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pricebook.cost.printing import text_table
from pricebook.money import show
from pricebook.records import EventTotals, Year


def year_text(year: Year, unclean: Sequence[str] = ()) -> str:
    """Print the events of a year and their sum.

    Parameters
    ----------
    year : Year
        The year.
    unclean : sequence of str
        Events whose control totals did not all pass.

    Returns
    -------
    str
        Plain text.
    """
    head = ("event", "held on", "raised", "spent", "net", "to raise 1.00", "sold",
            "passed", "withdrawn", "void", "gifts in kind", "time given",
            "unpaid")  # fmt: skip
    rows = [(one.name, one.on.isoformat(), *_sums(one)) for one in year.events]
    rows.append(("the year", "", *_sums(year)))
    lines = [
        "The year",
        text_table(head, rows, right=range(2, 13)),
        f"  {year.sentence}",
    ]
    lines += [f"  NOT CLEAN: {name}; a control total fails there." for name in unclean]
    return "\n".join(lines)


def _sums(one: EventTotals | Year) -> tuple[str, ...]:
    rate = one.cost_to_raise_a_dollar
    return (
        show(one.raised_cents),
        show(one.cost_cents),
        show(one.net_cents),
        "none" if rate is None else f"{rate:.4f}",
        str(one.lots_sold),
        str(one.lots_passed),
        str(one.lots_withdrawn),
        str(one.lots_void),
        show(one.gifts_in_kind_cents),
        show(one.time_given_cents),
        show(one.unpaid_cents),
    )


def year_answer(year: Year | None) -> dict[str, Any] | None:
    """Return the `year` of the JSON answer; None for a settlement on its own."""
    if year is None:
        return None
    return {
        "events": [
            {"event": one.name, "on": one.on.isoformat(), **_sums_answer(one)}
            for one in year.events
        ],
        **_sums_answer(year),
        "sentence": year.sentence,
    }


def _sums_answer(one: EventTotals | Year) -> dict[str, Any]:
    names = ("raised", "spent", "net", "cost_to_raise_a_dollar", "lots_sold",
             "lots_passed", "lots_withdrawn", "lots_void", "gifts_in_kind",
             "time_given", "unpaid")  # fmt: skip
    answer: dict[str, Any] = dict(zip(names, _sums(one), strict=True))
    for name in names:
        if name.startswith("lots_"):
            answer[name] = int(answer[name])
    answer["cost_to_raise_a_dollar"] = one.cost_to_raise_a_dollar
    return answer
