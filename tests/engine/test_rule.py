"""A rule is a plain function; the words above it only describe it."""
from dataclasses import FrozenInstanceError

import pytest

from teardowns.engine import rule as words
from teardowns.engine.rule import check, failed, limit, passed, practice, switch

TEXTS = {"title": "Example", "source": "Worked example.", "validity": "In this test.",
         "formula": "<math/>"}


@limit(on="power", model_error=0.04, margin=0.45, optional=("case_depth",), **TEXTS)
def by_volume(case_width, case_height, case_depth):
    return case_width * case_height * case_depth


def test_its_id_is_its_folder_and_its_name():
    assert by_volume.rule.id == "engine/by_volume"


def test_it_reads_what_its_parameters_name_in_their_order():
    assert by_volume.rule.reads == ("case_width", "case_height", "case_depth")
    assert by_volume.rule.required == ("case_width", "case_height")


def test_it_stays_the_function_that_was_written():
    assert by_volume(2.0, 3.0, 4.0) == 24.0
    assert by_volume.rule.compute is by_volume


def test_its_summary_is_the_docstring_of_its_file():
    assert by_volume.rule.summary == __doc__


def test_it_cannot_be_changed_afterwards():
    with pytest.raises(FrozenInstanceError):
        by_volume.rule.source = "hearsay"


@pytest.mark.parametrize("declare, more, kind", [
    (limit, {"on": "power", "model_error": 0.1, "margin": 0.4}, "limit"),
    (practice, {"on": "power", "model_error": 0.5}, "practice"),
    (passed, {"on": "voltage", "model_error": 0.01}, "passed"),
    (failed, {"on": "voltage", "model_error": 0.01}, "failed"),
    (switch, {"on": "voltage"}, "switch"), (check, {}, "check"),
])
def test_each_word_declares_its_kind_and_the_unit_of_its_result(declare, more, kind):
    made = declare(**more, **TEXTS)(lambda mass_total: mass_total).rule
    assert made.kind == kind
    assert made.unit == {"power": "W", "voltage": "V"}.get(more.get("on"), "")
    assert made.on == more.get("on", "claim")


@pytest.mark.parametrize("declare", [limit, practice, passed, failed])
def test_a_line_cannot_be_declared_without_its_model_error(declare):
    with pytest.raises(TypeError, match="model_error"):
        declare(on="power", **TEXTS)


def test_the_kinds_are_six():
    kinds = {words.LIMIT, words.PRACTICE, words.PASSED, words.FAILED, words.SWITCH, words.CHECK}
    assert kinds == {"limit", "practice", "passed", "failed", "switch", "check"}
