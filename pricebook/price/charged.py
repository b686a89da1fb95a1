"""The hammer price behind a wanted sum when the card is charged more than it."""

from __future__ import annotations

from fractions import Fraction

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up
from pricebook.price.fees import Shares, read_shares


def hammer_for_net_cents(
    net_cents: int,
    *,
    premium_share: Number,
    tax_share: Number,
    hammer_shares: Shares,
    charged_share: Number,
    fixed_cents: int = 0,
) -> int:
    """Return the hammer price that leaves a sum when the card is charged it all.

    Parameters
    ----------
    net_cents : int
        What must be left to the seller, 0 or more. [cents]
    premium_share : number
        Buyer's premium on the hammer price, kept by the seller. [-]
    tax_share : number
        Sales tax on hammer and premium; it must be given, 0 where none is due. [-]
    hammer_shares : number or sequence of numbers
        Fees on the hammer price. [-]
    charged_share : number
        Card fee on all that is charged: hammer, premium and tax. [-]
    fixed_cents : int
        Fees that are the same at every price. [cents]

    Returns
    -------
    int
        The hammer price, rounded half up. [cents]

    Raises
    ------
    MoneyError
        If an amount or a share cannot be, or the fees eat the whole price.

    Notes
    -----
    H = (N + k)/((1 + b) - p - c (1 + b)(1 + t)).

    Examples
    --------
    >>> hammer_for_net_cents(
    ...     15_000, premium_share=0.10, tax_share=0.08, hammer_shares=0.05,
    ...     charged_share=0.029, fixed_cents=430,
    ... )
    15194
    """
    faults = cents_faults("net_cents", net_cents)
    faults += cents_faults("fixed_cents", fixed_cents)
    for name, share in (("premium_share", premium_share), ("tax_share", tax_share)):
        faults += number_faults(name, share, least=0)
    raise_all(MoneyError, faults)
    hammer_part = sum(read_shares(hammer_shares, "hammer_shares"), Fraction(0))
    (charged,) = read_shares([charged_share], "charged_share")
    buyer = 1 + exact(premium_share)
    rest = buyer - hammer_part - charged * buyer * (1 + exact(tax_share))
    if rest <= 0:
        raise MoneyError(
            f"the fees take {float(buyer - rest):.4g} of each hammer price and the "
            f"premium brings {float(buyer):.4g}, so nothing is left; lower a share."
        )
    return half_up((net_cents + fixed_cents) / rest)
