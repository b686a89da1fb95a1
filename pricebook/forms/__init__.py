"""What each form of piece is made of, measured by the form's own rules."""

from pricebook.forms.rows import Board, Rim, Shape, Surface
from pricebook.forms.shapes import shape

__all__ = ["Board", "Rim", "Shape", "Surface", "shape"]
