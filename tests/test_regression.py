"""The lines fitted to prices by feature: laws, hand formulas and refusals."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from pricebook.bidding import censored_regression, hedonic
from pricebook.errors import PricebookError, SpecError

VALUES = [0, 0, 0, 2, 5, 4, 7, 9]
HEIGHTS = [[8], [9], [10], [11], [12], [13], [14], [13]]


def sales(count=40, seed=1):
    """Draw sales of a made-up trade in chests: drawers and height set the price."""
    rng = np.random.default_rng(seed)
    x = np.column_stack([rng.integers(2, 7, count), rng.uniform(600, 1200, count)])
    logs = 4 + 0.12 * x[:, 0] + 0.001 * x[:, 1] + 0.3 * rng.standard_normal(count)
    return np.exp(logs).tolist(), x.tolist()


def columns(features):
    x = np.array(features, float)
    return np.column_stack([np.ones(len(x)), x])


# the laws of a censored line


@settings(max_examples=25, deadline=None)
@given(
    unit=st.floats(1e-6, 1e6),
    money=st.floats(1e-6, 1e6),
    shift=st.floats(-100, 100),
)
def test_a_change_of_units_changes_the_numbers_and_not_the_line(unit, money, shift):
    plain = censored_regression(VALUES, HEIGHTS, censored_below=0)

    other = censored_regression(
        [money * (v + shift) for v in VALUES],
        [[unit * h for h in row] for row in HEIGHTS],
        censored_below=money * shift,
    )

    constant, slope = plain.coefficients
    assert other.coefficients[1] == pytest.approx(slope * money / unit, rel=1e-6)
    assert other.coefficients[0] == pytest.approx(
        money * (constant + shift), rel=1e-6, abs=1e-6 * money
    )
    assert other.sigma == pytest.approx(money * plain.sigma, rel=1e-6)
    seen = plain.rows - plain.censored
    assert other.log_likelihood == pytest.approx(
        plain.log_likelihood - seen * math.log(money), abs=1e-6
    )


def test_how_far_below_its_limit_a_value_lies_is_not_looked_at():
    at_limit = censored_regression(VALUES, HEIGHTS, censored_below=0)
    below = censored_regression(
        [-50, -1, *VALUES[2:]], HEIGHTS, censored_below=[0] * len(VALUES)
    )

    assert below == at_limit


def test_the_order_of_the_rows_plays_no_part():
    forth = censored_regression(VALUES, HEIGHTS, censored_below=0)
    back = censored_regression(VALUES[::-1], HEIGHTS[::-1], censored_below=0)

    assert back.coefficients == pytest.approx(forth.coefficients, rel=1e-9)


def test_a_limit_far_above_all_values_seen_still_has_a_peak():
    fit = censored_regression(
        [1, 2, 3.5, 1e6], [[]] * 4, censored_below=[-math.inf] * 3 + [1e6]
    )

    # a piece known to lie below a million tells nothing
    assert fit.coefficients[0] == pytest.approx(6.5 / 3, rel=1e-9)
    assert fit.sigma == pytest.approx(np.std([1, 2, 3.5]), rel=1e-9)


# what a censored line refuses


@pytest.mark.parametrize(
    ("values", "features", "limit", "sentence"),
    [
        ("12", [[1]], 0, r'values is "12"; it must be a row of numbers'),
        (5, [[1]], 0, r"values is 5; it must be a row"),
        ([1, math.nan], [[1], [2]], 0, r"values, number 2, is nan"),
        ([1, True], [[1], [2]], 0, r"values, number 2, is True"),
        ([1, "2"], [[1], [2]], 0, r"values, number 2, is '2'"),
        ([1, 1e200], [[1], [2]], 0, r"values, number 2, is 1e\+200; .* or less"),
        (VALUES, HEIGHTS[:3], 0, r"features has 3 rows beside 8 values"),
        (VALUES, 3, 0, r"features is 3; it must be a table"),
        (VALUES, [1] * 8, 0, r"features, row 1 is 1; it must be a row of numbers"),
        (
            [1, 2],
            [[1], [2, 3]],
            0,
            r"features, row 2 has 2 predictors and row 1 has 1",
        ),
        ([1, 2], [[1], [math.inf]], 0, r"features, row 2, number 1, is inf"),
        ([1, 2], [[1], [False]], 0, r"features, row 2, number 1, is False"),
        (VALUES, HEIGHTS, math.nan, r"censored_below, number 1, is nan"),
        (VALUES, HEIGHTS, math.inf, r"censored_below, number 1, is inf"),
        (VALUES, HEIGHTS, True, r"censored_below, number 1, is True"),
        (VALUES, HEIGHTS, None, r"censored_below is None; it must be a row"),
        (VALUES, HEIGHTS, [0, 1], r"censored_below has 2 limits beside 8 values"),
        (VALUES, HEIGHTS, 9, r"none of the 8 values lies above its limit"),
        ([], [], 0, r"none of the 0 values lies above"),
        (VALUES, HEIGHTS, 5, r"2 of the 8 values .* take 3 or more"),
        ([0, 3, 3, 3], [[1], [2], [3], [5]], 0, r"lie on a line exactly"),
        ([0, 4, 6, 10], [[1], [2], [3], [5]], 0, r"lie on a line exactly"),
    ],
)
def test_a_censored_line_refuses_what_cannot_be(values, features, limit, sentence):
    with pytest.raises(SpecError, match=sentence):
        censored_regression(values, features, censored_below=limit)


@pytest.mark.parametrize("far", [1e10, 1e30, 1e99])
def test_limits_absurdly_far_below_are_refused_and_not_fitted_wrongly(far):
    limits = [-math.inf] * 3 + [-far]
    with pytest.raises(SpecError, match="likeliest line is not to be found"):
        censored_regression([1, 2, 3.5, -far], [[]] * 4, censored_below=limits)


def test_a_predictor_that_never_changes_is_collinear():
    rows = [[*row, 0.1 * 3] for row in HEIGHTS]
    with pytest.raises(SpecError, match="predictor 2 is the same in all the rows"):
        censored_regression(VALUES, rows, censored_below=0)


def test_a_predictor_that_follows_from_others_is_collinear():
    rows = [[h, 2 * h + 7] for (h,) in HEIGHTS]
    with pytest.raises(SpecError, match="predictor 2 follows from the predictors"):
        censored_regression(VALUES, rows, censored_below=0)


def test_a_predictor_that_only_parts_the_seen_from_the_unseen_is_collinear():
    # its coefficient would run off to minus infinity
    rows = [[h, float(v == 0)] for v, (h,) in zip(VALUES, HEIGHTS, strict=True)]
    with pytest.raises(SpecError, match="predictor 2 is the same in all the rows"):
        censored_regression(VALUES, rows, censored_below=0)


def test_all_faults_of_a_table_come_at_once():
    with pytest.raises(PricebookError, match="row 1") as error:
        censored_regression([1, 2], [[None], ["x"]], censored_below=0)
    assert len(error.value.faults) == 2


# prices by feature


def test_a_price_by_features_is_least_squares_of_its_logarithm():
    prices, features = sales()
    fit = hedonic(prices, features, ["drawers", "height"])

    x, y = columns(features), np.log(prices)
    line = np.linalg.lstsq(x, y, rcond=None)[0]
    left = y - x @ line
    variance = left @ left / (len(y) - 3)
    errors = np.sqrt(variance * np.diagonal(np.linalg.inv(x.T @ x)))
    assert fit.coefficients == pytest.approx(line, rel=1e-9)
    assert fit.standard_errors == pytest.approx(errors, rel=1e-9)
    assert fit.residual_standard_error == pytest.approx(math.sqrt(variance), rel=1e-9)
    assert fit.r_squared == pytest.approx(1 - left.var() / y.var(), rel=1e-9)
    assert fit.names == ("drawers", "height")


def test_one_feature_gives_what_scipys_line_gives():
    prices, features = sales()
    heights = [row[1] for row in features]
    fit = hedonic(prices, [[h] for h in heights], ["height"])

    line = stats.linregress(heights, np.log(prices))
    assert fit.coefficients == pytest.approx((line.intercept, line.slope), rel=1e-9)
    errors = (line.intercept_stderr, line.stderr)
    assert fit.standard_errors == pytest.approx(errors, rel=1e-9)
    assert fit.r_squared == pytest.approx(line.rvalue**2, rel=1e-9)


def test_a_prediction_holds_the_scatter_and_what_is_not_known_of_the_line():
    prices, features = sales()
    fit = hedonic(prices, features, ["drawers", "height"])
    belief = fit.predict([6, 1150])

    x, at = columns(features), np.array([1, 6, 1150])
    inside = at @ np.linalg.inv(x.T @ x) @ at
    scale = fit.residual_standard_error * math.sqrt(1 + inside)
    middle = float(at @ fit.coefficients)
    assert belief.median == pytest.approx(math.exp(middle), rel=1e-9)
    assert belief.scale == pytest.approx(scale, rel=1e-9)
    expected = math.exp(stats.t.ppf(0.9, 37, middle, scale))
    assert belief.quantile(0.9) == pytest.approx(expected, rel=1e-9)
    assert belief.scale > fit.predict(fit.means).scale


def test_eight_in_ten_prices_fall_into_their_predicted_range():
    hits = 0
    for seed in range(400):
        prices, features = sales(31, seed)
        fit = hedonic(prices[:30], features[:30], ["drawers", "height"])
        belief = fit.predict(features[30])
        hits += belief.quantile(0.1) < prices[30] < belief.quantile(0.9)

    # three standard errors of 400 trials at 0.8
    assert abs(hits / 400 - 0.8) < 3 * math.sqrt(0.8 * 0.2 / 400)


def test_without_features_it_is_mean_and_spread_of_the_logarithms():
    prices, _ = sales()
    fit = hedonic(prices, [[]] * len(prices), [])

    logs = np.log(prices)
    assert fit.coefficients == pytest.approx((logs.mean(),), rel=1e-12)
    assert fit.residual_standard_error == pytest.approx(logs.std(ddof=1), rel=1e-12)
    scale = logs.std(ddof=1) * math.sqrt(1 + 1 / len(prices))
    assert fit.predict([]).scale == pytest.approx(scale, rel=1e-12)
    assert fit.r_squared == pytest.approx(0, abs=1e-12)


@settings(max_examples=25, deadline=None)
@given(unit=st.floats(1e-3, 1e3), money=st.floats(1e-2, 1e2))
def test_a_feature_in_another_unit_has_its_coefficient_scaled(unit, money):
    prices, features = sales()
    plain = hedonic(prices, features, ["drawers", "height"])
    other = hedonic(
        [money * p for p in prices],
        [[d, unit * h] for d, h in features],
        ["drawers", "height"],
    )

    b = plain.coefficients
    expected = (b[0] + math.log(money), b[1], b[2] / unit)
    assert other.coefficients == pytest.approx(expected, rel=1e-8)
    assert other.r_squared == pytest.approx(plain.r_squared, rel=1e-8)
    assert other.predict([4, 900 * unit]).median == pytest.approx(
        money * plain.predict([4, 900]).median, rel=1e-8
    )


def test_twenty_nine_sales_are_refused_and_thirty_are_not():
    prices, features = sales(30)
    names = ["drawers", "height"]

    assert hedonic(prices, features, names).sales == 30
    with pytest.raises(SpecError, match=r"prices has 29 sales; .* takes 30 or more"):
        hedonic(prices[:29], features[:29], names)


@pytest.mark.parametrize(
    ("names", "sentence"),
    [
        ("drawers", r'names is "drawers"; it must be a row of names'),
        (["drawers"], r"names has 1 names beside 2 features"),
        (["drawers", "drawers"], r'name 2, is "drawers" once more'),
        (["drawers", " "], r'name 2, is ""; it must be a word'),
        (["drawers", 3], r"name 2, is 3; it must be a word"),
    ],
)
def test_names_that_cannot_be_are_refused(names, sentence):
    prices, features = sales()
    with pytest.raises(SpecError, match=sentence):
        hedonic(prices, features, names)


def test_prices_that_cannot_be_are_refused():
    prices, features = sales()
    names = ["drawers", "height"]
    for wrong in (0, -5, math.nan, True):
        with pytest.raises(SpecError, match=r"prices, price 1, is"):
            hedonic([wrong, *prices[1:]], features, names)
    with pytest.raises(SpecError, match="features has 39 rows beside 40 values"):
        hedonic(prices, features[1:], names)
    with pytest.raises(SpecError, match="prices lie on a line exactly"):
        hedonic([300] * 40, features, names)
    with pytest.raises(SpecError, match="prices lie on a line exactly"):
        hedonic([math.exp(d + h / 1000) for d, h in features], features, names)


def test_a_collinear_feature_is_refused_by_its_name():
    prices, features = sales()
    names = ["drawers", "height", "height in inches"]
    same = [[*row, 4] for row in features]
    with pytest.raises(SpecError, match="legs is the same in all the sales"):
        hedonic(prices, same, ["drawers", "height", "legs"])
    inches = [[*row, row[1] / 25.4] for row in features]
    with pytest.raises(SpecError, match="height in inches follows from"):
        hedonic(prices, inches, names)


def test_as_many_features_as_sales_are_refused():
    prices, _ = sales(30)
    rows = np.random.default_rng(2).uniform(size=(30, 29)).tolist()
    with pytest.raises(SpecError, match="29 features and a constant take 31 sales"):
        hedonic(prices, rows, [f"feature {i}" for i in range(29)])


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        ([4], r"features has 1 numbers; give 2: drawers, height"),
        ([4, math.nan], r"features, number 2, is nan"),
        ([4, 1e9], r"the logarithm of the price is .* 250 or less"),
        (4, r"features is 4; it must be a row of numbers"),
    ],
)
def test_a_prediction_refuses_what_cannot_be(row, sentence):
    prices, features = sales()
    fit = hedonic(prices, features, ["drawers", "height"])
    with pytest.raises(SpecError, match=sentence):
        fit.predict(row)
