"""How far the ends of a mains-side and an output winding lie apart along the edge of the tape.

At each end of the bobbin current can creep from one winding round the edge of the tape to the
other: along both empty margins together.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_min, graded
from teardowns.engine.mathml import LEQ, PLUS, equation, sym
from teardowns.engine.requirements.barriers import required_distances, supply
from teardowns.engine.requirements.winding_insulation import (
    APPARENT,
    DOCUMENTED,
    DOUBTFUL,
    NONE,
    could_be_solid,
)
from teardowns.engine.rule import safety

# Of the sum of two margins, expanded: 0.10 mm each, by a caliper, independent of each other.
MARGIN_U = 0.1e-3 * np.sqrt(2)
UNREAD, LOOKS, WIRE_UNREAD, UNSEEN, WALL, SHIELD, DOUBTED = range(1, 8)


@safety(
    on="adjacency", hazard="shock", confidence="A", measure="m",
    title="Margin at the end of the windings",
    source="IEC 62368-1:2018, 5.4.3 and table 17, applied to wound parts; a transformer maker's "
           "guide (6 mm of creepage is a margin of 3 mm on each winding) and a chip maker's "
           "application note on transformer safety.",
    validity="Windings one above the other on one bobbin, without documented insulated wire; pins "
             "and lead exits need their distances as well.",
    formula=equation(sym("d", "creepage"), LEQ, sym("M", "inner"), PLUS, sym("M", "outer")),
    asks={
        "margin_left_sum": "How wide is the margin of both windings at the left end?",
        "margin_right_sum": "How wide is the margin of both windings at the right end?",
        "insulated_wire": "Is the wire enamelled, or does a cut end show layers of insulation?",
    },
    reasons=(
        "",
        "The evidence does not decide it: the margins of both windings were not recorded at both "
        "ends.",
        "The margins are below the tabulated distance; the wire looks as if its own insulation "
        "could count as reinforced, and then none would be asked. A document of its type would "
        "decide.",
        "The margins are below the tabulated distance; whether the wire bears insulation that "
        "counts was not read.",
        "No margin was recorded, and no photo shows the edges of both windings: the evidence does "
        "not decide it.",
        "The margins are below the tabulated distance; a wall lies between the windings, and the "
        "way round its edge was not recorded.",
        "The margins are below the tabulated distance; whether this shield belongs to the mains "
        "side was not recorded.",
        "The margins are below the tabulated distance; the insulation of a wire is documented, but "
        "it is damaged, or of another kind than three layers or full insulation.",
    ),
    optional=("margin_left_sum", "margin_right_sum", "insulated_wire", "edges_photographed",
              "solid_thickness", "rated_voltage_high", "overvoltage_category", "rated_altitude",
              "working_voltage_rms", "working_voltage_peak", "working_voltage_frequency"),
)
def winding_margin(inner, outer, margin_left_sum, margin_right_sum, insulated_wire,
                   edges_photographed, solid_thickness, plug, rated_voltage_high,
                   overvoltage_category, rated_altitude, working_voltage_rms, working_voltage_peak,
                   working_voltage_frequency):
    need = required_distances(
        supply(rated_voltage_high, plug, overvoltage_category), reinforced=True, transformer=True,
        working_voltage_rms=working_voltage_rms, working_voltage_peak=working_voltage_peak,
        working_voltage_frequency=working_voltage_frequency, rated_altitude=rated_altitude)
    low, high = need.creepage
    core, shield = ((inner == name) | (outer == name) for name in ("core", "shield"))
    ends = np.stack([margin_left_sum, margin_right_sum])         # (2, m)
    tabulated = grade_min(ends, MARGIN_U, low, high)
    is_short = tabulated == FALLS_SHORT
    blind = (ends == 0) & (edges_photographed != 1)
    said = (is_short & ~blind).any(axis=0)
    excuse = _excuse(insulated_wire, solid_thickness, shield)
    why = np.where(said, excuse, np.where(is_short.any(axis=0), UNSEEN,
                                          np.where(np.isnan(ends).any(axis=0), UNREAD, 0)))
    grade = np.where(said & (excuse == 0), FALLS_SHORT,
                     np.where((tabulated == MEETS).all(axis=0), MEETS, CANNOT_TELL))
    value = np.where(said, np.fmin(*ends), np.minimum(*ends))
    return graded(
        grade, value=value, u=MARGIN_U, low=low, high=high,
        applies=(insulated_wire != DOCUMENTED) & ~core, why=why,
        assumed=need.assumed | {"uncertainty": ~np.isnan(value), "shield_primary": shield},
        numbers={"margin_left_sum": margin_left_sum, "margin_right_sum": margin_right_sum})


def _excuse(insulated_wire, solid_thickness, shield):
    """What could make a short margin enough; 0 where nothing could."""
    return np.select(
        [shield, insulated_wire == DOUBTFUL, insulated_wire == APPARENT, insulated_wire != NONE,
         could_be_solid(solid_thickness)], [SHIELD, DOUBTED, LOOKS, WIRE_UNREAD, WALL], 0)
