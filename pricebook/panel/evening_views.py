"""What the panel of an evening can show: forecast, catalogue, pieces to do."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from pricebook.event import Event, choice_pieces
from pricebook.forecast import Choice, Evening, choose
from pricebook.money import exact, half_up, show
from pricebook.panel.answers import Answer

if TYPE_CHECKING:
    from pricebook.frames import Table

FORECAST, CATALOGUE, CHOICE = "forecast", "catalogue", "choice"
VIEWS = [
    ("What the evening may raise", FORECAST),
    ("The catalogue", CATALOGUE),
    ("Which pieces to do", CHOICE),
]


def forecast_answer(
    drawn: Evening, key: object, target_cents: int | None, sign: str
) -> Answer:
    """Return a forecast: picture, what it says, its tables.

    Parameters
    ----------
    drawn : Evening
        The evenings drawn.
    key : object
        What they were drawn from.
    target_cents : int or None
        The target. [cents]
    sign : str
        The currency sign.

    Returns
    -------
    Answer
        Ready to show.
    """
    from pricebook import charts, frames

    error = show(round(drawn.standard_error_cents), sign)
    made = (frames.forecast_frame(drawn), frames.forecast_lots_frame(drawn))
    return Answer(
        pictures=(
            ((key, target_cents), partial(charts.evening, drawn, target_cents, sign)),
        ),
        sentences=(
            f"{frames.forecast_sentence(drawn, target_cents, sign)} "
            f"{drawn.evenings:,} evenings were drawn from seed {drawn.seed}; that "
            f"alone leaves the mean unsure by {error} (standard error).",
        ),
        tables=tuple(frames.shown(frame, currency=sign) for frame in made),
    )


def catalogue_answer(event: Event, sign: str) -> Answer:
    """Return the catalogue of an event as a table."""
    from pricebook import frames

    return Answer(
        sentences=(f"{event.name} of {event.on} has {len(event.lots):,} lots.",),
        tables=(frames.shown(frames.event_frame(event), currency=sign),),
    )


def choice_answer(event: Event, limits: dict[str, float], sign: str) -> Answer:
    """Return which pieces are worth doing within limits.

    Parameters
    ----------
    event : Event
        The event, with its candidates.
    limits : dict of str to float
        What there is of each limit of the event. [its unit]
    sign : str
        The currency sign.

    Returns
    -------
    Answer
        Two tables and a sentence.

    Raises
    ------
    SpecError
        If the event names no candidates or no limits.
    """
    held = tuple((name, limits.get(name, there)) for name, there in event.limits)
    asked = replace(event, limits=held)
    choice = choose(*choice_pieces(asked))
    return Answer(
        sentences=(choice_sentence(choice, sign),),
        tables=choice_tables(asked, choice, sign),
    )


def choice_sentence(choice: Choice, sign: str) -> str:
    """Return in words which pieces are worth doing.

    Parameters
    ----------
    choice : Choice
        The choice.
    sign : str
        The currency sign.

    Returns
    -------
    str
        Their names, and what they add together.
    """
    named = ", ".join(choice.chosen) or "none"
    return (
        f"Worth doing: {named}. Together they are expected to add "
        f"{show(choice.uplift_cents, sign)}: the hammer price finished, less the "
        "price as it is, less the cash to do it."
    )


def choice_tables(event: Event, choice: Choice, sign: str) -> tuple[Table, Table]:
    """Return the candidates of an event, and what one more of each limit is worth.

    Parameters
    ----------
    event : Event
        The event.
    choice : Choice
        The choice among its candidates.
    sign : str
        The currency sign.

    Returns
    -------
    (Table, Table)
        A row a candidate, and a row a limit.
    """
    return _pieces(event, choice, sign), _limits(event, choice, sign)


def _pieces(event: Event, choice: Choice, sign: str) -> Table:
    from pricebook.frames import Head, Row, Table

    counts = dict(choice.counts)
    things = [name for name, _ in event.limits if name != "money"]
    heads = (f"uplift each ({sign})", *things, f"cash ({sign})")
    rows = [
        Row(
            (
                one.name,
                f"{counts[one.name]} of {one.most}" if counts[one.name] else "leave",
                show(one.uplift_cents or 0),
                *(f"{float(dict(one.needs).get(name, 0)):g}" for name in things),
                show(one.cost_cents or 0),
            )
        )
        for one in event.candidates
    ]
    return Table(
        title="Which pieces to do",
        heads=(Head("piece"), Head("do"), *(Head(x, right=True) for x in heads)),
        rows=tuple(rows),
    )


def _amount(name: str, amount: float) -> str:
    """Print so much of a limit; money, which is kept in units, with its cents."""
    if name == "money":
        return show(half_up(100 * exact(amount)))
    return f"{float(amount):g}"


def _limits(event: Event, choice: Choice, sign: str) -> Table:
    from pricebook.frames import Head, Row, Table

    heads = (
        "there is", "used", f"one more is worth ({sign})", f"at the margin ({sign})",
    )  # fmt: skip
    rows = [
        Row(
            (
                f"{name} ({sign})" if name == "money" else name,
                _amount(name, there),
                _amount(name, choice.used[name]),
                show(choice.worth_of_one_more[name]),
                show(round(choice.lp_worth[name])),
            )
        )
        for name, there in event.limits
    ]
    return Table(
        title="What one more of each limit is worth",
        heads=(Head("limit"), *(Head(x, right=True) for x in heads)),
        rows=tuple(rows),
        note=(
            "One more is worth what the best choice gains by it, worked out anew; at "
            "the margin is what it would be worth if pieces could be done in part."
        ),
    )
