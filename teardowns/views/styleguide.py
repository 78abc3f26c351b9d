"""Every part of the site once, with awkward content."""
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.figures import marks
from teardowns.figures.strip import strip_axis
from teardowns.forms.review_forms import DecisionForm
from teardowns.models import ReviewState, State
from teardowns.presenting import style_logs, style_parts, style_samples
from teardowns.presenting.bench_card import bench_card
from teardowns.presenting.grade_words import GRADE_WORDS
from teardowns.presenting.unit_rows import RISK_NOTE
from teardowns.presenting.verdict_words import VERDICT_WORDS

COLOURS = (
    ("paper", "page ground"), ("sheet", "fields, photo grounds"), ("wash", "quiet bands"),
    ("ink", "text, primary action"), ("ink-2", "notes, axis text"), ("rule", "hairlines"),
    ("edge", "field outlines"), ("accent", "links, focus, the claim"),
    ("limit", "evidence: limit"), ("practice", "evidence: practice"),
    ("test", "evidence: test; a field with an error"),
)
SPACES = (4, 8, 12, 16, 24, 36, 56)      # px
KINDS = (
    ("limit", "a solid bar against a wall: the value cannot lie beyond"),
    ("practice", "an open capsule with a diamond: what is usual"),
    ("passed", "a stroke with an arrow into the side that remains: the unit held this"),
    ("failed", "the same, pointing down: the unit did not hold this"),
    ("switch", "a part that is there or not"),
)


def styleguide(request):
    return render(request, "styleguide.html", {
        "colours": COLOURS,
        "spaces": [(f"s{step}", width) for step, width in enumerate(SPACES, start=1)],
        "verdict_words": VERDICT_WORDS,
        "grades": GRADE_WORDS,
        "checks": _drawn(map(marks.check_mark, marks.CHECKS)),
        "reviews": _drawn(marks.review_mark(state.value, state.label) for state in ReviewState),
        "looked": _drawn(
            marks.looking_mark(state.value, state.label)
            for state in State if state != State.RECORDED
        ),
        "kinds": [(mark_safe(marks.kind_mark(kind, kind)), says) for kind, says in KINDS],
        "states": State.choices,
        "rows": style_samples.rows(),
        "axis": mark_safe(strip_axis()),
        "risk_note": RISK_NOTE,
        "facets": style_samples.facets(),
        "figures": (style_samples.ladder(), style_samples.weights(), style_samples.budget(),
                    style_samples.gains(), style_samples.barriers()),
        "points": style_samples.points(),
        "findings": style_samples.findings(),
        "bench_card": bench_card(None),
        "log": style_logs.log_part(),
        "log_data": style_logs.log_data(),
        "curves": style_logs.curves(),
        "searched": style_parts.search(),
        "steps": style_parts.printout_steps(),
        "boards": style_parts.sisters(),
        "item": style_parts.review_item(), "decision": DecisionForm(prefix="sample"),
        "comments": style_parts.comments(),
        "difference": style_parts.difference(),
    })


def _drawn(markups):
    return [mark_safe(markup) for markup in markups]
