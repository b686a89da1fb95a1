"""What a panel answers: pictures, sentences and tables, and its pictures as files."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pricebook.files.writing import free_path
from pricebook.panel import words
from pricebook.panel.library import Figure, Widget, widgets

if TYPE_CHECKING:
    from pricebook.frames import Table

Drawing = tuple[object, Callable[[], Figure]]
"""What a picture shows, and what draws it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a panel shows of one question.

    Parameters
    ----------
    pictures : tuple of (object, callable)
        What each shows, and what draws it.
    sentences : tuple of str
        What comes of it, in words.
    tables : tuple of Table
        The same numbers, and more.
    folded : tuple of (str, tuple of str)
        Titles, and sentences that are folded away under them.
    """

    pictures: tuple[Drawing, ...] = ()
    sentences: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    folded: tuple[tuple[str, tuple[str, ...]], ...] = ()


class Pictures:
    """Pictures one under the other; one that still holds is not drawn again.

    Notes
    -----
    Drawn to bytes and never through a window of the drawing library, so nothing
    stays open.
    """

    def __init__(self) -> None:
        self.widget = widgets.VBox()
        self._drawn: tuple[Drawing, ...] = ()

    def show(self, wanted: Sequence[Drawing]) -> None:
        """Draw the pictures that are not there yet.

        Parameters
        ----------
        wanted : sequence of (object, callable)
            What each shows, and what draws it; an equal one stays as it is.
        """
        from pricebook.charts import png_bytes, title_of

        boxes = list(self.widget.children[: len(wanted)])
        boxes += [_picture_box() for _ in range(len(wanted) - len(boxes))]
        before = [*(key for key, _ in self._drawn), *[None] * len(wanted)]
        for box, (key, draw), old in zip(boxes, wanted, before, strict=False):
            if key != old:
                figure = draw()
                image, title = box.children
                image.value = png_bytes(figure)
                title.value = words.shows(title_of(figure))
        self._drawn = tuple(wanted)
        if len(boxes) != len(self.widget.children):
            self.widget.children = boxes

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The pictures that stand there, drawn anew."""
        return tuple(draw() for _, draw in self._drawn)


class Answers:
    """Where a panel shows its answer: pictures, sentences, tables."""

    def __init__(self) -> None:
        self.pictures = Pictures()
        self._sentences, self._tables = widgets.HTML(), widgets.HTML()
        self.widget = widgets.VBox(
            [self.pictures.widget, self._sentences, self._tables]
        )

    def show(self, answer: Answer) -> None:
        """Show an answer in place of the one before."""
        self.pictures.show(answer.pictures)
        self._sentences.value = "".join(map(words.paragraph, answer.sentences))
        self._tables.value = "".join(
            [
                *(table._repr_html_() for table in answer.tables),
                *(words.folded(title, said) for title, said in answer.folded),
            ]
        )


def keep_figures(
    figures: Sequence[Figure], folder: Path, name: str
) -> tuple[Path, ...]:
    """Write pictures as PNG and as SVG, beside no others of that name.

    Parameters
    ----------
    figures : sequence of Figure
        The pictures.
    folder : Path
        Where they shall stand.
    name : str
        What their names begin with.

    Returns
    -------
    tuple of Path
        Two files a picture; the same picture gives the same bytes.
    """
    from pricebook.charts import save

    written: list[Path] = []
    one = len(figures) == 1
    for number, figure in enumerate(figures, start=1):
        first = free_path(folder / (f"{name}.png" if one else f"{name}_{number}.png"))
        written += [save(figure, first), save(figure, first.with_suffix(".svg"))]
    return tuple(written)


def _picture_box() -> Widget:
    image = widgets.Image(format="png", layout={"width": "100%"})
    box = widgets.VBox([image, widgets.HTML()])
    box.add_class("picture")
    return box
