"""The verdict so far, beside the sheet: read from the unit's latest assessment."""
from django.utils.safestring import mark_safe

from teardowns.figures.marks import verdict_chip
from teardowns.figures.strip import strip, strip_axis
from teardowns.models import Assessment
from teardowns.presenting.looked_states import looked_states
from teardowns.presenting.next_steps import panel_steps, without_steps
from teardowns.reading.quantity import print_interval, print_quantity

MOST_QUESTIONS = 5
MOST_STEPS = 4


def panel(unit):
    """What the template prints, or None before anything was assessed."""
    found = Assessment.objects.filter(unit=unit, confirmed_only=False).first()
    if found is None:
        return None
    payload = found.payload
    end, capability = _lower_end(payload)
    return {
        "chip": verdict_chip(found.verdict) if found.verdict else "",
        "claim": _claim_text(payload),
        "lines": sum(bool(line.get("used")) for line in payload.get("lines", ())),
        "next_address": f"{unit.get_absolute_url()}#next", **_next(unit, payload),
        "strip": _strip(found.claimed_power, capability), "axis": mark_safe(strip_axis()),
    } | _capability_texts(payload, end, capability)


def _next(unit, payload):
    """The best steps for the contributor; the open questions as long as no claim is recorded."""
    questions = [question["text"]
                 for question in payload.get("open_questions", ())[:MOST_QUESTIONS]]
    if payload.get("headline") is None or "next_steps" not in payload:
        return {"steps": [], "without_steps": "", "questions": questions}
    states = looked_states(unit.measurements.all(), unit.components.all())
    steps = panel_steps(payload, states, MOST_STEPS)
    return {"steps": steps, "without_steps": "" if steps else without_steps(payload),
            "questions": []}


def _lower_end(payload):
    """The lower mains end, as in lists; the upper one where only that can be told."""
    ends = payload["capability"]
    return next(((name, ends[name]) for name in ("low", "high") if ends[name]), ("", None))


def _capability_texts(payload, end, capability):
    if capability is None:
        return {"median": "", "interval": "", "at": ""}
    mains = payload.get("mains", {}).get(end, {})
    at = f"at {print_quantity(mains['voltage'], 'V')} mains" if "voltage" in mains else ""
    return {
        "median": print_quantity(capability["median"], "W"),
        "interval": print_interval(capability["low"], capability["high"], "W"), "at": at,
    }


def _strip(claimed, capability):
    found = capability or {}
    return mark_safe(strip(claimed, found.get("low"), found.get("median"), found.get("high")))


def _claim_text(payload):
    index = payload.get("headline")
    if index is None:
        return ""
    power = payload["claims"][index].get("power")
    return print_quantity(power, "W") if power is not None else ""
