"""The winding stack of one unit as plain data: what a figure draws and a file carries."""
from collections.abc import Sequence

import numpy as np

from .explain import number, refs_of
from .subjects import Subjects


def stack_drawing(subjects: Subjects, row: int, results: Sequence[dict],
                  refs: Sequence[str] | None = None) -> dict | None:
    """The stack of one unit as it is drawn: its layers outward, and which neighbourhood leaves
    least between both sides. results : of safety_report; None where no layer was recorded
    """
    layers = subjects["layer"]
    places = np.flatnonzero(layers.row == row)
    if not len(places):
        return None
    places = places[np.argsort(layers.columns["position"][places], kind="stable")]
    found = [one for one in results if one["rule"] == "safety/winding_layers"]
    worst = min(found, key=_weakness, default=None)
    return {"layers": [_layer(layers, at, refs) for at in places.tolist()],
            "weakest": None if worst is None else {
                "subject": worst["subject"], "evidence": worst["evidence"],
                "grade": worst["grade"], "layers": worst["numbers"]["layers_high"]}}


def _weakness(result):
    grades = {"falls short": 0, "cannot tell": 1, "meets": 2}
    return grades[result["grade"]], result["numbers"]["layers_high"] or 0.0


def _layer(layers, at, refs):
    column = {name: part[at] for name, part in layers.columns.items()}
    texts = ("kind", "winding", "state", "wire_insulation", "material", "damage")
    numbers = ("position", "tape_layers", "thickness", "margin_left", "margin_right", "documented",
               "sleeved")
    return ({"ref": refs_of([int(layers.evidence_id[at])], refs)[0]}
            | {name: str(column[name]) for name in texts}
            | {name: number(column[name]) for name in numbers})
