"""What lies between a mains-side winding and an output winding, or between the core and one.

Three ways lead to reinforced insulation: wire whose own insulation is proven, one solid layer that
is thick enough, or separate thin layers. Enamel counts as none of them.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import EQ, equation, num, op, sym, word
from teardowns.engine.requirements.barriers import supply
from teardowns.engine.requirements.electric_strength import required_strength
from teardowns.engine.requirements.winding_insulation import (
    APPARENT,
    DOUBTFUL,
    POSSIBLE,
    grade_layers,
)
from teardowns.engine.rule import safety

(WIRE, SOLID, SHEETS, NO_LAYER, ONE_LAYER, FLOATING, LOOKS, BESIDE_CORE, UNREAD, THICK, DAMAGED,
 WIRE_UNREAD, TWO_LAYERS, DOUBTED) = range(1, 15)
ONE_SOURCE = 1      # confidence of "enamel counts as nothing"
USUAL_PEAK = 550.0  # V: the highest that test reports on chargers print of a transformer


@safety(
    on="adjacency", hazard="shock", confidence="A", measure="1",
    title="Number of insulating layers",
    source="IEC 62368-1:2018, 5.4.4.2 (0.4 mm), 5.4.4.6 (thin layers), 5.4.4.1 and annexes G and J "
           "(wire); IEC 60950-1, 2.10.5.6, 2.10.5.7 and 2.10.5.13, their wording read in an "
           "engineers' forum. A test report on a charger, 2021, prints 0.4 mm and one layer of "
           "tape withstanding 4000 V d.c.",
    validity="Layers inside a closed case that nobody handles, each a full overlapped turn. "
             "Layers that are bonded to each other need a test of their own. Counting says nothing "
             "of the electric strength of three layers and more.",
    formula=equation(sym("N"), EQ, sym("N", "intact"), op(","), word("at least"), num(3), op(","),
                     word("or"), num(2), word("if each alone withstands the test voltage")),
    symbols={"layers_high": sym("N", "intact"), "layers_low": sym("N", "at most"),
             "solid_thickness": sym("d"), "layer_withstood": sym("U")},
    asks={
        "layers_low": "How many layers lie between? Count every full overlapped turn of tape, and "
                      "record the wall of the bobbin.",
        "layers_high": "How many layers lie between? Count every full overlapped turn of tape.",
        "solid_thickness": "How thick is the wall or sheet between them?",
        "insulated_wire": "Is the wire enamelled, or does a cut end show layers of insulation?",
        "condition_noted": "Is each layer between them intact, damaged or melted?",
    },
    reasons=(
        "",
        "The wire of one of them bears insulation whose type is documented: it counts as "
        "reinforced insulation, and no layers are required beside it.",
        "A single solid layer of at least 0.4 mm lies between: it counts as reinforced insulation "
        "by its thickness. Its electric strength was not judged.",
        "So many separate layers count as reinforced insulation. This is a count: the electric "
        "strength of all of them together was not judged.",
        "No insulating layer that counts was found between them, and neither wire bears insulation "
        "that counts: enamel is none. Reinforced insulation is tabulated here.",
        "One layer is basic insulation at most; it is thinner than 0.4 mm, and neither wire bears "
        "insulation that counts: enamel is none. Reinforced insulation is tabulated here.",
        "The core is connected to nothing: what parts it from the mains side counts too, and "
        "together they were not judged.",
        "A wire looks as if its own insulation could count as reinforced. Looks do not prove it: a "
        "certificate or data sheet of its type would decide.",
        "The evidence does not decide it: between the core and this winding lies a wall of the "
        "bobbin or air that the record of the layers does not describe.",
        "The evidence does not decide it: not every layer between them was read, or two of them "
        "were given the same place.",
        "The evidence does not decide it: a solid layer lies between whose thickness is not known "
        "well enough to tell whether it reaches 0.4 mm.",
        "The evidence does not decide it: it depends on what a damaged layer still holds.",
        "The evidence does not decide it: the insulation of the wire was not read.",
        "Two layers count as reinforced insulation only if each alone withstands the test voltage, "
        "which was not shown: a data sheet of the tape could tell.",
        "The insulation of a wire is documented, but it is damaged, or of another kind than three "
        "layers or full insulation: the evidence does not decide what it still counts for.",
    ),
    optional=("layer_withstood", "working_voltage_peak", "rated_voltage_high",
              "overvoltage_category", "core_floating", "condition_noted", "insulated_wire"),
)
def winding_layers(inner, outer, layers_low, layers_high, solid_thickness, layer_withstood,
                   insulated_wire, traced, condition_noted, core_floating, plug,
                   rated_voltage_high, overvoltage_category, working_voltage_peak):
    mains = supply(rated_voltage_high, plug, overvoltage_category)
    strength = required_strength(
        mains.transient[1], mains.high, np.fmax(working_voltage_peak, USUAL_PEAK), True)
    withstood = layer_withstood >= strength
    found = grade_layers(layers_low, layers_high, solid_thickness, withstood, insulated_wire,
                         traced)
    core, shield = ((inner == name) | (outer == name) for name in ("core", "shield"))
    floating = core & (core_floating == 1)
    grade = np.where(floating & (found.grade == FALLS_SHORT), CANNOT_TELL, found.grade)
    why = _why(found, grade, layers_low, layers_high, insulated_wire, traced, core, floating)
    by_layers = ~(found.wire | found.solid)
    rests_on_test = withstood & (why == SHEETS) & (layers_high < 3)
    # None that certainly counts, of nobody knows how many, is no count.
    certain = np.where((layers_high > 0) | ~np.isnan(layers_low), layers_high, np.nan)
    return graded(
        grade, value=np.where(grade == FALLS_SHORT, layers_low, certain), u=0.0,
        low=np.where(by_layers, POSSIBLE, np.nan), high=np.where(by_layers, found.least, np.nan),
        why=why, confidence=np.where(why == NO_LAYER, ONE_SOURCE, 0),
        assumed={
            "core_primary": core & np.isnan(core_floating), "shield_primary": shield,
            "intact_layers": by_layers & np.isnan(condition_noted) & (layers_high > 0),
            "working_peak": rests_on_test & np.isnan(working_voltage_peak)}
        | {name: rests_on_test & taken for name, taken in mains.assumed.items()},
        numbers={"layers_low": layers_low, "layers_high": layers_high, "strength": strength})


def _why(found, grade, layers_low, layers_high, insulated_wire, traced, core, floating):
    """The reason that decides, the first that holds."""
    short = grade == FALLS_SHORT
    cases = (
        (found.wire, WIRE), (found.solid, SOLID), (grade == MEETS, SHEETS),
        (short & (layers_low < 1), NO_LAYER), (short, ONE_LAYER),
        (floating, FLOATING), (insulated_wire == DOUBTFUL, DOUBTED),
        (insulated_wire == APPARENT, LOOKS),
        (core & np.isnan(layers_low), BESIDE_CORE),
        (np.isnan(layers_low) | np.isnan(layers_high), UNREAD),
        (insulated_wire == "", WIRE_UNREAD), (traced != 1, UNREAD),
        ((layers_low < POSSIBLE) & found.thick, THICK),
        (layers_high < np.minimum(layers_low, POSSIBLE), DAMAGED))
    return np.select([case for case, _ in cases], [why for _, why in cases], TWO_LAYERS)
