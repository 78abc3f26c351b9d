"""Rows of evidence named in a text, as `12/component/q1`: unit, kind and name of the row."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from teardowns.models import EVIDENCE, Photo, Recording, Unit
from teardowns.reading.evidence_refs import EvidenceRef, evidence_refs

from .proposals import Refused

MODELS = {model._meta.model_name: model for model in (*EVIDENCE, Photo, Recording)}
MOST = 40                    # that one text may name


def check_refs(field: str, text: str) -> None:
    """Raises Refused for a row that no published unit has; a query a kind that is named."""
    refs = evidence_refs(text)
    if len(refs) > MOST:
        raise Refused({field: f"This names {len(refs)} rows of evidence; {MOST} are as many as "
                              "anybody follows. Keep those that matter."})
    missing = [ref.text for ref in _missing(refs)]
    if missing:
        raise Refused({field: f"No published unit has {', '.join(missing)}. Write the unit’s "
                              "number, the kind of row and its name, as in 12/component/q1; the "
                              "address of the row on the unit’s page ends with the last two."})


def _missing(refs: list[EvidenceRef]) -> Iterator[EvidenceRef]:
    by_kind = defaultdict(list)
    for ref in refs:
        by_kind[ref.kind].append(ref)
    for kind, of_kind in by_kind.items():
        found = set(MODELS[kind].objects.filter(
            unit__in=Unit.objects.published().filter(pk__in={ref.unit for ref in of_kind}),
            key__in={ref.key for ref in of_kind}).values_list("unit", "key"))
        yield from (ref for ref in of_kind if (ref.unit, ref.key) not in found)
