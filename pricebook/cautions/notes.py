"""The cautions for one piece: only those that apply, each with its source."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pricebook.cautions.facts import PieceFacts
from pricebook.cautions.tip_over import (
    CLOTHING_KINDS,
    LEAST_HEIGHT_MM,
    NOT_BEFORE,
    plain_kind,
    tip_over_by_size,
)

CUSTOM = "common_practice"
"""Source of a caution that is shop custom: common practice, no source."""

GALLON_L = 3.785411784
ONE_PERSON_KG = 23.13
"""51 lb, the most one person should lift under the best conditions."""

_TALL_KINDS = (
    "bookcase",
    "bookshelf",
    "shelving",
    "entertainment unit",
    "sideboard",
    "jewelry armoire",
)
_UNBALANCED = "unbalanced panel"
_LOCAL = "Follow local codes and the product label, and ask a licensed professional."


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing that can hurt someone or break a rule.

    Parameters
    ----------
    key : str
        Short name, the same for every piece.
    text : str
        What to mind, in plain sentences.
    source : str
        Key of SOURCES.csv.
    """

    key: str
    text: str
    source: str


def cautions_for(facts: PieceFacts) -> tuple[Caution, ...]:
    """Return the cautions that apply to this very piece.

    Parameters
    ----------
    facts : PieceFacts
        What is known of the piece and its job.

    Returns
    -------
    tuple of Caution
        What endangers people first, rules of trade last.

    Notes
    -----
    Nothing here is legal, medical or fire-protection advice; each text sends the
    reader to local codes, labels or licensed practice where a rule is met.

    Examples
    --------
    >>> shelf = PieceFacts(kind="bookcase", height_mm=600, knives=True)
    >>> [caution.key for caution in cautions_for(shelf)]
    ['knives']
    """
    found = [_tip_over(facts), *_by_rule(facts), *_woods(facts)]
    return tuple(caution for caution in found if caution)


def _tip_over(facts: PieceFacts) -> Caution | None:
    """Say what the tip-over rule means for the piece, by size and by day."""
    tall = facts.height_mm >= LEAST_HEIGHT_MM
    if facts.kind != "list" and facts.mass_kg and facts.volume_l:
        by_size = tip_over_by_size(
            facts.height_mm, facts.mass_kg, facts.volume_l, facts.kind
        )
        if by_size:
            return Caution(
                key="tip-over",
                text=f"{_by_day(facts)} Fit anti-tip hardware, keep the heaviest "
                "drawers lowest, and ask counsel whether rebuilding counts as making.",
                source="cpsc_clothing_storage_units",
            )
    kinds = (*_TALL_KINDS, *CLOTHING_KINDS)
    if tall and (facts.kind == "list" or plain_kind(facts.kind) in kinds):
        return Caution(
            key="tall piece",
            text="A tall piece can tip onto a child: fasten it to the wall.",
            source=CUSTOM,
        )
    return None


def _by_day(facts: PieceFacts) -> str:
    if facts.made_on is None:
        return (
            "By its size this is a clothing storage unit under 16 CFR 1261 if it was "
            f"made after {NOT_BEFORE}; the day is not known."
        )
    if facts.made_on > NOT_BEFORE:
        return (
            "This is a clothing storage unit under 16 CFR 1261: it must pass the "
            "stability tests of ASTM F2057-23 before it is sold."
        )
    return (
        f"Made by {NOT_BEFORE}, it is outside 16 CFR 1261, but by its size it can tip."
    )


_Test = Callable[[PieceFacts], bool]
_RULES: tuple[tuple[str, _Test, str, str], ...] = (
    (
        "recalls",
        lambda facts: facts.secondhand,
        "Look the piece up among recalled products before it is sold or given away; "
        "a charity, too, may not pass on what is recalled or breaks a safety rule.",
        "cpsc_resale",
    ),
    (
        "lead",
        lambda facts: (
            facts.old_finish != "none" and facts.old_finish_before_1978 is not False
        ),
        "A coating from before 1978 may hold lead: test it; until it is known to be "
        f"free of lead do not dry-sand, burn or scrape it dry. {_LOCAL}",
        "cfr_16_1303",
    ),
    (
        "stripper",
        lambda facts: facts.strips,
        "A stripper burns skin and its vapour can kill in a closed room: open air, "
        f"gloves, goggles. {_LOCAL}",
        CUSTOM,
    ),
    (
        "spraying flammables",
        lambda facts: facts.sprays and facts.flammable,
        "Spray mist of alcohol or solvent explodes: ethanol flashes at 12.8 degC "
        "(55 degF) and burns from 3.3 % in air. No flame, spark or hot surface; fire "
        "codes ask for a spray room or booth with safe electrics, most of all in homes "
        "and halls. "
        f"{_LOCAL}",
        "osha_1910_107",
    ),
    (
        "spraying",
        lambda facts: facts.sprays and not facts.flammable,
        "Spray mist harms the lungs: ventilate, and wear the respirator that the "
        f"label names. {_LOCAL}",
        CUSTOM,
    ),
    (
        "flammable finish",
        lambda facts: facts.brushes and facts.flammable,
        "Alcohol and solvent vapour burns: ventilate, no flame or pilot light, and "
        f"close the can. {_LOCAL}",
        "niosh_pocket_guide",
    ),
    (
        "more than a gallon",
        lambda facts: facts.flammable and facts.finish_l > GALLON_L,
        "More than 1 gallon (3.8 L) of flammable finish on the bench comes under "
        "the fire code even when it is brushed: ask the fire marshal.",
        "ifc_2015_24",
    ),
    (
        "contact cement",
        lambda facts: facts.contact_cement,
        "Vapour of solvent contact cement is flammable and harmful: open the windows, "
        "put out every flame and pilot light, and read the label.",
        CUSTOM,
    ),
    (
        "oily rags",
        lambda facts: facts.oil_finish,
        "Rags with drying oil heat up and catch fire by themselves: into a closed "
        "metal can with water at once, out of the shop the same day.",
        "osha_1910_107",
    ),
    (
        "solvent rags",
        lambda facts: facts.flammable and not facts.oil_finish,
        "Rags wet with alcohol or solvent are flammable waste: a covered metal can, "
        "emptied daily.",
        "osha_1910_107",
    ),
    (
        "wood dust",
        lambda facts: facts.sands,
        "Wood dust harms the lungs and can cause cancer (NIOSH limit 1 mg/m3): catch "
        "it at the tool and wear a fitted dust mask.",
        "osha_wood_dust",
    ),
    (
        "hot iron",
        lambda facts: facts.iron,
        "The hot iron: steam off, on its stand, never left alone; hot banding burns "
        "fingers.",
        CUSTOM,
    ),
    (
        "knives",
        lambda facts: facts.knives,
        "Cut away from the hand, behind a straightedge that is clamped; a new blade "
        "slips less than a dull one.",
        CUSTOM,
    ),
    (
        "lifting",
        lambda facts: facts.mass_kg is not None and facts.mass_kg > ONE_PERSON_KG,
        "Heavier than one person should lift (23 kg or 51 lb at best): two people, "
        "drawers out.",
        "niosh_lifting_1994",
    ),
    (
        "formaldehyde label",
        lambda facts: facts.new_panels,
        "New plywood, particleboard and MDF must carry the TSCA Title VI label; ask "
        "whether laying veneer on them makes a laminated product under 40 CFR 770.",
        "cfr_40_770_10",
    ),
    (
        _UNBALANCED,
        lambda facts: bool(facts.unbalanced_panels),
        "Veneered on one face only and held by nothing, it may cup: lay a backing "
        "veneer on the other face.",
        "architectural_woodwork_balance",
    ),
)


def _by_rule(facts: PieceFacts) -> Iterator[Caution]:
    for key, applies, text, source in _RULES:
        if applies(facts):
            which = ", ".join(facts.unbalanced_panels) if key == _UNBALANCED else ""
            words = f"{which}: {text}" if which else text
            yield Caution(key=key, text=words, source=source)


def _woods(facts: PieceFacts) -> Iterator[Caution]:
    """Yield what is published about the dust and the trade of each wood."""
    for wood in facts.species:
        dust = wood.chosen("dust")
        if dust and facts.sands:
            yield Caution(
                key=f"dust of {wood.key}",
                text=f"Dust of {wood.common_name or wood.key}: {dust.value}.",
                source=dust.source,
            )
        limit = wood.chosen("restriction")
        if limit:
            memory = "" if limit.confirmed else " (from memory)"
            yield Caution(
                key=f"trade in {wood.key}",
                text=f"{wood.common_name or wood.key}: {limit.value}{memory}. Check "
                "the current list; it bites when the wood crosses a border. Buy from "
                "sellers who can say where it grew.",
                source=limit.source,
            )
