"""Cost lines that add up as printed."""
