"""What can hurt someone or break a rule for this very piece, with its source."""

from pricebook.cautions.tip_over import (
    drawer_volume_l,
    enclosed_volume_l,
    tip_over_scope,
)

__all__ = ["drawer_volume_l", "enclosed_volume_l", "tip_over_scope"]
