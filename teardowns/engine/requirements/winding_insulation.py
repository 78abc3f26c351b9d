"""What parts two windings, and what of it counts: IEC 62368-1:2018, 5.4.4 and annexes G and J.

The thickness of a solid layer and the number of thin ones stand in `solid_insulation`.
"""
from dataclasses import dataclass

import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_min, grade_span

from .solid_insulation import SHEETS, THICKNESS
from .table import Table

WIRE = Table(
    "Winding wire as insulation", ("Wire", "Counts as"),
    (("bare or enamelled", "nothing"), ("one layer of insulation", "nothing: basic at most"),
     ("three layers, type documented", "reinforced insulation"),
     ("three layers, by its looks", "not decided"),
     ("fully insulated (thick enamel), type documented", "reinforced insulation"),
     ("fully insulated, by its looks", "not decided")),
    "IEC 62368-1:2018, 5.4.1.1, annexes G and J; IEC 60950-1, 2.10.5.13 (a clause quoted on the "
    "web) and annex U; a chip maker's application note on transformer safety.", "B")
THICKNESS_U = 0.1e-3        # m, expanded: a caliper; application assumption, not from a standard
POSSIBLE = 2.0              # layers, if each alone withstands the test voltage
# Insulated wire; what is documented and damaged, or of no kind that counts, is doubtful.
NONE, APPARENT, DOUBTFUL, DOCUMENTED = "none", "apparent", "doubtful", "documented"


@dataclass(frozen=True, slots=True)
class LayerGrade:
    """Which of the ways to reinforced insulation holds, (m,) each.

    grade : int8, key of GRADES
    wire, solid : bool, this way alone is enough
    thick : bool, a solid layer is thick enough or might be
    least : float, how many layers are enough here
    """

    grade: np.ndarray
    wire: np.ndarray
    solid: np.ndarray
    thick: np.ndarray
    least: np.ndarray


def grade_layers(layers_low, layers_high, solid_thickness, each_withstood, insulated_wire,
                 traced) -> LayerGrade:
    """What lies between two windings, graded as reinforced insulation.

    Any one way is enough; it falls short where every way is known to be closed.

    layers_low, layers_high : (m,) float, separate layers that count at the lenient and at the
        demanding end; NaN where not known
    solid_thickness : (m,) float, thickest single layer [m]
    each_withstood : (m,) bool, each layer alone withstood the voltage of reinforced insulation
    insulated_wire : (m,) text, "documented", "doubtful", "apparent", "none" or ""
        (not known)
    traced : (m,) float, 1 where everything between was read
    """
    least = np.where(each_withstood, POSSIBLE, float(SHEETS))
    few = grade_span(layers_high, layers_low, 0.0, POSSIBLE, least) == FALLS_SHORT
    by_thickness = grade_min(solid_thickness, THICKNESS_U, THICKNESS, THICKNESS)
    wire, solid = insulated_wire == DOCUMENTED, by_thickness == MEETS
    # So many intact ones are enough even where nobody knows how many there are at most.
    meets = wire | solid | (layers_high >= least)
    short = few & (by_thickness == FALLS_SHORT) & (insulated_wire == NONE) & (traced == 1)
    grade = np.where(meets, MEETS, np.where(short, FALLS_SHORT, CANNOT_TELL)).astype(np.int8)
    return LayerGrade(grade, wire, solid, by_thickness != FALLS_SHORT, least)


def could_be_solid(thickness) -> np.ndarray:
    """(m,) bool: a single layer of this thickness [m] may be thick enough; an unknown one may."""
    return ~(np.asarray(thickness, float) + THICKNESS_U < THICKNESS)
