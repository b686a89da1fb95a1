"""A piece to start from, one for each form."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pricebook.cost import Shop
from pricebook.files import piece_from_table
from pricebook.panel.keeping import piece_files
from pricebook.piece import FORMS, Piece

STARTING_FORMS = FORMS
"""Forms that a piece can be started from."""
_CALLED = {"list": "plain list of faces and edges"}

_TOP = {
    "overhang_front": "1/2 in",
    "overhang_sides": "1/2 in",
    "thickness": "3/4 in",
}
_FRONTS = {"gap": "1/8 in", "reveal": "1/8 in", "fit": "overlay"}
_PARTS: dict[str, dict[str, Any]] = {
    "chest of drawers": {
        "size": ("36 in", "40 in", "18 in"),
        "base": {"kind": "plinth", "height": "4 in"},
        "drawers": {"rows": 4, **_FRONTS},
        "show": ["top", "sides", "plinth", "fronts"],
        "matched": ["fronts"],
        "edges": ["top front", "top sides", "side fronts"],
    },
    "night stand": {
        "size": ("20 in", "24 in", "16 in"),
        "base": {"kind": "legs", "height": "5 in"},
        "drawers": {"rows": 1, "heights": ["6 in"], "open_below": "10 in", **_FRONTS},
        "show": ["top", "sides", "fronts"],
        "edges": ["top front", "top sides", "side fronts"],
    },
    "bookcase": {
        "size": ("32 in", "60 in", "12 in"),
        "base": {"kind": "plinth", "height": "3 in"},
        "shelves": {"count": 4},
        "show": ["top", "sides", "plinth"],
        "edges": ["top front", "top sides", "side fronts", "shelf fronts"],
    },
    "blanket chest": {
        "size": ("40 in", "18 in", "18 in"),
        "base": {"kind": "plinth", "height": "3 in"},
        "show": ["lid", "front", "ends", "plinth"],
        "edges": ["lid front", "lid sides", "rim"],
    },
    "cupboard": {
        "size": ("36 in", "34 in", "16 in"),
        "base": {"kind": "legs", "height": "5 in"},
        "doors": {"count": 2, **_FRONTS},
        "shelves": {"count": 1, "loose": "yes"},
        "show": ["top", "sides", "doors"],
        "matched": ["doors"],
        "edges": ["top front", "top sides", "side fronts", "doors"],
    },
    "side table": {
        "size": ("22 in", "24 in", "18 in"),
        "underframe": {"leg": "1 1/2 in", "apron": "3 1/2 in"},
        "show": ["top", "aprons", "legs"],
        "edges": ["top front", "top sides"],
    },
    "list": {
        "faces": [{"name": "face 1", "along": "24 in", "across": "16 in"}],
        "listed_edges": [{"name": "edge 1", "length": "24 in", "panel": "3/4 in"}],
    },
}


def starting_piece(form: str, species: str, system: str) -> Piece:
    """Return a new piece of a form in usual sizes, to be measured afresh.

    Parameters
    ----------
    form : str
        One of `STARTING_FORMS`.
    species : str
        Wood of veneer and banding.
    system : str
        Key of a finish system of the shop.

    Returns
    -------
    Piece
        Nothing is donated, and nothing is known of its market yet.

    Notes
    -----
    The sizes are common practice, no source; each is there to be changed.

    Examples
    --------
    >>> starting_piece("bookcase", "walnut", "wiping oil").shelves.count
    4
    """
    parts = dict(_PARTS[form])
    veneer = {name: parts.pop(name, []) for name in ("show", "matched")}
    banding = {"species": species, "edges": parts.pop("edges", [])}
    table = {
        "name": f"New {form}",
        "form": form,
        "owner": "charity",
        **_measured(parts),
        "veneer": {"species": species, **veneer},
        "banding": banding,
        "finish": {"system": system},
        "arrival": {"condition": "laminated board"},
    }
    return piece_from_table(table, f"a new {form}")


def _measured(parts: dict[str, Any]) -> dict[str, Any]:
    """Return the sizes and the parts of a form, or the faces and edges of a list."""
    if "size" not in parts:
        return {"faces": parts["faces"], "edges": parts["listed_edges"]}
    width, height, depth = parts.pop("size")
    size = {"width": width, "height": height, "depth": depth, "panel": "3/4 in"}
    return {"size": size, "top": _TOP, **parts}


def started_like(form: str, like: Piece, shop: Shop) -> Piece:
    """Return a new piece in the wood and the finish of another one.

    Parameters
    ----------
    form : str
        One of `STARTING_FORMS`.
    like : Piece
        The piece that was open before.
    shop : Shop
        The price book, for a finish where that piece has none.

    Returns
    -------
    Piece
        As `starting_piece`.
    """
    system = like.finish.system if like.finish else None
    return starting_piece(form, like.veneer.species, system or shop.finishes[0].key)


def files_and_forms(folder: Path) -> list[tuple[str, str]]:
    """Return piece files and new pieces, as a drop-down offers them."""
    new = [(f"new: {_CALLED.get(form, form)}", form) for form in STARTING_FORMS]
    return [*piece_files(folder), *new]
