"""Pictures: no words collide or leave the page, same input gives same bytes."""

import ast
import re
import time
from dataclasses import replace
from datetime import date
from functools import partial
from itertools import combinations
from pathlib import Path

import matplotlib
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pricebook import charts
from pricebook.charts.lettering import readable
from pricebook.charts.style import house
from pricebook.commands.gallery import draw_pictures
from pricebook.cost.lines import CostLine, CostSheet
from pricebook.errors import LayoutError, ReportError, SpecError
from pricebook.forecast import Evening, grid, swings
from pricebook.labour import LabourPlan, Step, elapsed_plan
from pricebook.proceeds import Fixed, Share, split
from pricebook.proceeds import Rest as WhatIsLeft
from pricebook.rates import Settings, Sheet
from pricebook.records import EventTotals, LotOutcome, roll_up
from pricebook.takeoff import Face, TakeOff
from pricebook.veneer.layout import Layout, PlacedFace, Rest, SheetCut, SheetPlan

PACKAGE = Path(__file__).parent.parent / "pricebook"


def words_of(figure):
    """Every text of a figure that is drawn, with the rectangle it takes."""
    with house():
        figure.canvas.draw()
        renderer = figure.canvas.get_renderer()
        texts = [t for t in figure.findobj(match=lambda a: hasattr(a, "get_text"))]
        shown = [t for t in texts if t.get_visible() and t.get_text().strip()]
        return [(t.get_text(), t.get_window_extent(renderer)) for t in shown]


def assert_words_are_clear(figure):
    """No two texts overlap and none leaves the page, to half a pixel."""
    words, page = words_of(figure), figure.bbox
    for text, box in words:
        inside = (
            box.x0 >= page.x0 - 0.5
            and box.y0 >= page.y0 - 0.5
            and box.x1 <= page.x1 + 0.5
            and box.y1 <= page.y1 + 0.5
        )
        assert inside, f"{text!r} leaves the page: {box} of {page}"
    for (a, one), (b, other) in combinations(words, 2):
        over = min(one.x1, other.x1) - max(one.x0, other.x0)
        high = min(one.y1, other.y1) - max(one.y0, other.y0)
        assert min(over, high) <= 0.5, f"{a!r} meets {b!r}"


def sheet_of(along_mm, across_mm, **more):
    return Sheet(
        key="walnut-4x8",
        dated=date(2026, 1, 1),
        source="invented",
        species="walnut",
        form="backed",
        veneer="show",
        along_mm=along_mm,
        across_mm=across_mm,
        price_cents=7200,
        **more,
    )


def face_of(name, along_mm, across_mm, **more):
    given = {"piece": "Chest", "group": "faces", "overhang_mm": 0.0} | more
    return Face(
        name=name,
        along_mm=along_mm,
        across_mm=across_mm,
        veneer="show",
        species="walnut",
        **given,
    )


def placed(name, x, y, along, across, **more):
    return PlacedFace(
        face=face_of(name, along, across, **more),
        copy=1,
        along_at_mm=x,
        across_at_mm=y,
        along_mm=along,
        across_mm=across,
    )


def rest(x, y, along, across, usable):
    return Rest(
        along_at_mm=x,
        across_at_mm=y,
        along_mm=along,
        across_mm=across,
        usable=usable,
    )


def split_up(draw, box, depth, found):
    """Cut a rectangle edge to edge at random until it is a face or a rest."""
    x, y, along, across = box
    if depth == 0 or min(along, across) < 30 or draw(st.integers(0, 5)) == 0:
        found["leaves"].append(box)
        return
    share = draw(st.floats(0.03, 0.97))
    if draw(st.booleans()):
        at = along * share
        cut = SheetCut(direction="across", at_mm=x + at, start_mm=y, end_mm=y + across)
        parts = [(x, y, at, across), (x + at, y, along - at, across)]
    else:
        at = across * share
        cut = SheetCut(direction="along", at_mm=y + at, start_mm=x, end_mm=x + along)
        parts = [(x, y, along, at), (x, y + at, along, across - at)]
    found["cuts"].append(cut)
    for part in parts:
        split_up(draw, part, depth - 1, found)


names = st.one_of(
    st.text(st.characters(codec="utf-8"), min_size=1, max_size=120),
    st.text("abW ", min_size=1, max_size=200),
    st.sampled_from(["$x$", "=1+1", "<b>left</b>", "top\nof\nit", "W" * 150, "fi ﬂ"]),
)


@st.composite
def plans(draw):
    size = draw(st.sampled_from([(2438.4, 609.6), (2438.4, 1219.2), (300, 3000)]))
    found = {"cuts": [], "leaves": []}
    split_up(draw, (0.0, 0.0, *size), draw(st.integers(0, 6)), found)
    faces, rests = [], []
    for number, (x, y, along, across) in enumerate(found["leaves"]):
        if number == 0 or draw(st.integers(0, 3)):
            piece = draw(
                st.sampled_from(["Chest", "Chest", "A very long piece's name"])
            )
            faces.append(
                placed(
                    draw(names), x, y, along, across, piece=piece, centred=number == 1
                )
            )
        else:
            usable = draw(st.booleans())
            rests.append(rest(x, y, along, across, usable))
    return SheetPlan(
        number=draw(st.integers(1, 99)),
        sheet=sheet_of(*size),
        from_rack=draw(st.booleans()),
        placed=tuple(faces),
        cuts=tuple(found["cuts"]),
        rests=tuple(rests),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(plans(), st.sampled_from(["in", "mm"]))
def test_words_on_a_sheet_never_collide_and_never_leave_the_page(plan, lengths):
    assert_words_are_clear(charts.layout_figure(plan, lengths))


def layout_of(*plans):
    return Layout(sheets=plans, least_possible_cents=1)


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(plans(), min_size=1, max_size=6))
def test_words_of_an_overview_never_collide(some):
    numbered = [replace(plan, number=i) for i, plan in enumerate(some, start=1)]
    assert_words_are_clear(charts.layout_overview(layout_of(*numbered), "in"))


def test_the_check_of_words_finds_words_that_collide_or_leave_the_page():
    figure = charts.layout_figure(one_sheet(), "in")
    page = figure.axes[0]
    page.text(200, 60, "one", ha="center")
    page.text(203, 61, "other", ha="center")
    with pytest.raises(AssertionError, match="meets"):
        assert_words_are_clear(figure)
    figure = charts.layout_figure(one_sheet(), "in")
    figure.axes[0].text(540, 20, "far out")
    with pytest.raises(AssertionError, match="leaves the page"):
        assert_words_are_clear(figure)


def one_sheet(**more):
    """Return a sheet with two faces, a rest to keep, a rest of waste, three cuts."""
    faces = (
        placed("left side", 0, 0, 1000, 500, **more),
        placed("right side", 1000, 0, 1000, 500),
    )
    rests = (
        Rest(
            along_at_mm=2000,
            across_at_mm=0,
            along_mm=438.4,
            across_mm=609.6,
            usable=True,
        ),
        Rest(
            along_at_mm=0,
            across_at_mm=500,
            along_mm=2000,
            across_mm=109.6,
            usable=False,
        ),
    )
    cuts = (
        SheetCut(direction="across", at_mm=2000, start_mm=0, end_mm=609.6),
        SheetCut(direction="along", at_mm=500, start_mm=0, end_mm=2000),
        SheetCut(direction="across", at_mm=1000, start_mm=0, end_mm=500),
    )
    return SheetPlan(
        number=1,
        sheet=sheet_of(2438.4, 609.6),
        from_rack=False,
        placed=faces,
        cuts=cuts,
        rests=rests,
    )


def said(figure):
    return [re.sub(r"\s+", " ", text) for text, _ in words_of(figure)]


def test_a_sheet_tells_names_sizes_as_cut_cut_order_and_offcuts():
    words = said(charts.layout_figure(one_sheet(), "mm"))
    assert "left side 1000 mm x 500 mm" in words
    assert "offcut 438 mm x 610 mm" in words
    assert "2438 mm along the grain" in words
    assert {"1", "2", "3"} <= set(words)
    assert any("overhang included" in text for text in words)
    assert not any("centre of the figure" in text for text in words)


def test_the_centre_line_is_drawn_when_a_face_is_centred():
    words = said(charts.layout_figure(one_sheet(centred=True), "mm"))
    assert "centre of the figure" in words


def test_a_face_too_small_for_its_name_is_explained_below_the_sheet():
    tiny = placed("a face with quite a long name", 0, 0, 90, 90)
    plan = replace(one_sheet(), placed=(tiny,), cuts=(), rests=())
    words = said(charts.layout_figure(plan, "mm"))
    assert "A: a face with quite a long name, 90 mm x 90 mm" in words
    assert "A" in words


def test_a_face_too_small_for_a_letter_is_told_by_its_place():
    speck = placed("speck", 500, 200, 5, 5)
    plan = replace(one_sheet(), placed=(speck,), cuts=(), rests=())
    words = " ".join(said(charts.layout_figure(plan, "mm")))
    assert "A: speck, 5 mm x 5 mm, corner at 500 mm along and 200 mm across" in words


def test_the_drawing_is_to_scale():
    figure = charts.layout_figure(one_sheet(), "mm")
    boxes = [
        path.get_extents()
        for collection in figure.axes[0].collections
        for path in collection.get_paths()
    ]
    sizes = {(round(box.width), round(box.height)) for box in boxes}
    scale = (547 - 24 - 46) / 2438.4  # the page less its edges and the bands
    for along, across in ((2438.4, 609.6), (1000, 500), (438.4, 609.6)):
        assert (round(along * scale), round(across * scale)) in sizes


def test_a_layout_without_sheets_is_refused_as_drawings_and_told_as_overview():
    with pytest.raises(LayoutError, match="no sheet to draw"):
        charts.layout_figures(layout_of(), "in")
    assert charts.title_of(charts.layout_overview(layout_of(), "in")) == (
        "No sheet is needed."
    )


def test_sheets_cut_alike_stand_once_on_the_overview():
    twice = layout_of(one_sheet(), replace(one_sheet(), number=2))
    words = said(charts.layout_overview(twice, "in"))
    assert "Sheets 1, 2, all alike: walnut-4x8" in words


def cost_of(lines, piece="Chest"):
    """Return a cost sheet that holds these lines and nothing else that is drawn."""
    empty = TakeOff(
        piece=piece,
        faces=(),
        edges=(),
        holes=(),
        hardware=(),
        coated=(),
        boards=(),
        enclosed_l=0.0,
        one_sided=(),
    )
    return CostSheet(
        piece=piece,
        on=date(2026, 11, 20),
        settings=Settings(
            shop="bench",
            currency="$",
            lengths="in",
            paper="A4",
            paid_cents_per_hour=0,
            given_cents_per_hour=0,
            overhead_cents_per_hour=0,
            price_age_days=365,
        ),
        lines=tuple(lines),
        take_off=empty,
        layout=layout_of(),
        banding=None,
        finish=None,
        labour=LabourPlan(lines=()),
        mass_kg=None,
        cautions=(),
    )


def line(group, used_cents, basis="paid", item="walnut"):
    return CostLine(
        group=group,
        item=item,
        key="walnut-4x8",
        quantity=1.5,
        unit="sheet",
        packs="2 sheets",
        bought_cents=used_cents,
        used_cents=used_cents,
        left="",
        left_cents=0,
        basis=basis,
        how="by hand",
        source="invented",
    )


LINES = [line("veneer", 9772), line("labour", 25781, "time given"), line("gifts", 1500)]
DRAWN = Evening(totals_cents=tuple(range(100_000, 300_000, 137)), lots=())
COATS = [
    Step(key="coat", name="brush a coat", work_min=60, drying_min=480),
    Step(
        key="fit",
        name="fit hardware " * 15,
        work_min=9,
    ),
]
PLAN = elapsed_plan(COATS * 3, date(2026, 5, 4), date(2026, 5, 30), session_min=120)
LATE = elapsed_plan(COATS, date(2026, 5, 4), date(2026, 5, 4), session_min=120)
FAR = elapsed_plan(COATS, date(2026, 5, 4), date(2027, 5, 4), session_min=120)
LOTS = [
    LotOutcome(
        lot=name,
        estimate_low_cents=low,
        estimate_high_cents=low + 9000,
        hammer_cents=hammer,
    )
    for name, low, hammer in (
        ("1", 20000, 25000),
        ("2 " + "bookcase with a very long title " * 4, 10000, None),
        ("3", 0, 0),
        ("4", 10000, 1_000_000),
    )
]


def totals(name, year, raised, cost):
    return EventTotals(
        name=name,
        on=date(year, 4, 18),
        raised_cents=raised,
        cost_cents=cost,
        lots_sold=3,
        lots_passed=0,
    )


YEARS = [totals("spring sale", 2025, 0, 12_100), totals("spring sale", 2026, 90_000, 1)]
SWINGS = swings(
    {"hammer": 30_000.0, "hours": 6.0, "idle": 1.0},
    {"hammer": (20_000, 40_000), "hours": (5, 9), "idle": (0, 2)},
    lambda x: x["hammer"] - 2200 * x["hours"],
)
GRID = grid(
    {"hammer": 1.0, "hours of everybody together": 1.0},
    "hammer",
    [20_000, 30_000],
    "hours of everybody together",
    list(range(1, 9)),
    lambda x: x["hammer"] - 2200 * x["hours of everybody together"],
)
RUNGS = {None: 0.05, 20_000: 0.5, 22_000: 0.25, 25_000: 0.15, 80_000: 0.05}
SPLIT = split(
    40_000,
    [
        Fixed("auctioneer of the evening " * 4, 3500),
        Share("guild", 0.05),
        WhatIsLeft("Quillback Bay Furniture Share"),
    ],
)
PICTURES = {
    "cost": lambda: charts.cost_by_group(cost_of(LINES)),
    "a cost of nothing": lambda: charts.cost_by_group(cost_of([])),
    "a cost of 0": lambda: charts.cost_by_group(cost_of([line("veneer", 0)])),
    "one cent": lambda: charts.cost_by_group(cost_of([line("veneer", 1)])),
    "a fortune": lambda: charts.cost_by_group(
        cost_of([line("veneer", 123_456_789_01), line("filler", 1)])
    ),
    "a strange name": lambda: charts.cost_by_group(cost_of(LINES, "<b>$x$ \n 木" * 30)),
    "rungs": lambda: charts.price_rungs(
        RUNGS,
        break_evens={"used up": 7_000, "full cost": 24_000, "cash repaid": 7_100},
        opening_cents=20_000,
        reserve_cents=25_000,
        estimate_cents=(22_000, 30_000),
        currency="$",
    ),
    "one rung": lambda: charts.price_rungs({20_000: 1.0}),
    "split": lambda: charts.money_goes(SPLIT, "$"),
    "a split of nothing": lambda: charts.money_goes(split(0, [WhatIsLeft("charity")])),
    "evening": lambda: charts.evening(DRAWN, 210_000, "$"),
    "no target": lambda: charts.evening(DRAWN),
    "a far target": lambda: charts.evening(DRAWN, 1_000_000, "$"),
    "an evening of one total": lambda: charts.evening(
        Evening(totals_cents=(500, 500), lots=()), 0
    ),
    "nothing raised": lambda: charts.evening(Evening(totals_cents=(0, 0), lots=())),
    "estimates": lambda: charts.estimate_against_hammer(LOTS, "$"),
    "no lots": lambda: charts.estimate_against_hammer([]),
    "many lots": lambda: charts.estimate_against_hammer(LOTS * 15),
    "years": lambda: charts.year_by_year(YEARS, "$"),
    "a year": lambda: charts.year_by_year([roll_up(YEARS[1:])], "$"),
    "no year": lambda: charts.year_by_year([]),
    "plan": lambda: charts.elapsed(PLAN),
    "a late plan": lambda: charts.elapsed(LATE),
    "a far auction": lambda: charts.elapsed(FAR),
    "swings": lambda: charts.swings(SWINGS, words="Left over ($)"),
    "no swings": lambda: charts.swings([]),
    "grid": lambda: charts.grid(GRID),
    "sheet": lambda: charts.layout_figure(one_sheet(centred=True), "in"),
    "overview": lambda: charts.layout_overview(layout_of(one_sheet()), "in"),
}


@pytest.mark.parametrize("name", PICTURES)
def test_no_words_of_a_picture_collide_or_leave_the_page(name):
    assert_words_are_clear(PICTURES[name]())


@pytest.mark.parametrize("name", PICTURES)
def test_the_same_input_gives_the_same_bytes(name):
    one, other = PICTURES[name](), PICTURES[name]()
    assert charts.png_bytes(one) == charts.png_bytes(other)
    assert charts.svg_bytes(one) == charts.svg_bytes(other)
    assert charts.png_bytes(one) == charts.png_bytes(one)


@pytest.mark.parametrize("name", PICTURES)
def test_a_title_is_a_sentence_and_stands_on_the_picture(name):
    figure = PICTURES[name]()
    title = charts.title_of(figure)
    assert re.match(r"[A-Z0-9<]", title)
    assert title.endswith(".")
    drawn = figure.texts[0].get_text().replace("\n", " ")
    assert drawn.split()[:2] == readable(title).split()[:2]


def test_settings_of_the_reader_change_nothing():
    before = charts.png_bytes(PICTURES["cost"]())
    with matplotlib.rc_context({"font.size": 30, "axes.facecolor": "red"}):
        assert charts.png_bytes(PICTURES["cost"]()) == before


def test_every_kind_of_bar_has_its_own_hatch():
    figure = PICTURES["cost"]()
    hatches = {bar.get_hatch() or "" for bar in figure.axes[0].patches}
    assert len(hatches) == 2  # paid, time given


def test_a_bar_is_as_long_as_its_amount():
    figure = PICTURES["cost"]()
    widths = sorted(bar.get_width() for bar in figure.axes[0].patches)
    assert [width for width in widths if width] == [1500, 9772, 25781]


def test_shares_of_evenings_sum_to_1_and_split_at_the_target():
    figure = PICTURES["evening"]()
    bars = figure.axes[0].patches
    below = sum(b.get_height() for b in bars if b.get_hatch())
    assert sum(bar.get_height() for bar in bars) == pytest.approx(1)
    assert below == pytest.approx(1 - DRAWN.chance_of(210_000))


def test_axes_name_their_unit():
    for name in ("cost", "rungs", "split", "evening", "estimates", "years"):
        assert "($)" in PICTURES[name]().axes[0].get_xlabel()


def test_no_window_is_ever_opened():
    trees = [ast.parse(p.read_text(encoding="utf-8")) for p in PACKAGE.rglob("*.py")]
    names = {
        name
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in [getattr(node, "module", "") or "", *(a.name for a in node.names)]
    }
    assert any("matplotlib" in name for name in names)
    assert not any("pyplot" in name for name in names)


def test_a_picture_is_saved_as_png_or_svg_and_nothing_else(tmp_path):
    figure = PICTURES["cost"]()
    assert charts.save(figure, tmp_path / "a.png").read_bytes() == (
        charts.png_bytes(figure)
    )
    assert b"<svg" in charts.save(figure, tmp_path / "b.svg").read_bytes()
    with pytest.raises(ReportError, match=r"written as \.png or \.svg"):
        charts.save(figure, tmp_path / "c.pdf")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a.png", "b.svg"]


def test_what_is_no_picture_is_refused():
    with pytest.raises(SpecError, match="is no picture"):
        charts.png_bytes("cost")


def test_rungs_without_a_price_or_with_a_wrong_chance_are_refused():
    with pytest.raises(SpecError, match="no rung to draw"):
        charts.price_rungs({None: 1.0})
    with pytest.raises(SpecError, match="between 0 and 1"):
        charts.price_rungs({20_000: float("nan")})


def test_the_name_above_a_grid_stands_clear_of_the_title():
    figure = charts.grid(GRID)
    figure.canvas.draw()
    page = figure.axes[0]
    name = next(t for t in page.texts if t.get_text() == GRID.column_name)
    gap = figure.texts[0].get_window_extent().y0 - name.get_window_extent().y1
    assert gap * 72 / figure.dpi >= 6  # points, a gap that the eye sees


def test_an_auction_off_the_picture_is_said_to_be_to_the_right_of_it():
    assert "auction on 2027-05-04, to the right of this picture" in said(
        charts.elapsed(FAR)
    )
    assert "auction on 2026-05-04" in said(charts.elapsed(LATE))


def test_backing_is_said_once_of_a_sheet_of_backing():
    plan = one_sheet()
    for species in ("any backing", "backing", "any Backing"):
        sheet = replace(plan.sheet, species=species, veneer="backing")
        title = charts.title_of(charts.layout_figure(replace(plan, sheet=sheet), "in"))
        assert f", {species} veneer, gives " in title
    poplar = replace(plan.sheet, species="poplar", veneer="backing")
    title = charts.title_of(charts.layout_figure(replace(plan, sheet=poplar), "in"))
    assert ", poplar backing veneer, gives " in title


def test_a_grid_too_wide_for_a_page_is_refused():
    wide = replace(GRID, column_values=tuple(range(60)), results=((1e9,) * 60,) * 2)
    with pytest.raises(SpecError, match="give fewer values"):
        charts.grid(wide)


def test_rungs_left_off_are_counted_in_the_title():
    chances = {20_000: 0.9, 30_000: 0.097, 900_000: 0.003}
    title = charts.title_of(charts.price_rungs(chances))
    assert title.endswith("and above 300.00 0.3 %.")


def test_a_picture_of_swings_names_what_is_moved():
    title = charts.title_of(charts.swings(SWINGS, words="Left over ($)"))
    assert " moves the left over most: from " in title
    still = charts.title_of(charts.swings([]))
    assert still == "None of the figures moves the full cost."


def test_the_pictures_of_the_demo_are_drawn_the_same_twice(tmp_path):
    data, told = PACKAGE.parent / "data", []
    draw = partial(draw_pictures, data=data, on=date(2026, 11, 20))
    one = draw(tmp_path / "one", progress=lambda *step: told.append(step))
    other = draw(tmp_path / "other")
    assert [p.read_bytes() for p in one] == [p.read_bytes() for p in other]
    assert [name for _, _, name in told] == [path.stem for path in one]
    assert {"layout_sheet_1", "cost_by_group", "evening"} <= {p.stem for p in one}


@pytest.mark.benchmark
def test_how_long_a_picture_takes(capsys):
    lines = []
    for name, draw in PICTURES.items():
        charts.png_bytes(draw())
        started = time.perf_counter()
        charts.png_bytes(draw())
        lines.append(f"{name:30} {1000 * (time.perf_counter() - started):6.0f} ms")
    with capsys.disabled():
        print("\nA picture with its PNG, warm:", *lines, sep="\n")
