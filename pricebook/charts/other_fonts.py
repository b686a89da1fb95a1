"""Fonts of this machine for letters that the font of the pictures lacks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

import matplotlib
from matplotlib import font_manager
from matplotlib.ft2font import FT2Font

_BUNDLED = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
_LAST_RESORT = "last resort"
"""A font of this name draws a box for every letter, which tells nothing."""


@dataclass(frozen=True, slots=True)
class OtherFont:
    """A font of this machine.

    Parameters
    ----------
    family : str
        Its name, by which a picture asks for it.
    path : str
        Its file.
    """

    family: str
    path: str


@lru_cache(maxsize=4096)
def other_font(char: str) -> OtherFont | None:
    """Return a font of this machine that has a letter; None when there is none.

    Parameters
    ----------
    char : str
        One letter.

    Returns
    -------
    OtherFont or None
        An upright sans serif where there is one; the same on every call.
    """
    for found in _fonts():
        if opened(found.path).get_char_index(ord(char)):
            _known(found.path)
            return found
    return None


@cache
def opened(path: str) -> FT2Font:
    """Return a font, ready to be asked."""
    return FT2Font(path)


@cache
def _known(path: str) -> None:
    """Make a font known by its name."""
    font_manager.fontManager.addfont(path)


@cache
def _fonts() -> tuple[OtherFont, ...]:
    """Return outline fonts, of the machine or bundled, plain ones first."""
    found = []
    bundled = font_manager.findSystemFonts([str(_BUNDLED)])
    for path in [*font_manager.findSystemFonts(), *bundled]:
        try:
            font = opened(path)
        except (OSError, RuntimeError):  # a font of a kind that cannot be read
            continue
        name, look = font.family_name, font.style_name.lower()
        if font.scalable and _LAST_RESORT not in name.lower():
            plain = look in {"regular", "book", "normal"}
            key = (not plain, "sans" not in name.lower(), name, path)
            found.append((key, OtherFont(name, path)))
    return tuple(font for _, font in sorted(found, key=lambda pair: pair[0]))
