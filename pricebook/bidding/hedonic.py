"""What each feature of a piece adds to its price, from 30 sales on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pricebook.bidding.arguments import amounts, number_faults
from pricebook.bidding.predictors import SAME, numbers, scale_of, table
from pricebook.bidding.spread import StudentBelief
from pricebook.errors import SpecError, raise_all, shown

if TYPE_CHECKING:
    from pricebook.bidding.predictors import Array

SALES_LEAST = 30
"""Fewer sales tell the features of a piece from chance too badly [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HedonicFit:
    """A line through the logarithms of prices, by the features of the pieces.

    Parameters
    ----------
    names : tuple of str
        What each feature is.
    coefficients : tuple of float
        The constant, then one for each feature. [ln money per feature unit]
    standard_errors : tuple of float
        Of the coefficients, in their order. [same units]
    r_squared : float
        Share of the spread of the logarithms that the features explain. [-]
    residual_standard_error : float
        Spread about the line, divisor the degrees of freedom. [-]
    sales : int
        How many prices it rests on. [-]
    means : tuple of float
        Middle of each feature over the sales. [feature units]
    slope_covariance : tuple of tuple of float
        How the errors of the features' coefficients go together. [units multiplied]
    """

    names: tuple[str, ...]
    coefficients: tuple[float, ...]
    standard_errors: tuple[float, ...]
    r_squared: float
    residual_standard_error: float
    sales: int
    means: tuple[float, ...]
    slope_covariance: tuple[tuple[float, ...], ...]

    @property
    def degrees(self) -> int:
        """Degrees of freedom: sales less coefficients [-]."""
        return self.sales - len(self.coefficients)

    def predict(self, features: Iterable[float]) -> StudentBelief:
        """Return what one more piece with these features may fetch.

        Parameters
        ----------
        features : iterable of float
            One number a feature, in the order of `names`. [feature units]

        Returns
        -------
        StudentBelief
            `.median` and `.quantile(share)` in money, `.scale` of the logarithm.

        Raises
        ------
        SpecError
            If a number cannot be, there are more or fewer of them than features, or
            the price lies beyond e^-250 to e^250.

        Notes
        -----
        Student's t on the log scale, scale^2 = s^2 (1 + 1/n) + d' C d, with d the
        distance from the middle of the sales and C the slopes' covariance: the
        scatter of one price and what is not known of the line. Outside the range of
        the sales the line itself is a guess, which the scale doesn't hold.

        Examples
        --------
        >>> heights = [[600 + 20 * i] for i in range(30)]
        >>> prices = [200 + 5 * i + 30 * (i % 3) for i in range(30)]
        >>> belief = hedonic(prices, heights, ["height"]).predict([900])
        >>> round(belief.median, 2), belief.degrees
        (300.62, 28.0)
        """
        import numpy as np

        row = numbers("features", features)
        if len(row) != len(self.names):
            raise SpecError(
                f"features has {len(row)} numbers; give {len(self.names)}: "
                f"{', '.join(self.names) or 'none'}."
            )
        mu = float(self.coefficients[0] + np.dot(self.coefficients[1:], row))
        raise_all(
            SpecError,
            number_faults("the logarithm of the price", mu, least=-250, most=250),
        )
        gaps = np.subtract(row, self.means)
        covariance = np.reshape(self.slope_covariance, (len(row), len(row)))
        line = float(gaps @ covariance @ gaps)
        scatter = self.residual_standard_error**2 * (1 + 1 / self.sales)
        return StudentBelief(
            mu=mu, scale=math.sqrt(scatter + line), degrees=float(self.degrees)
        )


def hedonic(
    prices: Iterable[float],
    features: Iterable[Iterable[float]],
    names: Iterable[str],
) -> HedonicFit:
    """Fit the logarithm of the price by the features of the pieces sold.

    Parameters
    ----------
    prices : iterable of float
        Prices of the pieces that sold, 30 or more. [money]
    features : iterable of iterable of float
        A row of numbers for each price. [any units]
    names : iterable of str
        What the numbers of a row are.

    Returns
    -------
    HedonicFit
        The line, its errors, and `.predict(features)`.

    Raises
    ------
    SpecError
        If there are fewer than 30 sales, or no more sales than coefficients; if a
        number, a name or a shape cannot be; if a feature is collinear with others;
        if the prices lie on a line exactly.

    Notes
    -----
    Ordinary least squares of ln price. The median price of a piece is e^(b0 + b x);
    the mean lies higher. Lots that stayed unsold are no part of it: where they are
    many, it puts prices too high, and `censored_regression` of the logarithms takes
    them in. That 30 sales are enough is common practice, no source.

    Examples
    --------
    >>> heights = [[600 + 20 * i] for i in range(30)]
    >>> prices = [200 + 5 * i + 30 * (i % 3) for i in range(30)]
    >>> fit = hedonic(prices, heights, ["height"])
    >>> round(fit.coefficients[1], 6), round(fit.r_squared, 4)
    (0.00089, 0.7683)
    """
    import numpy as np

    paid = amounts("prices", prices)
    if len(paid) < SALES_LEAST:
        raise SpecError(
            f"prices has {len(paid)} sales; a price by features takes {SALES_LEAST} or "
            "more. Blend comparable pieces instead."
        )
    rows = table(features, len(paid))
    called = _names(names, len(rows[0]))
    if len(paid) < len(called) + 2:
        raise SpecError(
            f"{len(called)} features and a constant take {len(called) + 2} sales or "
            f"more; prices has {len(paid)}."
        )
    return _least_squares(
        np.log(paid), np.array(rows).reshape(len(rows), len(called)), called
    )


def _least_squares(y: Array, x: Array, names: tuple[str, ...]) -> HedonicFit:
    """Fit by X = QR on scaled features, and take the scale off again."""
    import numpy as np

    scale = scale_of(x, names, "the sales")
    design = scale.apply(x)
    q, r = np.linalg.qr(design)
    line = np.linalg.solve(r, q.T @ y)
    left = float(((y - design @ line) ** 2).sum())
    if left <= len(y) * (SAME * float(np.abs(y).max())) ** 2:
        raise SpecError(
            "prices lie on a line exactly, so no spread can be told; give them as "
            "they were paid."
        )
    spread = math.sqrt(left / (len(y) - len(line)))
    roots = spread * np.linalg.inv(r)[1:, 1:] / scale.reach[:, None]
    covariance = roots @ roots.T
    slopes = line[1:] / scale.reach
    of_constant = spread**2 / len(y) + scale.means @ covariance @ scale.means
    variances = [of_constant, *np.diagonal(covariance)]
    return HedonicFit(
        names=names,
        coefficients=(float(line[0] - slopes @ scale.means), *slopes.tolist()),
        standard_errors=tuple(math.sqrt(variance) for variance in variances),
        r_squared=1 - left / float(((y - y.mean()) ** 2).sum()),
        residual_standard_error=spread,
        sales=len(y),
        means=tuple(scale.means.tolist()),
        slope_covariance=tuple(tuple(along) for along in covariance.tolist()),
    )


def _names(given: object, count: int) -> tuple[str, ...]:
    """Return the names of the features, one each and no two alike."""
    if isinstance(given, (str, bytes)) or not isinstance(given, Iterable):
        raise SpecError(f"names is {shown(given)}; it must be a row of names.")
    names: Sequence[object] = list(given)
    faults = [
        f"names, name {i}, is {shown(name)}; it must be a word."
        for i, name in enumerate(names, 1)
        if not isinstance(name, str) or not name.strip()
    ]
    faults += [
        f"names, name {i}, is {shown(name)} once more; give every feature its own."
        for i, name in enumerate(names, 1)
        if name in names[: i - 1]
    ]
    if len(names) != count:
        faults.append(
            f"names has {len(names)} names beside {count} features; give one each."
        )
    raise_all(SpecError, faults)
    return tuple(str(name) for name in names)
