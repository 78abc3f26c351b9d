"""How a log is read: what the file looks like to us, beside its first rows, to be set right."""
import logging
from dataclasses import replace

from django.contrib import messages
from django.shortcuts import redirect, render

from teardowns import access
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.conditions_form import ConditionsForm
from teardowns.forms.layout_form import LayoutForm
from teardowns.forms.recording_forms import FILED, answers_in
from teardowns.logs.conditions import Conditions
from teardowns.logs.for_kind import fitted
from teardowns.logs.layout import Layout
from teardowns.logs.refusals import RefusedLog
from teardowns.presenting.layout_preview import layout_preview
from teardowns.presenting.recording_sheet import title
from teardowns.services.lay_out_recording import lay_out_recording, propose_layout
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.read_recording import read_on

logger = logging.getLogger(__name__)
AT_ONCE = 3                     # slices that are read before the page is answered
BY_TEXT = ("encoding", "separator", "decimal", "time_style", "date_order")
KEPT = (*BY_TEXT, "thousands", "first_line", "interval")
CHANGED = "This log was changed elsewhere at the same moment. Look at it again: what you chose " \
          "is kept below."


def bench_recording_layout(request, pk, key):
    recording = access.recording_to_change(request.user, pk, key)
    typed = request.POST.copy()
    kind = typed.get("kind") if typed.get("kind") in dict(FILED) else recording.kind
    try:
        proposal = _proposal(request.user, recording, kind, typed)
    except RefusedLog as refusal:
        return _refused(request, recording, kind, str(refusal))
    except FileNotFoundError:
        logger.exception("the original of recording %s is missing", recording.pk)
        return _refused(request, recording, kind, "Its file is missing. Tell a moderator.")
    forms = _forms(recording, kind, proposal, typed)
    if typed.get("act") == "read" and _confirmed(request, recording, kind, proposal, forms):
        return redirect("bench_recording", pk, key)
    return _page(request, recording, kind, proposal, forms)


def _proposal(author, recording, kind, typed):
    """What the file looks like with what the contributor answered or chose otherwise.

    A choice that stands as it was proposed is no answer: an open question stays open.
    """
    plain = fitted(propose_layout(author, recording), kind, {})
    answers = answers_in(typed)
    chosen = {name: typed[name] for name in BY_TEXT if typed.get(name, "") not in (
        "", getattr(plain.layout, name))}
    chosen |= {f"{what}:{column.index}": said for column in plain.layout.columns
               for what, was in (("role", column.role), ("unit", column.unit))
               if (said := typed.get(f"{what}-{column.index}", "")) not in ("", was)}
    told = chosen | answers
    if not told:
        return plain
    proposal = fitted(propose_layout(author, recording, told), kind, told)
    _write_answers(typed, proposal.layout, answers)
    return proposal


def _write_answers(typed, layout, answers):
    """What a question was answered with stands in its field as well."""
    for field in answers:
        what, _, index = field.partition(":")
        if index.isdigit() and int(index) < len(layout.columns):
            typed[f"{what}-{index}"] = getattr(layout.columns[int(index)], what)
        elif what in BY_TEXT:
            typed[what] = getattr(layout, what)


def _forms(recording, kind, proposal, typed):
    """Bound where the contributor confirms; else with what was typed so far."""
    bound = typed if typed.get("act") == "read" else None
    stated = Conditions.from_json(recording.conditions) if recording.conditions else Conditions()
    layout = _layout(recording, proposal, typed)
    kept = {name: typed[name] for name in KEPT if name in typed and bound is None}
    return {"layout": LayoutForm(bound, layout=layout,
                                 initial=kept | {"version": recording.version}),
            "conditions": ConditionsForm(bound, kind=kind, conditions=stated,
                                         initial=dict(typed.items()))}


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
        return False
    except OSError:
        logger.exception("recording %s could not be read on", recording.pk)
        messages.warning(request, NOT_STORED)
    return True


def _page(request, recording, kind, proposal, forms):
    return render(request, "teardowns/bench_recording_layout.html", {
        "recording": recording, "unit": recording.unit, "title": title(recording),
        "kinds": FILED, "kind": kind, "form": forms["layout"], "conditions": forms["conditions"],
        "questions": proposal.questions, "deferral": DEFERRAL,
        "preview": layout_preview(proposal, forms["layout"].layout),
        "failed": any(form.errors for form in forms.values()),
    })


def _refused(request, recording, kind, message):
    return render(request, "teardowns/bench_recording_layout.html", {
        "recording": recording, "unit": recording.unit, "title": title(recording),
        "refusal": message, "deferral": DEFERRAL, "kind": kind})
