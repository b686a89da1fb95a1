"""Adhesive by type: which faces are coated, how often, and how much it takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pricebook.consumables._checks import (
    above_zero,
    area,
    not_below_zero,
    percent,
    refuse,
    spread,
)
from pricebook.errors import nearest, shown
from pricebook.rates import Need
from pricebook.rates.rows import SHEET_FORMS

GROUP = "adhesive"
FACES = {"contact cement": 2, "iron-on PVA": 2, "PVA glue": 1, "hide glue": 1}
"""Faces that each adhesive is spread on: veneer and board, or the board alone."""
FOLLOWED_BY = {
    "iron-on PVA": "iron veneer",
    "PVA glue": "press veneer",
    "hide glue": "press veneer",
}
"""What each adhesive that does not hold on touch is followed by at the bench."""
RAW_BOARD = "contact cement"
"""The adhesive that a raw board drinks, and that needs a second coat on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Adhesive:
    """What it takes to lay veneer on an area.

    Parameters
    ----------
    kind : str
        The adhesive, or "none" for sheets that carry their own.
    area_m2 : float
        Area to lay. [m2]
    coats : int
        Times that this area is coated, all faces together. [-]
    spread_m2_per_l : float
        Area that a litre covers once; its label counts one face. [m2/L]
    litres : float
        What that takes, waste included. [L]
    needs : tuple of Need
        The row to have; empty for self-adhesive sheets.
    notes : tuple of str
        Sentences for whoever lays the veneer.
    """

    kind: str
    area_m2: float
    coats: int
    spread_m2_per_l: float
    litres: float
    needs: tuple[Need, ...]
    notes: tuple[str, ...]

    @property
    def second_coat(self) -> bool:
        """Whether the board is coated once more, since it drinks the first coat."""
        return self.coats > FACES.get(self.kind, 0)


def adhesive(
    kind: str,
    area_m2: float,
    *,
    form: str,
    spread_m2_per_l: float,
    item: str,
    raw_board: bool = False,
    waste_share: float = 0.0,
    lengths: str = "mm",
) -> Adhesive:
    """Return the adhesive that an area of veneer takes.

    Parameters
    ----------
    kind : str
        "contact cement", "PVA glue", "hide glue" or "iron-on PVA"; "none" will do
        for self-adhesive sheets.
    area_m2 : float
        Area to lay, overhang included. [m2]
    form : str
        "backed", "raw" or "self-adhesive"; the last needs no adhesive of any kind.
    spread_m2_per_l : float
        Area that a litre covers once. [m2/L]
    item : str
        Row of the price book.
    raw_board : bool
        Whether the board is bare and drinks the first coat.
    waste_share : float
        Left in roller, tray and can, as a share of what is spread. [-]
    lengths : str
        "in" prints square feet, "mm" square metres.

    Returns
    -------
    Adhesive
        Coats, litres, the need and notes.

    Raises
    ------
    SpecError
        If the adhesive or the form is not known, or a number is out of range.

    Notes
    -----
    litres = area * coats / spread * (1 + waste). A label's coverage counts one
    face: contact cement and iron-on PVA go on both, so the area bonded is half of
    it; raw board takes a second coat of contact cement. Sources:
    contact_cement_thread; iron_on_reply_1998; raw_leaf_instructions for the note on
    raw leaf; spreads are common practice, no source.

    Examples
    --------
    >>> laid = adhesive("contact cement", 2.97, form="backed", spread_m2_per_l=6.1,
    ...     item="contact cement", raw_board=True)
    >>> laid.coats, round(laid.litres, 3)
    (3, 1.461)
    >>> adhesive("contact cement", 2.97, form="self-adhesive", spread_m2_per_l=6.1,
    ...     item="contact cement").needs
    ()
    """
    refuse(
        _known("form", form, SHEET_FORMS),
        _known("adhesive", kind, (*FACES, *_own(form))),
        not_below_zero(area_m2=area_m2, waste_share=waste_share),
        above_zero(spread_m2_per_l=spread_m2_per_l),
        _yes_or_no("raw board", raw_board),
    )
    if form == "self-adhesive" or area_m2 == 0:
        return _nothing(area_m2, spread_m2_per_l, form)
    second = raw_board and kind == RAW_BOARD
    coats = FACES[kind] + second
    litres = area_m2 * coats / spread_m2_per_l * (1 + waste_share)
    how = f"{_faces(kind)} x {area(area_m2, lengths)}"
    how += ", and a second coat on the raw board" if second else ""
    how += f", over {spread(spread_m2_per_l, lengths)}"
    how += f", and {percent(waste_share)} for waste" if waste_share else ""
    return Adhesive(
        kind=kind,
        area_m2=float(area_m2),
        coats=coats,
        spread_m2_per_l=float(spread_m2_per_l),
        litres=litres,
        needs=(Need(item=item, quantity=litres, unit="l", group=GROUP, how=how),),
        notes=_notes(kind, form),
    )


def _own(form: str) -> tuple[str, ...]:
    """Return the word for no adhesive where the sheet carries its own."""
    return ("none",) if form == "self-adhesive" else ()


def _known(name: str, value: object, known: Iterable[str]) -> list[str]:
    names = list(known)
    if isinstance(value, str) and value in names:
        return []
    hint = nearest(value, names) if isinstance(value, str) else nearest("", names)
    return [f"{name} is {shown(value)}; {hint}"]


def _yes_or_no(name: str, value: object) -> list[str]:
    if isinstance(value, bool):
        return []
    return [f"{name} is {shown(value)}; it must be True or False."]


def _nothing(area_m2: float, spread_m2_per_l: float, form: str) -> Adhesive:
    note = (
        "A self-adhesive sheet carries its own adhesive: it bonds on touch and "
        "cannot be moved, so lay it out dry first."
    )
    return Adhesive(
        kind="none",
        area_m2=float(area_m2),
        coats=0,
        spread_m2_per_l=float(spread_m2_per_l),
        litres=0.0,
        needs=(),
        notes=(note,) if form == "self-adhesive" else (),
    )


def _faces(kind: str) -> str:
    return "both faces" if FACES[kind] == 2 else "1 face"


def _notes(kind: str, form: str) -> tuple[str, ...]:
    if kind == "contact cement" and form == "raw":
        return (
            "Contact cement under raw leaf: two trade instructions advise it with "
            "backed veneer only, since a thin leaf can creep, split or let solvent "
            "through; use a glue that sets hard.",
        )
    return ()
