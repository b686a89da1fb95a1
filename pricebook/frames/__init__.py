"""Data frames, tables to look at, and sentences; the only part that uses pandas.

pandas is loaded by the first frame that is made, not by the import.
"""

from pricebook.frames.bench import (
    edges_frame,
    elapsed_frame,
    faces_frame,
    labour_frame,
    labour_sentence,
)
from pricebook.frames.costs import (
    GroupTotal,
    cost_frame,
    cost_sentence,
    cost_table,
    group_totals,
    groups_frame,
    groups_table,
    left_frame,
    left_table,
    source_note,
)
from pricebook.frames.drivers import (
    Moved,
    Pairs,
    grid_frame,
    grid_sentence,
    in_money,
    swings_frame,
    swings_sentence,
)
from pricebook.frames.evenings import (
    estimates_frame,
    estimates_sentence,
    event_frame,
    forecast_frame,
    forecast_lots_frame,
    forecast_sentence,
    totals_name,
    years_frame,
    years_sentence,
)
from pricebook.frames.prices import (
    advice_frame,
    advice_sentence,
    rungs_frame,
    split_frame,
    split_sentence,
)
from pricebook.frames.sheets import (
    cuts_frame,
    layout_frame,
    layout_sentence,
    offcuts_frame,
    sheets_frame,
)
from pricebook.frames.showing import shown
from pricebook.frames.species import compare_frame, compare_sentence
from pricebook.frames.table import Head, Row, Table

__all__ = [
    "GroupTotal",
    "Head",
    "Moved",
    "Pairs",
    "Row",
    "Table",
    "advice_frame",
    "advice_sentence",
    "compare_frame",
    "compare_sentence",
    "cost_frame",
    "cost_sentence",
    "cost_table",
    "cuts_frame",
    "edges_frame",
    "elapsed_frame",
    "estimates_frame",
    "estimates_sentence",
    "event_frame",
    "faces_frame",
    "forecast_frame",
    "forecast_lots_frame",
    "forecast_sentence",
    "grid_frame",
    "grid_sentence",
    "group_totals",
    "groups_frame",
    "groups_table",
    "in_money",
    "labour_frame",
    "labour_sentence",
    "layout_frame",
    "layout_sentence",
    "left_frame",
    "left_table",
    "offcuts_frame",
    "rungs_frame",
    "sheets_frame",
    "shown",
    "source_note",
    "split_frame",
    "split_sentence",
    "swings_frame",
    "swings_sentence",
    "totals_name",
    "years_frame",
    "years_sentence",
]
