"""IRS Form 990-EZ (2021): line 6d = 6a + 6b - 6c. With 6a 0, 6b 400, 6c 400: 0."""

from pricebook import receipts


def test_a_piece_sold_above_its_value_nets_nothing_on_line_6d():
    tied = receipts.tie_out(receipts.event_lines([(400_00, 550_00)]))
    assert (tied["6b"], tied["6c"], tied["6d"]) == (400_00, 400_00, 0)
