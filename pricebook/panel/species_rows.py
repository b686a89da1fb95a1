"""Compared woods as a table that stays narrow, with the long words below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pricebook.cost.options import Comparison, SpeciesOption

if TYPE_CHECKING:
    from pricebook.frames import Table

LIMITED = "limited"


def species_table(
    found: Comparison, options: Sequence[SpeciesOption] | None = None
) -> Table:
    """Return compared woods as a table; limits of trade are only marked in it.

    Parameters
    ----------
    found : Comparison
        The comparison.
    options : sequence of SpeciesOption or None
        Which rows; None: all.

    Returns
    -------
    Table
        Ranked rows; `trade_limits` says the marked limits in full.
    """
    from pricebook import frames

    rows = tuple(found.options if options is None else options)
    frame = frames.compare_frame(replace(found, options=rows))
    frame.insert(1, "veneer", [one.name for one in rows])
    frame["trade"] = [LIMITED if one.restrictions else "" for one in rows]
    return frames.shown(
        frame.drop(columns=["species", "form", "sheets_bought", "trade_limits"]),
        currency=found.settings.currency,
        lengths=found.settings.lengths,
    )


def trade_limits(options: Sequence[SpeciesOption]) -> tuple[str, ...]:
    """Return what limits the trade of some woods, each sentence once.

    Parameters
    ----------
    options : sequence of SpeciesOption
        The rows.

    Returns
    -------
    tuple of str
        Wood, limit and source; follow local law and licensed advice.
    """
    said = [
        f"{one.species}: {limit.text} [{limit.source}]"
        for one in options
        for limit in one.restrictions
    ]
    return tuple(dict.fromkeys(said))
