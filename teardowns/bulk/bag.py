"""One record as a bag (BagIt, RFC 8493), and what a bag is worth that somebody brings.

A bag holds the record's document, what was made of it, its pictures with their marks, and the
values of its logs. The library bagit checks one; to write one it changes the working folder of the
whole process, and writes an older version of the form.
"""
from __future__ import annotations

import hashlib
import json
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import IO, Any

import bagit

from teardowns import licence
from teardowns.exchange.digest import digest
from teardowns.exchange.document import DocumentError, read_document, write_document
from teardowns.exchange.verdict import verdicts

from .record import Record

DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
ALGORITHMS = ("sha256", "sha512")
DOCUMENT, ASSESSMENT = "record.json", "assessment.json"
MOST_FILES, MOST_BYTES = 4000, 4_000_000_000       # of a bag that is read


class BadBag(ValueError):
    """Not a bag, or not one of a record, or damaged: the message says what and where."""


@dataclass(frozen=True)
class BagReading:
    document: dict[str, Any]
    said: Mapping[str, Any]         # what the bag says of its evidence: rulebook, digest, claims
    digest: str                     # of the evidence in it that was confirmed
    report: Mapping[str, Any]       # what the rules here make of that

    @property
    def same_evidence(self) -> bool:
        return self.digest == self.said["evidence_digest"]

    @property
    def same_rules(self) -> bool:
        return self.report["rulebook"] == self.said["rulebook"]

    @property
    def moved(self) -> list[tuple[str, str, str]]:
        """Claims whose verdict is another one here: claim, said there, said here."""
        here = {claim["ref"]: claim["verdict"] for claim in self.report["claims"]}
        return [(ref, word, here.get(ref, "")) for ref, word in self.said["verdicts"].items()
                if here.get(ref, "") != word]


def write_bag(target: IO[bytes], name: str, record: Record,
              files: Iterable[tuple[str, Iterable[bytes]]], organisation: str) -> None:
    """A zip file that holds the bag in a folder of this name; the same record gives the same bytes.

    files : path below `data`, and its content in blocks, read one after the other
    """
    document = {**record.document, "replies": list(record.replies),
                "licences": list(record.licences)}
    texts = {
        DOCUMENT: write_document(document),
        ASSESSMENT: json.dumps(said_of(record), ensure_ascii=False, indent=1) + "\n",
        "LICENCE.txt": licence.IN_FORCE.text + "\n",
    }
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        payload = _Folder(archive, name, record.published_at)
        for path, text in texts.items():
            payload.add(f"data/{path}", [text.encode()])
        for path, content in files:
            payload.add(f"data/{path}", content)
        tags = _Folder(archive, name, record.published_at)
        tags.add("bagit.txt", [DECLARATION])
        tags.add("bag-info.txt", [_info(record, organisation, payload).encode()])
        for algorithm in ALGORITHMS:
            tags.add(f"manifest-{algorithm}.txt", [payload.manifest(algorithm)])
        manifests = {algorithm: tags.manifest(algorithm) for algorithm in ALGORITHMS}
        for algorithm, listed in manifests.items():
            tags.add(f"tagmanifest-{algorithm}.txt", [listed])


def _info(record, organisation, payload):
    title = " ".join(record.document["unit"]["title"].split())
    lines = {
        "Source-Organization": organisation, "External-Description": title,
        "External-Identifier": record.address, "Internal-Sender-Identifier": record.uid,
        "Bagging-Date": record.published_at[:10],
        "Payload-Oxum": f"{payload.bytes}.{len(payload.digests)}",
        "Bag-Software-Agent": f"Underplate, rulebook {record.report['rulebook']}",
    }
    return "".join(f"{label}: {text}\n" for label, text in lines.items())


class _Folder:
    """What was put into the zip, with its checksums."""

    def __init__(self, archive, name, at):
        self.archive, self.name = archive, name
        year, month, day = map(int, at[:10].split("-"))
        self.date = (year, month, day, 0, 0, 0)
        self.bytes, self.digests = 0, {}

    def add(self, path: str, content: Iterable[bytes]) -> None:
        hashes = {algorithm: hashlib.new(algorithm) for algorithm in ALGORITHMS}
        entry = zipfile.ZipInfo(f"{self.name}/{path}", self.date)
        entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
        with self.archive.open(entry, "w", force_zip64=True) as file:
            for block in content:
                file.write(block)
                self.bytes += len(block)
                for each in hashes.values():
                    each.update(block)
        self.digests[path] = {name: each.hexdigest() for name, each in hashes.items()}

    def manifest(self, algorithm: str) -> bytes:
        """A line a file (RFC 8493, 2.1.3). Paths are keys of records: nothing in them to escape."""
        return "".join(f"{digests[algorithm]}  {path}\n"
                       for path, digests in self.digests.items()).encode()


def said_of(record: Record) -> dict[str, Any]:
    report = record.report
    return {
        "address": record.address, "version": record.version,
        "published_at": record.published_at, "rulebook": report["rulebook"],
        "evidence_digest": report["evidence_digest"], "reference_set": report["reference_set"],
        "verdicts": {claim["ref"]: claim["verdict"] for claim in report["claims"]},
        "report": report,
    }


def read_bag(source: Path, work: Path, rules: Any = None) -> BagReading:
    """A bag, or a bag in a zip, checked against its checksums and judged anew. Raises BadBag.

    work : an empty folder, for what a zip holds; rules : a rulebook, without one the engine's own
    """
    folder = source if source.is_dir() else _unzipped(source, work)
    try:
        bagit.Bag(str(folder)).validate()
    except bagit.BagError as error:
        raise BadBag(f"The bag is damaged or no bag: {error}") from None
    try:
        document = read_document((folder / "data" / DOCUMENT).read_bytes())
        said = json.loads((folder / "data" / ASSESSMENT).read_text("utf-8"))
        kept = {name: said[name] for name in ("rulebook", "evidence_digest", "verdicts")}
    except FileNotFoundError as error:
        raise BadBag(f"It is a bag, but not of a record: data/{Path(error.filename).name} is not "
                     "in it.") from None
    except DocumentError as error:
        raise BadBag("The record in it cannot be taken.\n" + "\n".join(error.problems)) from None
    except (ValueError, KeyError, TypeError) as error:
        raise BadBag(f"data/{ASSESSMENT} cannot be read: {error}") from None
    report, = verdicts([document], confirmed_only=True, rules=rules)
    return BagReading(document, kept, digest(document, confirmed_only=True), report)


def _unzipped(source, work):
    """The one folder that the zip holds. Nothing is written outside of the work folder."""
    try:
        with zipfile.ZipFile(source) as archive:
            entries = archive.infolist()
            if len(entries) > MOST_FILES or sum(one.file_size for one in entries) > MOST_BYTES:
                raise BadBag(f"It holds more than {MOST_FILES} files or {MOST_BYTES:,} bytes.")
            for one in entries:
                place = PurePosixPath(one.filename)
                if place.is_absolute() or ".." in place.parts or "\\" in one.filename:
                    raise BadBag(f"{one.filename}: leads out of the bag.")
            archive.extractall(work)
    except (zipfile.BadZipFile, OSError, RuntimeError, NotImplementedError) as error:
        raise BadBag(f"It cannot be unzipped: {error}") from None
    found = [one for one in work.iterdir() if one.is_dir()]
    if len(found) != 1:
        raise BadBag("A zipped bag holds one folder, which is the bag.")
    return found[0]

