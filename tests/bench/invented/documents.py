"""Documents that many units are copied from: the demo's, thinned out and varied. Deterministic.

What each copy has of its own stands in them as a word that occurs nowhere else.
"""
from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from random import Random
from uuid import UUID

from teardowns.exchange.document import read_document

FIXTURES = Path(__file__).resolve().parents[3] / "fixtures" / "units"
SUFFIX = "ZQXJ"                         # of a model's name
OWN_MARKING = {"optocoupler": "ZQO1-XJ", "output_rectifier": "ZQR2-XJ", "pass_switch": "ZQS3-XJ"}
LEAN_ROLES = {"bulk_capacitor", "primary_controller", "core", "transformer", "optocoupler",
              "output_capacitor", "output_rectifier", "barrier_capacitor", "fuse", "pass_switch",
              "protocol_controller", "sense_resistor", "ballast"}
LEAN_QUANTITIES = {"mass_total", "mass_ballast", "case_height", "case_width", "case_depth",
                   "sustained_power", "failed_power", "peak_power", "bulk_capacitance",
                   "rectifier_full_wave", "power_factor_corrector", "output_voltage_idle"}
LEAN_CLAIMS = {"output", "total", "listing", "model", "input"}
CHANNELS = ("marketplace",) * 5 + ("web_shop",) * 3 + ("shop",) * 3 + (
    "street", "bundled", "second_hand", "unknown")
KINDS = ("plug_in",) * 6 + ("desktop", "desktop", "outlet", "other")
MAKES = ("UWK", "ZHB", "QRV", "TLN", "OKD", "VEX", "JUM", "HYP")    # of controllers


def archetypes(count: int) -> list[dict]:
    """Full documents, every row of them confirmed or disputed."""
    plain = [json.loads(path.read_text("utf-8")) for path in sorted(FIXTURES.glob("*.json"))]
    named = [one for one in plain if one["unit"].get("model") and one.get("components")]
    return [_varied(deepcopy(named[at % len(named)]), at) for at in range(count)]


def _varied(document, at):
    draw = Random(at)
    unit = document["unit"]
    unit |= {"uid": str(UUID(int=draw.getrandbits(128), version=4)), "kind": draw.choice(KINDS),
             "channel": draw.choice(CHANNELS)}
    unit.pop("status", None)
    unit.pop("obtained_on", None)
    if draw.random() < 0.9:
        unit["obtained_on"] = "2020-01-01"
    if draw.random() < 0.93:
        _thin(document)
    _rename(document)
    _as_another_make(document, MAKES[at % len(MAKES)])
    _other_markings(document)
    _other_loads(document, draw)
    _other_distances(document, draw)
    _leave_out(document, draw)
    for name in ("printed_texts", "claims", "ports", "components", "stack", "insulation",
                 "measurements"):
        for row in document.get(name, ()):
            row["review_state"] = "disputed" if row.get("review_state") == "disputed" \
                else "confirmed"
    _cite_what_is_there(document)
    return read_document(document)


def _thin(document):
    """What most people record: the plate, what it claims, the main parts."""
    keep = {"components": ("role", LEAN_ROLES), "measurements": ("quantity", LEAN_QUANTITIES),
            "claims": ("kind", LEAN_CLAIMS)}
    for name, (field, wanted) in keep.items():
        document[name] = [row for row in document.get(name, ()) if row[field] in wanted]
    document["stack"] = []
    document["insulation"] = document.get("insulation", [])[:3]


def _rename(document):
    """The model gets a suffix, on the plate as well; places of claims in it move along."""
    old = document["unit"]["model"]
    new = f"{old}-{SUFFIX}"
    document["unit"]["model"] = new
    for printed in document["printed_texts"]:
        if "text" not in printed:
            continue
        printed["text"] = printed["text"].replace(old, new, 1)
        for claim in document.get("claims", ()):
            if claim.get("printed_text") == printed["key"] and "start" in claim:
                claim["text"] = claim["text"].replace(old, new, 1) \
                    if claim["kind"] == "model" else claim["text"]
                claim["start"] = printed["text"].find(claim["text"], claim["start"])
                claim["end"] = claim["start"] + len(claim["text"])
                if claim["start"] < 0:
                    del claim["start"], claim["end"]


def _as_another_make(document, make):
    for row in [*document["components"], *document.get("parts", ())]:
        for field in ("marking", "part"):
            if row.get(field, "").startswith(("UWK-", "ZHB-")):
                row[field] = make + "X" * (row[field][0] == "Z") + row[field][3:]


def _other_markings(document):
    for row in document["components"]:
        if row["role"] in OWN_MARKING and row.get("state", "recorded") == "recorded" \
                and "part" not in row:
            row["marking"] = OWN_MARKING[row["role"]]


def _other_loads(document, draw):
    """Some carry less than the document says, some were loaded that were not."""
    rows = document["measurements"]
    loads = [row for row in rows if row["quantity"] in ("sustained_power", "failed_power")
             and "value" in row]
    share = draw.choice((0.5, 0.7, 0.85, 0.95, 1.0, 1.0, 1.0, 1.03))
    for row in loads:
        row["value"] = round(row["value"] * share, 2)
    powers = [claim["power"] for claim in document.get("claims", ()) if "power" in claim]
    if not loads and powers and draw.random() < 0.6:
        held = round(max(powers) * share, 2)
        rows += [{"key": key, "quantity": quantity, "value": value, "how": "measured"}
                 for key, quantity, value in (
                     ("held-on-load", "sustained_power", held),
                     ("lost-on-load", "failed_power", round(1.15 * held, 2)))]


def _other_distances(document, draw):
    share = draw.choice((0.3, 0.5, 0.7, 0.85, 1.0, 1.0, 1.0, 1.2, 1.5))
    for row in document.get("insulation", ()):
        if "value" in row:
            row["value"] = round(row["value"] * share, 5)


def _leave_out(document, draw):
    """What nobody looked at: each of it in a few documents."""
    for name, chance in (("insulation", 0.15), ("ports", 0.05)):
        if draw.random() < chance and name in document:
            document[name] = []
    if draw.random() < 0.1:
        document["measurements"] = [row for row in document["measurements"]
                                    if not row["quantity"].startswith("case_")]


def _cite_what_is_there(document):
    """Nothing cites a row that was taken out."""
    ports = {row["key"] for row in document.get("ports", ())}
    for name in ("claims", "components", "measurements"):
        for row in document.get(name, ()):
            if row.get("port", "") not in ports:
                row.pop("port", None)
    cited = {row.get("part") for row in document["components"]}
    document["parts"] = [part for part in document.get("parts", ()) if part["marking"] in cited]
