"""One subject asked by one rule: what is not said is not known."""
import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.grading import GRADES
from tests.engine.rules.safety.any_inputs import NAN, is_text


def asked(name, **known):
    """The `Graded` of one subject by safety/`name`."""
    rule = rulebook.load()[f"safety/{name}"]
    assert known.keys() <= set(rule.reads), known.keys() - set(rule.reads)
    inputs = [np.array([known.get(one, "" if is_text(rule, one) else NAN)]) for one in rule.reads]
    with np.errstate(all="ignore"):
        return rule.compute(*inputs)


def grade_of(name, **known):
    """As tabulated: "meets", "falls short", "cannot tell"; None where the rule is not asked."""
    found = asked(name, **known)
    return GRADES[int(found.grade[0])] if found.applies[0] else None
