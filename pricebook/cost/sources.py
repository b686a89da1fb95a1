"""Two sources for one figure: which is used, and which is kept beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pricebook.cost.lines import CostLine
from pricebook.cost.shop import Shop
from pricebook.money import show as money
from pricebook.rates import Allowance, Leaves, Material, Minutes, Roll, Row, Sheet

_SHOWN_BY = {
    "adhesive waste": "adhesive",
    "filler waste": "filler",
    "dent volume": "filler",
    "sanding disc life": "abrasives",
    "wear on an old coating": "abrasives",
    "tack cloth area": "tack cloth",
    "tack cloth uses": "tack cloth",
    "blade life": "knife blade",
    "masking for spraying": "masking tape",
    "masking waste": "masking tape",
    "veneer tape on joints": "veneer tape",
    "rags each session": "rag",
    "gloves each session": "gloves",
    "filter life": "respirator filter",
    "stripper spread": "paint stripper",
    "stripper coats": "paint stripper",
    "rag area for stripping": "paint stripper",
    "spoilage": "spoilage",
    "smallest offcut side": "veneer",
}
"""Item or heading of the cost sheet by which it is seen that an allowance is used."""


def source_notes(lines: Iterable[CostLine], shop: Shop) -> Iterator[str]:
    """Say of each figure with two sources which one a cost sheet rests on.

    Parameters
    ----------
    lines : iterable of CostLine
        The lines of a cost sheet.
    shop : Shop
        The price book, with the rows that were not chosen.

    Yields
    ------
    str
        A sentence for each row not chosen whose figure the lines use.
    """
    found = list(lines)
    keys, groups = {line.key for line in found}, {line.group for line in found}
    for other in shop.not_chosen:
        used = _in_use(other, shop)
        if used is not None and _is_used(other, keys | groups):
            first, second = _figure(used, other), _figure(other, other)
            yield (
                f"{other.key}: {first} ({used.source}, {used.dated}) is used; {second} "
                f"({other.source}, {other.dated}) is kept beside it."
            )


def _is_used(row: Row, seen: set[str]) -> bool:
    if not isinstance(row, Allowance):
        return row.key in seen
    if row.key.endswith(" spread") and row.key not in _SHOWN_BY:
        return row.key.removesuffix(" spread") in seen
    return _SHOWN_BY.get(row.key, "labour") in seen


def _in_use(row: Row, shop: Shop) -> Row | None:
    """Return the row of the same kind and key that is in use."""
    tables: dict[type[Row], tuple[Row, ...]] = {
        Sheet: shop.sheets,
        Roll: shop.rolls,
        Material: shop.materials,
        Minutes: shop.minutes,
        Allowance: shop.allowances,
        Leaves: shop.flitches,
    }
    rows = tables.get(type(row), ())
    return next((one for one in rows if one.key == row.key), None)


def _figure(row: Row, like: Row) -> str:
    """Print the figure of a row; of a material that of the pack in question."""
    if isinstance(row, Allowance):
        return f"{row.value:g} {row.unit}"
    if isinstance(row, Minutes):
        return f"{row.setup_min:g} min + {row.rate_min:g} min/{row.unit}"
    if isinstance(row, Material) and isinstance(like, Material):
        wanted = (like.packs[0].quantity, like.packs[0].from_packs)
        for pack in row.packs:
            if (pack.quantity, pack.from_packs) == wanted:
                return f"{money(pack.price_cents)} for {pack.quantity:g} {row.unit}"
    if isinstance(row, Sheet | Roll | Leaves):
        return money(row.price_cents)
    return "another pack"
