"""The forms of furniture, and the groups of faces and edges that each has."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from unicodedata import category

from pricebook.errors import nearest
from pricebook.piece.checks import one_of

_CASE = ("top", "sides", "plinth", "back")
_INSIDE = ("inside sides", "bottom", "shelves", "shelf undersides", "inside back")
FACE_GROUPS: dict[str, tuple[str, ...]] = {
    "chest of drawers": (*_CASE, "fronts"),
    "night stand": (*_CASE, "fronts", *_INSIDE),
    "bookcase": (*_CASE, *_INSIDE),
    "blanket chest": ("lid", "lid underside", "front", "back", "ends", "plinth"),
    "cupboard": (*_CASE, "doors", "door backs", *_INSIDE),
    "side table": (
        "top",
        "top underside",
        "aprons",
        "legs",
        "shelves",
        "shelf undersides",
    ),
    "list": (),
}
"""Groups of faces that a form has."""

_TOP_EDGES = ("top front", "top sides", "top back")
_INSIDE_EDGES = ("shelf fronts", "bottom front")
EDGE_GROUPS: dict[str, tuple[str, ...]] = {
    "chest of drawers": (*_TOP_EDGES, "side fronts", "fronts", "bottom front"),
    "night stand": (*_TOP_EDGES, "side fronts", "fronts", *_INSIDE_EDGES),
    "bookcase": (*_TOP_EDGES, "side fronts", *_INSIDE_EDGES),
    "blanket chest": ("lid front", "lid sides", "lid back", "rim"),
    "cupboard": (*_TOP_EDGES, "side fronts", "doors", *_INSIDE_EDGES),
    "side table": (*_TOP_EDGES, "shelf edges"),
    "list": (),
}
"""Groups of edges that a form has."""

LONGEST_NAME = 200
"""Letters that a table, a sheet of a workbook and a catalogue still bear."""
FORMS = tuple(FACE_GROUPS)
OWNERS = ("maker", "charity")

_PARTS = {
    "chest of drawers": ("size", "top", "base", "drawers"),
    "night stand": ("size", "top", "base", "drawers"),
    "bookcase": ("size", "top", "base"),
    "blanket chest": ("size", "top", "base"),
    "cupboard": ("size", "top", "base", "doors"),
    "side table": ("size", "top", "underframe"),
    "list": (),
}
"""Parts that a form needs."""
_MAY_HAVE = {
    "night stand": ("shelves",),
    "bookcase": ("shelves",),
    "cupboard": ("shelves",),
    "side table": ("shelves",),
}
"""Parts that a form may have beside those that it needs."""
PARTS = ("size", "top", "base", "drawers", "doors", "shelves", "underframe")


def _parts_of(form: str) -> tuple[str, ...]:
    return (*_PARTS[form], *_MAY_HAVE.get(form, ()))


def head_faults(
    name: str, form: str, owner: str, given: Collection[str]
) -> Iterator[str]:
    """Yield what is wrong with a piece before its parts are looked into.

    Parameters
    ----------
    name, form, owner : str
        What the top of its file says.
    given : collection of str
        Which of its parts there are, "faces" for a list of faces too.

    Yields
    ------
    str
        A sentence for each fault.
    """
    yield from _name_faults(name)
    yield from one_of("form", form, FORMS)
    yield from one_of("owner", owner, OWNERS)
    if form == "list" and "faces" not in given:
        yield "faces is empty; a plain list needs at least one face."
    if form in FORMS:
        yield from _part_faults(form, given)


def _name_faults(name: str) -> Iterator[str]:
    if not name.strip():
        yield "name is empty; give the piece a name."
    if any(category(sign) == "Cc" for sign in name):
        yield "name holds a line break or a sign that cannot be printed; leave it out."
    if len(name) > LONGEST_NAME:
        yield f"name is {len(name):,} letters long; use {LONGEST_NAME} at most."


def _part_faults(form: str, given: Collection[str]) -> Iterator[str]:
    """Yield which parts a form needs and has not, or has and cannot have."""
    for part in _PARTS[form]:
        if part not in given:
            yield f"[{part}] is missing; a {form} needs it."
    for part in PARTS:
        if part in given and part not in _parts_of(form):
            others = [name for name in FORMS if part in _parts_of(name)]
            yield (
                f"[{part}] is given, and a {form} has none; leave it out, or "
                f"choose a form that has: {', '.join(others)}."
            )


def group_faults(form: str, named: Mapping[str, Collection[str]]) -> Iterator[str]:
    """Yield a sentence for each group that a form has not.

    Parameters
    ----------
    form : str
        One of `FORMS`.
    named : mapping of str to collection of str
        The groups by the key that names them, such as "veneer.show" or
        "banding.edges".

    Yields
    ------
    str
        A sentence for each fault.
    """
    for word, groups in named.items():
        table = EDGE_GROUPS if word == "banding.edges" else FACE_GROUPS
        known = table[form]
        for group in groups:
            if group not in known:
                yield (
                    f'{word} names "{group}", which a {form} has not; '
                    f"{nearest(group, known)}"
                )
