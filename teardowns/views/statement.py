"""One statement of reasons, for its addressee, who may appeal, and for moderators."""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.once import once
from teardowns.forms.moderation_forms import AppealForm
from teardowns.models import Appeal, Statement
from teardowns.presenting.moderation_times import moment
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.appeal import open_appeal, statement_of, why_no_appeal
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow


@once
def statement(request, uid):
    given = statement_of(request.user, uid)
    form = AppealForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        try:
            opened = open_appeal(author=request.user, uid=uid, text=form.cleaned_data["text"])
        except (NotNow, NoReason) as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, "Your appeal is in. Somebody who did not take the decision "
                                      f"decides by {moment(opened.due_at)}.")
            return redirect("statement", uid)
    appeal = Appeal.objects.filter(statement=given).first()
    return render(request, "teardowns/statement.html", {
        "sheet": statement_sheet(given), "form": form, "appeal": appeal,
        "due": moment(appeal.due_at) if appeal else "",
        "why_not": why_no_appeal(request.user, given),
        "answers": [statement_sheet(one) for one in Statement.objects.filter(
            answers=given).select_related("unit")]})
