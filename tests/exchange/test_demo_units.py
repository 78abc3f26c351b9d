"""The invented units together: they cite their plates rightly, and every rule has its say."""
import json
from pathlib import Path

import pytest

from teardowns.engine import rulebook
from teardowns.exchange.document import read_document, write_document
from teardowns.exchange.verdict import verdicts

FILES = sorted((Path(__file__).resolve().parents[2] / "fixtures" / "units").glob("*.json"))


@pytest.fixture(scope="module")
def reports():
    return verdicts([read_document(path.read_text("utf-8")) for path in FILES])


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_unit_is_written_as_the_form_writes_it(path):
    text = path.read_text("utf-8")
    assert write_document(read_document(text)) == text


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_claim_s_words_stand_where_it_says(path):
    document = json.loads(path.read_text("utf-8"))
    texts = {row["key"]: row.get("text", "") for row in document.get("printed_texts", ())}
    for claim in document.get("claims", ()):
        if "start" in claim:
            assert texts[claim["printed_text"]][claim["start"]:claim["end"]] == claim["text"]


def test_a_library_entry_says_the_same_in_every_unit():
    said = {}
    for path in FILES:
        for part in json.loads(path.read_text("utf-8")).get("parts", ()):
            assert said.setdefault(part["marking"], part) == part, path.name


def test_every_line_of_evidence_speaks_of_some_unit(reports):
    spoken = {line["id"] for report in reports for line in report["lines"]
              if any(end and end["value"] is not None for end in line["ends"].values())}
    spoken |= {weight["line"] for report in reports for claim in report["claims"]
               for weight in claim["weights"]}
    assert {rule.id for rule in rulebook.load().lines} <= spoken


def test_every_check_has_an_outcome_for_some_unit(reports):
    checked = {check["id"] for report in reports for check in report["checks"]}
    assert {rule.id for rule in rulebook.load().checks} <= checked
