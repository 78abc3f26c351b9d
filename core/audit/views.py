"""The log: its public part for everybody, all of it for who moderates or administers."""
from urllib.parse import urlencode

from django import forms
from django.shortcuts import render

from core.accounts.models import Role
from core.audit.actions import ACTIONS, PUBLIC
from core.audit.models import Entry, Head

PAGE_SIZE = 50
MOST = 2**63 - 1
NO_NUMBER = {"invalid": "Write the number of a unit, as in its address: digits only.",
             "min_value": "Units are numbered from 1.", "max_value": "There is no such unit."}


class LogFilter(forms.Form):
    """What the log is narrowed to; `before` is the entry that a page begins below."""

    unit = forms.IntegerField(label="Unit number", required=False, min_value=1, max_value=MOST,
                              error_messages=NO_NUMBER)
    before = forms.IntegerField(required=False, min_value=1, max_value=MOST)

    def __init__(self, asked, actions):
        super().__init__(asked)
        words = sorted((ACTIONS[code][0], code) for code in actions)
        self.fields["action"] = forms.ChoiceField(
            label="What was done", required=False,
            choices=[("", "Anything"), *((code, text) for text, code in words)], error_messages={
                "invalid_choice": "The log knows no such action: choose one of the list."})

    def narrowed(self, entries):
        wanted = self.cleaned_data
        if wanted["unit"]:
            entries = entries.of_unit(wanted["unit"])
        if wanted["action"]:
            entries = entries.filter(action=wanted["action"])
        if wanted["before"]:
            entries = entries.filter(sequence__lt=wanted["before"])
        return entries


def audit_log(request):
    sees_all = request.user.is_authenticated and request.user.has_role(
        Role.MODERATOR, Role.ADMINISTRATOR)
    form = LogFilter(request.GET, ACTIONS if sees_all else PUBLIC)
    found = _found(form, sees_all) if form.is_valid() else []
    return render(request, "core/audit_log.html", {
        "form": form, "sees_all": sees_all, "head": Head.objects.first(),
        "rows": [_row(entry, sees_all) for entry in found[:PAGE_SIZE]],
        "earlier": _earlier(form, found), "is_narrowed": any(request.GET.values()),
    })


def _found(form, sees_all):
    """The entries of a page, and one more if there is another page."""
    entries = Entry.objects.select_related("actor") if sees_all else Entry.objects.public()
    return list(form.narrowed(entries)[:PAGE_SIZE + 1])


def _earlier(form, found):
    if len(found) <= PAGE_SIZE:
        return ""
    kept = {name: form.cleaned_data[name] for name in ("unit", "action") if form.cleaned_data[name]}
    return "?" + urlencode(kept | {"before": found[PAGE_SIZE - 1].sequence})


def _row(entry, sees_all):
    return {
        "sequence": entry.sequence, "at": f"{entry.at:%Y-%m-%d %H:%M} UTC",
        "who": _who(entry, sees_all), "words": ACTIONS.get(entry.action, (entry.action,))[0],
        "unit": entry.unit, "subject": entry.subject.replace("/", " "), "reason": entry.reason,
        "detail": [_told(*one) for one in entry.detail.items()] if sees_all else [],
    }


def _told(name, value):
    words = ", ".join(map(str, value)) if isinstance(value, list) else value
    return f"{name.replace('_', ' ')}: {words}"


def _who(entry, sees_all):
    """Everybody reads the role that was acted in; those who check, the name as well."""
    role = entry.role if entry.in_role else Role.CONTRIBUTOR
    words = Role(role).label.lower() if entry.role else "the site itself"
    return f"{entry.actor.get_username()}, {words}" if sees_all and entry.actor else words
