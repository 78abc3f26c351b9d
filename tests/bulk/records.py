"""Records for bulk data, made of demo documents."""
import json
from functools import cache
from pathlib import Path

from teardowns.bulk.record import Record
from teardowns.exchange.document import read_document
from teardowns.exchange.verdict import verdicts

UNITS = Path(__file__).resolve().parents[2] / "fixtures/units"
LICENCE = {"author": "alma", "agreed": "2026-01-09", "measurements": "CC0-1.0",
           "works": "CC-BY-4.0", "edition": 1, "text_sha256": "0" * 64, "third_party": ""}
REPLY = {"about": "", "by": "Brethuld Ltd", "version": 1, "received": "2026-02-01",
         "language": "en", "text": 'We measured "12 W",\r\nnot 9 W; =1+1', "disputes": True,
         "answer": ""}


@cache
def records():
    """Two units, the second with a reply and terms."""
    names = ("03-quimsby-q12", "08-ipswold-furrow45")
    documents = [read_document((UNITS / f"{name}.json").read_bytes())
                 for name in names]
    reports = json.loads(json.dumps(verdicts(documents, confirmed_only=True)))
    first, second = (Record(
        unit=number, version=1, published_at="2026-01-09T10:00:00+00:00",
        address=f"https://underplate.example/units/{number}/versions/1/", document=document,
        report=report) for number, (document, report) in enumerate(
            zip(documents, reports, strict=True), 3))
    return first, Record(**{name: getattr(second, name) for name in (
        "unit", "version", "published_at", "address", "document", "report")},
        licences=[LICENCE], replies=[REPLY])
