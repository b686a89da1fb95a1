"""Operations to minutes and hours: crew, learning over like pieces, drying, days."""

from pricebook.labour.learning import CONVENTIONS, total_factor, unit_factor

__all__ = ["CONVENTIONS", "total_factor", "unit_factor"]
