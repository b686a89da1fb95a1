"""Looks of the workbooks: one font, plain borders, legible in black and white."""

from __future__ import annotations

from collections.abc import Mapping

FONT = "Arial"
SIZE = 10

_PARTS: Mapping[str, Mapping[str, object]] = {
    "title": {"bold": True, "font_size": 15},
    "subtitle": {"italic": True},
    "text": {"text_wrap": True},
    "note": {"text_wrap": True},
    "head": {
        "bold": True,
        "text_wrap": True,
        "bg_color": "#E4E4E4",
        "top": 1,
        "valign": "vcenter",
    },
    "group": {"bold": True, "valign": "bottom"},
    "bold": {"bold": True},
    "right": {"align": "right", "indent": 1},
    "inset": {"align": "left", "indent": 1},
    "middle": {"align": "center"},
    "total": {"bold": True, "top": 1, "valign": "vcenter"},
    "result": {"bold": True, "top": 1, "bottom": 6, "valign": "vcenter"},
    "input": {"border": 1, "bg_color": "#FFF9DB", "locked": False},
    "whole": {"num_format": "#,##0_)", "align": "right"},
    "number": {"num_format": "#,##0.00_)", "align": "right"},
    "fine": {"num_format": "0.000_)", "align": "right"},
    "tenth": {"num_format": "#,##0.0_)", "align": "right"},
    "share": {"num_format": "0.0 %_)", "align": "right"},
    "days": {"num_format": '0" days"_)', "align": "right"},
    "hours": {"num_format": '[h]" h"_)', "align": "right"},
    "clock": {"num_format": '[h]:mm" h"_)', "align": "right"},
    "minutes": {"num_format": '[m]" min"_)', "align": "right"},
    "day": {"num_format": "yyyy-mm-dd", "align": "left"},
    "check": {"bold": True, "align": "center", "border": 1, "valign": "vcenter"},
    "poster": {"font_size": 24, "bold": True},
    "large": {"font_size": 13, "bold": True},
    "line": {"bottom": 1},
    "level": {"valign": "vcenter"},
    "ruled": {"border": 1, "valign": "vcenter", "font_size": 12},
}

WIDTHS: Mapping[str, tuple[float, ...]] = {
    "Summary": (30, 13, 13, 13, 13, 13, 13, 9),
    "Cost": (26, 9.5, 6, 14, 12, 12, 11.5, 18, 11.5, 45, 16),
    "Layout": (6, 9, 13, 12, 12, 2, 42, 13, 12, 14, 15),
    "Take-off": (30, 9, 13, 13, 13, 13, 12, 13, 23, 42),
    "Labour": (33, 8, 11, 9, 11, 12, 13, 62),
    "Finish": (30, 9, 14, 16, 16, 16, 22),
    "Price": (28, 14, 88),
    "Cautions": (88, 27, 26),
    "Board report": (40, 14, 13, 58),
    "Pieces": (7, 25, 11, 11, 11, 11, 11, 9, 11, 11, 11, 11, 12, 12, 11, 8),
    "Event lines": (8, 58, 15, 13),
    "Lots settled": (7, 25, 11, 9, 11, 10, 10, 11, 11, 11, 11, 12, 9, 16, 30),
    "Who gets what": (7, 30, 18, 13, 58),
    "Payouts": (34, 12, 14, 15, 40),
    "Receipts": (6, 12, 28, 13, 13, 14, 28),
    "Ledger": (7, 12, 11, 13, 12, 12, 13, 48),
    "Catalogue": (7, 25, 40, 26, 13, 12, 12, 12),
    "Results": (8, 28, 12, 12, 12, 13, 10, 12, 10, 12, 9, 30, 22, 12),
    "Money counted": (34, 26),
    "Control totals": (42, 36, 14, 36, 14, 14),
    "Costs": (8, 34, 13, 13, 13, 13, 13, 9, 14),
    "Sources of an event": (32, 13, 34, 12, 68),
    "Sources": (24, 31, 24, 13, 12, 11, 36),
}
"""Widths of columns, in characters, set by hand: the format knows no best width."""

BASE: Mapping[str, object] = {"font_name": FONT, "font_size": SIZE, "valign": "top"}


def money_format(currency: str) -> str:
    """Return the number format of money: thousands, two decimals, the sign in front.

    A gap as wide as a bracket follows, so that figures do not touch the next column.

    Examples
    --------
    >>> money_format("$")
    '"$"#,##0.00_);-"$"#,##0.00_)'
    """
    plain = f'"{currency}"' if currency else ""
    sign = "".join(f"\\{c}" for c in currency) if '"' in currency else plain
    return f"{sign}#,##0.00_);-{sign}#,##0.00_)"


def style(names: str, currency: str) -> dict[str, object]:
    """Return the properties of a style, written as words: "money bold".

    Parameters
    ----------
    names : str
        Parts of the style; a later one overrules an earlier one.
    currency : str
        The sign in front of money.

    Returns
    -------
    dict
        Properties for the writer.

    Examples
    --------
    >>> style("whole bold", "$")["bold"]
    True
    """
    found = dict(BASE)
    for name in names.split():
        if name == "money":
            found |= {"num_format": money_format(currency), "align": "right"}
        elif name == "units":
            plain = money_format(currency).replace(".00", "")
            found |= {"num_format": plain, "align": "right"}
        else:
            found |= _PARTS[name]
    return found
