"""What every panel does: take a change, work, show, or say why not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pricebook.errors import PricebookError
from pricebook.panel import words
from pricebook.panel.answers import Pictures, keep_figures
from pricebook.panel.boxes import button
from pricebook.panel.controls import Control
from pricebook.panel.keeping import refuse_stale
from pricebook.panel.library import Widget, notebook, widgets


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

    def drawn_as(self) -> tuple[Path, str, Sequence[Pictures]]:
        """Return where pictures are written, under what name, and which."""
        raise NotImplementedError

    def pictures_button(self) -> Widget:
        """Return the button that writes the pictures as PNG and SVG."""
        says = "Write what is drawn, as PNG and SVG"
        return button("Save the pictures", says, self.save_pictures)

    def save_pictures(self) -> None:
        """Write the pictures that stand there, and say where."""
        self.press(self._save_pictures)

    def _save_pictures(self) -> str:
        refuse_stale(self.controls)
        folder, name, shown = self.drawn_as()
        figures = [figure for pictures in shown for figure in pictures.figures]
        if not figures:
            return "There is no picture here to save; choose one first."
        return "Written: " + ", ".join(map(str, keep_figures(figures, folder, name)))

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
