"""Take the lists of a piece file: holes, fittings, gifts, faces, edges."""

from __future__ import annotations

from typing import Any

from pricebook import piece as parts
from pricebook.files.taking import Taker


def _holes(t: Taker) -> Any:
    return t.build_row(
        parts.Holes,
        name=t.text("name"),
        count=t.whole("count"),
        diameter_mm=t.length("diameter"),
        depth_mm=t.length("depth"),
    )


def _hardware(t: Taker) -> Any:
    return t.build_row(parts.Hardware, item=t.text("item"), count=t.whole("count"))


def _gift(t: Taker) -> Any:
    return t.build_row(
        parts.Gift,
        item=t.text("item"),
        value_cents=t.money("value"),
        given_by=t.text("given_by"),
    )


def _face(t: Taker) -> Any:
    return t.build_row(
        parts.ListedFace,
        name=t.text("name"),
        along_mm=t.length("along"),
        across_mm=t.length("across"),
        count=t.whole("count", 1),
        treatment=t.text("treatment", "show"),
        run=t.text("run", None),
        run_direction=t.text("run_direction", "side by side"),
        centred=t.flag("centred", False),
        free_grain=t.flag("free_grain", False),
        coated=t.flag("coated", True),
    )


def _edge(t: Taker) -> Any:
    return t.build_row(
        parts.ListedEdge,
        name=t.text("name"),
        length_mm=t.length("length"),
        width_mm=t.length("panel"),
        count=t.whole("count", 1),
    )


LISTS = {
    "holes": _holes,
    "hardware": _hardware,
    "gifts": _gift,
    "faces": _face,
    "edges": _edge,
}
