"""Rules about safety over columns: one unit like many, and each parameter from its place."""
import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.columns import Column, Frame
from teardowns.engine.grading import Graded, graded
from teardowns.engine.rule import Rule
from teardowns.engine.safety import grade, grade_units, with_derived
from teardowns.engine.subjects import Subjects, SubjectTable

NAN = float("nan")


def rule_that_reads(compute, *reads, on="path"):
    return Rule(id="safety/sample", kind="safety", on=on, title="", reads=reads, compute=compute,
                source="", validity="", formula="", reasons=("",))


def column(values, u):
    return Column(np.array(values), np.array(u), np.ones(len(values), np.int8))


PATHS = SubjectTable.of("path", [(0, {"distance": 1e-3}), (1, {"distance": 2e-3}),
                                 (1, {"distance": 3e-3})])
UNITS = SubjectTable.of("unit", [(0, {"plug": "bs1363"}), (1, {"plug": "europlug"})])
FRAME = Frame(3, {"touch_current": column([1e-4, 2e-4, NAN], [1e-6, 2e-6, NAN])})


def test_a_rule_reads_the_subject_its_unit_and_the_quantities_of_the_unit():
    def sample(distance, plug, touch_current, touch_current_u):
        assert distance.tolist() == [1e-3, 2e-3, 3e-3]
        assert plug.tolist() == ["bs1363", "europlug", "europlug"]
        assert touch_current.tolist() == [1e-4, 2e-4, 2e-4]
        assert touch_current_u.tolist() == [2e-6, 4e-6, 4e-6]       # expanded: two standard ones
        return graded(np.zeros(3))

    rule = rule_that_reads(sample, "distance", "plug", "touch_current", "touch_current_u")
    grade(rule, FRAME, Subjects({"path": PATHS, "unit": UNITS}))


def test_a_unit_of_which_nothing_is_known_is_a_subject_too():
    def sample(plug, touch_current):
        assert plug.tolist() == ["", "", ""] and len(touch_current) == 3
        return graded(np.zeros(3))

    assert len(grade(rule_that_reads(sample, "plug", "touch_current", on="unit"), FRAME,
                     with_derived(Subjects(), FRAME)).grade) == 3


def a_fleet(size):
    """Units with paths of all kinds, a stack and some parts."""
    rng = np.random.default_rng(4)
    paths = [(row, {"barrier": "PRI_SEC", "path": rng.choice(["clearance", "creepage"]),
                    "distance": rng.uniform(5e-4, 9e-3), "distance_u": 1e-4,
                    "site": rng.choice(["", "board", "transformer"])})
             for row in range(size) for _ in range(3)]
    stack = [(row, {"position": float(place), "kind": "winding" if wound else "insulation",
                    "winding": wound, "state": "recorded", "wire_insulation": "enamel" if wound
                    else "", "tape_layers": NAN if wound else float(rng.integers(0, 4))})
             for row in range(size)
             for place, wound in enumerate(["primary", "", "secondary"])]
    parts = [(row, {"role": "barrier_capacitor", "state": "recorded", "count": 1.0,
                    "safety_class": rng.choice(["Y1", "Y2", ""])}) for row in range(size)]
    subjects = Subjects({on: SubjectTable.of(on, rows) for on, rows in (
        ("path", paths), ("layer", stack), ("part", parts))})
    volts = column(rng.choice([120.0, 240.0], size), np.zeros(size))
    sizes = column(rng.uniform(3e-3, 5e-3, size), np.full(size, 5e-5))
    frame = Frame(size, {"rated_voltage_high": volts, "pin_diameter": sizes})
    return frame, with_derived(subjects, frame)


def test_one_unit_gives_the_bits_that_it_gives_among_many(monkeypatch):
    monkeypatch.setattr("teardowns.engine.safety.CHUNK", 16)
    frame, subjects = a_fleet(50)
    rules = rulebook.load().safety
    many = grade_units(rules, frame, subjects)
    for row in (0, 17, 49):
        alone = grade_units(rules, frame.take([row]), subjects.of_units(row, row + 1))
        for rule in rules:
            table = subjects[rule.on]
            mine = table.row == row if rule.on != "unit" else np.arange(50) == row
            assert_same(alone[rule.id], many[rule.id].take(mine))


def assert_same(one: Graded, other: Graded):
    for name in ("grade", "value", "u", "low", "high", "applies", "why", "confidence"):
        np.testing.assert_array_equal(getattr(one, name), getattr(other, name))
