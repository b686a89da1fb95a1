"""Data frames, tables to look at, and sentences: exact columns, sums and escapes."""

import re
import subprocess
import sys
from dataclasses import replace
from datetime import date
from html.parser import HTMLParser

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pricebook import frames
from pricebook.bidding import Outlook
from pricebook.cost.lines import BASES, GROUPS, CostLine, CostSheet
from pricebook.errors import SpecError
from pricebook.event import Event, Lot, Value
from pricebook.forecast import Evening, LotForecast, grid, swings
from pricebook.frames.table import Head, Row, Table
from pricebook.labour import LabourPlan, Step, elapsed_plan, plan_labour
from pricebook.price import Comparable, PieceCosts, PricePolicy, advise_price
from pricebook.proceeds import CardFee, Fixed, split
from pricebook.proceeds import Rest as WhatIsLeft
from pricebook.rates import Minutes, Settings, Sheet, Work
from pricebook.records import EventTotals, LotOutcome, roll_up
from pricebook.takeoff import Edge, Face, TakeOff
from pricebook.veneer.layout import Layout, PlacedFace, Rest, SheetCut, SheetPlan

DAY = date(2026, 11, 20)
FACE = Face(
    name="top",
    piece="Chest",
    group="top",
    along_mm=1000.0,
    across_mm=500.0,
    count=2,
    overhang_mm=12.7,
    veneer="show",
    species="walnut",
    centred=True,
)
EDGE = Edge(
    name="front edge",
    piece="Chest",
    length_mm=900.0,
    width_mm=19.0,
    end_allowance_mm=20.0,
    species="walnut",
)
TAKE_OFF = TakeOff(
    piece="Chest",
    faces=(FACE,),
    edges=(EDGE,),
    holes=(),
    hardware=(),
    coated=(),
    boards=(),
    enclosed_l=0.0,
    one_sided=(),
)
PLAN = SheetPlan(
    number=1,
    sheet=Sheet(
        key="walnut-4x8",
        dated=date(2026, 9, 14),
        source="invented",
        species="walnut",
        form="backed",
        veneer="show",
        along_mm=2438.4,
        across_mm=1219.2,
        price_cents=12800,
    ),
    from_rack=False,
    placed=(
        PlacedFace(
            face=FACE,
            copy=1,
            along_at_mm=0.0,
            across_at_mm=0.0,
            along_mm=1025.4,
            across_mm=525.4,
        ),
    ),
    cuts=(SheetCut(direction="across", at_mm=1025.4, start_mm=0.0, end_mm=1219.2),),
    rests=(
        Rest(
            along_at_mm=1025.4,
            across_at_mm=0.0,
            along_mm=1413.0,
            across_mm=1219.2,
            usable=True,
        ),
        Rest(
            along_at_mm=0.0,
            across_at_mm=525.4,
            along_mm=1025.4,
            across_mm=10.0,
            usable=False,
        ),
    ),
)
LAYOUT = Layout(sheets=(PLAN,), least_possible_cents=12800)
NOWHERE = Layout(sheets=(), least_possible_cents=0)
LABOUR = plan_labour(
    [Work(operation="lay", quantity=3.4, unit="m2", how="8 faces")],
    [
        Minutes(
            key="lay",
            name="lay veneer",
            setup_min=20,
            rate_min=50,
            unit="m2",
            people=2,
            dated=date(2026, 1, 1),
            source="invented",
        )
    ],
    paid_cents_per_hour=0,
    given_cents_per_hour=2400,
)
ELAPSED = elapsed_plan(
    [Step(key="coat", name="brush a coat", work_min=60, drying_min=480)] * 2,
    date(2026, 5, 4),
    date(2026, 5, 9),
    session_min=120,
)


def line(group="veneer", used_cents=7200, basis="paid", **more):
    given = {
        "item": "walnut",
        "key": "walnut-4x8",
        "quantity": 1.5,
        "unit": "sheet",
        "packs": "2 sheets",
        "bought_cents": 14400,
        "left": "half a sheet",
        "left_cents": 100,
        "how": "8 faces",
        "source": "invented",
    } | more
    return CostLine(group=group, used_cents=used_cents, basis=basis, **given)


def sheet_of(*lines):
    return CostSheet(
        piece="Chest",
        on=DAY,
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
        take_off=TAKE_OFF,
        layout=LAYOUT,
        banding=None,
        finish=None,
        labour=LabourPlan(lines=()),
        mass_kg=None,
        cautions=(),
    )


SHEET = sheet_of(
    line(),
    line(item="backing", used_cents=800, bought_cents=0),
    line("labour", 5000, "time given", bought_cents=0, left="", left_cents=0),
    line("gifts", 1500, "gift in kind", bought_cents=0, left="", left_cents=0),
)
RUNGS = Outlook(rungs=((10_000, 0.5), (20_000, 0.25)), no_sale=0.25)
ADVICE = advise_price(
    PieceCosts(9_000, 7_200, 21_500, 6.5),
    PricePolicy(bidders=4, unsold_value_cents=5_000),
    on=date(2026, 4, 1),
    by="the maker",
    comparables=[
        Comparable(cents, date(2026, 3, 14)) for cents in (18_000, 22_000, 26_000)
    ],
)
SPLIT = split(
    40_000,
    [Fixed("auctioneer", 3500), CardFee("card", 0.029, 30), WhatIsLeft("charity")],
)
EVENING = Evening(
    totals_cents=(10_000, 20_000, 30_000, 40_000),
    lots=(LotForecast(name="1", mean_cents=900, sd_cents=10, sold_share=0.5),),
)
EVENT = Event(
    key="spring",
    name="Spring sale",
    charity="the Share",
    on=date(2027, 4, 17),
    bidding_opens=pd.Timestamp("2027-04-17 18:00").to_pydatetime(),
    deductions=(WhatIsLeft("the Share"),),
    lots=(
        Lot(
            key="1",
            title="Bookcase",
            opening_cents=10000,
            value=Value(cents=20000, method="two sales", by="me", on=date(2027, 2, 1)),
        ),
    ),
)
LOTS = [
    LotOutcome(
        lot=str(number),
        estimate_low_cents=10000,
        estimate_high_cents=20000,
        hammer_cents=hammer,
    )
    for number, hammer in enumerate((5000, 10000, 20001, None), start=1)
]
SPRING = EventTotals(
    name="spring",
    on=date(2026, 4, 18),
    raised_cents=500_000,
    cost_cents=125_000,
    lots_sold=11,
    lots_passed=1,
)
BEFORE = replace(SPRING, on=date(2025, 4, 19), raised_cents=0, cost_cents=1_000)
SWINGS = swings(
    {"hammer": 320.0, "fee": 0.05},
    {"fee": (0.0, 0.1), "hammer": (220, 420)},
    lambda x: x["hammer"] * (1 - x["fee"]),
)
GRID = grid(
    {"hammer": 320.0, "hours": 6.0},
    "hammer",
    [300, 400],
    "hours",
    [5, 6, 7],
    lambda x: x["hammer"] - x["hours"] * 22,
)

EXACT = {
    "cost": (
        frames.cost_frame(SHEET),
        "group string, item string, quantity float64, unit string, packs string, "
        "bought_cents int64, used_cents int64, left string, left_cents int64, "
        "basis string, how string, source string",
    ),
    "groups": (
        frames.groups_frame(SHEET),
        "group string, paid_cents int64, gift_in_kind_cents int64, "
        "time_given_cents int64, together_cents int64",
    ),
    "left": (frames.left_frame(SHEET), "item string, left string, left_cents int64"),
    "faces": (
        frames.faces_frame(TAKE_OFF),
        "face string, count int64, along_mm float64, across_mm float64, net string, "
        "as_cut string, cut_m2 float64, veneer string, species string, run string, "
        "centred bool",
    ),
    "edges": (
        frames.edges_frame(TAKE_OFF),
        "edge string, count int64, length_mm float64, width_mm float64, "
        "end_allowance_mm float64, species string",
    ),
    "layout": (
        frames.layout_frame(LAYOUT),
        "sheet int64, stock string, piece string, face string, along_at_mm float64, "
        "across_at_mm float64, along_mm float64, across_mm float64, as_cut string",
    ),
    "sheets": (
        frames.sheets_frame(LAYOUT),
        "sheet int64, stock string, from string, along_mm float64, across_mm float64, "
        "faces int64, worth_cents int64, area_m2 float64, faces_m2 float64, "
        "kept_m2 float64",
    ),
    "cuts": (
        frames.cuts_frame(LAYOUT),
        "sheet int64, cut int64, direction string, at_mm float64, start_mm float64, "
        "end_mm float64",
    ),
    "offcuts": (
        frames.offcuts_frame(LAYOUT),
        "sheet int64, stock string, along_mm float64, across_mm float64, "
        "area_m2 float64",
    ),
    "labour": (
        frames.labour_frame(LABOUR),
        "step string, quantity float64, unit string, people int64, "
        "person_min float64, drying_min float64, pay string, amount_cents int64, "
        "how string, source string",
    ),
    "elapsed": (
        frames.elapsed_frame(ELAPSED),
        "step string, work_min float64, drying_min float64, sessions int64, "
        "starts_on datetime64[s], ends_on datetime64[s], dry_on datetime64[s]",
    ),
    "advice": (
        frames.advice_frame(ADVICE),
        "figure string, amount_cents Int64, reason string",
    ),
    "rungs": (
        frames.rungs_frame(RUNGS),
        "price_cents Int64, chance_share float64, reached_share float64",
    ),
    "split": (
        frames.split_frame(SPLIT),
        "line string, payee string, base_cents int64, claim_cents int64, "
        "amount_cents int64, short_cents int64, charged_share float64, how string",
    ),
    "forecast": (frames.forecast_frame(EVENING), "figure string, total_cents int64"),
    "forecast lots": (
        frames.forecast_lots_frame(EVENING),
        "lot string, mean_cents int64, sd_cents int64, sold_share float64",
    ),
    "event": (
        frames.event_frame(EVENT),
        "lot string, title string, maker string, fair_market_value_cents Int64, "
        "estimate_low_cents Int64, estimate_high_cents Int64, "
        "opening_bid_cents int64, reserve_cents Int64",
    ),
    "estimates": (
        frames.estimates_frame(LOTS),
        "lot string, estimate_low_cents int64, estimate_high_cents int64, "
        "hammer_cents Int64, outcome string",
    ),
    "years": (
        frames.years_frame([BEFORE, SPRING]),
        "year string, raised_cents int64, spent_cents int64, net_cents int64, "
        "gifts_in_kind_cents int64, time_given_cents int64, "
        "cost_to_raise_a_dollar float64",
    ),
    "swings": (
        frames.swings_frame(SWINGS),
        "figure string, low float64, high float64, at_low float64, at_high float64, "
        "swing float64",
    ),
    "grid": (
        frames.grid_frame(GRID),
        "hammer float64, hours float64, result float64",
    ),
}
EMPTY = {
    "cost": frames.cost_frame(sheet_of()),
    "left": frames.left_frame(sheet_of()),
    "layout": frames.layout_frame(NOWHERE),
    "cuts": frames.cuts_frame(NOWHERE),
    "offcuts": frames.offcuts_frame(NOWHERE),
    "labour": frames.labour_frame(LabourPlan(lines=())),
    "estimates": frames.estimates_frame([]),
    "years": frames.years_frame([]),
    "swings": frames.swings_frame([]),
}


@pytest.mark.parametrize("name", EXACT)
def test_a_frame_has_exactly_its_columns_and_dtypes(name):
    frame, columns = EXACT[name]
    found = ", ".join(f"{column} {frame[column].dtype}" for column in frame.columns)
    assert found == columns
    assert isinstance(frame.index, pd.RangeIndex)
    assert len(frame)


@pytest.mark.parametrize("name", EMPTY)
def test_a_frame_without_rows_keeps_its_columns_and_dtypes(name):
    full, empty = EXACT[name][0], EMPTY[name]
    assert len(empty) == 0
    assert dict(empty.dtypes) == dict(full.dtypes)


def test_frames_agree_with_the_values_they_show():
    assert frames.cost_frame(SHEET)["bought_cents"].sum() == SHEET.cash_to_buy_cents
    groups = frames.groups_frame(SHEET)
    assert groups["together_cents"].sum() == SHEET.full_cost_cents
    assert groups["paid_cents"].sum() == SHEET.used_up_cents
    assert frames.left_frame(SHEET)["left_cents"].sum() == SHEET.left_cents
    assert frames.split_frame(SPLIT)["amount_cents"].sum() == SPLIT.charged_cents
    assert frames.split_frame(SPLIT)["charged_share"].sum() == pytest.approx(1)
    assert frames.faces_frame(TAKE_OFF)["cut_m2"].sum() == TAKE_OFF.cut_m2
    assert list(frames.rungs_frame(RUNGS)["reached_share"]) == [1.0, 0.75, 0.25]
    assert list(frames.years_frame([BEFORE, SPRING])["net_cents"]) == [-1000, 375_000]


def test_lengths_are_printed_in_the_readers_unit():
    assert frames.faces_frame(TAKE_OFF, "mm")["as_cut"][0] == "1025 mm x 525 mm"
    assert frames.layout_frame(LAYOUT, "in")["as_cut"][0] == "40 3/8 in x 20 11/16 in"


amounts = st.integers(0, 10**9)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(GROUPS), st.sampled_from(BASES), amounts)))
def test_printed_subtotals_add_up_to_the_printed_lines(drawn):
    sheet = sheet_of(
        *(
            line(group, cents, basis)
            for group, basis, cents in sorted(drawn, key=lambda x: GROUPS.index(x[0]))
        )
    )
    table = frames.cost_table(sheet)
    column = [head.words for head in table.heads].index("used ($)")
    running, seen = 0, 0
    for row in table.rows:
        cents = row.cells[column].replace(",", "").replace(".", "")
        if row.kind == "group":
            running, seen = 0, 0
        elif row.kind == "row" and cents:
            running, seen = running + int(cents), seen + 1
        elif row.kind == "subtotal":
            assert seen > 1
            assert int(cents) == running
    full = next(row for row in table.rows if row.cells[0].startswith("full cost"))
    assert full.cells[column] == f"{sheet.full_cost_cents / 100:,.2f}"


def test_the_cost_table_has_groups_subtotals_totals_by_basis_and_a_source():
    text = str(frames.cost_table(SHEET))
    assert "veneer, together" in text
    assert "labour, together" not in text  # one line needs no subtotal
    for words in ("used up", "gifts in kind", "time given", "full cost"):
        assert words in text
    assert text.endswith("Prices as of 2026-11-20: invented.")


def test_a_subtotal_over_several_bases_says_so():
    mixed = sheet_of(line("labour", 100), line("labour", 200, "time given"))
    assert "labour, together (paid and time given)" in str(frames.cost_table(mixed))


class Words(HTMLParser):
    """Collect the tags and the words of a page."""

    def __init__(self):
        super().__init__()
        self.tags, self.words, self.styles = [], [], {}

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.last = dict(attrs)

    def handle_data(self, data):
        self.words.append(data)
        self.styles[data] = self.last.get("style", "")


def read(table):
    page = Words()
    page.feed(table._repr_html_())
    return page


TYPED = [
    "<b>x</b>",
    "=1+1",
    "a & b",
    "'quoted' \"twice\"",
    "<script>go()</script>",
    "木",
]


@pytest.mark.parametrize("typed", TYPED)
def test_what_a_person_typed_is_shown_as_typed(typed):
    table = Table(
        title=typed,
        heads=(Head(typed), Head("used", right=True)),
        rows=(Row((typed, "1")), Row((typed, ""), "group"), Row((typed, "2"), "total")),
        note=typed,
    )
    page = read(table)
    assert page.words.count(typed) == 6
    assert not {"b", "script"} & set(page.tags)
    assert str(table).count(typed) == 6


@settings(max_examples=50, deadline=None)
@given(st.text(st.characters(codec="utf-8", exclude_characters="\r"), min_size=1))
def test_no_text_becomes_html(typed):
    page = read(Table(heads=(Head("item"),), rows=(Row((typed,)),)))
    assert "".join(page.words) == f"item{typed}"


def test_figures_stand_to_the_right_with_thousands_and_cents():
    sheet = sheet_of(line(used_cents=123_456_789))
    page = read(frames.groups_table(sheet))
    assert "text-align:right" in page.styles["1,234,567.89"]
    assert "text-align:left" in page.styles["veneer"]
    assert {"caption", "thead", "th", "tfoot"} <= set(page.tags)


def test_every_unit_is_printed_in_its_own_way():
    frame = pd.DataFrame(
        {
            "what": ["a"],
            "price_cents": [123450],
            "side_mm": [603.25],
            "cut_m2": [0.09290304],
            "work_min": [90.4],
            "drying_min": [10080.0],
            "work_hours": [1.5],
            "gain_share": [0.125],
            "hardness_n": [6450.0],
            "made_on": [pd.Timestamp("2026-11-20")],
            "count": [1200],
            "quantity": [2.5],
            "centred": [True],
        }
    )
    table = frames.shown(frame, currency="$", lengths="in")
    assert table.rows[0].cells == (
        *("a", "1,234.50", "23 3/4 in", "1.0", "90", "7 days", "1.5", "12.5 %"),
        *("6,450", "2026-11-20", "1,200", "2.5", "yes"),
    )
    assert [head.words for head in table.heads] == [
        *("what", "price ($)", "side", "cut (sq ft)", "work (min)"),
        *(
            "drying",
            "work (h)",
            "gain",
            "hardness (N)",
            "made",
            "count",
            "quantity",
            "centred",
        ),
    ]
    metric = frames.shown(frame, lengths="mm").rows[0].cells
    assert metric[2:4] == ("603 mm", "0.09")


def test_drying_is_told_as_one_says_it_and_added_up():
    frame = pd.DataFrame({"step": list("abcd"), "drying_min": [0.0, 45, 1080, 315]})
    table = frames.shown(frame, total=True)
    assert [row.cells[1] for row in table.rows] == [
        "",
        "45 min",
        "18 h",
        "5.25 h",
        "24 h",
    ]
    assert frame["drying_min"].sum() == 1440  # the frame keeps its minutes


def test_words_of_a_sum_run_on_over_blank_cells_and_widen_no_column():
    words = "full cost: used up, gifts and time"
    sheet = sheet_of(line("veneer", 100), line("veneer", 200))
    table = frames.cost_table(sheet)
    lines = str(table).splitlines()
    head = next(one for one in lines if one.startswith("item"))
    assert head.index("quantity") < len(words)  # the words reach past the items
    total = next(one for one in lines if one.startswith(words))
    used = head.index("used ($)") + len("used ($)")
    assert total[used - 4 : used] == "3.00"
    assert "<th scope='row' colspan='4' style" in table._repr_html_()
    columns = len(table.heads)
    for row in table._repr_html_().split("<tr>")[1:]:
        spans = re.findall(r"<t[hd][^>]*colspan='(\d+)'", row)
        cells = len(re.findall(r"<t[hd][ >]", row)) - len(spans)
        assert cells + sum(map(int, spans)) == columns, row


@pytest.mark.parametrize("kind", ["subtotal", "total"])
def test_long_words_of_a_sum_push_its_figures_only_as_far_as_they_reach(kind):
    heads = (Head("a"), Head("b"), Head("c", right=True))
    words = "a very long name of a sum"
    table = Table(heads=heads, rows=(Row(("x", "y", "1")), Row((words, "", "2"), kind)))
    lines = str(table).splitlines()
    assert lines[-1] == f"{words}  2"
    assert {len(one) for one in lines} == {len(words) + 3}


def test_a_missing_value_is_a_dash_and_an_empty_frame_says_so():
    unsold = frames.shown(frames.estimates_frame(LOTS)).rows[-1]
    assert unsold.cells == ("4", "100.00", "200.00", "–", "not sold")
    empty = frames.shown(frames.cuts_frame(NOWHERE), total=True)
    assert [row.cells[0] for row in empty.rows] == ["nothing to show"]
    assert str(frames.cost_table(sheet_of()))


def test_an_unknown_column_to_group_by_is_refused_with_the_nearest():
    with pytest.raises(SpecError, match='did you mean "group"'):
        frames.shown(frames.cost_frame(SHEET), by="groups")


SENTENCES = {
    "cost": (
        frames.cost_sentence(SHEET),
        "Chest costs $144.00 to buy and $145.00 in full: $80.00 used up, $15.00 given "
        "in kind and $50.00 of time given; the largest group is veneer with $80.00.",
    ),
    "no cost": (frames.cost_sentence(sheet_of()), "Nothing is used for Chest."),
    "layout": (
        frames.layout_sentence(LAYOUT, "mm"),
        "1 face comes out of 1 sheet (least possible cost, proven); the largest offcut "
        "is 1413 mm x 1219 mm.",
    ),
    "no layout": (
        frames.layout_sentence(NOWHERE),
        "No sheet is needed: no face is veneered.",
    ),
    "labour": (
        frames.labour_sentence(LABOUR),
        "The work takes 3.2 hours of everybody together, most of it to lay veneer "
        "(3.2 hours).",
    ),
    "split": (
        frames.split_sentence(SPLIT, "$"),
        "Of $400.00 charged, $353.10 (88.3 %) goes to charity.",
    ),
    "short split": (
        frames.split_sentence(split(1000, [Fixed("hall", 3500), WhatIsLeft("it")])),
        "Of 10.00 charged, 0.00 (0.0 %) goes to it; 25.00 of claims could not be paid.",
    ),
    "no split": (
        frames.split_sentence(split(0, [WhatIsLeft("it")])),
        "Nothing was charged, so there is nothing to share out.",
    ),
    "forecast": (
        frames.forecast_sentence(EVENING, 30_000, "$"),
        "Eight evenings of ten raise between $100.00 and $400.00; the target of "
        "$300.00 is reached with a chance of 50 %.",
    ),
    "estimates": (
        frames.estimates_sentence(LOTS),
        "Of 3 lots sold, 1 fell inside the estimate, 1 below and 1 above; 1 did not "
        "sell.",
    ),
    "no estimates": (
        frames.estimates_sentence(LOTS[3:]),
        "No lot was sold, so the estimates were not tried.",
    ),
    "years": (
        frames.years_sentence([BEFORE, SPRING], "$"),
        "Spring, 2026 raised $5,000.00 and netted $3,750.00, $3,760.00 more than "
        "spring, 2025.",
    ),
    "swings": (
        frames.swings_sentence(SWINGS, "{:g}".format),
        "Hammer moves the result most: from 209 at 220 to 399 at 420.",
    ),
    "grid": (
        frames.grid_sentence(GRID, "{:g}".format),
        "The result runs from 146 at hammer 300 and hours 7 to 290 at hammer 400 and "
        "hours 5.",
    ),
}


@pytest.mark.parametrize("name", SENTENCES)
def test_a_sentence_says_what_the_numbers_say(name):
    found, expected = SENTENCES[name]
    assert found == expected


def test_an_advice_is_told_in_one_sentence():
    words = frames.advice_sentence(ADVICE, "$")
    assert words.startswith("Opened at $110.00, it sells with a chance of ")
    assert "what is used up, $72.00" in words


def test_a_year_is_named_by_the_years_of_its_events():
    autumn = replace(SPRING, name="autumn", on=date(2026, 10, 3))
    assert frames.totals_name(roll_up([SPRING, autumn])) == "2026"
    winter = replace(SPRING, name="winter", on=date(2027, 1, 3))
    assert frames.totals_name(roll_up([SPRING, winter])) == "2026 to 2027"


def test_the_import_alone_loads_neither_pandas_nor_matplotlib():
    code = (
        "import sys, pricebook.frames;"
        "print([n for n in ('pandas', 'matplotlib') if n in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
