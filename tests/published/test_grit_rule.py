"""How many grits a run may skip.

An abrasives dealer's workshop notes, July 2009: "Skip only one grit at a time"; two
sanding guides give 80-120-180(-240) as a run, and name 80 to 180 as the fault it
avoids. A finishing forum's primer: 120-150-180 on veneer, nothing below 120 on
factory veneer.
"""

import pytest

from pricebook.consumables import grit_run
from pricebook.errors import SpecError


@pytest.mark.parametrize(
    "run", [(80, 120, 180, 240), (80, 120, 180), (80, 120, 150, 180, 220)]
)
def test_published_runs_are_allowed(run):
    assert grit_run(run) == run


def test_the_jump_that_the_guides_warn_of_is_refused():
    with pytest.raises(SpecError, match="from 80 to 180 and skips 100, 120, 150"):
        grit_run((80, 180))


def test_factory_veneer_bears_nothing_below_120():
    assert grit_run((120, 150, 180), coarsest=120) == (120, 150, 180)
    with pytest.raises(SpecError, match=r"begins at 100; .* nothing coarser than 120"):
        grit_run((100, 120, 150), coarsest=120)
