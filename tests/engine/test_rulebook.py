"""Every rule can be found, trusted and traced."""
import ast
import importlib
import re
import shutil
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

import teardowns.engine as engine
from teardowns.engine import rulebook
from teardowns.engine.rule import Worked

ENGINE = Path(engine.__file__).parent
TESTS = Path(__file__).parent
BOOK = rulebook.load()
RULES = BOOK.lines + BOOK.checks + BOOK.safety
KINDS = {"limit", "practice", "passed", "failed", "switch", "check", "safety"}
by_id = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)


@by_id
def test_it_says_what_it_is_when_it_holds_and_where_it_is_from(rule):
    assert rule.source and rule.validity and rule.title and rule.kind in KINDS
    assert importlib.import_module(rule.compute.__module__).__doc__.startswith(rule.summary[:20])


@by_id
def test_it_has_its_test_at_the_same_path(rule):
    *folders, name = rule.compute.__module__.split(".")[2:]
    assert TESTS.joinpath(*folders, f"test_{name}.py").exists()


@by_id
def test_its_formula_and_symbols_are_well_formed(rule):
    assert ElementTree.fromstring(rule.formula).tag == "math"
    for symbol in rule.symbols.values():
        ElementTree.fromstring(f"<math>{symbol}</math>")


@by_id
def test_its_words_accuse_nobody(rule):
    text = " ".join((rule.title, rule.source, rule.validity, rule.summary, rule.silent,
                     *rule.asks.values())).lower()
    assert not re.search(r"\b(fake|lied|lying|illegal|dangerous|fraud)\b", text)


WORKED = [(rule, one) for rule in BOOK.lines for one in rule.worked]


@pytest.mark.parametrize("rule, one", WORKED, ids=[f"{r.id} {w.result:g}" for r, w in WORKED])
def test_it_reproduces_the_values_that_the_method_page_prints(rule, one):
    inputs = (np.array([one.inputs.get(code, np.nan)], float) for code in rule.reads)
    with np.errstate(invalid="ignore", divide="ignore"):
        found = float(rule.compute(*inputs)[0])
    assert found == pytest.approx(one.result, rel=one.tolerance)


def test_the_ids_are_sorted_and_each_once():
    ids = [rule.id for rule in RULES]
    assert len(set(ids)) == len(ids)
    for group in (BOOK.power, BOOK.voltage, BOOK.checks, BOOK.safety):
        assert [rule.id for rule in group] == sorted(rule.id for rule in group)


def test_every_file_of_a_rule_is_in_the_book():
    files = {f"{path.parent.name}/{path.stem}" for path in (ENGINE / "rules").glob("*/*.py")
             if path.stem != "__init__"}
    assert {rule.id for rule in RULES} == files


def test_the_version_is_the_edition_and_eight_digits_of_the_sources():
    assert re.fullmatch(rf"{re.escape(BOOK.edition)}\+[0-9a-f]{{8}}", BOOK.version)
    assert rulebook.fingerprint() == BOOK.fingerprint


@pytest.fixture
def copied(tmp_path, monkeypatch):
    """A copy of the engine's sources, of which alone the fingerprint is taken."""
    root = tmp_path / "engine"
    shutil.copytree(ENGINE, root, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(rulebook, "__file__", str(root / "rulebook.py"))
    return root


def test_the_same_sources_have_the_same_version_wherever_they_stand(copied):
    assert rulebook.load.__wrapped__().version == BOOK.version


@pytest.mark.parametrize("path", ["rules/power/bulk_capacitor.py", "quantities.py",
                                  "physics/rectifier.py"])
def test_one_byte_of_one_source_file_makes_another_version(copied, path):
    source = copied / path
    source.write_bytes(source.read_bytes() + b"\n")
    changed = rulebook.load.__wrapped__()
    assert changed.version != BOOK.version and changed.edition == BOOK.edition


def test_a_source_file_of_another_name_makes_another_version(copied):
    (copied / "wording.py").rename(copied / "words.py")
    assert rulebook.fingerprint() != BOOK.fingerprint


def test_a_rule_is_found_by_its_id():
    assert BOOK["power/bulk_capacitor"].kind == "limit"
    with pytest.raises(KeyError):
        BOOK["power/no_such_rule"]


@pytest.mark.parametrize("fault, message", [
    ({"reads": ("bulk_capacitanse",)}, "power/bulk_capacitor reads .*bulk_capacitanse"),
    ({"reads": ("claim_power",)}, "claim_power"),        # for checks alone
    ({"title": ""}, "has no title"), ({"summary": ""}, "has no summary"),
    ({"source": ""}, "has no source"), ({"validity": ""}, "has no validity"),
    ({"formula": ""}, "has no formula"), ({"model_error": 0.0}, "model error"),
    ({"margin": 0.0}, "without a design margin"), ({"id": "power/other_name"}, "name them alike"),
    ({"asks": {"mass_total": "?"}}, "which it does not read"),
    ({"worked": (Worked({"mass_total": 1.0}, 1.0, 0.1, "s"),)}, "which it does not read"),
    ({"worked": (Worked({}, 1.0, 0.1, ""),)}, "worked value without a source"),
])
def test_a_rule_that_cannot_be_trusted_is_refused_at_load(fault, message):
    with pytest.raises(LookupError, match=message):
        rulebook.check_rule(replace(BOOK["power/bulk_capacitor"], **fault))


def test_a_book_with_a_rule_that_yields_to_nothing_does_not_load(monkeypatch):
    broken = replace(BOOK["power/mass_per_watt"], unless="power/no_such_rule")
    monkeypatch.setattr(rulebook, "_found", lambda: [broken])
    with pytest.raises(LookupError, match="power/mass_per_watt .*power/no_such_rule"):
        rulebook.load.__wrapped__()


def test_a_book_with_a_rule_of_an_unknown_quantity_does_not_load(monkeypatch):
    broken = replace(BOOK["power/mass_per_watt"], reads=("mass_of_the_soul",))
    monkeypatch.setattr(rulebook, "_found", lambda: [*RULES, broken])
    with pytest.raises(LookupError, match="power/mass_per_watt reads .*mass_of_the_soul"):
        rulebook.load.__wrapped__()


@pytest.mark.parametrize("path", sorted(ENGINE.rglob("*.py")), ids=lambda p: p.name)
def test_the_engine_imports_numpy_and_scipy_special_only(path):
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        names = ([a.name for a in node.names] if isinstance(node, ast.Import) else
                 [node.module or ""] if isinstance(node, ast.ImportFrom) and not node.level else [])
        for name in names:
            assert name.split(".")[0] not in {"django", "core"}, path
            assert not name.startswith("scipy") or name == "scipy.special", path
            assert not name.startswith("teardowns") or name.startswith("teardowns.engine"), path


def test_rules_do_not_import_each_other():
    for path in (ENGINE / "rules").rglob("*.py"):
        assert "engine.rules" not in path.read_text("utf-8"), path
