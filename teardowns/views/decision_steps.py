"""How every decision goes: insert a saved reply, look at the statement, then send it."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest

from teardowns.forms.moderation_forms import DecisionForm
from teardowns.models import SavedReply, Statement
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.state_reasons import NoReason, draft_statement
from teardowns.workflow import NotNow

INSERT, MORE, LOOK, SEND = "insert", "more", "look", "send"


def saved_replies():
    return list(SavedReply.objects.filter(retired_at=None))


class Decision:
    """One decision form on a page, through its steps; `done` once it was sent."""

    def __init__(self, request: HttpRequest, choices: list[tuple[str, str]],
                 drafted: Callable[[str], dict[str, Any]],
                 act: Callable[[str, str, str], Any], is_sound: bool = True):
        """drafted : by choice, what a statement of it is about; act : choice, code and facts;
        is_sound : whether the page's further fields are filled soundly."""
        self.request, self.drafted, self.act = request, drafted, act
        self.preview, self.done = None, False
        step = request.POST.get("step") if request.method == "POST" else None
        self.is_sent = step in (INSERT, MORE, LOOK, SEND)
        self.form = DecisionForm(
            request.POST if self.is_sent else None, choices=choices,
            replies=saved_replies())
        if step == INSERT:
            self.form = self.form.with_saved()
        elif step == MORE:
            self.form = self.form.unchecked()
        elif self.is_sent and self.form.is_valid() and is_sound:
            self._go_on(step)

    def _go_on(self, step):
        said = self.form.cleaned_data
        try:
            if step == LOOK:
                self.preview = statement_sheet(self._draft(said))
            else:
                self.act(said["do"], said["code"], said["facts"])
                self.done = True
                messages.success(self.request, "Done. The statement of reasons is kept and sent.")
        except (NotNow, NoReason) as refusal:
            self.form.add_error(None, str(refusal))

    def _draft(self, said) -> Statement:
        return draft_statement(code=said["code"], facts=said["facts"], by=self.request.user,
                               **self.drafted(said["do"]))
