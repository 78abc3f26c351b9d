"""One grade walked back: the same as published, with all that went into it."""
import pytest

from teardowns.engine import pipeline, rulebook
from teardowns.engine.explain_safety import explain_safety
from teardowns.engine.report import report
from teardowns.exchange.tables import engine_tables
from tests.exchange.small import small

PATHS = [
    {"key": key, "path": kind, "place": key, "value": value}
    for key, kind, value in (("slot", "clearance", 0.0034), ("board", "creepage", 0.0041),
                             ("pins", "clearance", 0.0012))]


@pytest.fixture(scope="module")
def assessed():
    seen = [{"quantity": "case_opens_by_hand", "value": value} for value in (1.0, 0.0)]
    tables = engine_tables([small(), small(insulation=PATHS, measurements=seen)])
    return tables, pipeline.assess(tables.evidence, tables.claims, rulebook.load(), tables.ports,
                                   tables.subjects)


def test_the_working_of_every_rule_says_what_was_published(assessed):
    tables, assessment = assessed
    published = report(assessment, 1, tables.refs)["safety"]["results"]
    for rule in assessment.rulebook.safety:
        explained = explain_safety(assessment, 1, rule.id, tables.refs)["subjects"]
        mine = [one for one in published if one["rule"] == rule.id]
        assert [{name: one[name] for name in mine[0]} for one in explained] == mine


def test_each_subject_has_its_own_inputs(assessed):
    tables, assessment = assessed
    found = explain_safety(assessment, 1, "safety/clearance", tables.refs)["subjects"]
    distances = {one["subject"]: entry["value"] for one in found for entry in one["inputs"]
                 if entry["name"] == "distance"}
    assert distances == {"slot": 0.0034, "pins": 0.0012}


def test_what_was_taken_for_granted_is_in_words(assessed):
    tables, assessment = assessed
    found = explain_safety(assessment, 1, "safety/clearance", tables.refs)["subjects"][0]
    assert len(found["assumptions"]) == len(found["assumed"]) > 0
    assert all(text.endswith(".") for text in found["assumptions"])


def test_a_rule_without_a_subject_says_nothing(assessed):
    tables, assessment = assessed
    assert explain_safety(assessment, 0, "safety/clearance", tables.refs)["subjects"] == []
