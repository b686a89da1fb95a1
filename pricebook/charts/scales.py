"""Round ticks, money on axes, and axes that stand where they are put."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import readable, width_of
from pricebook.charts.style import FAINT, WIDTH_PT, font
from pricebook.money import show

TICK_SIZE = 7.5
AXIS_PT = 34.0
"""Room for ticks and the words below a level axis. [pt]"""


def step_of(most: float, wanted: int = 6) -> float:
    """Return the round step, 1, 2 or 5 of a power of ten, that makes enough ticks."""
    if most <= 0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(most / wanted))
    return next(
        (f * power for f in (1.0, 2.0, 5.0) if f * power * wanted >= most), 10 * power
    )


def ticks_between(low: float, high: float, wanted: int = 6) -> list[float]:
    """Return the round numbers between two numbers."""
    step = step_of(high - low, wanted)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [number * step for number in range(first, last + 1)]


def money_words(cents: float) -> str:
    """Return an amount for a tick, without cents when it has none."""
    words = show(round(cents))
    return words.removesuffix(".00")


def with_unit(words: str, unit: str) -> str:
    """Name what an axis shows, and in what."""
    return f"{words} ({unit})" if unit else words


def axes_at(figure: Figure, box: Box, height_pt: float) -> Axes:
    """Return axes at a place of the page, with only a level axis drawn."""
    axes = figure.add_axes(
        (
            box.left / WIDTH_PT,
            box.bottom / height_pt,
            box.width / WIDTH_PT,
            box.height / height_pt,
        )
    )
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    axes.yaxis.set_visible(False)
    return axes


def level_axis(
    axes: Axes, ticks: Sequence[float], labels: Sequence[str], words: str
) -> None:
    """Put ticks, light lines and words on the level axis."""
    axes.set_xticks(list(ticks), labels=_spread(axes, ticks, labels))
    for label in axes.get_xticklabels():
        label.set_fontproperties(font(TICK_SIZE))
    axes.tick_params(axis="x", length=3.0)
    axes.set_xlabel(readable(words), fontproperties=font(8.0, text=words))
    axes.set_axisbelow(True)
    axes.grid(visible=True, axis="x", color=FAINT, linewidth=0.4, alpha=0.6)


def _spread(axes: Axes, ticks: Sequence[float], labels: Sequence[str]) -> list[str]:
    """Leave out labels that would touch another or leave the page."""
    place, (low, high) = axes.get_position(), axes.get_xlim()
    left, width = place.x0 * WIDTH_PT, place.width * WIDTH_PT
    free, kept = 0.0, []
    for tick, label in zip(ticks, labels, strict=True):
        x = left + (tick - low) / (high - low) * width
        half = width_of(label, TICK_SIZE) / 2
        fits = free <= x - half and x + half <= WIDTH_PT - 1.0
        kept.append(label if fits else "")
        free = x + half + 5.0 if fits else free
    return kept


def upright_axis(
    axes: Axes, ticks: Sequence[float], labels: Sequence[str], words: str
) -> None:
    """Put ticks, light lines and words on the upright axis."""
    axes.yaxis.set_visible(True)
    axes.spines["left"].set_visible(True)
    axes.set_yticks(list(ticks), labels=list(labels))
    for label in axes.get_yticklabels():
        label.set_fontproperties(font(TICK_SIZE))
    axes.tick_params(axis="y", length=3.0)
    axes.set_ylabel(words, fontproperties=font(8.0))
    axes.set_axisbelow(True)
    axes.grid(visible=True, axis="y", color=FAINT, linewidth=0.4, alpha=0.6)
