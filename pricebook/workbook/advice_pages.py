"""What to ask for a piece, and what to be careful of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.cautions.notes import CUSTOM
from pricebook.cost.lines import CostSheet
from pricebook.price import Advice
from pricebook.price.figures import Amount, Figure
from pricebook.workbook.cells import Cell, money, text
from pricebook.workbook.page import Page

PRACTICE = (
    "Follow local codes and the labels of what you use; where a rule of law or tax is "
    "met, a licensed practitioner decides."
)


def write_prices(
    page: Page, sheets: Sequence[CostSheet], advice: Sequence[Advice | None]
) -> None:
    """Write the advice for every piece that has one, each figure with its reason.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    advice : sequence of Advice or None
        One a piece.
    """
    page.title("Price", "Advice, each figure with its reason; the committee decides.")
    page.heads(("Figure", "Amount", "Reason"), right=(1,))
    for sheet, one in zip(sheets, advice, strict=True):
        if len(sheets) > 1:
            page.line([text(sheet.piece, "large")], "group")
        if one is None:
            page.note("No advice was asked for this piece.")
        else:
            _advice(page, one)
        page.skip()
    page.done(", ".join(sheet.piece for sheet in sheets) + ": price")


def _advice(page: Page, advice: Advice) -> None:
    for words, amount, reason in _figures(advice):
        page.line([text(words), amount, text(reason)])
    page.line([text("Hammer price to break even", "")], "group")
    for name, figure in advice.break_even.items():
        page.line([text(name.capitalize()), _amount(figure), text(figure.reason)])
    if advice.warnings:
        page.line([text("To know", "")], "group")
        for warning in advice.warnings:
            page.note(warning)


def _amount(figure: Figure | Amount) -> Cell:
    return text("none", "right") if figure.cents is None else money(figure.cents)


def _figures(advice: Advice) -> Iterator[tuple[str, Cell, str]]:
    """Yield each figure's words, amount and reason, in the order they are asked."""
    rows = (
        ("Fair market value", advice.fair_market_value),
        ("Estimate, low", advice.estimate_low),
        ("Estimate, high", advice.estimate_high),
        ("Opening bid", advice.opening_bid),
        ("Reserve", advice.reserve),
        ("A reserve 50 % too high costs", advice.reserve_too_high),
    )
    for words, figure in rows:
        yield words, _amount(figure), figure.reason
    chance = advice.chance_of_sale
    yield "Chance of sale", Cell(chance.share, "share"), chance.reason
    rest: tuple[tuple[str, Figure | Amount], ...] = (
        ("Expected hammer price", advice.expected_hammer),
        ("Expected net to the charity", advice.expected_net),
        ("Pay for an hour", advice.pay_per_hour),
    )
    for words, figure in rest:
        yield words, _amount(figure), figure.reason


def source_words(source: str) -> str:
    """Return what to print for the source of a caution.

    Examples
    --------
    >>> source_words("osha_wood_dust"), source_words("common_practice")
    ('osha_wood_dust', 'common practice, no source')
    """
    return "common practice, no source" if source == CUSTOM else source


def write_cautions(page: Page, sheets: Sequence[CostSheet]) -> None:
    """Write what can hurt someone or break a rule, once, with the pieces it is for.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    """
    page.title("Cautions", PRACTICE)
    page.heads(("Caution", "For", "Source"))
    pieces: dict[tuple[str, str], list[str]] = {}
    for sheet in sheets:
        for caution in sheet.cautions:
            pieces.setdefault((caution.text, caution.source), []).append(sheet.piece)
    for (words, source), names in pieces.items():
        everyone = len(names) == len(sheets) > 1
        whom = "every piece" if everyone else ", ".join(names)
        page.line([text(words), text(whom), text(source_words(source))])
    if not pieces:
        page.note("Nothing special is known of these pieces.")
    page.done(", ".join(sheet.piece for sheet in sheets) + ": cautions")
