"""The rows of the board's report, worked out from a settlement."""

from __future__ import annotations

from pricebook.event.board_values import (
    Amount,
    Compared,
    PaysFor,
    PieceRow,
    ReturnRow,
)
from pricebook.event.settled import SettledLot
from pricebook.event.settlement import Settlement
from pricebook.forecast import Evening
from pricebook.money import show
from pricebook.receipts import LABELS, tie_out


def money_rows(done: Settlement) -> tuple[Amount, ...]:
    """Cash raised, cash spent and the net, then what they are made of."""
    lots = sum(lot.raised_cents for lot in done.lots)
    tax = sum(payout.due_cents for payout in done.payouts if payout.is_tax)
    return (
        Amount(
            label="Cash raised",
            cents=done.raised_cents,
            how="paid lots without sales tax, tickets, gifts of money",
        ),
        Amount(
            label="Cash spent",
            cents=done.spent_cents,
            how="deductions paid to others, costs of the evening",
        ),
        Amount(label="Net", cents=done.net_cents, how="raised less spent"),
        Amount(
            label="  raised from lots paid", cents=lots, how="hammer and kept premium"
        ),
        Amount(label="  raised from tickets", cents=done.tickets_cents),
        Amount(label="  raised as gifts of money", cents=done.cash_gifts_cents),
        Amount(
            label="  spent on deductions",
            cents=done.deductions_cents,
            how="card fees, materials repaid, shares of others",
        ),
        Amount(label="  spent on the evening", cents=done.costs_cents),
        Amount(
            label="Unpaid, not in cash raised",
            cents=done.unpaid_cents,
            how="owed by buyers, tax included",
        ),
        Amount(label="Sales tax held for others", cents=tax, how="never raised"),
    )


def rate_rows(done: Settlement) -> tuple[Compared, ...]:
    """Cost to raise a dollar, cash alone and with what was given."""
    given = done.gifts_in_kind_cents + done.time_given_cents + _materials_given(done)
    full = done.spent_cents + given
    rows = [
        _rate("Cost to raise 1.00, cash", done.spent_cents, done.raised_cents),
        _rate("Cost to raise 1.00, with gifts and hours", full, done.raised_cents),
    ]
    sold = [x for x in done.sold if x.lot.fair_market_value_cents]
    value = sum(x.lot.fair_market_value_cents or 0 for x in sold)
    hammer = sum(x.hammer_cents for x in sold)
    rows.append(_rate("Hammer over fair market value", hammer, value))
    return tuple(rows)


def _materials_given(done: Settlement) -> int:
    """Materials used up that nobody repaid [cents]."""
    return sum(_not_repaid(lot) for lot in done.lots if lot.lot.cost)


def _not_repaid(settled: SettledLot) -> int:
    used = settled.lot.cost.used_up_cents if settled.lot.cost else 0
    repaid = 0
    if settled.split is not None and settled.is_paid:
        lines = [x for x in settled.split.lines if x.rule.kind == "repay"]
        repaid = sum(line.amount_cents for line in lines)
    return max(used - repaid, 0)


def _rate(label: str, over: int, under: int) -> Compared:
    how = f"{show(over)} over {show(under)}"
    if under <= 0:
        return Compared(label=label, figure="", how=f"{how}: undefined")
    return Compared(label=label, figure=f"{over / under:.4f}", how=how)


def gifts_and_hours(done: Settlement) -> tuple[Amount, ...]:
    """Gifts in kind and hours at stated value, apart from all cash."""
    costs = [lot.cost for lot in done.event.lots if lot.cost]
    hours = sum(cost.hours for cost in costs)
    evening = sum(x.value_cents for x in done.event.gifts if x.kind == "in kind")
    open_lots = len(done.event.lots) - len(costs)
    open_words = f"; {open_lots} lots not reckoned" if open_lots else ""
    return (
        Amount(
            label="Gifts in kind behind the lots",
            cents=sum(cost.gifts_cents for cost in costs),
            how=f"carcases and stock at their stated value{open_words}",
        ),
        Amount(
            label="Materials used up and not repaid",
            cents=_materials_given(done),
            how=f"given by the makers{open_words}",
        ),
        Amount(label="Gifts in kind to the evening", cents=evening),
        Amount(
            label="Hours given",
            cents=done.time_given_cents,
            how=f"{hours:.1f} hours at their stated value{open_words}",
        ),
    )


def piece_rows(done: Settlement) -> tuple[PieceRow, ...]:
    """List each lot against its cost and its estimate."""
    return tuple(_piece_row(settled) for settled in done.lots)


def _piece_row(settled: SettledLot) -> PieceRow:
    lot, cost = settled.lot, settled.lot.cost
    return PieceRow(
        lot=lot.key,
        title=lot.title,
        state=settled.result.state,
        hammer_cents=settled.hammer_cents if settled.is_sold else None,
        is_paid=settled.is_paid,
        charity_cents=settled.charity_cents,
        fair_market_value_cents=lot.fair_market_value_cents,
        estimate_low_cents=lot.estimate_low_cents,
        estimate_high_cents=lot.estimate_high_cents,
        against_estimate=settled.against_estimate,
        cash_spent_cents=cost.cash_spent_cents if cost else None,
        used_up_cents=cost.used_up_cents if cost else None,
        gifts_cents=cost.gifts_cents if cost else None,
        time_cents=cost.time_cents if cost else None,
        full_cents=cost.full_cents if cost else None,
        hours=cost.hours if cost else None,
    )


def net_pays_for(done: Settlement) -> tuple[PaysFor, ...]:
    """Say how many of each unit the net pays for; none if there is no net."""
    net = max(done.net_cents, 0)
    return tuple(
        PaysFor(
            unit=unit.unit,
            count=net // unit.cost_cents,
            left_cents=net % unit.cost_cents,
            net_cents=done.net_cents,
            cost_cents=unit.cost_cents,
            stated_by=unit.stated_by,
            stated_on=unit.stated_on,
        )
        for unit in done.event.net_pays_for
    )


def against_forecast(
    done: Settlement, forecast: Evening | None
) -> tuple[Compared, ...]:
    """Compare the hammer prices of lots sold with the forecast and the target."""
    actual, target = done.hammer_cents, done.event.target_cents
    rows = []
    if target is not None:
        rows.append(
            Compared(
                label="Hammer prices against the target",
                figure=show(actual - target),
                how=f"{show(actual)} against {show(target)}",
            )
        )
    if forecast is None:
        return tuple(rows)
    rows += _against_evenings(forecast, actual, len(done.sold))
    if target is not None:
        rows.append(
            Compared(
                label="Chance of the target as forecast",
                figure=f"{forecast.chance_of(target):.3f}",
                how=f"of reaching {show(target)}",
            )
        )
    return tuple(rows)


def _against_evenings(forecast: Evening, actual: int, sold: int) -> list[Compared]:
    """Compare what came with the evenings that were drawn."""
    low, high = forecast.quantiles[0.1], forecast.quantiles[0.9]
    place = "within" if low <= actual <= high else "below" if actual < low else "above"
    at_most = forecast.chance_of(actual + 1)
    return [
        Compared(
            label="Hammer prices against the mean forecast",
            figure=show(actual - forecast.mean_cents),
            how=f"{show(actual)} against {show(forecast.mean_cents)}",
        ),
        Compared(
            label="Place in the forecast's middle eight tenths",
            figure=place,
            how=f"{show(low)} to {show(high)}",
        ),
        Compared(
            label="Share of evenings forecast at or below",
            figure=f"{1 - at_most:.3f}",
            how=f"of {forecast.evenings:,} evenings drawn",
        ),
        Compared(
            label="Lots sold against the forecast",
            figure=f"{sold - forecast.lots_sold:+.1f}",
            how=f"{sold} against {forecast.lots_sold:.1f}",
        ),
    ]


def return_rows(done: Settlement) -> tuple[ReturnRow, ...]:
    """List the event lines and the lines of the return that must equal them."""
    if done.lines is None:
        return ()
    rows = [
        ReturnRow(line=str(number), label=LABELS[number], cents=done.lines[number])
        for number in sorted(LABELS)
    ]
    equal = {
        "1c": "must equal line 2",
        "8a": "must equal line 3",
        "8b": "must equal line 10",
        "8c": "must equal line 11",
        "6b": "short form, must equal line 3",
        "6c": "short form, must equal line 10",
        "6d": "short form, must equal line 11",
    }
    ties = tie_out(done.lines)
    rows += [
        ReturnRow(line=line, label=words, cents=ties[line])
        for line, words in equal.items()
    ]
    return tuple(rows)
