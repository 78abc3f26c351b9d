"""What a shortfall can lead to, step by step: data that people may change, each with its author.

The probabilities are this rulebook's assumptions, from no publication. A site may put a set of its
own in force; its version then stands beside every level.
"""
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import Any

from .grading import SAME
from .rules.safety.barrier_capacitor import NO_CLASS
from .rules.safety.case_opening import BY_HAND
from .rules.safety.clearance import JOINT as CLEARANCE_JOINT
from .rules.safety.clearance import MOVED as CLEARANCE_MOVED
from .rules.safety.creepage import JOINT as CREEPAGE_JOINT
from .rules.safety.creepage import MOVED as CREEPAGE_MOVED

# No exponent: "1e-999999999" would fill the memory.
WRITTEN = re.compile(r"[0-9]{1,9}([/.][0-9]{1,9})?")
RULEBOOK = "this rulebook"
WHY = "An assumption for a screening, from no publication."
CARRIED_OVER = ("Carried over from {} as an assumption of this rulebook for a screening, from no "
                "publication.")
SHOCK = ("touched", "touched while it is plugged in", "1/2"), (
    "earth", "a path to earth at the same time", "1/10"), (
    "fatal", "the current is fatal", "1/10")
TOUCHED = (("touched", "live parts are touched", "1/2"), ("fatal", "the current is fatal", "1/20"))


@dataclass(frozen=True, slots=True)
class Step:
    key: str
    text: str
    p: str                    # a fraction: "1/20"
    by: str = RULEBOOK        # who set it
    why: str = WHY


@dataclass(frozen=True, slots=True)
class Scenario:
    """What has to fall short, what has to happen then, and how grave the harm would be."""

    id: str
    title: str
    rules: tuple[str, ...]             # ids of rules about safety
    severity: int                      # 1 to 4
    injury: str
    steps: tuple[Step, ...]
    barriers: tuple[str, ...] = ()     # of paths alone: which barriers
    # From (included) up to (excluded): of distances the reading over the lenient requirement, of
    # windings the layers that count at most. A distance is below half only beyond its uncertainty.
    share: tuple[float, float] | None = None
    reasons: tuple[int, ...] = ()      # of the rule's reasons, by index; none: any
    moved: bool | None = None          # of distances: if a part moved, or as found


def _steps(*rows, why: str = WHY) -> tuple[Step, ...]:
    return tuple(Step(key, text, p, why=why) for key, text, p in rows)


HALF = 0.5
IF_MOVED = {"safety/clearance": (CLEARANCE_JOINT, CLEARANCE_MOVED),
            "safety/creepage": (CREEPAGE_JOINT, CREEPAGE_MOVED)}


def _distance(barrier, name, words, share, p):
    why = WHY if barrier == "PRI_SEC" else CARRIED_OVER.format("the distances to the output")
    return Scenario(
        f"{barrier}_distance_{name}".lower(), f"{words} {BETWEEN[barrier]}",
        ("safety/clearance", "safety/creepage"), 4, "electrocution",
        _steps(("breakdown", "the distance breaks down during the life of the unit", p), *SHOCK,
               why=why),
        (barrier,), share, moved=False)


def _if_moved(barrier, name, words, share, *more):
    """Of what was found to be possible, not found: it has to happen first."""
    return Scenario(
        f"{barrier}_moved_{name}".lower(), f"{words} {BETWEEN[barrier]}",
        tuple(IF_MOVED), 4, "electrocution",
        _steps(("moves", "the joint opens or the metal moves into that place", "1/50"), *more,
               *SHOCK, why=CARRIED_OVER.format("loose metal and the distances to the output")),
        (barrier,), share, moved=True)


BETWEEN = {"PRI_SEC": "between mains side and output",
           "PRI_ENC": "between mains side and the outside of the case"}
DISTANCES = tuple(
    _distance(barrier, *row) for barrier in BETWEEN for row in (
        ("below_half", "Distance below half of the requirement", (0.0, 0.5), "1/20"),
        ("half", "Distance of 50 to 80 % of the requirement", (0.5, 0.8), "1/100"),
        ("most", "Distance of 80 to 100 % of the requirement", (0.8, 1.0), "1/1000")))
MOVED = tuple(
    made for barrier in BETWEEN for made in (
        _if_moved(barrier, "below_half",
                  "Distance below half of the requirement if a part moved", (0.0, HALF)),
        _if_moved(barrier, "more",
                  "Distance of 50 to 100 % of the requirement if a part moved", (HALF, 1.0),
                  ("breakdown", "the distance breaks down during the life of the unit", "1/100"))))
SCENARIOS = (
    *DISTANCES,
    *MOVED,
    Scenario("winding_bare", "No intact layer between the windings", ("safety/winding_layers",), 4,
             "electrocution",
             _steps(("breakdown", "the enamel breaks down during the life of the unit", "1/20"),
                    *SHOCK), share=(0.0, 1.0)),
    Scenario("winding_one_layer", "One intact layer between the windings",
             ("safety/winding_layers",), 4, "electrocution",
             _steps(("breakdown", "the layer breaks down during the life of the unit", "1/1000"),
                    *SHOCK), share=(1.0, 2.0)),
    Scenario("barrier_capacitor", "Capacitor of no fitting class across the barrier",
             ("safety/barrier_capacitor",), 4, "electrocution",
             _steps(("short", "the capacitor fails as a short", "1/100"), *SHOCK),
             reasons=(NO_CLASS,)),
    Scenario("case_opens", "Case that opens with live parts in reach", ("safety/case_opening",), 4,
             "electrocution", _steps(("opens", "it opens in use", "1/10"), *TOUCHED),
             reasons=(BY_HAND,)),
    Scenario("finger_access", "Mains parts within reach of a finger", ("safety/finger_access",), 4,
             "electrocution",
             _steps(*TOUCHED, why=CARRIED_OVER.format("the case that opens, without the opening"))),
    Scenario("loose_metal", "Loose metal that can bridge the barrier", ("safety/loose_metal",), 4,
             "electrocution", _steps(("moves", "it moves into place", "1/50"), *SHOCK)),
    Scenario("no_protection", "No protective part in the mains lead",
             ("safety/mains_protection",), 4, "death in a fire",
             _steps(("ignition", "a fault ignites something", "1/1000"),
                    ("spreads", "the fire spreads", "1/10"), ("fatal", "it is fatal", "1/100"))),
    Scenario("touch_temperature", "Case hotter than may be touched",
             ("safety/touch_temperature",), 1, "burn of the second degree, less than 6 % of the "
             "skin", _steps(("touched", "touched long enough", "1/10"),
                            ("burn", "a burn of that degree", "1/2"))),
    Scenario("plug_not_discharged", "Pins that hold a charge", ("safety/plug_discharge",), 1,
             "startled movement that hurts",
             _steps(("touched", "both pins are touched at once", "1/2"),
                    ("hurt", "the movement hurts", "1/10"))),
)


def applies(scenario: Scenario, result: Mapping[str, Any]) -> bool:
    """Whether what falls short triggers the scenario. result : of safety_report"""
    if result["rule"] not in scenario.rules or result["grade"] != "falls short":
        return False
    if scenario.barriers and result["barrier"] not in scenario.barriers:
        return False
    if scenario.reasons and result["why"] not in scenario.reasons:
        return False
    if scenario.moved is not None and scenario.moved != is_if_moved(result):
        return False
    if scenario.share is None:
        return True
    share = _share(result)
    # 2.4 mm of 3 mm are 80 %, and to a computer a little less.
    return share is not None and scenario.share[0] <= share * (1 + SAME) < scenario.share[1]


def is_if_moved(result: Mapping[str, Any]) -> bool:
    """Whether a result tells of a distance that would be there if a part moved."""
    return result["why"] in IF_MOVED.get(result["rule"], ())


def _share(result):
    if result["rule"] == "safety/winding_layers":
        return result["numbers"]["layers_low"]
    ratio = result["ratio"]
    if ratio is None or ratio >= HALF or result["value"] is None:
        return ratio
    return ratio if result["value"] + (result["u"] or 0.0) < HALF * result["low"] else HALF


def written(scenarios: Sequence[Scenario]) -> list[dict[str, Any]]:
    """As JSON carries them."""
    return [asdict(scenario) for scenario in scenarios]


def read_scenarios(rows: Sequence[Mapping[str, Any]]) -> tuple[Scenario, ...]:
    """The rulebook's scenarios with the steps that a stored set gives them.

    What triggers a scenario is the rulebook's. One that the set does not know, or that has other
    steps by now, keeps its own; a step that is no probability raises ValueError with its name.
    """
    stored = {row["id"]: tuple(Step(**step) for step in row["steps"]) for row in rows}
    return tuple(_with_steps(own, stored.get(own.id, ())) for own in SCENARIOS)


def _with_steps(own, steps):
    if [step.key for step in steps] != [step.key for step in own.steps]:
        return own
    for step in steps:
        checked_probability(step.p, step.text)
    return replace(own, steps=steps)


def checked_probability(text: str, step: str) -> Fraction:
    """The fraction that a text says; ValueError names the step and the remedy."""
    try:
        p = Fraction(text.replace(" ", "") if WRITTEN.fullmatch(text.replace(" ", "")) else -1)
    except ZeroDivisionError:
        p = Fraction(-1)
    if not 0 < p <= 1:
        raise ValueError(f"“{step}”: “{text}” is no probability; write a fraction above 0 and up "
                         "to 1, such as 1/20 or 0.05.")
    return p
