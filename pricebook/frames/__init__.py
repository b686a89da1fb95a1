"""Data frames, tables to look at, and sentences; the only part that uses pandas.

pandas is loaded by the first frame that is made, not by the import.
"""

from pricebook.frames.costs import (
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
from pricebook.frames.showing import shown
from pricebook.frames.table import Head, Row, Table

__all__ = [
    "Head",
    "Row",
    "Table",
    "cost_frame",
    "cost_sentence",
    "cost_table",
    "group_totals",
    "groups_frame",
    "groups_table",
    "left_frame",
    "left_table",
    "shown",
    "source_note",
]
