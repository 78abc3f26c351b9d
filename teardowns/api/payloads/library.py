"""Parts, families, comments, rules and the log as JSON."""
from math import isinf
from typing import Any

from django.urls import reverse

from core.accounts.models import Role
from core.audit.actions import ACTIONS
from core.audit.models import Entry
from teardowns.engine.quantities import QUANTITIES, Quantity
from teardowns.engine.rule import Rule
from teardowns.models import BoardFamily, Comment, Part, PartLimit, Statement


def part_row(part: Part) -> dict[str, Any]:
    """part : with what supersedes it"""
    return {"part": part.pk, "href": reverse("api_part", args=[part.pk]), "marking": part.marking,
            "function": part.function, "package": part.package,
            "superseded_by": part.superseded_by.marking if part.superseded_by else ""}


def limit_row(limit: PartLimit) -> dict[str, Any]:
    known = QUANTITIES.get(limit.quantity)
    return {"id": limit.pk, "quantity": limit.quantity, "value": limit.value,
            "unit": known.unit if known else "1", "citation": limit.citation}


def family_row(family: BoardFamily) -> dict[str, Any]:
    return {"family": family.slug, "href": reverse("api_family", args=[family.slug]),
            "name": family.name, "description": family.description}


def comment_row(comment: Comment) -> dict[str, Any]:
    """comment : with its author"""
    return {"comment": comment.pk, "about": comment.ref, "author": comment.author.get_username(),
            "text": comment.text, "written_at": comment.written_at.isoformat(),
            "edited_at": comment.edited_at.isoformat() if comment.edited_at else None,
            "state": comment.state}


def quantity_row(quantity: Quantity) -> dict[str, Any]:
    own = {name: getattr(quantity, name)
           for name in ("code", "unit", "label", "meaning", "low", "shown_in", "is_flag")}
    return own | {"high": None if isinf(quantity.high) else quantity.high}


def rule_row(rule: Rule) -> dict[str, Any]:
    return {"id": rule.id, "href": reverse("api_rule", args=rule.id.split("/")),
            "kind": rule.kind, "on": rule.on, "title": rule.title, "reads": list(rule.reads)}


def rule_sheet(rule: Rule) -> dict[str, Any]:
    own = {name: getattr(rule, name) for name in (
        "summary", "formula", "source", "validity", "model_error", "margin", "confidence",
        "hazard")}
    worked = [{"inputs": dict(one.inputs), "result": one.result, "tolerance": one.tolerance,
               "source": one.source} for one in rule.worked]
    return rule_row(rule) | own | {"optional": sorted(rule.optional), "worked": worked}


def log_row(entry: Entry) -> dict[str, Any]:
    return {"sequence": entry.sequence, "at": entry.at.isoformat(), "action": entry.action,
            "words": ACTIONS.get(entry.action, (entry.action,))[0], "role": _role(entry),
            "unit": entry.unit, "subject": entry.subject, "reason": entry.reason,
            "hash": entry.hash}


def _role(entry):
    """As the log's page: the role that was acted in; empty of what the site itself did."""
    return entry.role and (entry.role if entry.in_role else Role.CONTRIBUTOR)


def statement_row(statement: Statement) -> dict[str, Any]:
    own = {name: getattr(statement, name) for name in (
        "decision", "subject", "code", "rule", "facts", "remedy", "automated", "digest")}
    return own | {"id": str(statement.uid), "at": statement.at.isoformat()}
