"""What `price` answers beside the cost: ready in time, drivers, new prices, stock."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pricebook.commands.common import day_of
from pricebook.cost import CostSheet, Shop
from pricebook.cost.elapsed import elapsed_of, elapsed_text, shelf_life_notes
from pricebook.errors import PricebookError, SpecError, UnitError
from pricebook.labour import ElapsedPlan
from pricebook.money import read, show
from pricebook.piece import Piece

if TYPE_CHECKING:
    from pricebook.cost.drivers import Driver, Drivers
    from pricebook.cost.price_moves import PriceMove
    from pricebook.files.keeping import Taking


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The answers to the options of `price`; empty where nothing was asked.

    Parameters
    ----------
    sheets : tuple of CostSheet
        The cost sheets.
    plans : tuple of ElapsedPlan
        One a piece, with --auction.
    prices : dict of str to int
        New prices by key, with --if. [cents]
    moves : tuple of PriceMove
        What they move.
    drivers : tuple of Drivers
        One a piece, with --drivers.
    taking : Taking or None
        What --take changes; nothing is written yet.
    """

    sheets: tuple[CostSheet, ...]
    plans: tuple[ElapsedPlan, ...]
    prices: dict[str, int]
    moves: tuple[PriceMove, ...]
    drivers: tuple[Drivers, ...]
    taking: Taking | None


def asked(
    given: argparse.Namespace,
    pieces: Sequence[Piece],
    sheets: tuple[CostSheet, ...],
    shop: Shop,
    folder: Path,
    on: date,
) -> Asked:
    """Work out what the options of `price` ask for.

    Parameters
    ----------
    given : argparse.Namespace
        Options auction, changes, drivers, take and stages.
    pieces : sequence of Piece
        The pieces.
    sheets : tuple of CostSheet
        Their cost sheets.
    shop : Shop
        The price book.
    folder : Path
        Where the price book lies.
    on : date
        The day for which prices are taken.

    Returns
    -------
    Asked
        The answers.

    Raises
    ------
    PricebookError
        If an option makes no sense; nothing has been written then.
    """
    prices = dict(prices_of(given.changes))
    moves: tuple[PriceMove, ...] = ()
    drivers: tuple[Drivers, ...] = ()
    taken = None
    if prices:
        from pricebook.cost.price_moves import price_changes

        moves = price_changes(pieces, shop, prices, on, stages=given.stages)
    if given.drivers:
        from pricebook.cost.drivers import what_drives

        drivers = tuple(what_drives(p, shop, on, stages=given.stages) for p in pieces)
    if given.take:
        from pricebook.files.keeping import taking

        taken = taking(folder, sheets, on)
    return Asked(
        sheets=sheets,
        plans=tuple(_plans(given.auction, sheets, shop, on)),
        prices=prices,
        moves=moves,
        drivers=drivers,
        taking=taken,
    )


def _plans(
    auction: str | None, sheets: Sequence[CostSheet], shop: Shop, on: date
) -> Iterator[ElapsedPlan]:
    if auction is None:
        return
    day = day_of(auction, "--auction")
    if day < on:
        raise SpecError(
            f"--auction {day} is in the past on {on}; give the day of an auction to "
            "come, or with --on the day the work starts."
        )
    for sheet in sheets:
        yield elapsed_of(sheet, shop, on, day)


def prices_of(changes: Sequence[str]) -> Iterator[tuple[str, int]]:
    """Read new prices as a person writes them: "walnut-4x8=140.00".

    Parameters
    ----------
    changes : sequence of str
        Key and price, with = between.

    Yields
    ------
    (str, int)
        Key, and price. [cents]

    Raises
    ------
    UnitError
        If one is written otherwise or a key comes twice; with all faults.
    """
    faults: list[str] = []
    found: dict[str, int] = {}
    for change in changes:
        key, sign, amount = (part.strip() for part in change.rpartition("="))
        if not sign or not key:
            faults.append(f'--if "{change}" has no "="; write walnut-4x8=140.00.')
            continue
        if key in found:
            faults.append(f'--if names "{key}" twice; give one price for it.')
        try:
            found[key] = read(amount)
        except PricebookError as error:
            faults += [f'--if "{change}": {fault}' for fault in error.faults]
    if faults:
        raise UnitError(*faults)
    yield from found.items()


def asked_text(answers: Asked) -> Iterator[str]:
    """Yield what was asked beside the cost, as plain text.

    Parameters
    ----------
    answers : Asked
        The answers.

    Yields
    ------
    str
        A part each.
    """
    from pricebook.cost.drivers_text import drivers_text, moves_text

    lengths = answers.sheets[0].settings.lengths
    for sheet, plan in zip(answers.sheets, answers.plans, strict=False):
        yield elapsed_text(sheet, plan)
    if answers.moves:
        words = [f"{key} at {show(cents)}" for key, cents in answers.prices.items()]
        yield moves_text(answers.moves, words)
    for drivers in answers.drivers:
        yield drivers_text(drivers, lengths)
    if answers.taking:
        lines = "\n".join(f"  - {line}" for line in answers.taking.summary)
        yield f"Taken from the stock on hand\n{lines}"


def asked_answer(answers: Asked) -> dict[str, Any]:
    """Return what was asked beside the cost, as JSON values.

    Parameters
    ----------
    answers : Asked
        The answers.

    Returns
    -------
    dict
        Keys elapsed, price_changes, drivers and taken, each only when asked for.
    """
    found: dict[str, Any] = {}
    if answers.plans:
        pairs = zip(answers.sheets, answers.plans, strict=True)
        found["elapsed"] = [_elapsed(sheet, plan) for sheet, plan in pairs]
    if answers.moves:
        found["price_changes"] = [_move(move) for move in answers.moves]
    if answers.drivers:
        found["drivers"] = [_drivers(one) for one in answers.drivers]
    if answers.taking:
        found["taken"] = list(answers.taking.summary)
    return found


def _elapsed(sheet: CostSheet, plan: ElapsedPlan) -> dict[str, Any]:
    return {
        "piece": sheet.piece,
        "start": plan.start.isoformat(),
        "auction": plan.auction.isoformat(),
        "ready": plan.ready.isoformat() if plan.ready else None,
        "in_time": plan.in_time,
        "spare_days": plan.spare_days,
        "decides": plan.decider,
        "sentence": plan.sentence,
        "notes": list(shelf_life_notes(sheet, plan)),
        "steps": [
            {
                "name": planned.step.name,
                "starts": planned.starts.isoformat(timespec="minutes"),
                "ends": planned.ends.isoformat(timespec="minutes"),
                "dry": planned.dry.isoformat(timespec="minutes"),
            }
            for planned in plan.steps
        ],
    }


def _move(move: PriceMove) -> dict[str, str]:
    return {
        "piece": move.piece,
        "cash_before": show(move.cash_before_cents),
        "cash_after": show(move.cash_after_cents),
        "cash_difference": show(move.cash_difference_cents),
        "used_up_before": show(move.used_before_cents),
        "used_up_after": show(move.used_after_cents),
        "used_up_difference": show(move.used_difference_cents),
    }


def _drivers(drivers: Drivers) -> dict[str, Any]:
    return {
        "piece": drivers.piece,
        "share": drivers.share,
        "full_cost": [_driver(one) for one in drivers.full_cost],
        "cash_to_buy": [_driver(one) for one in drivers.cash_to_buy],
        "idle": list(drivers.idle),
        "refused": list(drivers.refused),
    }


def _driver(one: Driver) -> dict[str, Any]:
    return {
        "name": one.name,
        "unit": one.unit,
        "low": one.low,
        "high": one.high,
        "at_low": show(one.at_low),
        "at_high": show(one.at_high),
        "swing": show(one.swing),
    }
