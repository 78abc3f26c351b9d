"""What holds for every rule about safety, whatever it is about."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.assumptions import ASSUMPTIONS
from teardowns.engine.grading import FALLS_SHORT, GRADES, MEETS
from tests.engine.rules.safety.any_inputs import dropped, random_inputs, run

RULES = rulebook.load().safety
EACH = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
SIZE = 1500
# Another reading of the same place: without it nothing is taken for granted, this one stands alone.
OF_OTHERS = {"other_least", "other_most"}
OPEN_BY_NATURE = {"safety/optocoupler"}      # no look from outside decides what lies inside a part


def inputs_of(rule, size=SIZE):
    return random_inputs(rule, np.random.default_rng(sum(map(ord, rule.id))), size)


@EACH
def test_dropping_an_input_never_reassures(rule):
    """Where it does become "meets", an assumption is named that was not made before."""
    inputs = inputs_of(rule)
    whole = run(rule, inputs)
    for name in set(rule.reads) - OF_OTHERS:
        fewer = run(rule, dropped(rule, inputs, name))
        better = (whole.applies & (whole.grade != MEETS)
                  & fewer.applies & (fewer.grade == MEETS))
        named = np.zeros(SIZE, bool)
        for key, taken in fewer.assumed.items():
            named |= taken & ~whole.assumed.get(key, np.zeros(SIZE, bool))
        bad = np.flatnonzero(better & ~named)
        assert not len(bad), (name, {key: part[bad[0]] for key, part in inputs.items()})


@EACH
def test_nothing_known_is_never_a_pass(rule):
    inputs = inputs_of(rule, 50)
    for name in rule.reads:
        inputs = dropped(rule, inputs, name)
    blank = run(rule, inputs)
    assert not (blank.applies & (blank.grade != 0)).any()


@EACH
def test_one_subject_gives_the_bits_that_it_gives_among_many(rule):
    inputs = inputs_of(rule, 64)
    many = run(rule, inputs)
    for at in range(64):
        alone = run(rule, {name: np.ascontiguousarray(part[at:at + 1])
                           for name, part in inputs.items()})
        for name in ("grade", "value", "u", "low", "high", "applies", "why", "confidence"):
            np.testing.assert_array_equal(getattr(alone, name)[0], getattr(many, name)[at])


@EACH
def test_more_uncertainty_is_never_surer(rule):
    doubts = [name for name in rule.reads if name.endswith("_u")]
    inputs = inputs_of(rule)
    before = run(rule, inputs)
    for name in doubts:
        after = run(rule, {**inputs, name: 3.0 * inputs[name]})
        assert np.isin(after.grade[before.grade == 0], [0]).all()
        for grade in (MEETS, FALLS_SHORT):
            assert np.isin(after.grade[before.grade == grade], [0, grade]).all()


@EACH
def test_no_subject_at_all_is_no_error(rule):
    assert len(run(rule, inputs_of(rule, 0)).grade) == 0


@EACH
def test_every_result_is_a_grade_with_a_reason_and_assumptions_that_can_be_read(rule):
    done = run(rule, inputs_of(rule))
    assert set(np.unique(done.grade).tolist()) <= set(GRADES)
    assert done.why.min() >= 0 and done.why.max() < len(rule.reasons)
    assert set(done.assumed) <= set(ASSUMPTIONS)
    assert ((done.confidence >= 0) & (done.confidence <= 2)).all()


@EACH
def test_every_grade_that_it_can_give_is_given(rule):
    """A rule whose random subjects all get one grade is no rule, unless it says that none can."""
    done = run(rule, inputs_of(rule))
    assert done.applies.any()
    assert (len(np.unique(done.grade[done.applies])) > 1) == (rule.id not in OPEN_BY_NATURE)


def test_words_about_a_result_never_accuse():
    said = " ".join(" ".join((*rule.reasons, rule.title, rule.summary)) for rule in RULES).lower()
    for word in ("illegal", "fake", "death", "lied", "forged", "counterfeit", "fails",
                 "dangerous", "not certified"):
        assert word not in said
