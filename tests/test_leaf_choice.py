"""Raw leaves on a piece: the rack first, centred faces, grain that is free."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from pricebook.cost import cost_sheet, cost_sheets
from pricebook.cost.text import leaves_text
from pricebook.errors import LayoutError, TableError
from pricebook.files import read_piece, read_shop
from pricebook.piece import ListedFace
from pricebook.rates import Leaves

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 10)
IN = 25.4


def log(key="log 1", leaves=24, width=6, on_hand=0, price=4800, bundle=4, long=98):
    return Leaves(
        key=key,
        dated=ON,
        source="invented",
        species="walnut",
        length_mm=long * IN,
        widths_mm=(width * IN,) * leaves,
        price_cents=price,
        bundle=bundle,
        on_hand=on_hand,
    )


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


def board(*faces, match="balance", overhang=0.0, name="A board"):
    piece = read_piece(DATA / "pieces" / "plain_list.toml")
    veneer = replace(piece.veneer, form="raw", match=match, overhang_mm=overhang)
    return replace(piece, name=name, veneer=veneer, faces=faces, edges=(), banding=None)


def face(name="top", along=40, across=18, **more):
    return ListedFace(
        name=name, along_mm=along * IN, across_mm=across * IN, count=1, **more
    )


def plan_of(piece, shop, *flitches):
    sheet = cost_sheet(piece, replace(shop, flitches=flitches), ON)
    (plan,) = sheet.leaves
    return plan


def test_leaves_in_the_rack_are_cut_before_any_are_bought(shop):
    # 18 in of 6 in leaves: 3 leaves (AWS 2009, section 4-1.2.20.1), all in the rack
    plan = plan_of(board(face()), shop, log(on_hand=5))
    assert (plan.reach, plan.from_rack, plan.bundles, plan.cost_cents) == (3, 3, 0, 0)
    assert plan.used_cents == 3 * 1200  # a bundle of four at 48.00
    line = cost_sheet(
        board(face()), replace(shop, flitches=(log(on_hand=5),)), ON
    ).lines[0]
    assert (line.packs, line.bought_cents) == ("in the rack", 0)


def test_only_what_the_rack_lacks_is_bought_in_whole_bundles(shop):
    # 9 leaves for three boards of 18 in; 2 in the rack, 7 to buy: two bundles of 4
    faces = [face(f"board {n}", along=90) for n in (1, 2, 3)]
    plan = plan_of(board(*faces), shop, log(on_hand=2))
    assert (plan.reach, plan.from_rack, plan.bundles, plan.left) == (9, 2, 2, 1)
    assert plan.used_cents == 2 * 1200 + 9600 * 7 // 8
    assert plan.waste.endswith("1 leaf is left whole; 2 from the rack.")


def test_a_flitch_in_the_rack_is_chosen_before_a_cheaper_one_to_buy(shop):
    racked, cheap = log("racked", on_hand=8, price=9900), log("cheap", price=1000)
    assert plan_of(board(face()), shop, cheap, racked).flitch.key == "racked"


def test_a_flitch_used_up_is_named(shop):
    gone = replace(log(), widths_mm=())
    with pytest.raises(LayoutError, match="log 1: every leaf of it is used up"):
        plan_of(board(face()), shop, gone)


def test_more_leaves_in_the_rack_than_there_are_is_refused():
    with pytest.raises(TableError, match="on_hand is 30 of 24 leaves"):
        log(on_hand=30)


def test_a_centred_face_takes_an_even_count_with_a_joint_on_its_centre(shop):
    # AWS 2009, section 4-1.2.20.2: W = 18, w = 6 in: centre balance, 4 leaves of
    # 4 1/2 in, where balance match would take 3 of 6 in
    top = face(centred=True)
    assert plan_of(board(face()), shop, log()).reach == 3
    plan = plan_of(board(top), shop, log())
    assert plan.match == "centre balance"
    assert [part.width_mm for part in plan.laid] == pytest.approx([4.5 * IN] * 4)
    joints = [part.across_at_mm for part in plan.laid]
    assert any(abs(at - 9 * IN) < 1e-6 for at in joints)


@pytest.mark.parametrize("match", ["running", "slip", "random"])
def test_a_face_cannot_be_centred_in_a_match_without_a_centre(shop, match):
    with pytest.raises(LayoutError, match=f"{match} match has no joint on the centre"):
        plan_of(board(face(centred=True), match=match), shop, log())


def test_a_centred_top_and_other_faces_come_from_one_flitch_and_its_bundles(shop):
    # top: 4 leaves; side 40 x 12 in: 2 leaves; together 6 of two bundles of 4
    piece = board(face(centred=True), face("side", across=12))
    plan = plan_of(piece, shop, log())
    assert (plan.reach, plan.bundles, plan.left) == (6, 2, 2)
    assert plan.match == "centre balance and balance"
    leaves = {part.face: set() for part in plan.laid}
    for part in plan.laid:
        leaves[part.face].add(part.leaf)
    assert leaves == {"top": {1, 2, 3, 4}, "side": {5, 6}}


def test_a_face_of_free_grain_is_turned_where_that_takes_fewer_leaves(shop):
    # 6 in along, 40 in across: 7 leaves as it lies, 1 leaf turned
    piece = board(face("rail", along=6, across=40, free_grain=True))
    fixed = board(face("rail", along=6, across=40))
    assert plan_of(fixed, shop, log()).reach == 7
    plan = plan_of(piece, shop, log())
    assert (plan.reach, plan.turned) == (1, ("rail",))
    sheet = cost_sheet(piece, replace(shop, flitches=(log(),)), ON)
    assert "rail lies across the leaves" in leaves_text(sheet)


def test_a_face_too_long_for_a_leaf_is_turned_where_its_grain_is_free(shop):
    piece = board(face("panel", along=110, across=12, free_grain=True))
    assert plan_of(piece, shop, log()).turned == ("panel",)
    with pytest.raises(LayoutError, match="choose longer leaves"):
        plan_of(board(face("panel", along=110, across=12)), shop, log())


def test_like_pieces_share_the_leaves_of_a_flitch_alike(shop):
    pieces = [board(face(), name=f"board {n}") for n in (1, 2)]
    sheets = cost_sheets(pieces, replace(shop, flitches=(log(on_hand=1),)), ON)
    cash = [sheet.lines[0].bought_cents for sheet in sheets]
    assert sum(cash) == sheets[0].leaves[0].cost_cents
    assert max(cash) - min(cash) <= 1


def test_a_price_of_leaves_can_be_changed_and_drives_the_cost(shop):
    from pricebook.cost.drivers import what_drives
    from pricebook.cost.price_moves import price_change

    one = replace(shop, flitches=(log(),))
    (moved,) = price_change([board(face())], one, "log 1", 5800, ON)
    assert moved.cash_difference_cents == 1000
    drivers = what_drives(board(face()), one, ON)
    assert "price of log 1" in {driver.name for driver in drivers.full_cost}
