"""What the sources never do, whatever comes in."""
import re
from pathlib import Path

ROOT = Path(__file__).parent.parent
PYTHON = [path for room in ("core", "teardowns") for path in sorted((ROOT / room).rglob("*.py"))
          if "migrations" not in path.parts]
SCRIPTS = sorted((ROOT / "static" / "js").rglob("*.js"))
# These write statements of their own, of constants and bound values; each was read for it.
SPEAK_SQL = {
    "core/audit/triggers.py", "core/backup/databases.py", "core/backup/state.py",
    "core/doctor/clock.py", "core/doctor/database.py", "core/doctor/postgresql.py",
    "core/doctor/sqlite.py", "core/migrating.py", "core/operation/gauges.py",
    "teardowns/search_engines/__init__.py",
    "teardowns/search_engines/postgresql.py", "teardowns/search_engines/sqlite.py",
    "teardowns/services/index_likeness.py", "teardowns/services/keep_assessments.py",
    "teardowns/services/listing_clock.py", "teardowns/services/near_names.py",
    "teardowns/services/page_state.py", "teardowns/services/reassess_publications.py",
    "teardowns/services/search_suggestions.py"}
# One reads formulas of the method page, which are ours; the other refuses declarations.
READ_XML = {"teardowns/presenting/formula.py", "teardowns/imaging/web_annotation.py"}
ASK_OTHERS = {"core/doctor/mail.py", "core/overload.py",          # each a socket of this machine
              "core/object_storage.py",                        # or of the bucket of the settings
              "core/management/commands/demo.py"}                # or of the mail server
CHANCE_WITHOUT_SECRET = {"teardowns/forms/plain_question.py"}    # which words a question names


def having(pattern, paths):
    """Paths of the files that have the pattern somewhere, from the repository's root."""
    found = re.compile(pattern, re.MULTILINE)
    return {path.relative_to(ROOT).as_posix() for path in paths
            if found.search(path.read_text("utf-8"))}


def test_statements_are_written_in_few_places_and_never_put_together_by_the_orm():
    assert having(r"\.execute(many|script)?\(", PYTHON) == SPEAK_SQL
    assert not having(r"\.raw\(|\.extra\(|RawSQL", PYTHON)


def test_no_program_is_started_through_a_shell():
    assert having(r"subprocess\.(run|Popen)", PYTHON)
    assert not having(r"shell=|os\.system|os\.popen|getoutput", PYTHON)


def test_nothing_that_comes_in_is_run_or_unpickled():
    assert not having(r"(?<![\w.])(eval|exec)\(|allow_pickle=True|"
                      r"^\s*(import|from) (pickle|marshal|shelve|yaml|dill|jsonpickle)\b", PYTHON)


def test_the_site_asks_no_address_on_the_net():
    asking = (r"^\s*(import|from) (socket|http\.client|urllib\.request|requests|httpx|aiohttp|"
              r"ftplib|boto3|urllib3)\b|urllib\.request")
    assert having(asking, PYTHON) == ASK_OTHERS


def test_no_template_is_made_of_text():
    assert not having(r"(?<!\w)(Template|Engine)\(|from_string\(", PYTHON)


def test_xml_is_read_in_two_places_and_never_with_declarations():
    assert having(r"fromstring\(|iterparse|minidom|expat|lxml|ElementTree\.(parse|XML)\b|"
                  r"import XML\b", PYTHON) == READ_XML


def test_cryptography_is_the_libraries():
    assert not having(r"\b(md5|sha1)\b|hashlib\.new\((?!algorithm\))", PYTHON)
    # Django's own takes SHA-1 where it is not told another.
    assert not having(r"salted_hmac\((?![^\n]*algorithm=\"sha256\")", PYTHON)
    assert having(r"^\s*(import|from) random\b", PYTHON) == CHANCE_WITHOUT_SECRET


def test_scripts_insert_text_as_text():
    assert not having(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|"
                      r"new Function|createContextualFragment|srcdoc|postMessage", SCRIPTS)
