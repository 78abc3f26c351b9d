"""`manage.py assess`: a verdict without a database, and clear words when there is none to give."""
import io
import json
import os
import subprocess
import sys
from types import SimpleNamespace

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command

from teardowns.exchange.document import FORM, read_document
from teardowns.exchange.verdict import verdicts
from teardowns.models import ReferenceSet
from tests.exchange.whole_document import WHOLE


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "unit.json"
    path.write_text(json.dumps(WHOLE), encoding="utf-8")
    return path


def assess(*arguments):
    out = io.StringIO()
    call_command("assess", *map(str, arguments), stdout=out)
    return out.getvalue()


def refusal(*arguments):
    with pytest.raises(CommandError) as refused:
        assess(*arguments)
    assert refused.value.returncode == 2
    return str(refused.value)


# None of these tests may use the database: pytest-django refuses every query without its mark.


def test_it_prints_the_verdict(file):
    text = assess(file)
    assert text.startswith("Ostrava Lumen OL-20, from a street stall\n")
    assert "5V⎓3A" in text


def test_as_json_it_prints_the_report(file):
    assert json.loads(assess(file, "--json")) == verdicts([read_document(WHOLE)])[0]


def test_a_dash_reads_standard_input(monkeypatch):
    stdin = SimpleNamespace(buffer=io.BytesIO(json.dumps(WHOLE).encode()))
    monkeypatch.setattr(sys, "stdin", stdin)
    assert "OL-20" in assess("-")


def test_a_missing_file_is_named(tmp_path):
    assert "none.json: cannot be read (No such file or directory); check the path" in refusal(
        tmp_path / "none.json")


def test_a_folder_is_no_file(tmp_path):
    assert "cannot be read (Is a directory)" in refusal(tmp_path)


def test_every_problem_of_a_document_is_listed_under_its_name(tmp_path):
    path = tmp_path / "bad.json"
    path.write_text(json.dumps({"form": FORM, "unit": {"titel": "x"}}))
    text = refusal(path)
    assert text.splitlines()[0].endswith("bad.json: this document cannot be taken.")
    assert '  unit.titel: no such key in the form; did you mean "title"?' in text


def test_words_of_a_bad_document_cannot_steer_the_terminal(tmp_path):
    path = tmp_path / "bad.json"
    path.write_text('{"form": "underplate-unit/1", "unit": {"title": "x", "\\u001b[2J": 1}}')
    assert "\x1b" not in refusal(path)


@pytest.mark.django_db
def test_for_the_site_it_takes_the_reference_set_in_force(file):
    ReferenceSet.objects.create(number=3, digest="c0" * 32, rulebook="1+0a1b2c3d", habits={},
                                units={}, excluded={}, is_active=True)
    assert json.loads(assess(file, "--json", "--site"))["reference_set"] == "set3-c0c0c0c0"
    assert json.loads(assess(file, "--json"))["reference_set"] is None
    assert "+set3-c0c0c0c0" in assess(file, "--site")


def run(file, *options, **environment):
    return subprocess.run(
        [sys.executable, "manage.py", "assess", str(file), *options], cwd=settings.BASE_DIR,
        env=os.environ | environment, capture_output=True, timeout=60, check=False)


def test_it_works_where_there_is_no_database(file, tmp_path):
    done = run(file, DATABASE_URL="postgres://nobody@127.0.0.1:1/none",
               UNDERPLATE_DATA_DIR=str(tmp_path), PYTHONIOENCODING="utf-8")
    assert done.returncode == 0, done.stderr
    assert b"Capability" in done.stdout


def test_without_a_database_the_site_is_not_to_be_had_and_the_remedy_is_named(file, tmp_path):
    done = run(file, "--site", DATABASE_URL="postgres://nobody@127.0.0.1:1/none",
               UNDERPLATE_DATA_DIR=str(tmp_path))
    assert done.returncode == 1
    assert b"leave out --site" in done.stderr and b"Traceback" not in done.stderr


def test_a_terminal_without_our_signs_gets_the_verdict_all_the_same(file):
    done = run(file, PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr


def test_bad_input_ends_with_exit_code_2(tmp_path):
    done = run(tmp_path / "none.json")
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
