"""Read what the pieces of an event really took: minutes, sheets, materials."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.event import Event
from pricebook.event.checks import plain_key
from pricebook.files.opening import read_toml
from pricebook.files.taking import Taker


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkUsed:
    """Minutes that one operation really took on one piece.

    Parameters
    ----------
    operation : str
        Key of its row of minutes.
    minutes : float
        Minutes of everybody together. [min]
    hour_cents : int or None
        What an hour of it was paid, or is valued at; None: as planned. [cents]

    Raises
    ------
    SpecError
        If there are no minutes.
    """

    operation: str
    minutes: float
    hour_cents: int | None = None

    def __post_init__(self) -> None:
        raise_all(SpecError, _above("minutes", self.minutes))


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialUsed:
    """How much of one material a piece really took, and what was paid for it.

    Parameters
    ----------
    key : str
        Key of its row of the price book.
    used : float
        How much was used, counted as the cost sheet counts it. [unit]
    bought : float or None
        How much `paid_cents` bought. [unit]
    paid_cents : int or None
        What was paid; None: as planned. [cents]

    Raises
    ------
    SpecError
        If a quantity is below 0, or one of bought and paid stands alone.
    """

    key: str
    used: float
    bought: float | None = None
    paid_cents: int | None = None

    def __post_init__(self) -> None:
        faults = []
        if self.used < 0:
            faults.append(f"used is {self.used:g}; it must be 0 or more.")
        if self.bought is not None:
            faults += _above("bought", self.bought)
        if (self.bought is None) != (self.paid_cents is None):
            faults.append(
                "bought and paid belong together; write how much was bought and what "
                "was paid for that much."
            )
        raise_all(SpecError, faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceUsed:
    """What one piece really took.

    Parameters
    ----------
    lot : str
        Its lot.
    work : tuple of WorkUsed
        Operations; one that is left out was not timed.
    materials : tuple of MaterialUsed
        Materials; one that is left out was not noted.
    """

    lot: str
    work: tuple[WorkUsed, ...] = ()
    materials: tuple[MaterialUsed, ...] = ()


def read_used(path: str | Path, event: Event) -> tuple[PieceUsed, ...]:
    """Read what the pieces of an event really took from a TOML file.

    Parameters
    ----------
    path : str or Path
        A TOML file with `event`, the event's key, and a `[[pieces]]` for each lot.
    event : Event
        The event.

    Returns
    -------
    tuple of PieceUsed
        In the order of the file.

    Raises
    ------
    SpecError
        With one sentence for every fault: another event's file, a lot that is
        unknown, doubled or without a piece file, a number that cannot be.
    TableError
        If the file cannot be opened or is not TOML.
    """
    where, faults = str(path), list[str]()
    whole = Taker(where, read_toml(Path(path)), faults)
    key = whole.text("event")
    if key is not None and key != event.key:
        whole.fault("event", f'is "{key}"; these are not the pieces of {event.key}.')
    found = [
        _piece(Taker(f"{where} [[pieces]] {number}", table, faults), faults)
        for number, table in enumerate(whole.tables("pieces"), start=1)
    ]
    pieces = tuple(piece for piece in found if piece is not None)
    faults += [f"{where}: {fault}" for fault in _lot_faults(pieces, event)]
    made = whole.build(lambda: pieces)
    if made is None or faults:
        raise SpecError(*faults)
    return made


def _piece(t: Taker, faults: list[str]) -> PieceUsed | None:
    lot = t.text("lot")
    where = f"{t.where} (lot {lot})"
    work = [
        _work(Taker(f"{where} work {number}", row, faults))
        for number, row in enumerate(t.tables("work"), start=1)
    ]
    materials = [
        _material(Taker(f"{where} materials {number}", row, faults))
        for number, row in enumerate(t.tables("materials"), start=1)
    ]
    names = [row.operation for row in work if row]
    names += [row.key for row in materials if row]
    for name in sorted({n for n in names if names.count(n) > 1}):
        t.fault(f'"{name}"', "stands twice; write the sum once.")
    return t.build(
        PieceUsed,
        lot=lot,
        work=tuple(row for row in work if row is not None),
        materials=tuple(row for row in materials if row is not None),
    )


def _work(t: Taker) -> WorkUsed | None:
    return t.build(
        WorkUsed,
        operation=t.text("operation"),
        minutes=t.number("minutes"),
        hour_cents=t.money("hour", None),
    )


def _material(t: Taker) -> MaterialUsed | None:
    return t.build(
        MaterialUsed,
        key=t.text("key"),
        used=t.number("used"),
        bought=t.number("bought", None),
        paid_cents=t.money("paid", None),
    )


def _lot_faults(pieces: tuple[PieceUsed, ...], event: Event) -> Iterator[str]:
    seen: set[str] = set()
    for piece in pieces:
        lot = event.lot(piece.lot)
        if lot is None:
            known = nearest(piece.lot, [one.key for one in event.lots])
            yield f'lot "{piece.lot}" is not in the catalogue of {event.name}; {known}'
        elif not lot.piece:
            yield (
                f"lot {lot.key} names no piece file, so there is no plan to compare "
                "with; name one in the event file, or take the lot out here."
            )
        if plain_key(piece.lot) in seen:
            yield f"lot {piece.lot} stands twice; write what it took once."
        seen.add(plain_key(piece.lot))


def _above(name: str, value: float) -> list[str]:
    return [] if value > 0 else [f"{name} is {value:g}; it must be more than 0."]
