"""What is known of a piece and its job, as far as a caution turns on it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from pricebook.cautions.checks import is_number, not_above_zero
from pricebook.cautions.species import Species
from pricebook.cautions.tip_over import plain_kind
from pricebook.errors import PricebookError, SpecError, raise_all

OLD_FINISHES = ("none", "clear", "paint", "unknown")
"""What coating a piece comes with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceFacts:
    """What a caution may turn on; what is left out is not the case, or not known.

    Parameters
    ----------
    kind : str
        What the piece is, as for `tip_over_scope`; "list" where nobody said.
    height_mm : float
        Height, standing free. [mm]
    mass_kg : float or None
        Mass; None: not known. [kg]
    volume_l : float or None
        Enclosed volume as the tip-over rule counts it; None: nothing enclosed, or
        not known. [L]
    made_on : date or None
        Day of manufacture; None: not known.
    secondhand : bool
        Whether the carcase was in use before.
    old_finish : str
        One of `OLD_FINISHES`.
    old_finish_before_1978 : bool or None
        Whether the old coating may be that old; None: not known.
    sprays, brushes : bool
        How the finish goes on.
    flammable : bool
        Whether the finish or its thinner burns: alcohol, solvent, lacquer.
    finish_l : float
        Finish and thinner on the bench. [L]
    oil_finish : bool
        Whether rags soak up a drying oil.
    strips : bool
        Whether the old coating comes off by a chemical stripper.
    sands : bool
        Whether wood, board or a coating is sanded.
    iron, knives, contact_cement : bool
        Whether these are used.
    new_panels : bool
        Whether composite panels are bought new.
    species : tuple of Species
        The woods that are cut or sanded.
    unbalanced_panels : tuple of str
        Loose panels veneered on one face; see `unbalanced`.
    """

    kind: str
    height_mm: float
    mass_kg: float | None = None
    volume_l: float | None = None
    made_on: date | None = None
    secondhand: bool = False
    old_finish: str = "none"
    old_finish_before_1978: bool | None = None
    sprays: bool = False
    brushes: bool = False
    flammable: bool = False
    finish_l: float = 0.0
    oil_finish: bool = False
    strips: bool = False
    sands: bool = False
    iron: bool = False
    knives: bool = False
    contact_cement: bool = False
    new_panels: bool = False
    species: tuple[Species, ...] = ()
    unbalanced_panels: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse facts that cannot be, with every fault."""
        faults = not_above_zero("height", self.height_mm, "mm")
        if self.mass_kg is not None:
            faults += not_above_zero("mass", self.mass_kg, "kg")
        if self.volume_l is not None:
            faults += not_above_zero("enclosed volume", self.volume_l, "L")
        if isinstance(self.made_on, datetime):
            faults.append(f"day of manufacture is {self.made_on}; leave out the time.")
        if not is_number(self.finish_l) or self.finish_l < 0:
            faults.append(f"finish is {self.finish_l!r} L; it must be 0 or more.")
        if self.old_finish not in OLD_FINISHES:
            known = ", ".join(OLD_FINISHES)
            faults.append(f'old finish is "{self.old_finish}"; use one of {known}.')
        if self.kind != "list":
            try:
                plain_kind(self.kind)
            except PricebookError as error:
                faults += error.faults
        raise_all(SpecError, faults)
