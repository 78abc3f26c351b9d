"""The method page says everything that the rulebook says."""
from html import unescape

import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.defaults import DEFAULTS
from teardowns.engine.likelihoods import log_practice
from teardowns.engine.physics.cores import CORES
from teardowns.engine.physics.feedback import TABLE
from teardowns.engine.rule import LIMIT
from teardowns.engine.verdicts import WORDS, verdict_words
from teardowns.exchange.inheritable import INHERITABLE
from teardowns.likeness.compare import AGAINST
from teardowns.likeness.sentences import slot_name
from teardowns.presenting.evidence_names import quantity_label
from teardowns.presenting.method_sheet import method_sheet
from teardowns.presenting.verdict_words import VERDICT_WORDS

pytestmark = pytest.mark.django_db
RULES = rulebook.load().lines + rulebook.load().checks


@pytest.fixture
def shown(client):
    return unescape(client.get("/method/").content.decode())


def word(low, high=None, total=-50.0, weight=-50.0, conflict=False):
    """The verdict word of one claim with one limit line."""
    at = verdict_words(*(np.array([v]) for v in (low, low if high is None else high, total)),
                       np.array([[weight]]), np.array([LIMIT]), np.array([conflict]))
    return WORDS[int(at[0])]


def test_it_works_for_anyone_and_takes_no_post(client, shown):
    assert "<h1>Method</h1>" in shown
    assert client.post("/method/").status_code == 405


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_is_printed_whole(shown, rule):
    assert f'id="{rule.id.replace("/", "-")}"' in shown and rule.formula in shown
    for part in (rule.title, rule.source, rule.validity, *rule.summary.split("\n\n")):
        assert part in shown


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.worked], ids=lambda rule: rule.id)
def test_every_tested_value_is_printed_with_its_source(shown, rule):
    assert all(one.source in shown for one in rule.worked)


def test_the_core_library_and_the_truth_table_are_printed_row_by_row(shown):
    assert all(core.name in shown for core in CORES)
    assert all(arrangement.note in shown for arrangement in TABLE)


@pytest.mark.parametrize("code", DEFAULTS)
def test_every_default_is_printed_with_its_source(shown, code):
    assert DEFAULTS[code].source in shown


def test_every_input_of_a_rule_has_a_name_and_a_meaning():
    for _, _, sheets in method_sheet(rulebook.load())["chapters"]:
        for item in (item for sheet in sheets for item in sheet.inputs):
            assert "_" not in item.name and item.meaning.endswith(".") and item.otherwise


def test_the_version_is_printed(shown):
    assert rulebook.load().version in shown and rulebook.load().fingerprint in shown


def test_every_verdict_word_is_printed_with_its_threshold(shown):
    assert {w.word for w in VERDICT_WORDS} == set(WORDS)
    assert all(w.threshold in shown for w in VERDICT_WORDS)


@pytest.mark.parametrize(("plausibility", "expected"), [
    (0.9, "supported"), (0.899, "possible"), (0.5, "possible"), (0.499, "doubtful"),
    (0.1, "doubtful"), (0.0999, "implausible"), (0.01, "implausible"),
    (0.0099, "not attainable on this evidence"),
])
def test_the_printed_thresholds_are_those_of_the_engine(plausibility, expected):
    # printed: at least 0.9; at least 0.5; at least 0.1; below 0.1; below 0.01
    assert word(plausibility) == expected


def test_the_printed_conditions_are_those_of_the_engine():
    # printed: both mains ends, 10 decibans alone, 3 decibans, and that later rows win
    assert word(0.001, high=0.02) == "implausible"
    assert word(0.001, weight=-9.9) == "implausible"
    assert word(0.4, total=-2.9, weight=-2.9) == "no evidence"
    assert word(0.3, total=-3.1, weight=-2.9) == "doubtful"
    assert word(0.95, conflict=True) == "evidence contradicts itself"


def test_the_printed_reach_of_a_habit_is_that_of_its_likelihood(shown):
    # a perfect fit against a hopeless one: (0.0375 + 0.85) / 0.0375 = 23.67
    assert np.exp(log_practice(0.0, 1.0) - log_practice(99.0, 1.0)) == pytest.approx(71 / 3)
    assert "At most 24 : 1" in shown


def test_it_says_how_boards_are_compared_and_what_is_lent_by_the_code_s_own_constants(shown):
    boards = shown.partition('id="likeness"')[2].partition('id="version"')[0]
    assert all(slot_name(slot) in boards for slot in AGAINST)
    assert all(quantity_label(code) in boards for code in INHERITABLE)
    assert f">{AGAINST['marking/primary_controller']:g}<" in boards
    assert "30\u202f%" in boards       # CHANGED_AT_WILL = 0.30
