"""The same piece in every species, as a data frame and a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.cost.options import Comparison
from pricebook.frames.building import CENTS, COUNT, NUMBER, TEXT, frame_of

if TYPE_CHECKING:
    import pandas as pd


def compare_frame(comparison: Comparison) -> pd.DataFrame:
    """Return the ranked rows of a comparison.

    Parameters
    ----------
    comparison : Comparison
        The piece in every species, form and size of sheet.

    Returns
    -------
    pandas.DataFrame
        A row an option, least cash first. Columns: `rank` (int64), `species`, `form`,
        `sheets_bought` (string), `cash_to_buy_cents`, `used_up_cents`,
        `left_over_cents`, `full_cost_cents`, `sheets`, `leaves` (int64; raw leaves,
        0 where the wood comes in sheets), `work_hours`, `solid_moves_by_mm`,
        `hardness_n` (float64, missing where none is published), `trade_limits`
        (string).
    """
    columns = {
        "rank": COUNT,
        "species": TEXT,
        "form": TEXT,
        "sheets_bought": TEXT,
        "cash_to_buy_cents": CENTS,
        "used_up_cents": CENTS,
        "left_over_cents": CENTS,
        "full_cost_cents": CENTS,
        "sheets": COUNT,
        "leaves": COUNT,
        "work_hours": NUMBER,
        "solid_moves_by_mm": NUMBER,
        "hardness_n": NUMBER,
        "trade_limits": TEXT,
    }
    rows = [
        [
            *(rank, one.species, one.form, one.size),
            *(one.cash_to_buy_cents, one.used_up_cents, one.left_cents),
            *(one.full_cost_cents, one.sheet_count, one.leaves),
            *(one.hours, one.movement_mm, one.hardness_n),
            " ".join(limit.text for limit in one.restrictions),
        ]
        for rank, one in enumerate(comparison.options, start=1)
    ]
    return frame_of(columns, rows)


def compare_sentence(comparison: Comparison) -> str:
    """Say in one sentence which option is the cheapest to buy.

    Parameters
    ----------
    comparison : Comparison
        The piece in every species, form and size of sheet.

    Returns
    -------
    str
        The comparison's own first sentence.
    """
    return comparison.sentences[0]
