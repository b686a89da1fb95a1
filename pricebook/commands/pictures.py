"""Draw the pictures of the first page anew: python -m pricebook.commands.pictures."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from pricebook.commands.gallery import draw_pictures

DAY = date(2026, 11, 20)
"""The day of the demo's prices, so that the pictures stay as they are."""


def run(folder: Path = Path("notebooks/pictures"), data: Path = Path("data")) -> None:
    """Draw the demo's pictures into a folder.

    Parameters
    ----------
    folder : Path
        Where they go.
    data : Path
        The demo data.
    """
    for path in draw_pictures(folder, data, DAY):
        print(path)


if __name__ == "__main__":
    run()
