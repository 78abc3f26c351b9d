"""One log on the bench: read it to its end, look at it, move spans, take results as evidence."""
import logging
from dataclasses import replace
from math import isclose

from django.contrib import messages
from django.http import JsonResponse
from django.shortcuts import redirect, render

from core.whole_number import whole_number
from core.words.said import said as in_words
from teardowns import access
from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.conditions_form import ConditionsForm
from teardowns.forms.number_fields import shown_text
from teardowns.forms.quantity_field import typed_text
from teardowns.forms.recording_forms import (
    DescribeRecordingForm,
    InputLogForm,
    SpanForm,
    TakeDownRecordingForm,
)
from teardowns.logs.conditions import Conditions
from teardowns.logs.layout import Layout
from teardowns.logs.refusals import RefusedLog
from teardowns.models import RecordingKind
from teardowns.presenting.recording_sheet import (
    columns_said,
    percent_read,
    recording_sheet,
    refusal_of,
    title,
)
from teardowns.presenting.recording_targets import shown_targets, taken_rows
from teardowns.reading.quantity import print_quantity
from teardowns.services.cite_part import SaveRefused
from teardowns.services.describe_recording import describe_recording, take_down_recording
from teardowns.services.extract_results import SpanRefused, move_span, results_of
from teardowns.services.lay_out_recording import lay_out_recording, read_anew
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.merge_recordings import OffsetUnknown, channels_beside, offset_between
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.read_recording import NotRead, read_on
from teardowns.services.save_section import StaleRows
from teardowns.services.take_result import ResultRefused, take_result, taken_from, targets_of

logger = logging.getLogger(__name__)
CHANGED = "This log was changed elsewhere at the same moment, or its results were read anew. " \
          "Look at it again: what you typed is kept below."
MISSING = "Its numbers are missing on this server. Read the file once more, or tell a moderator."
NO_FILE = "Its file is missing on this server, so that it cannot be read on. Tell a moderator."
UNREAD_SPAN = "You wrote other times than this result was read from. Read from that span first, " \
              "then take what it shows."


def bench_recording(request, pk, key):
    recording = access.recording_to_change(request.user, pk, key)
    act = request.POST.get("act", "") if request.method == "POST" else ""
    if recording.kind == RecordingKind.PROTOCOL:
        return redirect("bench_capabilities", pk)
    if act == "read-on":
        return _read_on(request, recording)
    if not recording.is_laid_out:
        return redirect("bench_recording_layout", pk, key)
    if not recording.is_read:
        return _progress(request, recording)
    if act == "read-anew":
        return _read_anew(request, recording)
    forms, failed = _forms(recording, act, request.POST.copy()), ""
    if act in ACTS:
        done, failed = _acted(request, recording, act, forms)
        if done:
            return redirect("bench_recordings" if act == "take-down" else "bench_recording",
                            *([pk] if act == "take-down" else [pk, key]))
    return _page(request, recording, forms, act if failed else "", failed)


def _read_on(request, recording):
    """A slice more; a script asks for JSON and comes again, a person presses the button again."""
    wants_json = request.headers.get("Accept", "").startswith("application/json")
    try:
        read_on(recording)
    except RefusedLog:
        pass                            # the row says it
    except NotRead:
        return redirect("bench_recording_layout", recording.unit_id, recording.key)
    except OSError as error:
        logger.exception("recording %s could not be read on", recording.pk)
        said = NO_FILE if isinstance(error, FileNotFoundError) else NOT_STORED
        if wants_json:
            return JsonResponse({"message": said}, status=507)
        messages.warning(request, said)
    recording.refresh_from_db()
    if wants_json:
        return JsonResponse({"percent": percent_read(recording),
                             "done": recording.is_read or bool(recording.refusal)})
    return redirect("bench_recording", recording.unit_id, recording.key)


def _read_anew(request, recording):
    try:
        read_anew(author=request.user, recording=recording,
                  version=_version(request.POST))
    except StaleRecording:
        messages.warning(request, CHANGED)
    else:
        recording.refresh_from_db()
        return _read_on(request, recording)
    return redirect("bench_recording", recording.unit_id, recording.key)


def _progress(request, recording):
    return render(request, "teardowns/bench_recording_reading.html", {
        "recording": recording, "unit": recording.unit, "title": title(recording),
        "percent": percent_read(recording), "deferral": DEFERRAL,
        "refusal": refusal_of(recording) if recording.refusal else ""})


def _forms(recording, act, typed):
    def given(name):
        return typed if act == name else None
    ports = list(recording.unit.ports.order_by("pk").values_list("key", "label"))
    stated = Conditions.from_json(recording.conditions)
    return {
        "conditions": ConditionsForm(given("conditions"), kind=recording.kind, conditions=stated),
        "span": SpanForm(typed if act in ("span", "whole", "take") else None),
        "describe": DescribeRecordingForm(given("describe"), ports=ports, initial={
            "caption": recording.caption, "instrument": recording.instrument,
            "port": recording.port.key if recording.port else "", "version": recording.version}),
        "take-down": TakeDownRecordingForm(given("take-down")),
        "input-log": InputLogForm(given("input-log"), others=_others(recording), initial={
            "other": stated.input_log, "offset": _offset(stated)}),
    }


def _offset(stated):
    return shown_text(typed_text(stated.input_offset, "s")) if stated.input_log else ""


def _others(recording):
    """Other logs of the unit that may hold its mains side."""
    if recording.kind not in (RecordingKind.LOAD_SWEEP, RecordingKind.ENDURANCE):
        return []
    rows = recording.unit.recordings.shown().exclude(pk=recording.pk)
    return [(row.key, f"{in_words(title(row))}, {row.caption or row.original_name}")
            for row in rows]


def _acted(request, recording, act, forms):
    """(done, what went wrong in words)"""
    name = "span" if act in ("span", "whole", "take") else act
    if not forms[name].is_valid():
        return False, "What you typed needs a change; it is kept below."
    try:
        said = ACTS[act](request.user, recording, forms[name], request.POST)
    except (StaleRecording, StaleRows):
        _next_time(recording, forms)
        return False, CHANGED
    except (SpanRefused, ResultRefused, OffsetUnknown) as refused:
        return False, str(refused)
    except SaveRefused as refused:
        return False, refused.message
    except (NotRead, FileNotFoundError):
        return False, MISSING
    except OSError:
        logger.exception("recording %s: %s could not be stored", recording.pk, act)
        return False, NOT_STORED
    messages.success(request, said)
    return True, ""


def _next_time(recording, forms):
    """The version that stands now: what is sent next was seen beside it."""
    recording.refresh_from_db()
    if forms["describe"].is_bound:
        forms["describe"].data["version"] = recording.version


def _version(typed):
    """The version that the page was drawn with."""
    return whole_number(typed.get("seen", "")) or 0


def _conditions(author, recording, form, typed):
    before = Conditions.from_json(recording.conditions)
    _laid_out(author, recording, typed, replace(
        form.stated(), input_log=before.input_log, input_offset=before.input_offset))
    return "How the bench was set is saved, and the results were read anew."


def _input_log(author, recording, form, typed):
    other, offset = form.cleaned_data["other"], form.cleaned_data["offset"]
    if other and offset is None:
        offset = offset_between(recording, other)
    stated = replace(Conditions.from_json(recording.conditions), input_log=other,
                     input_offset=offset if other else 0.0)
    _laid_out(author, recording, typed, stated)
    if not other:
        return "No other log stands beside this one."
    return f"The mains side is taken from that log, {print_quantity(offset, 's')} into this one."


def _laid_out(author, recording, typed, stated):
    lay_out_recording(author=author, recording=recording, kind=recording.kind, conditions=stated,
                      layout=Layout.from_json(recording.layout),
                      version=_version(typed))


def _span(author, recording, form, typed):
    span = form.span()
    if span is None:
        raise SpanRefused("A span has a start and an end: write both, in seconds of this log.")
    name = form.cleaned_data["name"]
    results = move_span(author=author, recording=recording, name=name, span=span,
                        version=_version(typed))
    why = [one["why"] for one in results if one["name"] == name and one["kind"] == "unread"]
    return f"That span does not show it: {why[0]}" if why else "Read again from that span."


def _whole(author, recording, form, typed):
    move_span(author=author, recording=recording, name=form.cleaned_data["name"], span=None,
              version=_version(typed))
    return "Read again from where the reader itself looks."


def _take(author, recording, form, typed):
    name = form.cleaned_data["name"]
    code = name.partition("#")[0]
    if code not in QUANTITIES:
        raise ResultRefused("This result is shown with the log, and no rule reads it.")
    key, _, version = typed.get("target", "").rpartition("@")
    target = next((one for one in targets_of(recording, [name])[name]
                   if one.key == key and str(one.version) == version), None)
    if target is None:
        raise StaleRows
    shown = _exact_span(typed)
    if form.span() is not None and not all(map(_same_time, form.span(), shown)):
        raise ResultRefused(UNREAD_SPAN)
    reading, saved = take_result(author=author, recording=recording, name=name, span=shown,
                                 key=target.key, version=target.version)
    quantity = QUANTITIES[reading.code]
    value = print_quantity(reading.value, quantity.unit, uncertainty=2 * reading.uncertainty)
    later = "" if saved.assessed else " The verdict could not be worked out again; it is stored."
    return f"{quantity.label}: {value} (95 %). It is part of the evidence now.{later}"


def _exact_span(typed):
    """The span that the result was shown with, to the last digit."""
    try:
        return float(typed.get("shown-start", "")), float(typed.get("shown-end", ""))
    except ValueError as error:
        raise StaleRecording from error


def _same_time(typed, shown):
    """As far as the page printed it."""
    return isclose(typed, shown, rel_tol=1e-8, abs_tol=1e-15)


def _describe(author, recording, form, typed):
    describe_recording(author=author, recording=recording, **form.cleaned_data)
    return "The log’s description is saved."


def _take_down(author, recording, form, typed):
    take_down_recording(author=author, recording=recording, reason=form.cleaned_data["reason"])
    return "The log is taken down; the file is kept, and nobody sees it. Evidence that was taken " \
           "from it stays until you change it."


ACTS = {"conditions": _conditions, "input-log": _input_log, "span": _span, "whole": _whole,
        "take": _take, "describe": _describe, "take-down": _take_down}


def _page(request, recording, forms, act, failed):
    try:
        results = results_of(recording)
        with channels_beside(recording) as channels:
            sheet = recording_sheet(recording, channels, results, taken_rows(
                recording, taken_from(recording)))
    except (NotRead, FileNotFoundError):
        logger.exception("channels of recording %s are missing", recording.pk)
        return render(request, "teardowns/bench_recording_reading.html", {
            "recording": recording, "unit": recording.unit, "title": title(recording),
            "refusal": MISSING, "may_read_anew": True, "deferral": DEFERRAL})
    names = [result["name"] for result in results
             if result["kind"] == "number" and result["code"] in QUANTITIES]
    targets = shown_targets(targets_of(recording, names))
    for result in sheet["results"]["read"]:
        result["targets"] = targets.get(result["name"], [])
        result["typed"] = forms["span"] if act in ("span", "whole", "take") and \
            request.POST.get("name") == result["name"] else None
    for result in (*sheet["results"]["read"], *sheet["results"]["unread"]):
        result["is_moved"] = result["name"] in recording.spans
    return render(request, "teardowns/bench_recording.html", {
        **sheet, "unit": recording.unit, "act": act,
        "forms": {name.replace("-", "_"): form for name, form in forms.items()},
        "failed": failed, "columns": columns_said(recording), "deferral": DEFERRAL,
        "others": forms["input-log"].fields["other"].choices[1:]})
