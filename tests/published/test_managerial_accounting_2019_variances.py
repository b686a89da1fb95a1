"""Principles of Accounting, Volume 2: Managerial Accounting, 2019, sections 8.2, 8.3.

Direct materials: .25 planned at 7.00, .50 used at 9.00: price variance 1.00 U, quantity
variance 1.75 U, total 2.75 U. Direct labour: .10 h planned at 8.00, .20 h at 9.50: rate
.30 U, time .80 U, total 1.10 U. Exact to the cent.
"""

from pricebook.records import Usage, rate_and_quantity_variance


def test_materials():
    found = rate_and_quantity_variance(700, 0.25, 900, 0.50)
    assert (found.rate_cents, found.rate_mark) == (100, "U")
    assert (found.quantity_cents, found.quantity_mark) == (175, "U")
    assert (found.total_cents, found.total_mark) == (275, "U")


def test_labour():
    work = Usage(
        name="labour",
        kind="labour",
        unit="h",
        standard_rate_cents=800,
        standard_quantity=0.10,
        actual_rate_cents=950,
        actual_quantity=0.20,
    )
    found = work.variances
    assert work.cause_names == ("rate", "time")
    assert (found.rate_cents, found.quantity_cents) == (30, 80)
    assert (found.total_cents, found.total_mark) == (110, "U")
    assert work.planned_cents + found.total_cents == 190  # .20 h x 9.50
