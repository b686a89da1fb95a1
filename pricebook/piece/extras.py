"""What goes with a piece: holes, fittings, gifts, and how it arrives."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.piece.checks import at_least, counted, one_of, positive, refuse

CONDITIONS = (
    "bare board",
    "laminated board",
    "clear finish",
    "painted",
    "old veneer",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Holes:
    """Holes of one kind to fill.

    Parameters
    ----------
    name : str
        What they are, such as "old pull holes".
    count : int
        How many. [-]
    diameter_mm, depth_mm : float
        Size of each. [mm]
    """

    name: str
    count: int
    diameter_mm: float
    depth_mm: float

    def __post_init__(self) -> None:
        """Refuse holes that cannot be filled."""
        refuse(f'holes "{self.name}": {fault}' for fault in self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("diameter", self.diameter_mm)
        yield from positive("depth", self.depth_mm)
        yield from counted("count", self.count)

    @property
    def volume_ml(self) -> float:
        """Volume of one hole, a plain cylinder. [ml]."""
        return math.pi * self.diameter_mm**2 / 4 * self.depth_mm / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Fittings of one kind.

    Parameters
    ----------
    item : str
        Key of a row of the price book.
    count : int
        How many. [-]
    """

    item: str
    count: int

    def __post_init__(self) -> None:
        """Refuse a count below one."""
        refuse(counted(f'hardware "{self.item}": count', self.count))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gift:
    """Something given for this piece, at the value the giver or charity states.

    Parameters
    ----------
    item : str
        What it is: "carcase", or any words.
    value_cents : int
        Its stated value. [cents]
    given_by : str
        Who gave it, as they wish to be named.
    """

    item: str
    value_cents: int
    given_by: str

    def __post_init__(self) -> None:
        """Refuse a negative value or a gift without a name."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from at_least(f'gifts "{self.item}": value', self.value_cents, 0)
        if not self.item.strip() or not self.given_by.strip():
            yield "gifts: item or given_by is empty; say what was given and by whom."


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """How the piece comes to the bench.

    Parameters
    ----------
    condition : str
        "bare board", "laminated board", "clear finish", "painted" or "old veneer".
    made_before_1978 : bool or None
        Whether its coatings may be that old; None: not known.
    lead_free : bool
        Whether a test found no lead in the old coating.
    treatment : str or None
        "strip", "sand back" or "scuff" for an old coating; None: the usual one.
    dents : int
        Dents and chips to fill. [-]
    patches : int
        Loose or missing spots to glue or patch. [-]
    new_panels : bool
        Whether boards bought new are built into it.
    """

    condition: str
    made_before_1978: bool | None = None
    lead_free: bool = False
    treatment: str | None = None
    dents: int = 0
    patches: int = 0
    new_panels: bool = False

    def __post_init__(self) -> None:
        """Refuse a condition that is not known."""
        refuse(
            [
                *one_of("arrival.condition", self.condition, CONDITIONS),
                *counted("arrival.dents", self.dents, least=0),
                *counted("arrival.patches", self.patches, least=0),
            ]
        )
