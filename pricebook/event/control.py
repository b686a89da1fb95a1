"""A control total: one figure found by two ways."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.money import show


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """One figure found by two ways.

    Parameters
    ----------
    name : str
        What must hold.
    left_words, right_words : str
        How each side was found.
    left, right : int
        The two sides. [cents, or a count]
    is_money : bool
        Whether they are cents.

    Examples
    --------
    >>> Control(name="lots", left_words="in the catalogue", left=14,
    ...         right_words="with a result", right=13, is_money=False).verdict
    'FAIL'
    """

    name: str
    left_words: str
    left: int
    right_words: str
    right: int
    is_money: bool = True

    @property
    def passes(self) -> bool:
        """Whether both sides agree."""
        return self.left == self.right

    @property
    def verdict(self) -> str:
        """PASS or FAIL."""
        return "PASS" if self.passes else "FAIL"

    @property
    def words(self) -> str:
        """The control in a sentence."""
        left, right = self.left, self.right
        sides = (show(left), show(right)) if self.is_money else (left, right)
        return (
            f"{self.verdict}: {self.name}: {self.left_words} {sides[0]}, "
            f"{self.right_words} {sides[1]}."
        )
