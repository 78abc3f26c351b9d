"""Golden results: what the present rulebook says of every demo unit, in few digits.

A new file:  python -m tests.engine.golden > fixtures/golden/reports.json
"""
import json
from pathlib import Path

from teardowns.engine import rulebook
from teardowns.exchange.document import read_document
from teardowns.exchange.verdict import verdicts

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
FILE = FIXTURES / "golden" / "reports.json"


def documents():
    """The demo's documents by the name of their file, in its order."""
    return {path.stem: read_document(path.read_text("utf-8"))
            for path in sorted((FIXTURES / "units").glob("*.json"))}


def reports():
    """The engine's report on each demo unit, by the name of its file."""
    units = documents()
    return dict(zip(units, verdicts(list(units.values())), strict=True))


def golden():
    """What the golden file keeps."""
    units = {name: _of(report) for name, report in reports().items()}
    return {"edition": rulebook.load().edition, "units": units}


def _of(report):
    return {
        "capability": {end: _capability(found) for end, found in report["capability"].items()},
        "claims": {claim["ref"].removeprefix("claim/"):
                   {"verdict": claim["verdict"], "plausibility": rounded(claim["plausibility"])}
                   for claim in report["claims"]},
    }


def _capability(found):
    return found and {name: rounded(found[name]) for name in ("median", "low", "high")}


def rounded(value):
    """Three significant digits."""
    return None if value is None else float(f"{value:.3g}")


if __name__ == "__main__":
    print(json.dumps(golden(), ensure_ascii=False, indent=1))
