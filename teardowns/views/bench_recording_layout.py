"""How a log is read: what the file looks like to us, beside its first rows, to be set right."""
import json
import logging
from dataclasses import replace

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.shortcuts import redirect, render

from teardowns import access
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.conditions_form import ConditionsForm
from teardowns.forms.layout_form import LayoutForm
from teardowns.forms.number_fields import shown_text
from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.forms.recording_forms import FILED, answers_in
from teardowns.logs.conditions import Conditions
from teardowns.logs.for_kind import fitted
from teardowns.logs.layout import Layout
from teardowns.logs.refusals import RefusedLog
from teardowns.models import RecordingKind
from teardowns.presenting.layout_preview import layout_preview
from teardowns.presenting.recording_sheet import title
from teardowns.services.lay_out_recording import lay_out_recording, propose_layout
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.read_recording import read_on

logger = logging.getLogger(__name__)
AT_ONCE = 3                     # slices that are read before the page is answered
BY_TEXT = ("encoding", "separator", "decimal", "time_style", "date_order")
OF_COLUMNS = ("role-", "unit-", "place-")
KEPT = (*BY_TEXT, "thousands", "first_line", "interval")
CHANGED = "This log was changed elsewhere at the same moment. Look at it again: what you chose " \
          "is kept below."
OTHERS = "The columns are others now than those that you looked at. Look at them, then read " \
         "the log."


def bench_recording_layout(request, pk, key):
    recording = access.recording_to_change(request.user, pk, key)
    if recording.kind == RecordingKind.PROTOCOL:
        return redirect("bench_capabilities", pk)
    typed, notice = request.POST.copy(), ""
    kind = typed.get("kind") if typed.get("kind") in dict(FILED) else recording.kind
    try:
        plain = proposal = fitted(propose_layout(request.user, recording), kind, {})
    except RefusedLog as refusal:
        return _refused(request, recording, kind, str(refusal))
    except FileNotFoundError:
        logger.exception("the original of recording %s is missing", recording.pk)
        return _refused(request, recording, kind, "Its file is missing. Tell a moderator.")
    try:
        proposal = _proposal(request.user, recording, kind, plain, typed) if typed else plain
    except RefusedLog as refusal:
        typed["act"], notice = "look", f"With what you chose the file cannot be read: {refusal}"
    if typed.get("act") == "read" and not _speaks_of(proposal.layout, typed):
        typed["act"], notice = "look", OTHERS
    forms = _forms(recording, kind, proposal, typed)
    if typed.get("act") == "read" and _confirmed(request, recording, kind, proposal, forms):
        return redirect("bench_recording", pk, key)
    return _page(request, recording, kind, proposal, forms, typed, notice)


def _proposal(author, recording, kind, plain, typed):
    """What the file looks like with what the contributor answered or chose otherwise.

    A choice that stands as it was drawn is no answer: an open question stays open, and the choice
    follows the proposal. What was said once, `settled` remembers.
    """
    drawn, answers = _drawn(typed), answers_in(typed)
    said = {*typed.getlist("settled"), *map(_name_of, answers),
            *(name for name in typed if name in drawn and typed[name] != drawn[name])}
    told = _told(typed, {name for name in said if name in KEPT}) | answers
    proposal = _fitted(author, recording, kind, told, plain)
    if _speaks_of(proposal.layout, typed):
        told |= _told(typed, said) | answers
        proposal = _fitted(author, recording, kind, told, plain)
    else:
        said = {name for name in said if not name.startswith(OF_COLUMNS)}
        for name in [name for name in typed if name.startswith(OF_COLUMNS)]:
            del typed[name]
    typed.setlist("settled", sorted(said))
    _follow(typed, proposal.layout, said, answers, drawn.get("kind", kind) != kind)
    return proposal


def _fitted(author, recording, kind, told, plain):
    return fitted(propose_layout(author, recording, told), kind, told) if told else plain


def _drawn(typed):
    """What stood in each field when the page was drawn."""
    try:
        drawn = json.loads(typed.get("drawn", "{}"))
    except ValueError:
        return {}
    return {name: value for name, value in drawn.items() if isinstance(value, str)} \
        if isinstance(drawn, dict) else {}


def _name_of(field):
    """The name in the form of what a question is about."""
    return field.replace(":", "-")


def _told(typed, names):
    """Answers to the questions that these fields are about."""
    told = {}
    for name in names:
        what, _, index = name.partition("-")
        if name in BY_TEXT:
            told[name] = typed.get(name, "")
        elif name == "interval":
            told[name] = _seconds(typed.get(name, ""))
        elif what in ("role", "unit"):
            told[f"{what}:{index}"] = typed.get(name, "")
    return {field: answer for field, answer in told.items() if answer}


def _seconds(text):
    try:
        value = QuantityField("s").clean(text)
    except ValidationError:
        return ""                       # the form says it
    return repr(value) if value else ""


def _follow(typed, layout, said, answers, is_other_kind):
    """What nobody said follows the proposal, and so does what a question was answered with."""
    answered = set(map(_name_of, answers))
    for name in KEPT:
        if name in answered or name not in said:
            typed[name] = _shown(layout, name)
    for column in layout.columns:
        for what in ("role", "unit"):
            name = f"{what}-{column.index}"
            if name in answered or is_other_kind and name not in said:
                typed[name] = getattr(column, what)


def _shown(layout, name):
    value = getattr(layout, name)
    return shown_text(typed_text(value, "s")) if name == "interval" else str(value)


def _columns_in(layout):
    return json.dumps([column.label for column in layout.columns])


def _speaks_of(layout, typed):
    """Whether the page that was sent was about these columns."""
    return _drawn(typed).get("columns", _columns_in(layout)) == _columns_in(layout)


def _forms(recording, kind, proposal, typed):
    """Bound where the contributor confirms; else with what was typed so far."""
    bound = typed if typed.get("act") == "read" else None
    stated = Conditions.from_json(recording.conditions) if recording.conditions else Conditions()
    layout, kept = _layout(recording, proposal, typed), dict(typed.items())
    if not typed and recording.is_laid_out:
        typed.setlist("settled", _otherwise(layout, proposal.layout))
    return {"layout": LayoutForm(bound, layout=layout,
                                 initial=kept | {"version": recording.version}),
            "conditions": ConditionsForm(bound, kind=kind, conditions=stated, initial=kept)}


def _otherwise(stored, proposed):
    """Names of what was confirmed otherwise than it would be proposed."""
    names = [name for name in KEPT if getattr(stored, name) != getattr(proposed, name)]
    if _columns_in(stored) != _columns_in(proposed):
        return names
    return names + [f"{what}-{column.index}"
                    for column, other in zip(stored.columns, proposed.columns, strict=True)
                    for what in ("role", "unit") if getattr(column, what) != getattr(other, what)]


def _layout(recording, proposal, typed) -> Layout:
    """What was confirmed before, unless the text is being read in another way just now."""
    if typed or not recording.is_laid_out:
        return proposal.layout
    return Layout.from_json(recording.layout)


def _confirmed(request, recording, kind, proposal, forms):
    """Whether all is said, stored, and the reading begun."""
    sound = [form.is_valid() for form in forms.values()]
    if proposal.questions:
        forms["layout"].add_error(None, "The file can be read in two ways: answer the question "
                                        "above first.")
        return False
    if not all(sound):
        return False
    stated = forms["conditions"].stated()
    if recording.conditions:
        before = Conditions.from_json(recording.conditions)
        stated = replace(stated, input_log=before.input_log, input_offset=before.input_offset)
    try:
        lay_out_recording(author=request.user, recording=recording, conditions=stated, kind=kind,
                          layout=forms["layout"].laid_out(),
                          version=forms["layout"].cleaned_data["version"])
    except StaleRecording:
        forms["layout"].add_error(None, CHANGED)
        _next_time(recording, forms)
        return False
    except OSError:
        logger.exception("recording %s could not be laid out", recording.pk)
        forms["layout"].add_error(None, NOT_STORED)
        return False
    return _begun(request, recording, forms)


def _begun(request, recording, forms):
    recording.refresh_from_db()
    try:
        for _ in range(AT_ONCE):
            progress = read_on(recording)
            if progress is None or progress.finished:
                break
    except RefusedLog as refusal:
        forms["layout"].add_error(None, str(refusal))
        _next_time(recording, forms)
        return False
    except OSError:
        logger.exception("recording %s could not be read on", recording.pk)
        messages.warning(request, NOT_STORED)
    return True


def _next_time(recording, forms):
    """The version that stands now: what is sent next was seen beside it."""
    recording.refresh_from_db()
    forms["layout"].data["version"] = recording.version


def _page(request, recording, kind, proposal, forms, typed, notice):
    form = forms["layout"]
    drawn = {field.html_name: "" if field.value() is None else str(field.value())
             for field in form} | {"kind": kind, "columns": _columns_in(form.layout)}
    return render(request, "teardowns/bench_recording_layout.html", {
        "recording": recording, "unit": recording.unit, "title": title(recording),
        "kinds": FILED, "kind": kind, "form": forms["layout"], "conditions": forms["conditions"],
        "questions": proposal.questions, "notice": notice,
        "drawn": json.dumps(drawn), "settled": typed.getlist("settled"), "deferral": DEFERRAL,
        "preview": layout_preview(proposal, forms["layout"].layout),
        "failed": any(form.errors for form in forms.values()),
        "wrong": [form[name] for form in forms.values() for name in form.errors
                  if name in form.fields],
    })


def _refused(request, recording, kind, message):
    return render(request, "teardowns/bench_recording_layout.html", {
        "recording": recording, "unit": recording.unit, "title": title(recording),
        "refusal": message, "deferral": DEFERRAL, "kind": kind})
