"""Transfer efficiencies by method of application.

Wisconsin Administrative Code NR 440.48, "Surface coating of metal furniture", Table
1, which follows 40 CFR 60 Subpart EE. A weighted mean over methods is asked for
there; its equation was not seen and is not tested.
"""

import csv
from pathlib import Path

FILE = Path(__file__).parents[2] / "data/reference/nr_440_48.csv"
PRINTED = {
    "air-atomised spray": 0.25,
    "airless spray": 0.25,
    "manual electrostatic spray": 0.60,
    "non-rotational automatic electrostatic spray": 0.70,
    "rotating head electrostatic spray": 0.80,
    "dip or flow coating": 0.90,
    "electrodeposition": 0.95,
}


def test_transfer_shares_are_as_printed():
    with FILE.open("rt", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["method"]: float(row["transfer_share"]) for row in rows} == PRINTED
    assert len(rows) == len(PRINTED)
