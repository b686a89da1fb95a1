"""Raw veneer: numbered leaves of a flitch, matched over faces."""

from pricebook.veneer.leaf_match.counts import MATCHES, leaves

__all__ = ["MATCHES", "leaves"]
