"""One house style: fonts, colours, hatches, and bytes that repeat.

The colours are those of Okabe and Ito, told apart by colour-blind readers too; a
hatch or a label always says the same thing again.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeAlias

import matplotlib
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties

from pricebook.charts.lettering import FONT_FILES, other_families, readable, wrapped
from pricebook.errors import ReportError, SpecError

WIDTH_PT = 547.0
"""Width of every figure, 7.6 in: an A4 or Letter page upright, margins left. [pt]"""
DPI = 110
FAMILY = "DejaVu Sans"
PT_PER_IN = 72.0
EDGE_PT = 12.0
INK = "#202020"
FAINT = "#8a8a8a"
Colour = tuple[float, float, float]
Picture: TypeAlias = Figure
"""What every kind of picture returns."""
ORANGE: Colour = (0.902, 0.624, 0.0)
SKY: Colour = (0.337, 0.706, 0.914)
GREEN: Colour = (0.0, 0.620, 0.451)
YELLOW: Colour = (0.941, 0.894, 0.259)
BLUE: Colour = (0.0, 0.447, 0.698)
RED: Colour = (0.835, 0.369, 0.0)
PINK: Colour = (0.8, 0.475, 0.655)
_LEFT_AS_SET = ("backend", "interactive", "toolbar", "webagg", "timezone", "figure.max")
_HOUSE: Any = {
    name: value
    for name, value in matplotlib.rcParamsDefault.items()
    if not name.startswith(_LEFT_AS_SET)
} | {
    "font.family": FAMILY,
    "text.hinting": "no_hinting",  # widths then grow with the size, as measured
    "text.parse_math": False,  # a $ is a currency sign
    "text.color": INK,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "hatch.linewidth": 0.5,
    "svg.hashsalt": "pricebook",
    "savefig.dpi": "figure",
}


@contextmanager
def house() -> Iterator[None]:
    """Draw in the house style, whatever the reader's own settings are."""
    with matplotlib.rc_context(_HOUSE):
        yield


def font(size: float, *, bold: bool = False, text: str = "") -> FontProperties:
    """Return the font that ships with the drawing library, by its file.

    A text with letters that it lacks takes those from other fonts of the machine.
    """
    others = other_families(text)
    if not others:
        return FontProperties(fname=FONT_FILES[bold], size=size)
    weight = "bold" if bold else "normal"
    return FontProperties(family=[FAMILY, *others], size=size, weight=weight)


def tint(colour: Colour, strength: float) -> Colour:
    """Mix a colour with white: 0 is white, 1 the colour itself."""
    red, green, blue = (1 - strength * (1 - part) for part in colour)
    return red, green, blue


def title_lines(title: str) -> tuple[str, ...]:
    """Break a title so that it stays on the page."""
    return wrapped(readable(title), WIDTH_PT - 2 * EDGE_PT, TITLE_SIZE, bold=True)


TITLE_SIZE = 10.0
TITLE_LINE_PT = 13.0


def blank(height_pt: float, title: str) -> tuple[Figure, float]:
    """Return an empty figure with its title, and the height left below it."""
    figure = Figure(figsize=(WIDTH_PT / PT_PER_IN, height_pt / PT_PER_IN), dpi=DPI)
    FigureCanvasAgg(figure)
    figure.set_label(title)
    lines = title_lines(title)
    figure.text(
        EDGE_PT / WIDTH_PT,
        1 - EDGE_PT / height_pt,
        "\n".join(lines),
        fontproperties=font(TITLE_SIZE, bold=True, text=title),
        va="top",
        ha="left",
    )
    return figure, height_pt - EDGE_PT - len(lines) * TITLE_LINE_PT


def page(height_pt: float, title: str) -> tuple[Figure, Axes, float]:
    """Return a figure with one pair of axes over all of it, in points."""
    figure, top = blank(height_pt, title)
    axes = figure.add_axes((0, 0, 1, 1), label="page")
    axes.set_xlim(0, WIDTH_PT)
    axes.set_ylim(0, height_pt)
    axes.set_axis_off()
    return figure, axes, top


def says_so(title: str, sentence: str) -> Figure:
    """Return a figure that says why there is nothing to draw."""
    figure, axes, _ = page(110.0, title)
    lines = wrapped(readable(sentence), WIDTH_PT - 8 * EDGE_PT, 9.0)
    axes.text(
        WIDTH_PT / 2,
        40.0,
        "\n".join(lines),
        fontproperties=font(9.0, text=sentence),
        ha="center",
        va="center",
    )
    return figure


def title_of(figure: Figure) -> str:
    """Return the sentence above a picture, for whoever cannot see it.

    Parameters
    ----------
    figure : Figure
        A picture of this package.

    Returns
    -------
    str
        Its title.

    Raises
    ------
    SpecError
        If it is no picture.

    Examples
    --------
    >>> title_of(says_so("Nothing was sold.", "No lot has a hammer price."))
    'Nothing was sold.'
    """
    if not isinstance(figure, Figure):
        raise SpecError(f"{figure!r} is no picture; give what a chart returned.")
    return str(figure.get_label())


def png_bytes(figure: Figure) -> bytes:
    """Return a picture as a PNG; the same picture gives the same bytes.

    Parameters
    ----------
    figure : Figure
        A picture of this package.

    Returns
    -------
    bytes
        The file's contents.

    Examples
    --------
    >>> png_bytes(says_so("Nothing was sold.", "No lot has a price."))[1:4]
    b'PNG'
    """
    return _bytes(figure, "png", {"Software": None, "Title": title_of(figure)})


def svg_bytes(figure: Figure) -> bytes:
    """Return a picture as an SVG; the same picture gives the same bytes.

    Parameters
    ----------
    figure : Figure
        A picture of this package.

    Returns
    -------
    bytes
        The file's contents.

    Examples
    --------
    >>> svg_bytes(says_so("Nothing was sold.", "No lot has a price."))[:5]
    b'<?xml'
    """
    kept = {"Date": None, "Creator": None, "Title": title_of(figure)}
    return _bytes(figure, "svg", kept)


def _bytes(figure: Figure, kind: str, metadata: dict[str, str | None]) -> bytes:
    # less packing, a third of the time
    more: Any = {"pil_kwargs": {"compress_level": 3}} if kind == "png" else {}
    buffer = io.BytesIO()
    with house():
        figure.savefig(buffer, format=kind, metadata=metadata, **more)
    return buffer.getvalue()


def save(figure: Figure, path: Path | str) -> Path:
    """Write a picture as PNG or SVG, whole or not at all.

    Parameters
    ----------
    figure : Figure
        A picture of this package.
    path : Path or str
        Where to; its ending says which kind.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    ReportError
        If the ending is neither `.png` nor `.svg`, or the file cannot be written.
    """
    from pricebook.files.writing import write_whole

    target = Path(path)
    writers = {".png": png_bytes, ".svg": svg_bytes}
    writer = writers.get(target.suffix.lower())
    if writer is None:
        raise ReportError(
            f'"{target.name}" ends in "{target.suffix}"; a picture is written as .png '
            "or .svg."
        )
    contents = writer(figure)

    def put(part: Path) -> None:
        part.write_bytes(contents)

    return write_whole(target, put)
