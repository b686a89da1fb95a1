"""Reports on payments: form 1099-K and forms 1099-NEC and 1099-MISC.

IRS FS-2025-08, 23 Oct 2025: a third-party settlement organisation reports above
20,000 and above 200 payments. Public Law 119-21, section 70433: from 600, for payments
after 31 Dec 2025 from 2,000 (seen in a secondary text). Exact.
"""

import pytest

from pricebook import receipts


@pytest.mark.parametrize(
    ("gross", "payments", "due"),
    [
        (20_000_00, 201, False),
        (20_000_01, 200, False),
        (20_000_01, 201, True),
    ],
)
def test_both_limits_must_be_exceeded(gross, payments, due):
    assert receipts.card_report_due(gross, payments) is due


@pytest.mark.parametrize(
    ("year", "paid", "due"),
    [
        (2025, 599_99, False),
        (2025, 600_00, True),
        (2026, 1_999_99, False),
        (2026, 2_000_00, True),
    ],
)
def test_the_floor_follows_the_year_of_payment(year, paid, due):
    assert receipts.payee_report_due(paid, year) is due
