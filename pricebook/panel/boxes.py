"""Every kind of control: its label with the unit, how it reads, what it echoes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from pricebook import lengths, money
from pricebook.errors import UnitError, shown
from pricebook.panel.controls import NOTHING, Control, Track, Wording, held_as
from pricebook.panel.library import Widget, widgets

_MOST_DIGITS = 12


def _text_box(label: str, width: str = "20.5em") -> Widget:
    return widgets.Text(
        description=label,
        continuous_update=False,
        style={"description_width": "initial"},
        layout={"width": width},
    )


def words_box(label: str, value: str) -> Control:
    """Return a box for plain words."""
    wording = Wording(read=lambda text: str(text).strip(), show=str)
    return Control(label, _text_box(label, "98%"), wording, value)


def length_box(label: str, value: float | None, unit: str) -> Control:
    """Return a box for a length as people write it, echoed in both units. [mm]."""
    wording = Wording(
        read=lengths.read,
        show=lambda mm: "" if mm is None else written(mm, unit),
        echo=lambda mm: "" if mm is None else both_units(mm),
    )
    name = f"{label} (in or mm)"
    return Control(name, _text_box(name), wording, value)


def heights_box(label: str, value: tuple[float, ...], unit: str) -> Control:
    """Return a box for lengths parted by commas; empty: all alike. [mm]."""
    wording = Wording(
        read=lambda text: tuple(
            lengths.read(part) for part in str(text).split(",") if str(text).strip()
        ),
        show=lambda some: ", ".join(written(mm, unit) for mm in some),
        echo=lambda some: f"{len(some)} listed" if some else "all alike",
    )
    name = f"{label} (in or mm)"
    return Control(name, _text_box(name), wording, value)


def money_box(
    label: str,
    value: int | None,
    sign: str,
    *,
    empty: str = "",
    track: Track | None = None,
) -> Control:
    """Return a box for an amount of money.

    Parameters
    ----------
    label : str
        Its name.
    value : int or None
        What it holds at first; None: it is empty. [cents]
    sign : str
        The currency sign.
    empty : str
        What an empty box means, in words; without them it may not be empty.
    track : Track, optional
        For a slider beside it.

    Returns
    -------
    Control
        The control.
    """
    wording = Wording(
        read=_or_none(money.read) if empty else money.read,
        show=lambda cents: "" if cents is None else money.show(cents),
        echo=lambda cents: empty if cents is None else money.show(cents, sign),
    )
    name = f"{label} ({sign})"
    return Control(name, _text_box(name), wording, value, track)


def number_box(
    label: str,
    value: float | None,
    *,
    unit: str = "",
    whole: bool = False,
    empty: str = "",
    most: float | None = None,
    above_zero: bool = False,
    track: Track | None = None,
) -> Control:
    """Return a box for a number of 0 or more.

    Parameters
    ----------
    label : str
        Its name.
    value : float or None
        What it holds at first; None: it is empty. [unit]
    unit : str
        Echoed behind the number.
    whole : bool
        Whether it takes whole numbers only.
    empty : str
        What an empty box means, in words; without them it may not be empty.
    most : float, optional
        The largest number it takes. [unit]
    above_zero : bool
        Whether 0 is refused.
    track : Track, optional
        For a slider beside it.

    Returns
    -------
    Control
        The control.
    """

    def read(text: str) -> float:
        number = _whole(text) if whole else _number(text)
        if above_zero and not number:
            raise UnitError(f"{_typed(text)} is not more than 0; write a number.")
        if most is not None and number > most:
            raise UnitError(f"{_typed(text)} is too much; write {most:g} or less.")
        return number

    wording = Wording(
        read=_or_none(read) if empty else read,
        show=lambda number: "" if number is None else f"{number:g}",
        echo=lambda number: empty if number is None else _with_unit(number, unit),
    )
    return Control(label, _text_box(label), wording, value, track)


def choice(label: str, options: Sequence[tuple[str, Any]], value: Any) -> Control:  # noqa: ANN401
    """Return a drop-down of (words, value) pairs."""
    box = widgets.Dropdown(
        description=label,
        options=[(name, held_as(one)) for name, one in options],
        style={"description_width": "initial"},
        layout={"width": "98%"},
    )
    wording = Wording(read=lambda v: None if v == NOTHING else v, show=held_as)
    return Control(label, box, wording, value)


def several(label: str, options: Sequence[tuple[str, Any]]) -> Control:
    """Return a list of (words, value) pairs of which any number is chosen."""
    box = widgets.SelectMultiple(
        description=label,
        options=options,
        rows=4,
        style={"description_width": "initial"},
        layout={"width": "98%"},
    )
    return Control(label, box, Wording(read=tuple, show=tuple), ())


def day_box(label: str, value: date | None, *, empty: str = "") -> Control:
    """Return a box for a day; `empty` says what it means to leave it empty."""
    wording = Wording(
        read=_or_none(_day) if empty else _day,
        show=lambda day: "" if day is None else day.isoformat(),
        echo=lambda day: empty if day is None else f"{day:%a %d %b %Y}",
    )
    return Control(label, _text_box(label, "22.5em"), wording, value)


def tick(label: str) -> Control:
    """Return a box to tick, empty at first."""
    box = widgets.Checkbox(description=label, indent=False, layout={"width": "98%"})
    return Control(label, box, Wording(read=bool, show=bool), False)


def button(label: str, says: str, press: Callable[[], None]) -> Widget:
    """Return a button with its name and what it does."""
    made = widgets.Button(description=label, tooltip=says, layout={"width": "auto"})
    made.on_click(lambda _: press())
    return made


def written(length_mm: float, unit: str) -> str:
    """Write a length for a box: exact in the reader's unit, else in millimetres."""
    text = lengths.show(length_mm, unit)
    return text if lengths.read(text) == length_mm else f"{length_mm:.10g} mm"


def both_units(length_mm: float) -> str:
    """Write a length in inches and in millimetres, as far as they are printed."""
    inches = lengths.show(length_mm, "in")
    about = "" if lengths.read(inches) == length_mm else "about "
    return f"{about}{inches} = {lengths.show(length_mm, 'mm')}"


def _or_none(read: Callable[[Any], Any]) -> Callable[[Any], Any]:
    return lambda text: read(text) if str(text).strip() else None


def _with_unit(number: float, unit: str) -> str:
    return f"{number:g} {unit}" if unit else ""


def _typed(text: str) -> str:
    return shown(str(text).strip())


def _day(text: str) -> date:
    try:
        return date.fromisoformat(str(text).strip())
    except ValueError:
        raise UnitError(
            f"{_typed(text)} is not a day; write year, month, day: 2027-04-17."
        ) from None


def _number(text: str) -> float:
    plain = str(text).strip()
    digits = plain.replace(".", "", 1)
    if not (plain.isascii() and digits.isdigit()):
        what = _typed(text)
        raise UnitError(f"{what} is not a number of 0 or more; write 12 or 0.5.")
    if len(plain) > _MOST_DIGITS:
        raise UnitError(
            f'"{plain[:_MOST_DIGITS]}..." has more than {_MOST_DIGITS} digits; write a '
            "number that is meant."
        )
    return float(plain)


def _whole(text: str) -> int:
    number = _number(text)
    if number != int(number):
        raise UnitError(f"{_typed(text)} is not a whole number; write 1, 2, 3 ...")
    return int(number)
