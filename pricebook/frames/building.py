"""The one place where a data frame is made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd

TEXT = "string"
CENTS = "int64"
COUNT = "int64"
PERHAPS_CENTS = "Int64"
NUMBER = "float64"
YES_NO = "bool"
DAY = "datetime64[s]"


def frame_of(
    columns: Mapping[str, str], rows: Iterable[Sequence[object]]
) -> pd.DataFrame:
    """Return a data frame with these columns and dtypes, even without rows."""
    import pandas as pd

    listed = list(rows)
    return pd.DataFrame(
        {
            name: pd.Series([row[number] for row in listed], dtype=dtype)
            for number, (name, dtype) in enumerate(columns.items())
        }
    )
