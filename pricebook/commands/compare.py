"""`pricebook compare PIECE`: the same piece in every species and sheet size."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from pricebook.commands.answers import layout_answer
from pricebook.commands.common import day_of, file_name, in_files, print_json, shop_of
from pricebook.cost.compare import compare_species
from pricebook.cost.compare_text import comparison_text, meaning
from pricebook.cost.options import Comparison, SpeciesOption
from pricebook.files import read_piece
from pricebook.money import show


def run(given: argparse.Namespace) -> None:
    """Print the ranked species and write the picture."""
    path = Path(given.piece)
    on = day_of(given.on)
    shop = shop_of(given, path)
    piece = read_piece(path)
    with in_files([(piece.name, path)]):
        found = compare_species(piece, shop, on, stages=given.stages)
    if given.json:
        print_json(comparison_answer(found))
    else:
        print(comparison_text(found))
    _draw(found, Path(given.out))


def comparison_answer(comparison: Comparison) -> dict[str, Any]:
    """Return a comparison as JSON values.

    Parameters
    ----------
    comparison : Comparison
        The comparison.

    Returns
    -------
    dict
        Keys piece, own, widest, moisture_percent, options, cheapest, runner_up,
        price_fall, sentences, meaning, left_out; money as text.
    """
    return {
        "piece": comparison.piece,
        "own": {"species": comparison.own_species, "form": comparison.own_form},
        "widest": {"face": comparison.widest, "across_mm": comparison.widest_mm},
        "moisture_percent": list(comparison.moisture_percent),
        "options": [_option(option) for option in comparison.options],
        "cheapest": comparison.cheapest.name,
        "runner_up": comparison.runner_up and comparison.runner_up.name,
        "price_fall": _fall(comparison),
        "sentences": list(comparison.sentences),
        "meaning": meaning(comparison),
        "left_out": list(comparison.left_out),
    }


def _option(option: SpeciesOption) -> dict[str, Any]:
    moved, hard = option.movement_mm, option.hardness_n
    return {
        "species": option.species,
        "form": option.form,
        "size": option.size,
        "cash_to_buy": show(option.cash_to_buy_cents),
        "used_up": show(option.used_up_cents),
        "left_over": show(option.left_cents),
        "full_cost": show(option.full_cost_cents),
        "sheets": [
            {"key": sheet.key, "count": count, "in_rack": rack}
            for sheet, rack, count in option.show_sheets
        ],
        "leaves": option.leaves,
        "hours": round(option.hours, 3),
        "banding": option.banding_species or None,
        "movement_mm": None if moved is None else round(moved, 3),
        "hardness_n": None if hard is None else round(hard, 1),
        "restrictions": [
            {"text": one.text, "source": one.source} for one in option.restrictions
        ],
        "notes": list(option.notes),
        "layout": _costs(option),
    }


def _costs(option: SpeciesOption) -> dict[str, Any]:
    answer = layout_answer(option.layout)
    return {key: value for key, value in answer.items() if key != "sheets"}


def _fall(comparison: Comparison) -> dict[str, Any] | None:
    fall = comparison.fall
    if fall is None:
        return None
    to, by = fall.to_cents, fall.fall_cents
    return {
        "sheet": fall.sheet.key,
        "from": show(fall.sheet.price_cents),
        "to": None if to is None else show(to),
        "by": None if by is None else show(by),
        "share": fall.fall_share,
    }


def _draw(comparison: Comparison, folder: Path) -> None:
    from pricebook import charts
    from pricebook.files.writing import write_whole

    draw = getattr(charts, "species_compared", None)
    if draw is None:
        return
    figure = draw(comparison)
    picture = folder / f"{file_name([comparison.piece])}_species.png"
    write_whole(picture, lambda part: charts.save(figure, part))
    print(f"written: {picture}", file=sys.stderr)
