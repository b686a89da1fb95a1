"""Pictures and sentences in a notebook without any control: printed, read aloud."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from pricebook.panel.library import Figure
from pricebook.panel.words import paragraph

NO_FORMULAS = "tex2jax_ignore mathjax_ignore"
"""Tells a notebook that what stands between two $ is money, not a formula."""


@dataclass(frozen=True, slots=True)
class Gallery:
    """Pictures one under the other, each with its title for whoever cannot see it.

    Parameters
    ----------
    pictures : tuple of (str, bytes)
        Title and PNG of each.
    """

    pictures: tuple[tuple[str, bytes], ...]

    def _repr_html_(self) -> str:
        return "".join(
            f'<img alt="{escape(title)}" style="max-width:100%;display:block;" '
            f'src="data:image/png;base64,{b64encode(png).decode()}">'
            for title, png in self.pictures
        )

    def __str__(self) -> str:
        return "\n".join(title for title, _ in self.pictures)


def pictures(figures: Figure | Iterable[Figure]) -> Gallery:
    """Return pictures that a notebook shows as they stand at the end of a cell.

    Parameters
    ----------
    figures : Figure or iterable of Figure
        What the charts returned.

    Returns
    -------
    Gallery
        The pictures.

    Examples
    --------
    >>> from pricebook.charts.style import says_so
    >>> print(pictures(says_so("Nothing was sold.", "No lot has a price.")))
    Nothing was sold.
    """
    from pricebook.charts import png_bytes, title_of

    some = figures if isinstance(figures, Iterable) else [figures]
    return Gallery(tuple((title_of(figure), png_bytes(figure)) for figure in some))


@dataclass(frozen=True, slots=True)
class Said:
    """Sentences that a notebook shows as words, not as code.

    Parameters
    ----------
    sentences : tuple of str
        One a paragraph; nothing of them is run as HTML.
    """

    sentences: tuple[str, ...]

    def _repr_html_(self) -> str:
        said = "".join(map(paragraph, self.sentences))
        return f'<div class="{NO_FORMULAS}">{said}</div>'

    def __str__(self) -> str:
        return "\n".join(self.sentences)


def say(*sentences: str) -> Said:
    """Return sentences that a notebook shows as they stand at the end of a cell.

    Parameters
    ----------
    *sentences : str
        The sentences.

    Returns
    -------
    Said
        One paragraph each.

    Examples
    --------
    >>> print(say("Two sheets are bought.", "One offcut is kept."))
    Two sheets are bought.
    One offcut is kept.
    """
    return Said(sentences)
