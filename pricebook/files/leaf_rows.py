"""Flitches in the price book drawn down: leaves cut go, leaves left whole stay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.cost.leaf_plan import RackedLeaves
from pricebook.cost.printing import counted
from pricebook.errors import TableError
from pricebook.files.stock_rows import stock_row
from pricebook.files.table import Table
from pricebook.rates import Leaves


def leaf_faults(
    plans: Sequence[RackedLeaves], flitches: Sequence[Leaves]
) -> Iterator[str]:
    """Yield which flitches are no longer as the plans were worked out from.

    Parameters
    ----------
    plans : sequence of RackedLeaves
        Which leaf goes where.
    flitches : sequence of Leaves
        The rows on file.

    Yields
    ------
    str
        A sentence for each.
    """
    rows = {row.key: row for row in flitches}
    for plan in plans:
        row = rows.get(plan.flitch.key)
        now = row and (row.first_number, row.on_hand, row.widths_mm, row.price_cents)
        flitch = plan.flitch
        then = (flitch.first_number, plan.in_rack, flitch.widths_mm, flitch.price_cents)
        if now != then:
            yield (
                f'the leaves of "{flitch.key}", or their price, are no longer what the '
                "cost sheet was worked out from; price the piece again."
            )


def leaves_taken(
    table: Table, plans: Sequence[RackedLeaves], summary: list[str]
) -> Table:
    """Return the table with the leaves cut gone and those left whole in the rack.

    Parameters
    ----------
    table : Table
        The file of flitches.
    plans : sequence of RackedLeaves
        Which leaf goes where.
    summary : list of str
        Gets a line a flitch.

    Returns
    -------
    Table
        The table changed.

    Raises
    ------
    TableError
        If leaves stay in the rack and the file has no column for them.
    """
    for plan in plans:
        key = plan.flitch.key
        place = stock_row(table, key)
        cells = table.cells(place)
        stay = plan.in_rack + plan.leaves_to_buy - plan.reach
        if stay and "on_hand" not in table.head:
            raise TableError(
                f'{table.path}: {counted(str(stay), "leaf")} of "{key}" stay in the '
                'rack, and the file has no column "on_hand"; add it before date.'
            )
        more = len(plan.flitch.widths_mm) - plan.reach
        table = table.with_cells(
            place,
            leaves=str(more),
            usable=_rest(cells["usable"], plan.reach),
            first_number=str(plan.flitch.first_number + plan.reach),
            on_hand=str(stay),
        )
        summary.append(
            f"{key}: {counted(str(plan.reach), 'leaf')} cut, "
            f"{counted(str(stay), 'leaf')} in the rack, "
            f"{more - stay} more to be had"
        )
    return table


def _rest(usable: str, gone: int) -> str:
    """Drop the widths of the leaves that are gone; one width holds for all."""
    widths = [part.strip() for part in usable.split(";")]
    return usable if len(widths) == 1 else "; ".join(widths[gone:] or widths[-1:])
