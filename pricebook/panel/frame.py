"""What every panel does: take a change, work, show, or say why not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from pricebook.errors import PricebookError
from pricebook.panel import words
from pricebook.panel.controls import Control
from pricebook.panel.library import Figure, Widget, notebook, widgets


class Panel:
    """Controls, and the pictures, tables and sentences that follow from them.

    Parameters
    ----------
    controls : mapping of str to Control
        The controls by name, in reading order.
    asks, answers, foot : sequence of widgets
        What stands on the left (the controls), on the right, and below both.

    Notes
    -----
    A panel of a subject works everything out in `work` before it shows anything,
    so that a refusal leaves the last good result where it is. Nothing is kept in
    the widgets alone: what a panel found is in its own attributes.
    """

    def __init__(
        self,
        controls: Mapping[str, Control],
        asks: Sequence[Widget],
        answers: Sequence[Widget],
        foot: Sequence[Widget] = (),
    ) -> None:
        self.controls = dict(controls)
        self.busy = False
        self._mark = widgets.HTML()
        self._message = widgets.HTML()
        self._start = {name: c.value for name, c in self.controls.items()}
        self.widget = _placed(asks, answers, [*foot, self._mark, self._message])
        for control in self.controls.values():
            control.listen(self.changed)

    def work(self) -> None:
        """Work out and show what the controls ask for; a subject's own."""
        raise NotImplementedError

    def changed(self, control: Control | None = None) -> None:
        """Follow a change: show what comes of it, or say why nothing does.

        Parameters
        ----------
        control : Control, optional
            The control that changed; a refusal is said under it.
        """
        if not self.busy:
            self.attempt(self.work, control)

    def attempt(
        self, act: Callable[[], object], control: Control | None = None
    ) -> bool:
        """Do something and say why it was refused, if it was.

        Parameters
        ----------
        act : callable
            Does it; only a refusal of this package is caught.
        control : Control, optional
            The control that a refusal is said under.

        Returns
        -------
        bool
            Whether it was done; sentences that no longer hold are then dropped.
        """
        with self._working():
            faults = self._tried(act)
        if faults:
            (control or self).say(faults)
            return False
        for other in self.controls.values():
            other.settle()
        self.say(())
        return True

    def press(self, act: Callable[[], str]) -> None:
        """Do what a button asks and say what was done, or why it was not.

        Parameters
        ----------
        act : callable
            Does it and returns a sentence.
        """
        said: list[str] = []
        with self._working():
            faults = self._tried(lambda: said.append(act()))
        self._message.value = words.refused(faults) if faults else words.done(said[0])

    def put_all(self, values: Mapping[str, Any]) -> None:
        """Give several controls their values without any work.

        Parameters
        ----------
        values : mapping of str to object
            Values by name of the control.
        """
        with self.together():
            for name, value in values.items():
                self.controls[name].put(value)

    def set_all(self, values: Mapping[str, Any]) -> None:
        """Give several controls their values, and work once."""
        self.put_all(values)
        self.changed()

    @contextmanager
    def together(self) -> Iterator[None]:
        """Change several controls without working after each."""
        before, self.busy = self.busy, True
        try:
            yield
        finally:
            self.busy = before

    def reset(self) -> None:
        """Give every control the value that it had at first."""
        self.set_all(self._start)

    def tell(self, text: str) -> None:
        """Show at the end of the controls what was done."""
        self._message.value = words.done(text)

    def say(self, faults: Iterable[str]) -> None:
        """Show sentences at the end of the controls, or none."""
        found = tuple(faults)
        self._message.value = words.refused(found) if found else ""

    @property
    def said(self) -> str:
        """What stands at the end of the controls, as HTML."""
        return str(self._message.value)

    @contextmanager
    def _working(self) -> Iterator[None]:
        self._mark.value = words.BUSY
        try:
            yield
        finally:
            self._mark.value = ""

    @staticmethod
    def _tried(act: Callable[[], object]) -> tuple[str, ...]:
        """Return the sentences of a refusal; anything else that fails is our bug."""
        try:
            act()
        except PricebookError as error:
            return error.faults
        return ()

    def _ipython_display_(self) -> None:
        """Show the panel in a notebook."""
        notebook.display(self.widget, notebook.Javascript(words.GIVE_NAMES))


class Pictures:
    """Pictures one under the other; one that still holds is not drawn again.

    Notes
    -----
    Drawn to bytes and never through a window of the drawing library, so nothing
    stays open.
    """

    def __init__(self) -> None:
        self.widget = widgets.VBox()
        self._drawn: list[object] = []

    def show(self, wanted: Sequence[tuple[object, Callable[[], Figure]]]) -> None:
        """Draw the pictures that are not there yet.

        Parameters
        ----------
        wanted : sequence of (object, callable)
            What each shows, and what draws it; an equal one stays as it is.
        """
        from pricebook.charts import png_bytes, title_of

        boxes = list(self.widget.children[: len(wanted)])
        boxes += [_picture_box() for _ in range(len(wanted) - len(boxes))]
        before = [*self._drawn, *[None] * len(wanted)]
        for box, (key, draw), old in zip(boxes, wanted, before, strict=False):
            if key != old:
                figure = draw()
                image, title = box.children
                image.value = png_bytes(figure)
                title.value = words.shows(title_of(figure))
        self._drawn = [key for key, _ in wanted]
        if len(boxes) != len(self.widget.children):
            self.widget.children = boxes


def _picture_box() -> Widget:
    image = widgets.Image(format="png", layout={"width": "100%"})
    return classed(widgets.VBox([image, widgets.HTML()]), "picture")


def _placed(
    asks: Sequence[Widget], answers: Sequence[Widget], foot: Sequence[Widget]
) -> Widget:
    left = classed(widgets.VBox(list(asks)), "asks")
    right = classed(widgets.VBox(list(answers)), "answers")
    columns = classed(widgets.HBox([left, right]), "columns")
    below = classed(widgets.VBox(list(foot)), "foot")
    return classed(
        widgets.VBox([widgets.HTML(words.STYLE), columns, below]), "pricebook"
    )


def classed(widget: Widget, name: str) -> Widget:
    """Return a widget with a class that the style knows."""
    widget.add_class(name)
    return widget


def section(title: str) -> Widget:
    """Return a heading among the controls."""
    return widgets.HTML(words.heading(title))
