"""Anybody reports what breaks a rule, and gets a receipt that says where it stands."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.html import format_html

from core.buckets import DAY, HOUR, limited
from core.once import once
from teardowns.forms.moderation_forms import ReportForm
from teardowns.forms.plain_question import PlainQuestion
from teardowns.models import HiddenKind
from teardowns.services.hide_now import may_hide
from teardowns.services.receive_report import ReportRefused, receive_report
from teardowns.services.reported_item import item_seen_by

KEEP = "Thank you: moderators have it now. Keep this address, for it says where the report stands."


# basis: 20 a day for an account, 10 an hour for the network of who did not sign in.
@limited("report", account=(20, DAY), network=(10, HOUR))
@once
def report(request):
    item = item_seen_by(request.user, request.GET.get("about", ""))
    person = request.user if request.user.is_authenticated else None
    form = ReportForm(request.POST if request.method == "POST" else None)
    question = None if person else PlainQuestion(form.data if form.is_bound else None)
    error = ""
    if form.is_bound and all([form.is_valid(), question is None or question.is_answered]):
        try:
            received = receive_report(reporter=person, about=item.about, **form.cleaned_data)
            messages.success(request, KEEP)
            return redirect("report_receipt", received.uid)
        except ReportRefused as refusal:
            error = _with_receipt(refusal)
    return render(request, "teardowns/report.html", {
        "item": item, "form": form, "question": question, "error": error,
        "can_hide": person is not None and item.kind in HiddenKind.values
        and may_hide(person, item)})


def _with_receipt(refusal):
    if refusal.receipt is None:
        return str(refusal)
    return format_html('{} <a href="{}">Your receipt</a>', str(refusal),
                       reverse("report_receipt", args=[refusal.receipt.uid]))
