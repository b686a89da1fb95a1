"""Faces and edges that were measured one by one, as rows of controls."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

from pricebook.panel import words
from pricebook.panel.boxes import (
    button,
    choice,
    length_box,
    number_box,
    tick,
    words_box,
)
from pricebook.panel.controls import Control, Wording
from pricebook.panel.library import Widget, widgets
from pricebook.piece import ListedEdge, ListedFace

Values = dict[str, Any]
Cells = Callable[[str, Values, str], dict[str, Control]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """What a list is of.

    Parameters
    ----------
    word, article : str
        What one row is called.
    cells : callable
        From the start of each label, the values and the unit of lengths to the
        controls of a row.
    first : mapping of str to object
        What the first row holds, to be measured afresh.
    make : callable
        From the values of a row to a part of a piece.
    """

    word: str
    article: str
    cells: Cells
    first: Mapping[str, Any]
    make: Callable[..., Any]

    @property
    def plural(self) -> str:
        """What the list is called."""
        return f"{self.word}s"


def values_of(part: Any) -> Values:  # noqa: ANN401 - a face or an edge
    """Return what a listed face or edge holds, by the names of its fields."""
    return {field.name: getattr(part, field.name) for field in fields(part)}


def _face_cells(label: str, held: Values, unit: str) -> dict[str, Control]:
    treated = [
        ("veneered to show", "show"),
        ("backing veneer", "backing"),
        ("left plain", "plain"),
    ]
    return {
        "name": words_box(label, held["name"]),
        "along_mm": length_box(f"{label} along", held["along_mm"], unit),
        "across_mm": length_box(f"{label} across", held["across_mm"], unit),
        "count": number_box(f"{label} how many", held["count"], whole=True),
        "treatment": choice(f"{label} is", treated, held["treatment"]),
        "free_grain": tick(f"{label} may be turned on the sheet"),
        "coated": tick(f"{label} gets the finish"),
    }


def _edge_cells(label: str, held: Values, unit: str) -> dict[str, Control]:
    return {
        "name": words_box(label, held["name"]),
        "length_mm": length_box(f"{label} length", held["length_mm"], unit),
        "width_mm": length_box(f"{label} panel", held["width_mm"], unit),
        "count": number_box(f"{label} how many", held["count"], whole=True),
    }


FACES = Sort(
    word="face",
    article="a",
    cells=_face_cells,
    first=values_of(ListedFace(name="face 1", along_mm=609.6, across_mm=406.4)),
    make=ListedFace,
)
"""A face of 24 in along the grain and 16 in across, to be measured afresh."""
EDGES = Sort(
    word="edge",
    article="an",
    cells=_edge_cells,
    first=values_of(ListedEdge(name="edge 1", length_mm=609.6, width_mm=19.05)),
    make=ListedEdge,
)
"""An edge of 24 in on a panel of 3/4 in, to be measured afresh."""


class Listed(Control):
    """A list of rows, each with its own controls; together one control.

    Parameters
    ----------
    sort : Sort
        What a row is.
    rows : sequence of dict
        The values of each row at first.
    unit : str
        "in" or "mm": how lengths are written.

    Notes
    -----
    A new row is a copy of the last one under another name, so that nothing in it
    is guessed. What a row holds beside its controls, such as its matched run, goes
    with it.
    """

    def __init__(self, sort: Sort, rows: Sequence[Values], unit: str) -> None:
        self._sort, self._unit = sort, unit
        self._rows: list[_Row] = []
        self._last: Control | None = None
        self._add = button("", f"One more {sort.word}", self.add)
        self._fault = widgets.HTML(layout={"display": "none"})
        wording = Wording(read=tuple, show=tuple)
        super().__init__(sort.plural.capitalize(), widgets.VBox(), wording, ())
        self.widget = widgets.VBox(
            [
                widgets.HTML(words.heading(f"{self.label} measured one by one")),
                self.box,
                self._add,
                self._fault,
            ]
        )
        self.put(tuple(rows))

    def put(self, value: Sequence[Values]) -> None:
        """Hold other rows, show them and say nothing to the listeners."""
        self.value = tuple(value)
        for number, held in enumerate(self.value):
            if number == len(self._rows):
                self._rows.append(self._made(number, held))
            self._rows[number].put(held)
        shown = [row.widget for row in self._rows[: len(self.value)]]
        if list(self.box.children) != shown:
            self.box.children = shown
        like = " like the last" if shown else ""
        self._add.description = f"Add {self._sort.article} {self._sort.word}{like}"
        self.say(())

    def add(self) -> None:
        """Add a row like the last one, under a name of its own."""
        held = dict(self.value[-1] if self.value else self._sort.first)
        taken = {row["name"] for row in self.value}
        number = len(self.value) + 1
        while (name := f"{self._sort.word} {number}") in taken:
            number += 1
        self._put_and_tell((*self.value, held | {"name": name}))
        self._rows[len(self.value) - 1].controls["name"].box.focus()

    def remove(self, number: int) -> None:
        """Take a row away.

        Parameters
        ----------
        number : int
            Which, the first being 0.
        """
        self._put_and_tell((*self.value[:number], *self.value[number + 1 :]))
        self._add.focus()

    def say(self, faults: Iterable[str]) -> None:
        """Show a refusal under the box that was changed, or else under the rows."""
        found = tuple(faults)
        if found and self._last:
            self._last.say(found)
            return
        self._fault.value = words.refused(found) if found else ""
        self._fault.layout.display = "" if found else "none"

    def settle(self) -> None:
        """Drop sentences that no longer hold; those on unread texts stay."""
        self.say(())
        for control in self._controls():
            control.settle()

    @property
    def said(self) -> str:
        """What stands under the rows and under their boxes."""
        every = (control.said for control in self._controls())
        return str(self._fault.value) + "".join(every)

    def _controls(self) -> list[Control]:
        shown = self._rows[: len(self.value)]
        return [control for row in shown for control in row.controls.values()]

    def _made(self, number: int, held: Values) -> _Row:
        label = f"{self._sort.word.capitalize()} {number + 1}"
        row = _Row(
            self._sort.cells(label, held, self._unit),
            button(f"Remove {label.lower()}", "", lambda: self.remove(number)),
        )
        for control in row.controls.values():
            control.listen(self._cell_changed)
        return row

    def _cell_changed(self, control: Control) -> None:
        shown = self._rows[: len(self.value)]
        self.value = tuple(row.value for row in shown)
        self._tell(control)

    def _put_and_tell(self, rows: tuple[Values, ...]) -> None:
        self.put(rows)
        self._tell(None)

    def _tell(self, control: Control | None) -> None:
        self._last = control
        for listener in self._listeners:
            listener(self)


class _Row:
    """The controls of one row; what has no control there is kept as it was."""

    def __init__(self, controls: dict[str, Control], remove: Widget) -> None:
        self.controls = controls
        self._held: Values = {}
        self.widget = widgets.VBox([*(c.widget for c in controls.values()), remove])
        self.widget.add_class("listed")

    @property
    def value(self) -> Values:
        """What the row holds now."""
        return self._held | {key: c.value for key, c in self.controls.items()}

    def put(self, held: Values) -> None:
        """Hold other values and show them."""
        self._held = held
        for key, control in self.controls.items():
            if control.value != held[key] or control.said:
                control.put(held[key])
