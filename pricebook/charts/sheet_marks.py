"""Where the words and numbers of a sheet's drawing go, so that none collide."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import (
    Lettering,
    firm,
    fitted,
    height_of,
    readable,
    width_of,
)
from pricebook.lengths import show
from pricebook.veneer.layout import PlacedFace, Rest, SheetCut, SheetPlan

BAND_PT = 11.0
"""Band round a sheet that holds the cut numbers. [pt]"""
NUMBER_SIZE = 6.5
_STEP_PT = 3.0
_ARROW_PT, _LEAST_ARROW_PT = 5.0, 16.0


@dataclass(frozen=True, slots=True)
class Mark:
    """Words at a place.

    Parameters
    ----------
    x, y : float
        Middle of the words, from the sheet's corner. [pt]
    words : Lettering
        The words.
    boxed : bool
        Whether they stand on a white ground.
    bold : bool
        Whether they are bold.
    """

    x: float
    y: float
    words: Lettering
    boxed: bool = False
    bold: bool = False


@dataclass(frozen=True, slots=True)
class SheetMarks:
    """All that is written on one sheet, from the sheet's corner.

    Parameters
    ----------
    marks : tuple of Mark
        Names, sizes and cut numbers.
    arrows : tuple of (x from, x to, y)
        Grain arrows. [pt]
    legend : tuple of str
        What found no room on the sheet, a line each.
    """

    marks: tuple[Mark, ...]
    arrows: tuple[tuple[float, float, float], ...]
    legend: tuple[str, ...]


def size_words(along_mm: float, across_mm: float, lengths: str) -> str:
    """Return a size that breaks only at its cross."""
    return f"{firm(show(along_mm, lengths))} x {firm(show(across_mm, lengths))}"


def box_on_sheet(part: PlacedFace | Rest, scale: float) -> Box:
    """Return the place of a face or a rest. [pt]."""
    left, bottom = part.along_at_mm * scale, part.across_at_mm * scale
    return Box(
        left, bottom, left + part.along_mm * scale, bottom + part.across_mm * scale
    )


def has_centred(plan: SheetPlan) -> bool:
    """Tell whether a face on the sheet is centred on its figure."""
    return any(placed.face.centred for placed in plan.placed)


def centre_mm(plan: SheetPlan) -> float:
    """Return where the centre line of the figure runs across the sheet. [mm]."""
    centre = plan.sheet.figure_centre_mm
    return plan.sheet.across_mm / 2 if centre is None else centre


def is_shared(plan: SheetPlan) -> bool:
    """Tell whether faces of several pieces lie on a sheet."""
    return len({placed.face.piece for placed in plan.placed}) > 1


def marks_on(
    plan: SheetPlan, scale: float, lengths: str, *, with_cuts: bool = True
) -> SheetMarks:
    """Find a place for every name, size, arrow and cut number of a sheet."""
    outer = _outer(plan, scale)
    numbers, unnumbered = (
        _cut_numbers(plan, scale, outer, lengths) if with_cuts else ([], [])
    )
    taken = [_mark_box(mark) for mark in numbers]
    legend = _Legend(lengths)
    marks, arrows = [*numbers], []
    for placed in plan.placed:
        room = box_on_sheet(placed, scale).shrunk(2.0).clear_of(taken)
        mark, arrow = _face_mark(placed, room, lengths, is_shared(plan), legend)
        marks += [_clear_of_centre(each, plan, scale) for each in mark]
        arrows += arrow
    for rest in plan.rests:
        if rest.usable:
            room = box_on_sheet(rest, scale).shrunk(3.0).clear_of(taken)
            marks += _rest_mark(rest, room, lengths, legend)
    told = (*legend.lines(), *unnumbered)
    return SheetMarks(tuple(marks), tuple(arrows), told)


def _clear_of_centre(mark: Mark, plan: SheetPlan, scale: float) -> Mark:
    """Put words that the figure's centre line would strike through on white."""
    words = mark.words
    long = width_of("\n".join(words.lines), words.size)
    tall = long if words.turned else height_of(words.lines, words.size)
    struck = has_centred(plan) and abs(centre_mm(plan) * scale - mark.y) < tall / 2
    return replace(mark, boxed=True) if struck else mark


def _outer(plan: SheetPlan, scale: float) -> Box:
    sheet = Box(0, 0, plan.sheet.along_mm * scale, plan.sheet.across_mm * scale)
    return sheet.shrunk(-BAND_PT)


def _mark_box(mark: Mark) -> Box:
    """Return the white box of a cut number."""
    width = width_of(mark.words.lines[0], mark.words.size, bold=True) + 4.0
    return Box.round_point(mark.x, mark.y, width, mark.words.size + 3.0)


def _cut_numbers(
    plan: SheetPlan, scale: float, outer: Box, lengths: str
) -> tuple[list[Mark], list[str]]:
    """Place the number of each cut beside the sheet, or else on its line."""
    found: list[Mark] = []
    left_over = []
    for number, cut in enumerate(plan.cuts, start=1):
        words = Lettering((str(number),), NUMBER_SIZE)
        boxes = [_mark_box(mark) for mark in found]
        for x, y in _cut_places(cut, scale, plan):
            mark = Mark(x, y, words, boxed=True, bold=True)
            box = _mark_box(mark)
            if outer.holds(box) and not any(box.meets(other) for other in boxes):
                found.append(mark)
                break
        else:
            at, start, end = (
                show(mm, lengths) for mm in (cut.at_mm, cut.start_mm, cut.end_mm)
            )
            left_over.append(
                f"cut {number}: {cut.direction} at {at}, from {start} to {end}"
            )
    return found, left_over


def _cut_places(
    cut: SheetCut, scale: float, plan: SheetPlan
) -> Iterator[tuple[float, float]]:
    """Yield places for a cut's number: outside at its ends, then along its line."""
    at, start, end = cut.at_mm * scale, cut.start_mm * scale, cut.end_mm * scale
    across = cut.direction == "across"
    most = (plan.sheet.across_mm if across else plan.sheet.along_mm) * scale
    out, half = (BAND_PT / 2, 6.0) if across else (BAND_PT / 2 - 0.5, 7.0)
    ends = ([most + out] if end > most - 0.5 else []) + ([-out] if start < 0.5 else [])
    count = int(max(0.0, end - start - 2 * half) / _STEP_PT)
    inside = (end - half - step * _STEP_PT for step in range(count + 1))
    for way in chain(ends, inside):
        yield (at, way) if across else (way, at)


class _Legend:
    """What is told below the sheet: sizes, letters, and places at the worst."""

    def __init__(self, lengths: str) -> None:
        self._lengths = lengths
        self._named: dict[str, list[str]] = {}
        self._letters: dict[tuple[str, str], str] = {}
        self._places: dict[str, list[str]] = {}
        self._counts: Counter[str] = Counter()

    def tell_size(self, name: str, size: str) -> None:
        """Tell the size of a face whose name alone found room."""
        self._named.setdefault(size, []).append(name)

    def letter(self, name: str, size: str) -> str:
        """Return a letter for a thing, the same for things that are alike."""
        key = (name, size)
        if key not in self._letters:
            self._letters[key] = _letters(len(self._letters))
        self._counts[self._letters[key]] += 1
        return self._letters[key]

    def tell_place(self, letter: str, part: PlacedFace | Rest) -> None:
        """Tell where a thing lies whose letter finds no room either."""
        along = show(part.along_at_mm, self._lengths)
        across = show(part.across_at_mm, self._lengths)
        place = f"{along} along and {across} across"
        self._places.setdefault(letter, []).append(place)

    def lines(self) -> Iterator[str]:
        """Yield the lines of the legend."""
        for size, names in self._named.items():
            yield f"{size}: {'; '.join(names)}"
        for (name, size), letter in self._letters.items():
            count, places = self._counts[letter], self._places.get(letter)
            words = f"{letter}: {name}, {size}"
            words += f" ({count} of them)" if count > 1 else ""
            yield words + (f", corner at {'; '.join(places)}" if places else "")


def _letters(number: int) -> str:
    """Count A to Z, then AA, AB ..."""
    first, last = divmod(number, 26)
    return (_letters(first - 1) if first else "") + chr(ord("A") + last)


def _face_mark(
    placed: PlacedFace, room: Box, lengths: str, shared: bool, legend: _Legend
) -> tuple[list[Mark], list[tuple[float, float, float]]]:
    """Write a face's name and size, or its letter, above its grain arrow."""
    name = readable(placed.name) + (" (turned)" if placed.turned else "")
    size = size_words(placed.along_mm, placed.across_mm, lengths)
    piece = [readable(placed.face.piece)] if shared else []
    whole = ", ".join([*piece, name])
    above = Box(room.left, room.bottom + _ARROW_PT, room.right, room.top)
    boxes = (above, room) if room.width > _LEAST_ARROW_PT else (room,)
    for words, box in _fits([[*piece, name, size], [f"{whole}, {size}"]], boxes):
        return [Mark(*box.middle, words)], [_arrow(room)] if box is above else []
    for words, box in _fits([[*piece, name], [whole]], boxes):
        legend.tell_size(whole, size)
        return [Mark(*box.middle, words)], [_arrow(room)] if box is above else []
    kind = ", ".join([*piece, readable(placed.face.name)])
    return _key_mark(legend, kind, size, room, placed), []


def _fits(
    options: Sequence[Sequence[str]], boxes: Sequence[Box]
) -> Iterator[tuple[Lettering, Box]]:
    """Yield each way to write some words into some rectangle, the best first."""
    for box in boxes:
        for option in options:
            words = fitted(option, box.width, box.height)
            if words:
                yield words, box


def _key_mark(
    legend: _Legend, name: str, size: str, room: Box, part: PlacedFace | Rest
) -> list[Mark]:
    """Write a letter that the legend explains; where it fits not, tell the place."""
    letter = legend.letter(name, size)
    words = fitted([letter], room.width - 1.0, room.height, turns=(False,))
    if words is None:
        legend.tell_place(letter, part)
        return []
    return [Mark(*room.middle, words, boxed=isinstance(part, Rest), bold=True)]


def _arrow(room: Box) -> tuple[float, float, float]:
    """Return a grain arrow at the foot of a face."""
    middle, half = room.middle[0], min(20.0, room.width / 2 - 3.0)
    return middle - half, middle + half, room.bottom + _ARROW_PT / 2 - 0.5


def _rest_mark(rest: Rest, room: Box, lengths: str, legend: _Legend) -> list[Mark]:
    """Write an offcut's size, or its letter."""
    size = size_words(rest.along_mm, rest.across_mm, lengths)
    options = [["offcut", size], [f"offcut, {size}"], [size]]
    for words, box in _fits(options, [room]):
        return [Mark(*box.middle, words, boxed=True)]
    return _key_mark(legend, "offcut", size, room, rest)
