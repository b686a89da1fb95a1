"""Pieces that could be done before the auction, and what there is to do them with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.event.checks import cents_fault, number_fault, text_fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A piece that could be done, and what doing it would add.

    Parameters
    ----------
    name : str
        What it is called.
    piece : str
        Piece file, relative to the event file; empty if there is none.
    as_is_cents, finished_cents : int or None
        Expected hammer price as it stands, and refinished; None until worked out
        from the piece. [cents]
    cost_cents : int or None
        Cash that doing it takes. [cents]
    needs : tuple of (str, number)
        What it takes of each limit, money aside: hours, sheets.
    most : int
        How many like pieces there are. [-]

    Examples
    --------
    >>> Candidate(name="Chest", as_is_cents=4000, finished_cents=30000,
    ...           cost_cents=9000, needs=(("hours", 14),)).uplift_cents
    17000
    """

    name: str
    piece: str = ""
    as_is_cents: int | None = None
    finished_cents: int | None = None
    cost_cents: int | None = None
    needs: tuple[tuple[str, int | float], ...] = ()
    most: int = 1

    def __post_init__(self) -> None:
        raise_all(SpecError, (f'candidate "{self.name}": {x}' for x in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from text_fault("name", self.name)
        yield from cents_fault("as it is", self.as_is_cents, optional=True)
        yield from cents_fault("finished", self.finished_cents, optional=True)
        yield from cents_fault("cost", self.cost_cents, optional=True)
        for key, need in self.needs:
            yield from number_fault(key, need)
        if isinstance(self.most, bool) or not isinstance(self.most, int):
            yield f"most is {self.most!r}; it must be a whole number."
        elif not 1 <= self.most <= 1000:
            yield f"most is {self.most}; it must be from 1 to 1000."

    @property
    def missing(self) -> tuple[str, ...]:
        """Names of the figures that are still to be worked out."""
        figures = {
            "as_is": self.as_is_cents,
            "finished": self.finished_cents,
            "cost": self.cost_cents,
        }
        return tuple(name for name, cents in figures.items() if cents is None)

    @property
    def uplift_cents(self) -> int | None:
        """Finished less as it is less cost; None while a figure is missing [cents]."""
        if (
            self.as_is_cents is None
            or self.finished_cents is None
            or self.cost_cents is None
        ):
            return None
        return self.finished_cents - self.as_is_cents - self.cost_cents
