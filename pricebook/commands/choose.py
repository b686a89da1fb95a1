"""`pricebook choose EVENT`: which pieces to do with these hours and this money."""

from __future__ import annotations

import argparse
from pathlib import Path

from pricebook.commands.common import day_of, print_json
from pricebook.commands.events import event_of
from pricebook.cost.printing import text_table
from pricebook.event import Event, choice_pieces
from pricebook.forecast import Choice, choose
from pricebook.money import Number, exact, half_up, show

_MONEY = "money"
"""The limit that is an amount of money; the others are counted."""


def run(given: argparse.Namespace) -> None:
    """Print the pieces worth doing and what one more of each limit is worth."""
    event = event_of(Path(given.event), given.shop, day_of(given.on))
    pieces, limits = choice_pieces(event)
    choice = choose(pieces, limits)
    if given.json:
        print_json(choice_answer(event, choice))
    else:
        print(choice_text(event, choice))


def choice_text(event: Event, choice: Choice) -> str:
    """Print a choice.

    Parameters
    ----------
    event : Event
        The event with its candidates.
    choice : Choice
        What was chosen.

    Returns
    -------
    str
        Plain text.
    """
    counts = dict(choice.counts)
    rows = [
        (
            one.name,
            f"{counts[one.name]} of {one.most}" if counts.get(one.name) else "leave",
            show(one.uplift_cents or 0),
            *(f"{float(dict(one.needs).get(k, 0)):g}" for k in _things(event)),
            show(one.cost_cents or 0),
        )
        for one in event.candidates
    ]
    head = ("piece", "do", "uplift each", *_things(event), "cash")
    table = text_table(head, rows, right=range(2, len(head)))
    limits = [
        (
            name,
            _amount(name, limit),
            _amount(name, choice.used[name]),
            show(choice.worth_of_one_more[name]),
            f"{float(choice.lp_worth[name]) / 100:.2f}",
        )
        for name, limit in event.limits
    ]
    bounds = text_table(
        ("limit", "there is", "used", "one more is worth", "at the margin"),
        limits,
        right=(1, 2, 3, 4),
    )
    return (
        f"{event.name}: which pieces to do\n{table}\n\n"
        f"Together they are expected to add {show(choice.uplift_cents)}: the hammer "
        "price finished, less the price as it is, less the cash to do it.\n\n"
        f"{bounds}\n\n"
        "One more is worth what the best choice gains by it, worked out anew; at the\n"
        "margin is what it would be worth if pieces could be done in part."
    )


def _amount(name: str, number: Number) -> str:
    """Print how much of a limit there is: money to the cent, else a plain number."""
    if name == _MONEY:
        return show(half_up(exact(number) * 100))
    return f"{float(number):g}"


def _things(event: Event) -> list[str]:
    return [name for name, _ in event.limits if name != _MONEY]


def choice_answer(event: Event, choice: Choice) -> dict[str, object]:
    """Return a choice as a JSON answer."""
    return {
        "event": event.name,
        "chosen": list(choice.chosen),
        "left_out": list(choice.left_out),
        "uplift": show(choice.uplift_cents),
        "used": {name: _answer(name, value) for name, value in choice.used.items()},
        "left": {name: _answer(name, value) for name, value in choice.left.items()},
        "worth_of_one_more": {
            name: show(cents) for name, cents in choice.worth_of_one_more.items()
        },
    }


def _answer(name: str, number: Number) -> str | float:
    return _amount(name, number) if name == _MONEY else float(number)
