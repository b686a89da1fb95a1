"""Operations to minutes and hours: crew, learning over like pieces, drying, days."""

from pricebook.labour.calendar import WEEKDAYS, PlannedStep, Step, Stint
from pricebook.labour.crew import ONE_PERSON_M2, ONE_PERSON_MM, people_for
from pricebook.labour.elapsed import ElapsedPlan, elapsed_plan
from pricebook.labour.learning import (
    CONVENTIONS,
    Learning,
    total_factor,
    unit_factor,
)
from pricebook.labour.lines import PAYS, LabourLine, LabourPlan
from pricebook.labour.plan import plan_labour

__all__ = [
    "CONVENTIONS",
    "ONE_PERSON_M2",
    "ONE_PERSON_MM",
    "PAYS",
    "WEEKDAYS",
    "ElapsedPlan",
    "LabourLine",
    "LabourPlan",
    "Learning",
    "PlannedStep",
    "Step",
    "Stint",
    "elapsed_plan",
    "people_for",
    "plan_labour",
    "total_factor",
    "unit_factor",
]
