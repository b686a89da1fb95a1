"""Receipts for buyers, letters to givers, notes for makers: one text to print."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from pricebook.commands.maker_notes import maker_notes, paid_to_maker
from pricebook.commands.settle_text import plain
from pricebook.errors import PricebookError
from pricebook.event import Settlement
from pricebook.event.naming import some_lots
from pricebook.receipts import PRACTITIONER, letter_for_gift, receipt_text

_RULE = "\n\n" + 72 * "-" + "\n\n"
_PLACEHOLDER = date(1, 1, 1)
_NO_VALUE = "This letter states no value"
_PAID = "paid you money in connection with it: see the note on its cost."
_OPEN_DAY = "____________ (day received)"


def papers_text(done: Settlement) -> str:
    """Write the receipts of lots that are paid, the letters to givers, the notes.

    Parameters
    ----------
    done : Settlement
        The settlement.

    Returns
    -------
    str
        A note on top, then one paper after the other. A letter leaves the day
        open on which the gift came, which the event does not hold; there is none
        for a piece that goes back to its giver. Notes on what makers bore come last.
    """
    papers = [_note(done), *_receipts(done), *_letters(done), *maker_notes(done)]
    return _RULE.join(papers) + "\n"


def _note(done: Settlement) -> str:
    event = done.event
    undated = [x.key for x in done.lots if x.is_paid and x.result.on is None]
    lines = [
        f"{event.charity}: receipts, letters and notes of {event.name}, "
        f"{event.on.isoformat()}",
        "Read each one before it is signed; fill in the days left open.",
        PRACTITIONER,
    ]
    if not done.is_clean:
        lines.append(
            "NOT CLEAN: a control total fails; send nothing before it is found."
        )
    if undated:
        lines.append(
            f"No day of payment was written for lots {some_lots(undated)}: their "
            "receipts carry the day of the sale; correct it where it was another."
        )
    return "\n".join(lines)


def _receipts(done: Settlement) -> Iterator[str]:
    event = done.event
    for paper in done.receipts:
        lots = [
            receipt_text(
                settled.receipt,
                charity=plain(event.charity),
                lot=settled.key,
                title=plain(settled.lot.title),
                paddle=paper.paddle,
                paid_on=settled.result.on or event.on,
            )
            for settled in paper.lots
            if settled.receipt is not None
        ]
        yield "\n\n".join((f"Receipt {paper.number}", *lots))


def _letters(done: Settlement) -> Iterator[str]:
    event = done.event
    for settled in done.lots:
        lot = settled.lot
        if not lot.giver or settled.is_returned:
            continue
        what = (
            lot.title if lot.owner == "maker" else f"the piece that became {lot.title}"
        )
        is_maker = lot.giver in (lot.maker, lot.payee)
        paid = is_maker and any(paid_to_maker(settled))
        yield _letter(event.charity, lot.giver, what, paid=paid)
    for gift in event.gifts:
        if gift.kind == "in kind":
            yield _letter(event.charity, gift.by, gift.item)


def _letter(charity: str, giver: str, description: str, *, paid: bool = False) -> str:
    charity, giver, description = plain(charity), plain(giver), plain(description)
    try:
        text = letter_for_gift(
            charity=charity,
            giver=giver,
            description=description,
            received_on=_PLACEHOLDER,
        )
    except PricebookError as error:
        return f"No letter to {giver}: {' '.join(error.faults)}"
    if paid:
        text = text.replace(_NO_VALUE, f"{charity} {_PAID}\n{_NO_VALUE}", 1)
    return text.replace("On 1 January 1 ", f"On {_OPEN_DAY} ", 1)
