"""The pictures that stand beside the notebooks, for readers who run nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta
from functools import partial
from pathlib import Path

from pricebook.charts.costs import cost_by_group, species_compared
from pricebook.charts.drivers import swings
from pricebook.charts.evenings import estimate_against_hammer, evening
from pricebook.charts.layout import layout_figure
from pricebook.charts.overview import layout_overview
from pricebook.charts.plans import elapsed
from pricebook.charts.prices import advised_rungs, money_goes
from pricebook.charts.scales import with_unit
from pricebook.charts.style import Picture, save
from pricebook.commands.advising import advise, middle_hammer_cents, split_of
from pricebook.commands.events import event_of
from pricebook.commands.forecast import evening_of
from pricebook.cost.compare import compare_species
from pricebook.cost.drivers import what_drives
from pricebook.cost.elapsed import elapsed_of
from pricebook.cost.lines import CostSheet
from pricebook.cost.sheet import cost_sheet, cost_sheets
from pricebook.cost.shop import Shop
from pricebook.event import Event
from pricebook.files import read_event, read_piece, read_results, read_shop
from pricebook.files.market import read_market
from pricebook.piece import Piece
from pricebook.records import LotOutcome

_PIECE = "low_dresser"
_EVENT = "spring_bench_auction"
_BEFORE_THE_AUCTION = timedelta(weeks=5)
Drawing = tuple[str, Callable[[], Picture]]
Told = Callable[[int, int, str], None]


def draw_pictures(
    folder: Path,
    data: Path,
    on: date,
    *,
    endings: Sequence[str] = (".png",),
    progress: Told | None = None,
) -> tuple[Path, ...]:
    """Draw the pictures of the demo into a folder.

    Parameters
    ----------
    folder : Path
        Where to; made when it is missing.
    data : Path
        The folder with `pieces`, `shop` and `events`.
    on : date
        The day for which prices are taken; the same day gives the same bytes.
    endings : sequence of str
        ".png", ".svg", or both.
    progress : callable or None
        Called with pictures done, pictures in all, and the name of the next.

    Returns
    -------
    tuple of Path
        The files written.

    Raises
    ------
    PricebookError
        If a file of the demo cannot be read, or a picture cannot be written.
    """
    drawings = (*_of_piece(data, on), *_of_evening(data, on))
    written: list[Path] = []
    for number, (name, draw) in enumerate(drawings):
        if progress:
            progress(number, len(drawings), name)
        figure = draw()
        written += [save(figure, folder / f"{name}{ending}") for ending in endings]
    return tuple(written)


def _of_piece(data: Path, on: date) -> Iterator[Drawing]:
    """Yield the pictures of one piece, and the sheets of all pieces."""
    shop = read_shop(data / "shop")
    piece = read_piece(data / "pieces" / f"{_PIECE}.toml")
    auction = read_event(data / "events" / f"{_EVENT}.toml").on
    sheet = cost_sheet(piece, shop, on)
    for plan in sheet.layout.sheets:
        draw = partial(layout_figure, plan, shop.settings.lengths)
        yield f"layout_sheet_{plan.number}", draw
    yield "layout_of_all_pieces", partial(_all_pieces, data, shop, on)
    yield "cost_by_group", partial(cost_by_group, sheet)
    compared = compare_species(piece, shop, on)
    yield "species_compared", partial(species_compared, compared)
    plan_of_days = elapsed_of(sheet, shop, auction - _BEFORE_THE_AUCTION, auction)
    yield "days_to_the_auction", partial(elapsed, plan_of_days)
    yield "what_drives_the_cost", partial(_drivers, piece, shop, on)
    yield from _of_price(data, piece, sheet, on)


def _all_pieces(data: Path, shop: Shop, on: date) -> Picture:
    pieces = [read_piece(path) for path in sorted((data / "pieces").glob("*.toml"))]
    layout = cost_sheets(pieces, shop, on)[0].layout
    return layout_overview(layout, shop.settings.lengths)


def _drivers(piece: Piece, shop: Shop, on: date) -> Picture:
    found = what_drives(piece, shop, on)
    words = with_unit("Full cost", shop.settings.currency)
    return swings(found.full_cost, base=found.full_cost_cents, words=words)


def _of_price(
    data: Path, piece: Piece, sheet: CostSheet, on: date
) -> Iterator[Drawing]:
    """Yield the pictures of the price, where the piece says who may bid."""
    market, sign = read_market(data / "shop"), sheet.settings.currency
    advice = advise(piece, sheet, market, on)
    if advice is None:
        return
    yield "price_rungs", partial(advised_rungs, advice, sign)
    shared = split_of(middle_hammer_cents(advice), sheet, market)
    yield "money_goes", partial(money_goes, shared, sign)


def _of_evening(data: Path, on: date) -> Iterator[Drawing]:
    """Yield the forecast of the evening, and its estimates against the hammer."""
    event = event_of(data / "events" / f"{_EVENT}.toml", None, on)
    sign = read_shop(data / "shop").settings.currency
    found = evening_of(event)
    yield "evening", partial(evening, found, event.target_cents, sign)
    results = data / "events" / f"{_EVENT}_results.toml"
    if results.is_file():
        outcomes = _outcomes(event, results)
        draw = partial(estimate_against_hammer, outcomes, sign)
        yield "estimate_against_hammer", draw


def _outcomes(event: Event, results: Path) -> list[LotOutcome]:
    """Set estimates beside hammer prices; a lot withdrawn or void has neither."""
    offered = {
        result.lot: result.hammer_cents if result.state == "sold" else None
        for result in read_results(results, event)
        if result.state in ("sold", "passed")
    }
    return [
        LotOutcome(
            lot=f"{lot.key} {lot.title}",
            estimate_low_cents=lot.estimate_low_cents,
            estimate_high_cents=lot.estimate_high_cents,
            hammer_cents=offered[lot.key],
        )
        for lot in event.lots
        if lot.key in offered
        and lot.estimate_low_cents is not None
        and lot.estimate_high_cents
    ]
