"""What is left: the charity's part, found by subtraction."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import ClassVar, cast

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number
from pricebook.proceeds.till import name_fault, text_faults


@dataclass(frozen=True, slots=True)
class Rest:
    """All that is left, to one payee: the charity.

    Parameters
    ----------
    payee : str
        The charity.
    label : str
        What the line is called; the payee if empty.

    Examples
    --------
    >>> Rest("charity").payees
    ('charity',)
    """

    kind: ClassVar[str] = "rest"
    payee: str
    label: str = ""

    def __post_init__(self) -> None:
        raise_all(
            MoneyError,
            [*name_fault("payee", self.payee), *text_faults(label=self.label)],
        )

    @property
    def payees(self) -> tuple[str, ...]:
        """Who is paid; the first is the charity."""
        return (self.payee,)

    def shared(self, left_cents: int) -> tuple[int, ...]:
        """Share out what is left [cents]."""
        return (left_cents,)

    @property
    def words(self) -> str:
        """The rule in words."""
        return "all that is left"


@dataclass(frozen=True, slots=True)
class RestByWeight:
    """All that is left, shared out by weight to the last cent.

    Parameters
    ----------
    weights : mapping or sequence of (str, number)
        A weight for each payee, above 0. The charity comes first; if another
        place holds a payee named `charity`, that one is the charity.
    label : str
        What the lines are called; the payee if empty.

    Notes
    -----
    Largest remainder, ties to the first, as `money.share_out`.

    Examples
    --------
    >>> RestByWeight({"charity": 60, "guild": 30, "venue": 10}).shared(60570)
    (36342, 18171, 6057)
    """

    kind: ClassVar[str] = "rest_by_weight"
    weights: Mapping[str, Number] | Sequence[tuple[str, Number]]
    label: str = ""
    parts: Sequence[int] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        pairs, faults = _weights(self.weights)
        faults += text_faults(label=self.label)
        raise_all(MoneyError, faults)
        object.__setattr__(self, "weights", pairs)
        parts = money.whole_weights(weight for _, weight in pairs)
        object.__setattr__(self, "parts", tuple(parts))

    @property
    def payees(self) -> tuple[str, ...]:
        """Who is paid, in the order written."""
        return tuple(dict(self.weights))

    @property
    def payee(self) -> str:
        """The charity among them."""
        return "charity" if "charity" in self.payees else self.payees[0]

    def shared(self, left_cents: int) -> tuple[int, ...]:
        """Share out what is left [cents]."""
        return money.share_out(left_cents, self.parts)

    @property
    def words(self) -> str:
        """The rule in words."""
        parts = " : ".join(
            f"{float(weight):.10g}" for weight in dict(self.weights).values()
        )
        return f"all that is left, shared {parts}"


def _weights(given: object) -> tuple[tuple[tuple[str, Number], ...], list[str]]:
    """Return the pairs of a weighting, with a sentence for each fault."""
    items: Sequence[object] = ()
    if isinstance(given, Mapping):
        items = tuple(given.items())
    elif isinstance(given, Sequence) and not isinstance(given, str):
        items = tuple(given)
    if not items:
        return (), [f"weights are {given!r}; give a weight for each payee."]
    pairs: list[tuple[str, Number]] = []
    faults: list[str] = []
    for item in items:
        if not (isinstance(item, Sequence) and len(item) == 2):
            faults.append(f"weight {item!r} is not a pair (payee, weight).")
            continue
        payee, weight = item
        faults += name_fault("payee", payee)
        if not _is_weight(weight):
            faults.append(f"weight of {payee!r} is {weight!r}; it must be above 0.")
        pairs.append((payee, weight))
    if not faults and len({payee for payee, _ in pairs}) < len(pairs):
        faults.append("weights name a payee twice; give each payee one weight.")
    return tuple(pairs), faults


def _is_weight(value: object) -> bool:
    try:
        return money.exact(cast("Number", value)) > 0
    except MoneyError:
        return False
