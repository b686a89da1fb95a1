"""NIOSH Pocket Guide, Ethyl alcohol (npgd0262): flash point 55 F, 3.3 to 19 %."""

import pytest

from pricebook import cautions


def test_the_guide_s_flash_point_in_celsius(reference):
    printed = {row["figure"]: float(row["value"]) for row in ethanol(reference)}
    assert printed["flash point"] == pytest.approx((55 - 32) / 1.8, abs=0.05)
    assert printed["lower explosive limit"] == 3.3
    assert printed["upper explosive limit"] == 19
    assert printed["immediately dangerous"] == 3300  # a tenth of the lower limit


def test_the_caution_for_spraying_prints_the_guide_s_figures(reference):
    facts = cautions.PieceFacts(
        kind="bookcase", height_mm=500, sprays=True, flammable=True
    )
    text = cautions.cautions_for(facts)[0].text
    printed = {row["figure"]: row["value"] for row in ethanol(reference)}
    assert f"{printed['flash point']} degC" in text
    assert f"{printed['lower explosive limit']} %" in text


def ethanol(reference):
    return reference("niosh_pocket_guide_ethanol")
