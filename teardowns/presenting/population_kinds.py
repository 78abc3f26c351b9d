"""The populations that are shown, and what is said of each."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PopulationKind:
    """needs : columns without which a unit is left out, and how that is said of so many units"""

    code: str
    name: str
    asks: str                 # the question that it answers, in a line
    needs: Mapping[str, str]
    cautions: tuple[str, ...]


OPENED = ("These are the units that people opened and published here, one specimen each. They "
          "are not a sample of what is sold: odd and suspect units are opened more often.")

KINDS = {kind.code: kind for kind in (
    PopulationKind(
        "mass", "Mass against measured power",
        "How much power do units of one mass deliver on a load?",
        {"mass": "was not weighed without cable", "measured_power": "had no power measured"},
        ("The mass is of the whole unit without cable; parts found to have no function are taken "
         "off.",
         "Power counts as measured where a load was held and a little more was too much. What is "
         "only printed or published is no measurement.",
         "A unit beside the band is unusual. That alone says nothing about its safety, and it "
         "decides no claim.")),
    PopulationKind(
        "capability", "Capability against claim",
        "Do units deliver what is printed on them?",
        {"claimed_power": "states no power", "capability": "has no capability worked out"},
        ("The claim is the largest power that is printed, the capability the median of what the "
         "confirmed evidence allows at the lower end of the mains, with its 90 % interval.",
         "Where no load was measured the capability is worked out from parts, and its interval is "
         "wide: a median below the line refutes no claim. The verdict stands on the unit’s page.",
         )),
    PopulationKind(
        "bulk", "Bulk capacitance per watt",
        "How much bulk capacitance stands behind a watt?",
        {"bulk_capacitance": "has no bulk capacitance recorded",
         "claimed_power": "states no power"},
        ("Capacitance is the sum of all bulk capacitors in parallel, as read off or measured.",
         "What a watt needs depends on the mains: units made for 200 V and more need less than "
         "those that start at 100 V.")),
    PopulationKind(
        "insulation", "Insulation margins",
        "How far are mains and output kept apart, beside what is asked for?",
        {"insulation_margin": "has no distance across the barrier measured"},
        ("A margin is the measured distance divided by the requirement under the most lenient of "
         "the documented assumptions, for the tightest measured path across the barrier.",
         "A path that nobody measured is in no margin: a unit can be worse than it stands here.",
         "The uncertainty of the distance is not drawn. Grade, assumptions and working stand on "
         "the unit’s page; a shortfall here is a reason to read them, not a verdict.")),
)}
