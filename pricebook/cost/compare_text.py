"""A comparison of species as plain text."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from pricebook.cautions import N_PER_LBF
from pricebook.cost.options import Comparison, SpeciesOption
from pricebook.cost.printing import counted, text_table
from pricebook.lengths import show as length
from pricebook.money import show as money

_WIDTH = 100
_HEAD = (
    "", "species", "form", "cut from", "to buy", "used up", "left over", "sheets",
    "hours", "moves", "hardness", "notes",
)  # fmt: skip


def comparison_text(comparison: Comparison) -> str:
    """Print a comparison: the ranked table, what it says, and its cautions.

    Parameters
    ----------
    comparison : Comparison
        The comparison.

    Returns
    -------
    str
        Plain text.
    """
    words = f"{comparison.piece}: species compared, prices of {comparison.on}"
    notes = list(dict.fromkeys(_notes(comparison)))
    rows = [
        _row(number, option, comparison, notes)
        for number, option in enumerate(comparison.options, start=1)
    ]
    parts = [
        f"{words}\n{'=' * len(words)}",
        text_table(_HEAD, rows, right=(0, 4, 5, 6, 7, 8, 9, 10)),
        _list("What it says", (*comparison.sentences, meaning(comparison))),
        _list("Notes", [f"({n}) {note}" for n, note in enumerate(notes, start=1)]),
        _list("Left out", _shortened(comparison.left_out)),
    ]
    return "\n\n".join(part for part in parts if part)


def meaning(comparison: Comparison) -> str:
    """Say what the columns mean that need a word.

    Parameters
    ----------
    comparison : Comparison
        The comparison.

    Returns
    -------
    str
        Sentences.
    """
    first, second = comparison.moisture_percent
    lengths = comparison.settings.lengths
    width = length(comparison.widest_mm, lengths)
    return (
        "Ranked by cash to buy, then by what is used up; every row is a whole cost "
        f'sheet. "Moves" is what solid wood {width} wide ("{comparison.widest}", the '
        f"widest face) moves from {first:g} to {second:g} % moisture; veneer glued to "
        "a board is held back by it. Hardness is side hardness. A dash "
        "means that no published figure is kept."
    )


def _hardness(newtons: float, lengths: str) -> str:
    if lengths == "mm":
        return f"{newtons:,.0f} N"
    return f"{newtons / N_PER_LBF:,.0f} lbf"


def _row(
    number: int, option: SpeciesOption, comparison: Comparison, notes: list[str]
) -> tuple[str, ...]:
    moved, hard = option.movement_mm, option.hardness_n
    marks = [f"({notes.index(note) + 1})" for note in _notes_of(option)]
    return (
        str(number),
        option.species,
        option.form,
        option.size,
        money(option.cash_to_buy_cents),
        money(option.used_up_cents),
        money(option.left_cents),
        counted(str(option.leaves), "leaf")
        if option.leaves
        else str(option.sheet_count),
        f"{option.hours:.1f}",
        "-" if moved is None else length(moved, comparison.settings.lengths),
        "-" if hard is None else _hardness(hard, comparison.settings.lengths),
        " ".join(marks),
    )


def _notes(comparison: Comparison) -> Iterator[str]:
    for option in comparison.options:
        yield from _notes_of(option)


def _notes_of(option: SpeciesOption) -> Iterator[str]:
    yield from (f"{one.text} [{one.source}]" for one in option.restrictions)
    yield from (f"{note[0].upper()}{note[1:]}." for note in option.notes)
    if not option.layout.proven:
        yield f"The layout in {option.species} is {option.layout.verdict}."


def _shortened(left_out: tuple[str, ...]) -> Iterator[str]:
    """Yield each reason once, after all that it holds for."""
    reasons: dict[str, list[str]] = {}
    for sentence in left_out:
        what, _, why = sentence.partition(": ")
        reasons.setdefault(why, []).append(what)
    for why, whats in reasons.items():
        more = f" and {len(whats) - 3} more" if len(whats) > 4 else ""
        named = "; ".join(whats[:3] if more else whats)
        yield f"{named}{more}: {why}"


def _list(title: str, texts: Iterator[str] | list[str] | tuple[str, ...]) -> str:
    found: list[str] = []
    for text in texts:
        found += wrap(text, _WIDTH, initial_indent="  - ", subsequent_indent="    ")
    return "\n".join([title, *found]) if found else ""
