"""The work of laying veneer follows its form and its adhesive."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from pricebook.cost import cost_sheet
from pricebook.cost.compare import compare_species
from pricebook.cost.elapsed import elapsed_of
from pricebook.errors import SpecError
from pricebook.files import read_piece, read_shop

DATA = Path(__file__).parent.parent / "data"
ON = date(2026, 11, 10)
LAYING = {
    "lay veneer", "lay self-adhesive", "extra glue coat", "press veneer",
    "iron veneer", "flatten leaves", "joint leaves", "scrape tape",
}  # fmt: skip


@pytest.fixture(scope="module")
def shop():
    return read_shop(DATA / "shop")


def dresser(form="backed", condition="laminated board"):
    piece = read_piece(DATA / "pieces" / "low_dresser.toml")
    return replace(
        piece,
        veneer=replace(piece.veneer, form=form),
        arrival=replace(piece.arrival, condition=condition),
    )


def with_adhesive(shop, kind):
    return replace(shop, bench=replace(shop.bench, adhesive=kind))


def steps(sheet):
    return [line.operation for line in sheet.labour.lines if line.operation in LAYING]


@pytest.mark.parametrize(
    ("form", "adhesive", "condition", "found"),
    [
        ("backed", "contact cement", "laminated board", ["lay veneer"]),
        (
            "backed",
            "contact cement",
            "bare board",
            ["extra glue coat", "lay veneer"],
        ),
        ("self-adhesive", "contact cement", "bare board", ["lay self-adhesive"]),
        ("backed", "PVA glue", "bare board", ["lay veneer", "press veneer"]),
        ("backed", "iron-on PVA", "bare board", ["lay veneer", "iron veneer"]),
        (
            "raw",
            "hide glue",
            "laminated board",
            ["flatten leaves", "joint leaves", "lay veneer", "press veneer",
             "scrape tape"],
        ),
    ],
)  # fmt: skip
def test_the_work_follows_the_form_and_the_adhesive(
    shop, form, adhesive, condition, found
):
    sheet = cost_sheet(dresser(form, condition), with_adhesive(shop, adhesive), ON)
    assert steps(sheet) == found


def test_hours_compared_differ_by_form_as_their_minutes_do(shop):
    found = compare_species(dresser(), shop, ON)
    hours = {}
    for option in found.options:
        if option.species == "walnut":
            hours.setdefault(option.form, set()).add(round(option.hours, 6))
    rows = {row.key: row for row in shop.minutes}
    area = cost_sheet(dresser(), shop, ON).take_off.veneered_m2

    def minutes(key):
        return 1.05 * (rows[key].setup_min + area * rows[key].rate_min)

    (backed,), (peeled,), (raw,) = (
        hours[form] for form in ("backed", "self-adhesive", "raw")
    )
    saved = minutes("lay veneer") - minutes("lay self-adhesive")
    assert backed - peeled == pytest.approx(saved / 60)
    assert peeled < backed < raw


def test_the_hours_of_a_form_are_the_makers_own_to_change(shop):
    rows = tuple(
        replace(row, rate_min=2 * row.rate_min) if row.key == "joint leaves" else row
        for row in shop.minutes
    )
    slow = replace(shop, minutes=rows)
    before = cost_sheet(dresser("raw"), shop, ON).hours
    assert cost_sheet(dresser("raw"), slow, ON).hours > before


def test_joints_of_leaves_are_measured_on_the_faces_as_cut(shop):
    # Leaves as laid (test_leaf_choice): a top 38 in long of 4 leaves has 3 joints of
    # 38 in; two sides of 3 leaves 2 joints of 40 3/4 in each; the plinth of one leaf
    # none; five fronts cut from one block of 6 leaves, 39 1/16 in wide: 5 joints of
    # 35 in. 114 + 163 + 175 = 452 in; tape half as much again.
    sheet = cost_sheet(dresser("raw"), shop, ON)
    tape = next(line for line in sheet.lines if line.key == "veneer tape")
    assert tape.quantity == pytest.approx(1.5 * 452 * 0.0254)
    work = next(x for x in sheet.labour.lines if x.operation == "joint leaves")
    assert work.quantity == pytest.approx(452 * 0.0254)


def test_backing_veneer_under_self_adhesive_faces_is_still_glued(shop):
    piece = read_piece(DATA / "pieces" / "kitchen_cupboard.toml")
    peeled = replace(piece, veneer=replace(piece.veneer, form="self-adhesive"))
    sheet = cost_sheet(peeled, shop, ON)
    backs = [face for face in sheet.take_off.faces if face.veneer == "backing"]
    # both faces of the board and the veneer, 6.1 m2 a litre, a tenth for waste
    litres = 2 * sum(face.cut_m2 for face in backs) / 6.1 * 1.1
    glue = next(line for line in sheet.lines if line.group == "adhesive")
    assert glue.quantity == pytest.approx(litres)
    assert steps(sheet) == ["lay self-adhesive", "lay veneer"]


def test_pressed_veneer_dries_once_after_the_press(shop):
    glued = with_adhesive(shop, "PVA glue")
    sheet = cost_sheet(dresser(), glued, ON)
    plan = elapsed_of(sheet, glued, ON, date(2027, 2, 1))
    dries = {p.step.key: p.step.drying_min for p in plan.steps}
    assert (dries["lay veneer"], dries["press veneer"]) == (0, 1440)


def test_self_adhesive_veneer_too_lies_in_the_shop_before_it_is_laid(shop):
    sheet = cost_sheet(dresser("self-adhesive"), shop, ON)
    plan = elapsed_of(sheet, shop, ON, date(2027, 2, 1))
    laid = next(p for p in plan.steps if p.step.key == "lay self-adhesive")
    assert (laid.starts.date() - ON).days >= 2


def test_an_operation_without_minutes_is_refused_by_name(shop):
    rows = tuple(row for row in shop.minutes if row.key != "lay self-adhesive")
    with pytest.raises(SpecError, match='"lay self-adhesive" has no row of minutes'):
        cost_sheet(dresser("self-adhesive"), replace(shop, minutes=rows), ON)
