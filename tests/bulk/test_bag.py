"""A record as a bag: read by the library that others use, and judged anew."""
import json
import zipfile

import bagit
import pytest

from teardowns.bulk.bag import BadBag, read_bag, write_bag
from tests.bulk.records import records

FILES = [("photos/lid.webp", b"RIFF"), ("recordings/sweep.csv", b"time (s)\r\n0\r\n")]


NAME = "underplate-unit-4-v1"


def written(path):
    with path.open("wb") as file:
        write_bag(file, NAME, records()[1], [(path, [content]) for path, content in FILES],
                  "Underplate")
    return path


@pytest.fixture
def bag(tmp_path):
    zipfile.ZipFile(written(tmp_path / "bag.zip")).extractall(tmp_path)
    return tmp_path / NAME


def test_it_is_a_bag_with_checksums_of_everything(bag):
    found = bagit.Bag(str(bag))
    found.validate()
    assert {"data/record.json", "data/assessment.json", "data/LICENCE.txt", "data/photos/lid.webp",
            "data/recordings/sweep.csv"} == set(found.payload_entries())
    assert found.version_info == (1, 0) and set(found.algorithms) == {"sha256", "sha512"}
    assert found.info["Bagging-Date"] == "2026-01-09"


def test_the_same_record_gives_the_same_bytes(tmp_path):
    one, other = (written(tmp_path / name).read_bytes() for name in ("one.zip", "other.zip"))
    assert one == other


def test_read_again_it_has_the_same_digest_and_the_same_verdicts(tmp_path):
    (tmp_path / "work").mkdir()
    reading = read_bag(written(tmp_path / "bag.zip"), tmp_path / "work")
    assert reading.same_evidence and reading.same_rules and reading.moved == []
    assert reading.document["replies"] == records()[1].replies
    assert reading.document["licences"] == records()[1].licences


def test_a_verdict_that_is_another_one_here_is_named(bag, tmp_path):
    said = bag / "data/assessment.json"
    told = json.loads(said.read_text("utf-8"))
    ref = next(iter(told["verdicts"]))
    there = told["verdicts"][ref] = "no evidence at all"
    said.write_text(json.dumps(told), "utf-8")
    remade(bag)
    (moved,) = read_bag(bag, tmp_path).moved
    assert moved[:2] == (ref, there)


def test_other_evidence_than_stated_is_noticed(bag, tmp_path):
    record = bag / "data/record.json"
    told = json.loads(record.read_text("utf-8"))
    mass = next(row for row in told["measurements"] if row["quantity"] == "mass_total")
    mass["value"] *= 1.5
    record.write_text(json.dumps(told), "utf-8")
    remade(bag)
    assert not read_bag(bag, tmp_path).same_evidence


def remade(folder):
    """Checksums made anew, as somebody who changes a bag would."""
    bagit.Bag(str(folder)).save(manifests=True)


def test_a_changed_byte_is_noticed(bag, tmp_path):
    (bag / "data/photos/lid.webp").write_bytes(b"RIFX")
    with pytest.raises(BadBag, match="damaged"):
        read_bag(bag, tmp_path)


def zip_of(path, entries):
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in entries:
            archive.writestr(name, content)
    return path


@pytest.mark.parametrize(("entries", "words"), [
    ([("../out.txt", "x")], "leads out"), ([("/etc/x", "x")], "leads out"),
    ([("a/x", "x"), ("b/x", "x")], "one folder"), ([], "one folder"),
    ([("a/x", "x")], "no bag"),
])
def test_a_zip_that_is_no_bag_is_refused_in_words(tmp_path, entries, words):
    (tmp_path / "work").mkdir()
    with pytest.raises(BadBag, match=words):
        read_bag(zip_of(tmp_path / "x.zip", entries), tmp_path / "work")
    assert not (tmp_path / "out.txt").exists()


def test_no_zip_and_a_bag_of_something_else_are_refused(tmp_path):
    (tmp_path / "x.zip").write_bytes(b"PK\x03\x04 no more")
    other = tmp_path / "other"
    other.mkdir()
    (other / "note.txt").write_text("Nothing of a charger.")
    bagit.make_bag(str(other), {})
    for source, words in ((tmp_path / "x.zip", "unzipped"), (other, "not of a record")):
        with pytest.raises(BadBag, match=words):
            read_bag(source, tmp_path)
