"""What is known of a piece and its job, for its cautions and its weight."""

from __future__ import annotations

from pricebook.cautions import PieceFacts, panel_mass_kg, tip_over_by_size
from pricebook.cost.shop import Shop
from pricebook.finish import FinishPlan
from pricebook.piece import Piece
from pricebook.rates import Need
from pricebook.takeoff import TakeOff

_OLD_FINISH = {
    "bare board": "none",
    "laminated board": "none",
    "clear finish": "clear",
    "painted": "paint",
    "old veneer": "unknown",
}


def mass_kg(measured: TakeOff, shop: Shop) -> float | None:
    """Return the weight of the panels, or None where none is measured.

    Parameters
    ----------
    measured : TakeOff
        The take-off.
    shop : Shop
        The price book, whose bench names the board.

    Returns
    -------
    float or None
        Weight without fittings and drawer boxes. [kg]
    """
    if not measured.boards:
        return None
    density = shop.board.density_kg_m3
    return sum(
        board.count
        * panel_mass_kg(board.length_mm, board.width_mm, board.thickness_mm, density)
        for board in measured.boards
    )


def in_tip_over_scope(piece: Piece, measured: TakeOff, mass: float | None) -> bool:
    """Tell whether a piece is a clothing storage unit by its size, whatever its age.

    Parameters
    ----------
    piece : Piece
        The piece.
    measured : TakeOff
        Its take-off.
    mass : float or None
        Its weight. [kg]

    Returns
    -------
    bool
        True where it can tip and gets anti-tip hardware by default.
    """
    if piece.size is None or mass is None or not measured.enclosed_l:
        return False
    height_mm = piece.size.height_mm
    return tip_over_by_size(height_mm, mass, measured.enclosed_l, piece.form)


def piece_facts(
    piece: Piece,
    measured: TakeOff,
    finish: FinishPlan | None,
    needs: tuple[Need, ...],
    shop: Shop,
) -> PieceFacts:
    """Gather what the cautions of a piece turn on.

    Parameters
    ----------
    piece : Piece
        The piece.
    measured : TakeOff
        Its take-off.
    finish : FinishPlan or None
        Its finish.
    needs : tuple of Need
        What the bench uses.
    shop : Shop
        The price book.

    Returns
    -------
    PieceFacts
        For `cautions_for`.
    """
    methods = {row.coat.method for row in finish.rows} if finish else set()
    items = {need.item for need in needs}
    return PieceFacts(
        kind=piece.form,
        height_mm=piece.size.height_mm if piece.size else 1.0,
        mass_kg=mass_kg(measured, shop),
        volume_l=measured.enclosed_l or None,
        made_on=piece.made_on,
        secondhand=True,
        old_finish=_OLD_FINISH[piece.arrival.condition],
        old_finish_before_1978=False
        if piece.arrival.lead_free
        else piece.coated_before_1978,
        sprays="spray" in methods,
        brushes=bool(methods - {"spray"}),
        flammable=bool(finish and finish.system.flammable),
        finish_l=finish.mixed_l if finish else 0.0,
        oil_finish=bool(finish and finish.system.kind == "oil"),
        strips="paint stripper" in items,
        sands=any(item.startswith("sanding disc") for item in items),
        iron=_irons(piece, measured, shop),
        knives=bool(measured.faces or measured.edges),
        contact_cement="contact cement" in items,
        new_panels=piece.arrival.new_panels,
        species=shop.woods_of(f.species for f in measured.faces),
        unbalanced_panels=measured.one_sided,
    )


def _irons(piece: Piece, measured: TakeOff, shop: Shop) -> bool:
    """Tell whether banding or glue is ironed on."""
    if shop.bench.adhesive == "iron-on PVA" and piece.veneer.form != "self-adhesive":
        return True
    woods = {edge.species for edge in measured.edges}
    return any(roll.species in woods and roll.form == "iron-on" for roll in shop.rolls)
