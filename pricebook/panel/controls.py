"""One factory for every control: a labelled box, what it understood, a sentence."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from pricebook.errors import PricebookError
from pricebook.panel import words
from pricebook.panel.library import Widget, widgets

Listener = Callable[["Control"], None]
NOTHING = "nothing"
"""What a drop-down holds for None, which the library would show as an empty box."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """How a value is read from a box, shown in it, and echoed beside it.

    Parameters
    ----------
    read : callable
        From what a person typed or chose to a value; raises PricebookError.
    show : callable
        From a value to what stands in the box.
    echo : callable
        From a value to what was understood, in words.
    """

    read: Callable[[Any], Any]
    show: Callable[[Any], Any]
    echo: Callable[[Any], str] = lambda _: ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """The positions of a slider beside a box.

    Parameters
    ----------
    low, high : int
        First and last position. [-]
    value_at : callable
        From a position to a value.
    position_of : callable
        From a value to the nearest position; past the ends is fine.
    """

    low: int
    high: int
    value_at: Callable[[int], Any]
    position_of: Callable[[Any], int]


class Control:
    """A labelled box that keeps the last value it understood, and the last in use.

    Parameters
    ----------
    label : str
        Its name, with the unit.
    box : widget
        The box.
    wording : Wording
        How its value is read, shown and echoed.
    value : object
        What it holds at first.
    track : Track, optional
        The positions of the slider that goes with the box.

    Notes
    -----
    A text that cannot be read is answered by a sentence under the box; the value
    that the figures were worked out with stands again, and the sentence says so. A
    slider never changes a value that was typed: past its ends it rests at the end.
    """

    def __init__(
        self,
        label: str,
        box: Widget,
        wording: Wording,
        value: Any,  # noqa: ANN401 - a control may hold any value
        track: Track | None = None,
    ) -> None:
        self.label = label
        self.box = box
        self.value = self._in_use = value
        self._wording = wording
        self._listeners: list[Listener] = []
        self._quiet = False
        self._unread = False
        self._track = track
        self.slider = _slider(label, track) if track else None
        self._echo = widgets.HTML()
        self._message = widgets.HTML(layout={"display": "none"})
        line = widgets.HBox([box, self._echo])
        parts = [line, *([self.slider] if self.slider else []), self._message]
        self.widget = widgets.VBox(parts)
        self.put(value)
        box.observe(self._box_changed, "value")
        if self.slider:
            self.slider.observe(self._slider_moved, "value")

    def listen(self, listener: Listener) -> None:
        """Call a listener after every change that was understood."""
        self._listeners.append(listener)

    def put(self, value: Any) -> None:  # noqa: ANN401
        """Hold a value, show it and say nothing to the listeners."""
        self.value = self._in_use = value
        with self._silence():
            self._make_room(value)
            self.box.value = self._wording.show(value)
            self._place(value)
        self.echo(self._wording.echo(value))
        self.say(())

    def stand_for(self, value: Any) -> None:  # noqa: ANN401
        """Show what an empty box comes to: beside it, and on its slider."""
        with self._silence():
            self._place(value)
        self.echo(self._wording.echo(value))

    def echo(self, text: str) -> None:
        """Show beside the box what was understood."""
        self._echo.value = words.understood(text)

    def say(self, faults: Iterable[str]) -> None:
        """Show the sentences of a refusal under the box, or none."""
        found = tuple(faults)
        self._unread = False
        self._message.value = words.refused(found) if found else ""
        self._message.layout.display = "" if found else "none"

    def settle(self) -> None:
        """Drop a sentence that no longer holds; one on an unread text stays."""
        self._in_use = self.value
        if not self._unread:
            self.say(())

    @property
    def said(self) -> str:
        """What stands under the box, as HTML; empty when nothing is wrong."""
        return str(self._message.value)

    def show(self, *, visible: bool) -> None:
        """Show or hide the control."""
        self.widget.layout.display = "" if visible else "none"

    def offer(self, options: Sequence[tuple[str, Any]]) -> None:
        """Give a drop-down other options; a value that stays on offer stays."""
        offered = [(name, held_as(value)) for name, value in options]
        if list(self.box.options) == offered:
            return
        values = [value for _, value in options]
        if isinstance(self.value, tuple):
            kept: Any = tuple(value for value in self.value if value in values)
        else:
            kept = self.value if self.value in values else values[0]
        with self._silence():
            self.box.options = offered
        self.put(kept)

    def _make_room(self, value: Any) -> None:  # noqa: ANN401
        """Offer a value that a file asks for and the price book does not know."""
        options = getattr(self.box, "options", None)
        if isinstance(value, tuple):
            return
        wanted = held_as(value)
        if options is not None and wanted not in [held for _, held in options]:
            name = "none" if value is None else f"{value} (not on offer)"
            self.box.options = [*options, (name, wanted)]

    @contextmanager
    def _silence(self) -> Iterator[None]:
        before, self._quiet = self._quiet, True
        try:
            yield
        finally:
            self._quiet = before

    def _place(self, value: Any) -> None:  # noqa: ANN401
        """Move the slider to a value, or to the end it lies past."""
        if self._track and self.slider and value is not None:
            at = self._track.position_of(value)
            self.slider.value = min(max(at, self._track.low), self._track.high)

    def _box_changed(self, change: dict[str, Any]) -> None:
        if self._quiet:
            return
        try:
            value = self._wording.read(change["new"])
        except PricebookError as error:
            self.value = self._in_use
            said = self._wording.echo(self.value)
            with self._silence():
                self._place(self.value)
            self.echo(said)
            kept = said or self._wording.show(self.value)
            self.say([*error.faults, f"The figures still stand for {kept}."])
            self._unread = True
            return
        self._take(value)

    def _slider_moved(self, change: dict[str, Any]) -> None:
        if self._quiet or self._track is None:
            return
        value = self._track.value_at(change["new"])
        with self._silence():
            self.box.value = self._wording.show(value)
        self._take(value)

    def _take(self, value: Any) -> None:  # noqa: ANN401
        self.value = value
        with self._silence():
            self._place(value)
        self.echo(self._wording.echo(value))
        self.say(())
        if not self._listeners:
            self._in_use = value
        for listener in self._listeners:
            listener(self)


def held_as(value: Any) -> Any:  # noqa: ANN401
    """Return what a drop-down holds for a value."""
    return NOTHING if value is None else value


def _slider(label: str, track: Track) -> Widget:
    return widgets.IntSlider(
        min=track.low,
        max=track.high,
        readout=False,
        continuous_update=False,
        tooltip=f"{label}, slider",
        layout={"width": "98%"},
    )
