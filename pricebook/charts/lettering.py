"""How much room words take, and how to fit them into it."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

import matplotlib
from matplotlib.ft2font import FT2Font

from pricebook.charts.other_fonts import opened, other_font

_FONTS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
FONT_FILES = {
    False: str(_FONTS / "DejaVuSans.ttf"),
    True: str(_FONTS / "DejaVuSans-Bold.ttf"),
}
_PLAIN_BELOW = 0x300
"""Below this code every character stands alone; above it some join or reorder."""
SIZES = (8.0, 7.0, 6.5)
"""Sizes of type on a drawing, largest first; never smaller. [pt]"""
_MOST_LINES = 5
_EM = 100.0
_SPARE = 1.02
MARK = "\N{REPLACEMENT CHARACTER}"
"""Stands for a letter that no font of this machine has."""


@dataclass(frozen=True, slots=True)
class Lettering:
    """Lines of text with the size at which they fit.

    Parameters
    ----------
    lines : tuple of str
        The lines.
    size : float
        Size of the type. [pt]
    turned : bool
        Whether they read from the bottom up.
    """

    lines: tuple[str, ...]
    size: float
    turned: bool = False


@cache
def _font(bold: bool) -> FT2Font:
    font = FT2Font(FONT_FILES[bold])
    font.set_size(_EM, 72.0)
    return font


@cache
def _advance(char: str, bold: bool) -> float:
    other = None if _has(char) else other_font(char)
    font = _font(bold)
    if other is not None:
        font = opened(other.path)
        font.set_size(_EM, 72.0)
    return float(font.load_char(ord(char)).linearHoriAdvance) / 65536 / _EM


@cache
def _has(char: str) -> bool:
    return all(_font(bold).get_char_index(ord(char)) for bold in FONT_FILES)


@lru_cache(maxsize=4096)
def _joined(line: str, bold: bool) -> tuple[float, float]:
    """Measure letters that join, or that tower over the others."""
    font = _font(bold)
    font.set_text(line)
    width, height = font.get_width_height()
    return width / 64 / _EM, height / 64 / _EM


def _ems(line: str, bold: bool) -> tuple[float, float]:
    """Return width and height of a line, in sizes of its type."""
    plain = sum(_advance(char, bold) for char in line)
    if all(ord(char) < _PLAIN_BELOW for char in line):
        return plain, 1.15
    own = "".join(char for char in line if _has(char))
    width, height = _joined(own, bold) if own else (0.0, 0.0)
    return max(plain, width), max(1.15, 1.2 * height)


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of the widest line of a text. [pt].

    Parameters
    ----------
    text : str
        One line or several.
    size : float
        Size of the type. [pt]
    bold : bool
        Whether it is bold.

    Returns
    -------
    float
        The width, a little on the safe side. [pt]
    """
    return max(_ems(line, bold)[0] for line in text.split("\n")) * size * _SPARE


def height_of(lines: Sequence[str], size: float, *, bold: bool = False) -> float:
    """Return the height of lines set one below the other. [pt].

    Parameters
    ----------
    lines : sequence of str
        The lines.
    size : float
        Size of the type. [pt]
    bold : bool
        Whether they are bold.

    Returns
    -------
    float
        The height, a little on the safe side. [pt]
    """
    return sum(_ems(line, bold)[1] for line in lines) * size


@lru_cache(maxsize=4096)
def readable(text: str) -> str:
    r"""Return a text in one line, with a mark for what no font here can draw.

    Parameters
    ----------
    text : str
        What a person typed.

    Returns
    -------
    str
        The same text, spaces in place of line ends.

    Examples
    --------
    >>> readable("top,\n  left")
    'top, left'
    """
    kept = [
        char if _is_drawn(char) else MARK
        for char in text
        if unicodedata.category(char) != "Cf"
    ]
    spaced = "".join(" " if char in "\n\r\t\v\f" else char for char in kept)
    return " ".join(part for part in spaced.split(" ") if part)


def _is_drawn(char: str) -> bool:
    return char in "\n\r\t\v\f" or (
        unicodedata.category(char)[0] != "C"
        and (_has(char) or other_font(char) is not None)
    )


def other_families(text: str) -> tuple[str, ...]:
    """Return the other fonts that a text needs, each once."""
    found = (other_font(char) for char in text if char > "\x7f" and not _has(char))
    return tuple(dict.fromkeys(font.family for font in found if font is not None))


def firm(text: str) -> str:
    """Return a text that no line end may break."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


@lru_cache(maxsize=4096)
def wrapped(
    text: str, width: float, size: float, *, bold: bool = False, split: bool = True
) -> tuple[str, ...]:
    """Break a text into lines of a width.

    Parameters
    ----------
    text : str
        One line of text.
    width : float
        The width. [pt]
    size : float
        Size of the type. [pt]
    bold : bool
        Whether it is bold.
    split : bool
        Whether a word that is too long may be broken; if not, and one is, there
        are no lines.

    Returns
    -------
    tuple of str
        The lines; none when the text does not fit.

    Examples
    --------
    >>> wrapped("left side of the chest", 50, 8)
    ('left side of', 'the chest')
    >>> wrapped("left side", 10, 8, split=False)
    ()
    """
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if width_of(longer, size, bold=bold) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _pieces(word, width, size, bold)
        if whole and not split:
            return ()
        lines += whole
    if width_of(line, size, bold=bold) > width:
        return ()
    return (*lines, line)


def _pieces(word: str, width: float, size: float, bold: bool) -> list[str]:
    """Break a word into pieces of a width, one letter each at the least."""
    found, piece = [], ""
    for char in word:
        if piece and width_of(piece + char, size, bold=bold) > width:
            found.append(piece)
            piece = char
        else:
            piece += char
    return [*found, piece]


def fitted(
    paragraphs: Sequence[str],
    width: float,
    height: float,
    *,
    turns: Sequence[bool] = (False, True),
) -> Lettering | None:
    """Fit paragraphs into a rectangle: flat, then upright, then smaller.

    Parameters
    ----------
    paragraphs : sequence of str
        What to write, each on lines of its own.
    width, height : float
        The rectangle. [pt]
    turns : sequence of bool
        Whether to try flat, upright, or both.

    Returns
    -------
    Lettering or None
        How to write it; None when it does not fit.

    Examples
    --------
    >>> fitted(["left side", "20 in x 16 in"], 90, 40)
    Lettering(lines=('left side', '20 in x 16 in'), size=8.0, turned=False)
    >>> fitted(["left side"], 12, 90).turned
    True
    >>> fitted(["left side"], 12, 12) is None
    True
    """
    for size in SIZES:
        for turned in turns:
            across, down = (height, width) if turned else (width, height)
            lines = _set(paragraphs, across, size)
            fits = 0 < len(lines) <= _MOST_LINES and height_of(lines, size) <= down
            if fits:
                return Lettering(lines, size, turned)
    return None


def _set(paragraphs: Sequence[str], width: float, size: float) -> tuple[str, ...]:
    lines: list[str] = []
    for paragraph in paragraphs:
        found = wrapped(paragraph, width, size, split=False)
        if not found:
            return ()
        lines += found
    return tuple(lines)
