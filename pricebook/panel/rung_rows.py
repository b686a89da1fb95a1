"""The rungs of a price as a table that ends where nobody bids any more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.money import show

if TYPE_CHECKING:
    from pricebook.bidding import Outlook
    from pricebook.frames import Table

_NEXT_TO_NOTHING = 0.0005


def rung_table(outlook: Outlook, sign: str = "") -> Table:
    """Return the chance of each rung: the numbers of the price picture.

    Parameters
    ----------
    outlook : Outlook
        The chance of each rung, and of no sale.
    sign : str
        The currency sign.

    Returns
    -------
    Table
        Rungs that the hammer reaches in fewer than 5 of 10,000 sales stand
        together in the note.
    """
    from pricebook.frames import rungs_frame, shown

    frame = rungs_frame(outlook)
    kept = frame[frame["reached_share"] >= _NEXT_TO_NOTHING]
    left_out = frame[len(kept) :]
    note = ""
    if len(left_out):
        first, reached = left_out.iloc[0][["price_cents", "reached_share"]]
        note = (
            f"From {show(int(first), sign)} up, {len(left_out)} rungs more are reached "
            f"with a chance of {100 * reached:.2g} % together."
        )
    return shown(kept, title="The chance of each price", currency=sign, note=note)
