"""What the feedback arrangement of a unit says, in the words of the truth table."""
import numpy as np

from .columns import Frame
from .physics.feedback import DEFECT, FLAGS, matching_row, switchable_ratio

BRIDGED = ("A plain part carries the feedback across the barrier: a safety defect, not scored as "
           "switchable.")


def feedback(frame: Frame, row: int) -> dict:
    """{"row": "F2" or None, "switchable": probability or None, "note"}; even odds at the start."""
    flags = {name: float(frame[name].value[row]) for name in FLAGS}
    match = matching_row(flags)
    bridged = float(frame["feedback_bridges_barrier"].value[row]) == 1
    if match is not None and match.switchable == DEFECT:
        return {"row": match.row, "switchable": None, "note": match.note}
    if bridged and flags["feedback_node_driven"] == 1:
        return {"row": None, "switchable": None, "note": BRIDGED}
    known = any(not np.isnan(value) for value in flags.values())
    return {
        "row": match.row if match else None,
        "switchable": _probability(frame, row, flags) if known else None,
        "note": match.note if match else
        "The observations leave open which arrangement this is." if known else "",
    }


def _probability(frame, row, flags):
    observed = np.array([[flags[name]] for name in FLAGS])
    ratio = float(switchable_ratio(observed, frame["photographed_sides"].value[[row]])[0])
    return ratio / (1 + ratio)
