"""A column of a comparison without a database: rows that nobody saved, and a report by hand."""
from copy import deepcopy
from types import SimpleNamespace

from teardowns.models import Component, InsulationObservation, Measurement, StackLayer
from teardowns.presenting.compare_columns import columns_of
from tests.figures.sample_report import REPORT

EMPTY = {"form": "underplate-unit/1", "unit": {"photographed_sides": 0}, "printed_texts": [],
         "claims": [], "ports": [], "components": [], "stack": [], "insulation": [],
         "measurements": [], "photos": [], "recordings": [], "parts": []}
KINDS = ("printedtext", "claim", "port", "component", "stacklayer", "insulationobservation",
         "measurement", "photo", "photoscale", "recording")
SAFETY = {"results": [], "findings": [], "stack": {}, "level": "", "assumptions": {}}


def compared(pk=7, title="Veltrice VQ-45", report=None, document=None, version="", **rows):
    """rows : lists by model name"""
    kept = {kind: rows.get(kind, []) for kind in KINDS}
    publication = SimpleNamespace(document=EMPTY | (document or {}), title=title,
                                  maker="Veltrice", model="VQ-45", number=1)
    return SimpleNamespace(
        unit=SimpleNamespace(pk=pk), publication=publication, version=version, title=title,
        report={"safety": deepcopy(SAFETY)} | deepcopy(REPORT) if report is None else report,
        rows=kept, confirmed={}, pictures={}, logs=[],
        counted=lambda name: [row for row in kept[name]
                              if row.review_state in ("confirmed", "remeasured")])


def columns(*units):
    return columns_of(units)


def component(role, marking="", key=None, **fields):
    return Component(role=role, marking=marking, key=key or role,
                     **{"review_state": "confirmed"} | fields)


def measurement(quantity, value, **fields):
    return Measurement(quantity=quantity, value=value, key=quantity,
                       **{"review_state": "confirmed"} | fields)


def layer(position, **fields):
    return StackLayer(pk=position, key=f"l{position}", position=position,
                      **{"review_state": "confirmed"} | fields)


def path(key, **fields):
    return InsulationObservation(key=key, **{"review_state": "confirmed"} | fields)
