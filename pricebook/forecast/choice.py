"""Which pieces to do with the hours, sheets and money that there are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.forecast.faults import number_fault, plain, whole_fault
from pricebook.forecast.programme import Programme, best_counts, limit_rates
from pricebook.money import exact

Amount = int | float | Decimal | Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The pieces worth doing, and what the limits cost.

    Parameters
    ----------
    counts : tuple of (str, int)
        Every piece offered, in the order given, and how many of it to do.
    uplift_cents : int
        What doing them adds. [cents]
    used, left : mapping of str to number
        What the chosen pieces take of each limit, and what remains. [its unit]
    worth_of_one_more : mapping of str to int
        What the best choice would gain if that limit alone were one step higher,
        whole pieces as before. [cents]
    lp_worth : mapping of str to float
        The same rate if parts of pieces could be done (the dual value of the
        linear programme). [cents a unit]

    Notes
    -----
    The two worths differ because half a piece cannot be sold: one more hour may be
    worth nothing until there are four. `lp_worth` says which limit presses most;
    `worth_of_one_more` what one more would really bring.
    """

    counts: tuple[tuple[str, int], ...]
    uplift_cents: int
    used: Mapping[str, int | float]
    left: Mapping[str, int | float]
    worth_of_one_more: Mapping[str, int]
    lp_worth: Mapping[str, float]

    @property
    def chosen(self) -> tuple[str, ...]:
        """Names of the pieces to do, in the order given."""
        return tuple(name for name, count in self.counts if count)

    @property
    def left_out(self) -> tuple[str, ...]:
        """Names of the pieces not to do, in the order given."""
        return tuple(name for name, count in self.counts if not count)


def choose(
    pieces: Sequence[Mapping[str, Any]],
    limits: Mapping[str, Amount],
    steps: Mapping[str, Amount] | None = None,
) -> Choice:
    """Choose the pieces whose uplift is greatest within the limits.

    Parameters
    ----------
    pieces : sequence of mappings
        Each with `name`, `uplift_cents` (expected hammer finished, less as it is,
        less what the work costs; may be below 0), one number for each limit, and,
        if wanted, `most`: how many like pieces there are (1 unless stated).
    limits : mapping of str to number
        What there is of each: hours, sheets, money. [any unit, one a limit]
    steps : mapping of str to number, optional
        How much "one more" is for a limit; 1 unless stated. [its unit]

    Returns
    -------
    Choice
        The best choice, proven, with what one more of each limit would bring.

    Raises
    ------
    SpecError
        If a piece lacks a number, has one below 0 or one whose name is nearly that
        of a limit, or shares its name; or a limit or step is not a number: a
        sentence for each.

    Notes
    -----
    Maximise sum(uplift x) with sum(need x) <= limit for each limit, x whole from 0
    to `most`; what a piece takes of a thing without a limit does not count. Numbers
    are taken to six decimals, and the answer is added up again exactly. A piece
    that adds nothing is never chosen. Equal uplift: the choice with fewer pieces,
    then the one with more of the earlier pieces.
    Method: branch and bound with Lagrangian bounds, from memory.

    Examples
    --------
    >>> pieces = [
    ...     {"name": "chest", "uplift_cents": 18000, "hours": 14, "sheets": 3},
    ...     {"name": "bookcase", "uplift_cents": 11000, "hours": 7, "sheets": 2},
    ...     {"name": "night stand", "uplift_cents": 8000, "hours": 6, "sheets": 1},
    ... ]
    >>> choice = choose(pieces, {"hours": 20, "sheets": 6})
    >>> choice.chosen, choice.uplift_cents
    (('chest', 'night stand'), 26000)
    >>> choice.worth_of_one_more
    {'hours': 3000, 'sheets': 0}
    """
    raise_all(
        SpecError, [*_limit_faults(limits, steps), *_piece_faults(pieces, limits)]
    )
    programme = Programme(
        uplifts=tuple(int(piece["uplift_cents"]) for piece in pieces),
        most=tuple(int(piece.get("most", 1)) for piece in pieces),
        needs=tuple(tuple(_decimal(p[key]) for p in pieces) for key in limits),
        limits=tuple(_decimal(limit) for limit in limits.values()),
    )
    counts = best_counts(programme)
    uplift = programme.uplift(counts)
    used = dict(zip(limits, programme.used(counts), strict=True))
    raised = {
        key: _raised(programme, at, _decimal((steps or {}).get(key, 1)))
        for at, key in enumerate(limits)
    }
    return Choice(
        counts=tuple((str(p["name"]), n) for p, n in zip(pieces, counts, strict=True)),
        uplift_cents=uplift,
        used={key: plain(amount) for key, amount in used.items()},
        left={key: plain(_decimal(limits[key]) - used[key]) for key in limits},
        worth_of_one_more={
            key: wider.uplift(best_counts(wider, counts)) - uplift
            for key, wider in raised.items()
        },
        lp_worth=dict(zip(limits, limit_rates(programme), strict=True)),
    )


def _decimal(amount: Amount) -> Fraction:
    return round(exact(amount), 6)


def _raised(programme: Programme, at: int, step: Fraction) -> Programme:
    limits = list(programme.limits)
    limits[at] += step
    return replace(programme, limits=tuple(limits))


def _limit_faults(
    limits: Mapping[str, Amount], steps: Mapping[str, Amount] | None
) -> list[str]:
    if not isinstance(limits, Mapping) or not isinstance(steps or {}, Mapping):
        return ['limits and steps map a name to a number, such as {"hours": 25}.']
    faults = [
        f'a limit is called "{key}", a word with a meaning of its own; rename it.'
        for key in limits
        if key in {"name", "uplift_cents", "most"}
    ]
    for key, limit in limits.items():
        faults += number_fault(f"limit {key}", limit)
    for key, step in (steps or {}).items():
        faults += number_fault(f"step of {key}", step, above=True)
        if key not in limits:
            faults.append(f'"{key}" has a step but no limit; {nearest(key, limits)}')
    return faults


def _piece_faults(pieces: Sequence[Mapping[str, Any]], limits: object) -> list[str]:
    if isinstance(pieces, (str, Mapping)) or not isinstance(pieces, Sequence):
        return [f"pieces are {pieces!r}; give a list with one mapping a piece."]
    if not pieces:
        return ["there are no pieces to choose from; give at least one."]
    keys = list(limits) if isinstance(limits, Mapping) else []
    faults: list[str] = []
    seen: set[str] = set()
    for number, piece in enumerate(pieces, 1):
        if not isinstance(piece, Mapping) or not str(piece.get("name") or ""):
            faults.append(f"piece {number} has no name; give a mapping with one.")
            continue
        name = str(piece["name"])
        if name in seen:
            faults.append(f'two pieces are called "{name}"; give each its own name.')
        seen.add(name)
        faults += _numbers_faults(name, piece, keys)
    return faults


def _numbers_faults(name: str, piece: Mapping[str, Any], keys: list[str]) -> list[str]:
    known = ["name", "uplift_cents", "most", *keys]
    faults = [
        f'{name}: "{key}" is neither a limit nor known; {hint}'
        for key in piece
        if key not in known
        and (hint := nearest(str(key), known)).startswith("did you mean")
    ]
    for key in ["uplift_cents", *keys]:
        if key not in piece:
            faults.append(f"{name}: {key} is missing; state it, 0 if none.")
    if "uplift_cents" in piece:
        uplift = piece["uplift_cents"]
        faults += whole_fault(f"{name}: uplift_cents", uplift, least=None)
    faults += whole_fault(f"{name}: most", piece.get("most", 1), least=1)
    for key in keys:
        if key in piece:
            faults += number_fault(f"{name}: {key}", piece[key])
    return faults
