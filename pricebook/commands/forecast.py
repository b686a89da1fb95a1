"""`pricebook forecast EVENT`: what the evening may raise, and how sure that is."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from pricebook.commands.common import Bar, day_of, file_name, print_json, shop_of
from pricebook.commands.events import event_of
from pricebook.cost.printing import text_table
from pricebook.event import Event, evening_lots
from pricebook.forecast import Evening, evening
from pricebook.money import show

EVENINGS = 20_000
SEED = 1


def run(given: argparse.Namespace) -> None:
    """Print the forecast and draw it."""
    event = event_of(Path(given.event), given.shop, day_of(given.on))
    found = evening_of(event)
    if given.json:
        print_json(forecast_answer(event, found))
    else:
        print(forecast_text(event, found))
    sign = shop_of(given, Path(given.event)).settings.currency
    _draw(event, found, sign, Path(given.out))


def evening_of(event: Event, evenings: int = EVENINGS, seed: int = SEED) -> Evening:
    """Draw what an event may raise.

    Parameters
    ----------
    event : Event
        The event, its lots' demand complete.
    evenings, seed : int
        How many evenings are drawn, and from which seed. [-]

    Returns
    -------
    Evening
        The total as a distribution.
    """
    bar = Bar()
    found = evening(
        evening_lots(event),
        seed,
        evenings,
        event.common,
        turnout=event.turnout,
        ladder=event.ladder,
        progress=lambda done, total: bar(done, total, "drawing evenings"),
    )
    bar.close()
    return found


def forecast_text(event: Event, found: Evening) -> str:
    """Print a forecast: quantiles, target, shortfall, and a line a lot.

    Parameters
    ----------
    event : Event
        The event.
    found : Evening
        Its forecast.

    Returns
    -------
    str
        Plain text.
    """
    quantiles = [
        (f"{100 * share:.0f} % of evenings stay at or below", show(cents))
        for share, cents in found.quantiles.items()
    ]
    lots = [
        (lot.name, show(lot.mean_cents), f"{100 * lot.sold_share:.0f} %")
        for lot in found.lots
    ]
    parts = [
        f"{event.name}, {event.on.isoformat()}: what the evening may raise",
        f"  mean {show(found.mean_cents)}, spread (standard deviation) "
        f"{show(found.sd_cents)}; about {found.lots_sold:.1f} of {len(found.lots)} "
        "lots sell.",
        text_table(("", "hammer total"), quantiles, right=(1,)),
        *_target(event, found),
        text_table(("lot", "mean", "sells in"), lots, right=(1, 2)),
        f"  {found.evenings:,} evenings drawn from seed {found.seed}; the mean is sure "
        f"to {show(round(1.96 * found.standard_error_cents))} (95 %, Monte Carlo "
        f"standard error {found.standard_error_cents / 100:.2f}).\n"
        f"  What all lots share: values spread by {event.common:g}, turnout by "
        f"{event.turnout:g}, both stated in the event file; at 0 the risk would be "
        "understated.",
    ]
    return "\n\n".join(parts)


def _target(event: Event, found: Evening) -> list[str]:
    target = event.target_cents
    if target is None:
        return []
    words = (
        f"  target {show(target)}: reached in {_how_often(found, target)}; "
        f"expected shortfall {show(round(found.shortfall(target)))}"
    )
    missed = found.mean_shortfall_when_missed(target)
    if missed is not None:
        words += f", and {show(round(missed))} on evenings that miss it"
    return [words + "."]


def _how_often(found: Evening, target: int) -> str:
    """Say in how many evenings the target is reached, and how sure that is."""
    chance = found.chance_of(target)
    if chance in (0, 1):
        word = "all" if chance else "none"
        # with no miss in n draws, 3/n bounds the chance of one at 95 %
        odds = f"{100 * 3 / found.evenings:.2g} %"
        other = f"the chance to {'miss' if chance else 'reach'} it is below {odds}"
        return f"{word} of the evenings drawn ({other}, at 95 %)"
    error = 100 * found.chance_standard_error(target)
    return f"{100 * chance:.1f} % of evenings (standard error {error:.2f} points)"


def forecast_answer(event: Event, found: Evening) -> dict[str, object]:
    """Return a forecast as a JSON answer."""
    target = event.target_cents
    answer: dict[str, object] = {
        "event": event.name,
        "mean": show(found.mean_cents),
        "sd": show(found.sd_cents),
        "quantiles": {f"{q:g}": show(c) for q, c in found.quantiles.items()},
        "lots_sold": round(found.lots_sold, 3),
        "standard_error": f"{found.standard_error_cents / 100:.4f}",
        "evenings": found.evenings,
        "seed": found.seed,
        "lots": [
            {
                "lot": lot.name,
                "mean": show(lot.mean_cents),
                "sold_share": round(lot.sold_share, 4),
            }
            for lot in found.lots
        ],
    }
    if target is not None:
        answer["target"] = show(target)
        answer["chance_of_target"] = round(found.chance_of(target), 4)
        answer["expected_shortfall"] = show(round(found.shortfall(target)))
    return answer


def _draw(event: Event, found: Evening, sign: str, folder: Path) -> None:
    from pricebook import charts
    from pricebook.files.writing import write_whole

    path = folder / f"{file_name([event.name])}_forecast.png"
    figure = charts.evening(found, event.target_cents, sign)
    write_whole(path, lambda part: charts.save(figure, part))
    print(f"written: {path}", file=sys.stderr)
