"""Areas, volumes, films and cuts as the reader of a cost sheet wants them."""

from __future__ import annotations

from fractions import Fraction

from pricebook.errors import UnitError, shown
from pricebook.finish.cut import KG_PER_LB, L_PER_US_GAL
from pricebook.finish.film import UM_PER_MIL

M2_PER_SQ_FT = 0.3048**2
"""Exact by definition (NIST SP 811, Appendix B)."""


def in_inches(lengths: str) -> bool:
    """Tell whether the reader works in inches; refuse a unit that is not known."""
    if lengths not in ("in", "mm"):
        raise UnitError(
            f"{shown(lengths)} is not a unit to print lengths in; use in or mm."
        )
    return lengths == "in"


def area(area_m2: float, lengths: str) -> str:
    """Print an area in square feet or square metres."""
    if in_inches(lengths):
        return f"{area_m2 / M2_PER_SQ_FT:.1f} sq ft"
    return f"{area_m2:.2f} m2"


def spread(spread_m2_per_l: float, lengths: str) -> str:
    """Print how far a gallon or a litre goes."""
    if in_inches(lengths):
        per_gal = spread_m2_per_l * L_PER_US_GAL / M2_PER_SQ_FT
        return f"{per_gal:.0f} sq ft/gal"
    return f"{spread_m2_per_l:.3g} m2/L"


def volume(litres: float, lengths: str) -> str:
    """Print a volume in litres, with fluid ounces for a reader of inches."""
    text = f"{litres:.2f} L" if litres >= 0.1 else f"{1000 * litres:.0f} ml"
    if not in_inches(lengths):
        return text
    return f"{text} ({128 * litres / L_PER_US_GAL:.1f} fl oz)"


def mass(kg: float, lengths: str) -> str:
    """Print a mass in grams, with ounces for a reader of inches."""
    text = f"{1000 * kg:.0f} g"
    return f"{text} ({16 * kg / KG_PER_LB:.1f} oz)" if in_inches(lengths) else text


def film(film_um: float, lengths: str) -> str:
    """Print a film in mils or micrometres."""
    if in_inches(lengths):
        return f"{film_um / UM_PER_MIL:.1f} mil"
    return f"{film_um:.0f} um"


def pounds(cut_lb: float) -> str:
    """Print a cut as it is spoken of: 1 1/2-lb cut."""
    exact = Fraction(cut_lb).limit_denominator(100)
    whole, part = divmod(exact, 1)
    if exact.denominator not in (1, 2, 4) or exact == 0:
        return f"{cut_lb:.3g}-lb cut"
    words = [str(whole)] if whole else []
    words += [str(part)] if part else []
    return f"{' '.join(words)}-lb cut"


def counted(number: int, word: str) -> str:
    """Print a count with its word in the singular or plural."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
