"""What a search finds of units, parts and families: of units the version that stands, only that."""
from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from teardowns.models import BoardFamily, Part, Publication
from teardowns.models import Role as PartRole
from teardowns.searching.claim_words import claim_words
from teardowns.searching.folding import as_read
from teardowns.searching.tokens import Texts

RATED = ("voltage_low", "voltage_high", "current", "power")
ROLES = dict(PartRole.choices)
_LABEL = re.compile(r"^(?:model(?:l|o)?(?: ?(?:no|number|nr|name))?|mod|m/n)\b[\s.:#=]*", re.I)


def unit_texts(pks: Sequence[int]) -> dict[int, Texts]:
    """By unit, the words of those that everybody sees now."""
    rows = Publication.objects.current().filter(unit__in=pks).values_list(
        "unit_id", "title", "maker", "model", "document")
    return {unit: of_document(document, title, maker, model)
            for unit, title, maker, model, document in rows}


def of_document(document: Mapping[str, Any], title: str, maker: str, model: str) -> Texts:
    """document : the exchange form, which lacks what nobody knows"""
    printed = document.get("printed_texts", ())
    claims = document.get("claims", ())
    components = document.get("components", ())
    parts = {part["marking"]: part for part in document.get("parts", ())}
    named = [_LABEL.sub("", claim.get("text", "")) for claim in claims
             if claim.get("kind") == "model"]
    found = [word for claim in claims
             for word in claim_words(claim.get("kind", ""), *map(claim.get, RATED))]
    return Texts(
        title=_clean(" · ".join(dict.fromkeys(filter(None, (title, maker, model))))),
        lines=_lines([*(text.get("text", "") for text in printed),
                      *(_component(row, parts) for row in components),
                      document.get("unit", {}).get("notes", "")]),
        makers=_some([maker]), models=_some([model, *named]),
        markings=_some([*(row.get("marking", "") for row in components), *parts]),
        claims=tuple(dict.fromkeys(found)))


def part_texts(pks: Iterable[int]) -> dict[int, Texts]:
    """By part, the words of those that are listed."""
    parts = Part.objects.listed().filter(pk__in=pks).prefetch_related("limits")
    return {part.pk: Texts(
        title=_clean(part.marking), markings=_some([part.marking]),
        lines=_lines([" ".join(filter(None, (part.function, part.package))), part.note,
                      *dict.fromkeys(limit.citation for limit in part.limits.all())]))
        for part in parts}


def family_texts(pks: Iterable[int]) -> dict[int, Texts]:
    families = BoardFamily.objects.filter(pk__in=pks)
    return {family.pk: Texts(title=_clean(family.name), models=_some([family.name]),
                             lines=_lines([family.description])) for family in families}


def _component(row, parts):
    """`primary controller: PZ6318 (flyback controller)`"""
    marking = row.get("marking", "")
    function = parts.get(row.get("part", ""), {}).get("function", "")
    if not (marking or function):
        return ""
    role = ROLES.get(row.get("role", ""), row.get("role", ""))
    return f"{role}: {marking or row['part']}" + (f" ({function})" if function else "")


def _lines(texts):
    lines = (" ".join(line.split()) for text in texts for line in _clean(text or "").splitlines())
    return tuple(dict.fromkeys(filter(None, lines)))


def _some(names):
    return tuple(dict.fromkeys(filter(None, (_clean(name).strip() for name in names))))


def _clean(text):
    return as_read(text).replace("\x00", "")
