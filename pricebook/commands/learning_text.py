"""Records for next time, as plain text and as JSON answers."""

from __future__ import annotations

from textwrap import wrap
from typing import Any

from pricebook.commands.learning import Learnt
from pricebook.commands.planned_used import PlannedUsed
from pricebook.cost.printing import text_table
from pricebook.event.naming import some_lots
from pricebook.files.learning import NewComparable
from pricebook.money import Number, exact, half_up, show
from pricebook.records import SuggestedMinutes, Usage


def learning_text(learnt: Learnt) -> str:
    """Print what an event teaches.

    Parameters
    ----------
    learnt : Learnt
        What it teaches.

    Returns
    -------
    str
        Plain text.
    """
    parts = ["Records for next time", *_scores(learnt)]
    if learnt.pieces:
        parts.append(_variances(learnt))
        parts += [_not_noted(piece) for piece in learnt.pieces]
        parts += [_wrapped(row.sentence) for row in learnt.minutes]
    else:
        parts.append(
            "  What pieces really took was not given; note it in a file and name it "
            "with --used."
        )
    rows = [
        (new.key, new.row.form, new.row.species, show(new.row.price_cents),
         "sold" if new.row.sold else "unsold")
        for new in learnt.comparables
    ]  # fmt: skip
    if rows:
        head = ("comparable", "form", "species", "price", "")
        parts.append(text_table(head, rows, right=(3,)))
    parts += _left_out(learnt)
    return "\n".join(part for part in parts if part)


def _left_out(learnt: Learnt) -> list[str]:
    lots: dict[str, list[str]] = {}
    for lot, why in learnt.left_out:
        lots.setdefault(why, []).append(lot)
    return [
        _wrapped(
            f"No comparable comes of {'lot' if len(keys) == 1 else 'lots'} "
            f"{some_lots(keys)}: {why}."
        )
        for why, keys in lots.items()
    ]


def _wrapped(words: str) -> str:
    return "\n".join(wrap(words, 100, initial_indent="  ", subsequent_indent="      "))


def _scores(learnt: Learnt) -> list[str]:
    said = [learnt.hits.sentence]
    if learnt.pinball is not None:
        losses = ", ".join(
            f"{show(half_up(loss))} for the {100 * share:g} % end"
            for share, loss in learnt.pinball.by_share
        )
        said.append(
            f"Mean pinball loss of the estimates over {learnt.pinball.lots} lots sold: "
            f"{losses}; smaller is better."
        )
    ratios = learnt.ratios
    if ratios.over_middle is not None:
        said.append(
            f"Hammer prices over the middle of the estimate: {ratios.over_middle:.3f} "
            f"({ratios.lots} lots)."
        )
    if ratios.over_fair_market_value is not None:
        said.append(
            "Hammer prices over fair market value: "
            f"{ratios.over_fair_market_value:.3f} ({ratios.lots_with_value} lots)."
        )
    return [_wrapped(word) for word in said]


def _variances(learnt: Learnt) -> str:
    head = ("lot", "", "unit", "planned", "used", "planned rate", "rate paid",
            "rate variance", "", "quantity variance", "", "in all", "")  # fmt: skip
    rows = [_variance(piece.lot, row) for piece in learnt.pieces for row in piece.rows]
    whole = learnt.variances
    rows.append(
        ("", "in all", "", "", "", "", "", *_marked(whole.rate_cents, whole.rate_mark),
         *_marked(whole.quantity_cents, whole.quantity_mark),
         *_marked(whole.total_cents, whole.total_mark))
    )  # fmt: skip
    table = text_table(head, rows, right=(3, 4, 5, 6, 7, 9, 11))
    return f"{table}\n  F: favourable, less than planned; U: unfavourable."


def _variance(lot: str, row: Usage) -> tuple[str, ...]:
    found = row.variances
    return (
        lot,
        row.name,
        row.unit,
        f"{float(row.standard_quantity):.4g}",
        f"{float(row.actual_quantity):.4g}",
        _rate(row.standard_rate_cents),
        _rate(row.actual_rate_cents),
        *_marked(found.rate_cents, found.rate_mark),
        *_marked(found.quantity_cents, found.quantity_mark),
        *_marked(found.total_cents, found.total_mark),
    )


def _rate(cents: Number) -> str:
    return show(half_up(exact(cents)))


def _marked(cents: int, mark: str) -> tuple[str, str]:
    return show(abs(cents)), mark


def _not_noted(piece: PlannedUsed) -> str:
    lines = []
    if piece.not_noted:
        lines.append(
            f"Lot {piece.lot}, planned and not noted: {', '.join(piece.not_noted)}."
        )
    if piece.under_setup:
        lines.append(
            f"Lot {piece.lot}: {', '.join(piece.under_setup)} took no longer than the "
            "set-up is planned, so no rate is seen; look at the set-up."
        )
    return "\n".join(_wrapped(word) for word in lines)


def learning_answer(learnt: Learnt) -> dict[str, Any]:
    """Return the `records` of the JSON answer; money as strings."""
    pinball, ratios = learnt.pinball, learnt.ratios
    return {
        "hit_rate": {
            "hits": learnt.hits.hits,
            "lots": learnt.hits.lots,
            "unsold": learnt.hits.unsold,
            "stated_share": learnt.hits.stated_share,
            "sentence": learnt.hits.sentence,
        },
        "pinball": pinball
        and {
            "by_share": {f"{q:g}": _rate(loss) for q, loss in pinball.by_share},
            "mean": _rate(pinball.mean),
            "lots": pinball.lots,
        },
        "hammer_over_estimate": ratios.over_middle,
        "hammer_over_fair_market_value": ratios.over_fair_market_value,
        "variances": [
            {"lot": piece.lot, **_usage_answer(row)}
            for piece in learnt.pieces
            for row in piece.rows
        ],
        "not_noted": {piece.lot: list(piece.not_noted) for piece in learnt.pieces},
        "minutes": [_minutes_answer(row) for row in learnt.minutes],
        "comparables": [_comparable_answer(new) for new in learnt.comparables],
        "left_out": dict(learnt.left_out),
    }


def _minutes_answer(row: SuggestedMinutes) -> dict[str, Any]:
    return {
        "operation": row.operation,
        "standard_min": row.standard_min,
        "observed_min": row.observed_min,
        "suggested_min": round(row.suggested_min, 4),
        "observations": row.observations,
    }


def _comparable_answer(new: NewComparable) -> dict[str, Any]:
    return {
        "key": new.key,
        "form": new.row.form,
        "species": new.row.species,
        "price": show(new.row.price_cents),
        "sold": new.row.sold,
        "date": new.row.date.isoformat(),
    }


def _usage_answer(row: Usage) -> dict[str, Any]:
    found = row.variances
    return {
        "name": row.name,
        "kind": row.kind,
        "unit": row.unit,
        "planned_quantity": round(float(row.standard_quantity), 6),
        "used_quantity": round(float(row.actual_quantity), 6),
        "planned_rate": _rate(row.standard_rate_cents),
        "paid_rate": _rate(row.actual_rate_cents),
        "rate_variance": show(found.rate_cents),
        "rate_mark": found.rate_mark,
        "quantity_variance": show(found.quantity_cents),
        "quantity_mark": found.quantity_mark,
        "variance": show(found.total_cents),
        "mark": found.total_mark,
    }
