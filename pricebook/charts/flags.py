"""Upright lines with words above them, in rows so that no words collide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from matplotlib.axes import Axes

from pricebook.charts.lettering import readable, width_of
from pricebook.charts.style import INK, font

FLAG_ROW_PT = 11.0
_SIZE = 7.5
_GAP_PT = 6.0
Dash = Literal["-", "--", ":", "-."]


@dataclass(frozen=True, slots=True)
class Flag:
    """A line at a place, with its words.

    Parameters
    ----------
    at : float
        Where, on the level axis.
    words : str
        What it marks.
    dash : str
        How the line is drawn.
    """

    at: float
    words: str
    dash: Dash = "--"


@dataclass(frozen=True, slots=True)
class PlacedFlag:
    """A flag with the left end of its words and its row, 0 the lowest.

    Parameters
    ----------
    flag : Flag
        The flag.
    left : float
        Left end of its words, from the axes' left end. [pt]
    row : int
        Row above the axes.
    """

    flag: Flag
    left: float
    row: int


def placed_flags(
    flags: Sequence[Flag], low: float, high: float, width_pt: float
) -> tuple[PlacedFlag, ...]:
    """Stand flags in rows, from the right: each above those that its words cover."""
    found: list[tuple[PlacedFlag, float, float]] = []
    for flag in sorted(flags, key=lambda one: (-one.at, one.words)):
        x = (flag.at - low) / (high - low) * width_pt
        long = width_of(readable(flag.words), _SIZE) + _GAP_PT
        left = max(0.0, min(x, width_pt - long))
        rows = [
            placed.row
            for placed, pole, end in found
            if min(pole, placed.left) < left + long and end > left
        ]
        row = max(rows, default=-1) + 1
        found.append((PlacedFlag(flag, left, row), x, left + long))
    return tuple(placed for placed, _, _ in found)


def flags_height(placed: Sequence[PlacedFlag]) -> float:
    """Return the room that flags need above the axes. [pt]."""
    return max((one.row + 1 for one in placed), default=0) * FLAG_ROW_PT + 4.0


def draw_flags(
    axes: Axes, placed: Sequence[PlacedFlag], width_pt: float, height_pt: float
) -> None:
    """Draw the lines up to their words, and the words."""
    whole = axes.get_xaxis_transform()
    for one in placed:
        up = 1 + (one.row * FLAG_ROW_PT + 3.0) / height_pt
        axes.plot(
            [one.flag.at, one.flag.at],
            [0, up + (FLAG_ROW_PT - 3.0) / height_pt],
            transform=whole,
            color=INK,
            linewidth=1.0,
            linestyle=one.flag.dash,
            clip_on=False,
            zorder=3,
        )
        axes.text(
            (one.left + 3.0) / width_pt,
            up + FLAG_ROW_PT / 2 / height_pt,
            readable(one.flag.words),
            transform=axes.transAxes,
            fontproperties=font(_SIZE, text=one.flag.words),
            ha="left",
            va="center",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.5},
            zorder=4,
        )
