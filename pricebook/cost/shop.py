"""The whole price book of a shop, looked up by key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from pricebook.cautions import Board, Species
from pricebook.errors import TableError, nearest
from pricebook.finish import FinishSystem
from pricebook.rates import (
    Allowance,
    Bench,
    Leaves,
    Material,
    Minutes,
    Roll,
    Row,
    Settings,
    Sheet,
)

R = TypeVar("R", bound=Row)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """The price book of a shop.

    Parameters
    ----------
    settings : Settings
        How the shop reads, prints and reckons.
    bench : Bench
        How the shop works.
    sheets, rolls, materials, minutes, allowances : tuple
        The rows that are in use.
    finishes : tuple of FinishSystem
        The finish systems that the shop knows.
    flitches : tuple of Leaves
        Raw veneer that can be bought.
    woods : tuple of Species
        What published tables know of woods.
    boards : tuple of Board
        What published tables know of boards.
    not_chosen : tuple of Row
        Second sources of a figure, kept beside the one in use.
    """

    settings: Settings
    bench: Bench
    sheets: tuple[Sheet, ...]
    rolls: tuple[Roll, ...]
    materials: tuple[Material, ...]
    minutes: tuple[Minutes, ...]
    allowances: tuple[Allowance, ...]
    finishes: tuple[FinishSystem, ...]
    flitches: tuple[Leaves, ...] = ()
    woods: tuple[Species, ...] = ()
    boards: tuple[Board, ...] = ()
    not_chosen: tuple[Row, ...] = ()

    def woods_of(self, names: Iterable[str]) -> tuple[Species, ...]:
        """Return what published tables know of some woods; unknown ones are left."""
        wanted = set(names)
        return tuple(wood for wood in self.woods if wood.key in wanted)

    @property
    def board(self) -> Board:
        """The board that carcases are made of.

        Raises
        ------
        TableError
            If no reference table knows the shop's board.
        """
        for board in self.boards:
            if board.key == self.bench.board:
                return board
        known = [board.key for board in self.boards]
        raise TableError(
            f'"{self.bench.board}" is not a board of the reference tables; '
            f"{nearest(self.bench.board, known)}"
        )

    def material(self, key: str) -> Material:
        """Return a material by its key.

        Raises
        ------
        TableError
            If the price book has no such row; the nearest key is named.
        """
        return _found(key, self.materials, "an item")

    def has_material(self, key: str) -> bool:
        """Tell whether the price book has a material."""
        return any(row.key == key for row in self.materials)

    def allowance(self, key: str) -> float:
        """Return the figure of an allowance by its key.

        Raises
        ------
        TableError
            If the price book has no such row; the nearest key is named.
        """
        return _found(key, self.allowances, "an allowance").value

    def finish(self, key: str) -> FinishSystem:
        """Return a finish system by its key.

        Raises
        ------
        TableError
            If the shop has no such system; the nearest key is named.
        """
        for system in self.finishes:
            if system.key == key:
                return system
        known = [system.key for system in self.finishes]
        raise TableError(
            f'"{key}" is not a finish system of the shop; {nearest(key, known)}'
        )

    def sheets_of(
        self, species: str, veneer: str, form: str | None = None
    ) -> tuple[Sheet, ...]:
        """Return the sheets of a species for show or backing faces, of one form."""
        found = self._sheets_of(species, veneer)
        if form is None:
            return found
        fitting = tuple(sheet for sheet in found if sheet.form == form)
        if not fitting:
            forms = sorted({sheet.form for sheet in found})
            raise TableError(
                f'no {form} {veneer} veneer of "{species}" is in the price book; '
                f"{nearest(form, forms)}"
            )
        return fitting

    def _sheets_of(self, species: str, veneer: str) -> tuple[Sheet, ...]:
        """Return the sheets of a species for show or backing faces.

        Raises
        ------
        TableError
            If the price book has none; the nearest species is named.
        """
        found = tuple(
            s for s in self.sheets if s.species == species and s.veneer == veneer
        )
        if not found:
            known = sorted({s.species for s in self.sheets if s.veneer == veneer})
            raise TableError(
                f'no {veneer} veneer of "{species}" is in the price book; '
                f"{nearest(species, known)}"
            )
        return found

    def rolls_of(self, species: str) -> tuple[Roll, ...]:
        """Return the rolls of edge banding of a species.

        Raises
        ------
        TableError
            If the price book has none; the nearest species is named.
        """
        found = tuple(roll for roll in self.rolls if roll.species == species)
        if not found:
            known = sorted({roll.species for roll in self.rolls})
            raise TableError(
                f'no edge banding of "{species}" is in the price book; '
                f"{nearest(species, known)}"
            )
        return found

    def flitches_of(self, species: str) -> tuple[Leaves, ...]:
        """Return the flitches of a species.

        Raises
        ------
        TableError
            If the price book has none; the nearest species is named.
        """
        found = tuple(row for row in self.flitches if row.species == species)
        if not found:
            known = sorted({row.species for row in self.flitches})
            raise TableError(
                f'no raw leaves of "{species}" are in the price book; '
                f"{nearest(species, known)}"
            )
        return found

    def old_rows(self, keys: Sequence[str], on: date) -> Iterator[Row]:
        """Yield the rows among some keys that are past the shop's age limit."""
        for row in self._priced(keys):
            if row.age_days(on) > self.settings.price_age_days:
                yield row

    def later_rows(self, keys: Sequence[str], on: date) -> Iterator[Row]:
        """Yield the rows among some keys that are dated after a day."""
        yield from (row for row in self._priced(keys) if row.dated > on)

    def _priced(self, keys: Sequence[str]) -> Iterator[Row]:
        rows: list[Row] = [*self.sheets, *self.rolls, *self.materials, *self.flitches]
        yield from (row for row in rows if row.key in keys)


def _found(key: str, rows: Sequence[R], what: str) -> R:
    for row in rows:
        if row.key == key:
            return row
    known = [row.key for row in rows]
    raise TableError(f'"{key}" is not {what} of the price book; {nearest(key, known)}')
