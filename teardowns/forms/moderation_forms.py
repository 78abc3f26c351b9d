"""What moderators decide with: a reason of the list, the facts, and saved replies."""
from __future__ import annotations

from collections.abc import Iterable

from django import forms

from core.words.as_written import AsWritten
from teardowns.models import SavedReply
from teardowns.reasons import AGAINST, DECIDABLE, REPORTABLE

CHOOSE = [("", "Choose a reason")]
FACTS = 4000
TAKES = {"send_back", "decline", "quarantine", "suspend"}      # decisions against somebody
AREA = {"rows": 5}


class DecisionForm(forms.Form):
    """One decision: which, why, and the facts. Saved replies are inserted by a button."""

    do = forms.ChoiceField(label="Decision", widget=forms.RadioSelect, error_messages={
        "required": "Choose what you decide."})
    code = forms.ChoiceField(label="Reason", choices=[*CHOOSE, *DECIDABLE], error_messages={
        "required": "Choose the reason: the statement cites its rule."})
    saved = forms.ChoiceField(label="Saved reply", required=False)
    facts = forms.CharField(
        label="Facts", max_length=FACTS, widget=forms.Textarea(AREA),
        help_text="What is to be seen and where. It is sent as part of the statement of reasons.",
        error_messages={"required": "Write the facts: what is to be seen, and where."})

    def __init__(self, data=None, *, choices: Iterable[tuple[str, str]],
                 replies: Iterable[SavedReply] = (), **rest):
        super().__init__(data, use_required_attribute=False, **rest)
        self.replies = {str(one.pk): one for one in replies}
        self.fields["do"].choices = list(choices)
        if not self.replies:
            del self.fields["saved"]
        else:
            self.fields["saved"].choices = [
                ("", "Choose one, then press “Insert”"),
                *((pk, AsWritten(one.title)) for pk, one in self.replies.items())]
        if len(self.fields["do"].choices) == 1:          # the page itself is the choice
            self.fields["do"].widget = forms.HiddenInput()
            self.fields["do"].initial = self.fields["do"].choices[0][0]
            if self.fields["do"].initial in TAKES:
                self.fields["code"].choices = [*CHOOSE, *AGAINST]

    def with_saved(self) -> DecisionForm:
        """The form again, unchecked, with the chosen reply added to its facts."""
        typed = self._typed()
        reply = self.replies.get(typed.get("saved", ""))
        if reply:
            typed["facts"] = f"{typed['facts'].rstrip()}\n\n{reply.text}".strip()
            typed["code"] = typed["code"] or reply.code
        return self.unchecked(typed)

    def unchecked(self, typed: dict[str, str] | None = None) -> DecisionForm:
        """The form again with what was typed, without a word about what is missing."""
        return type(self)(choices=self.fields["do"].choices, replies=self.replies.values(),
                          initial=typed or self._typed())

    def _typed(self):
        return {name: self.data.get(name, "") for name in self.fields}


class ReportForm(forms.Form):
    code = forms.ChoiceField(label="What is wrong", choices=REPORTABLE, widget=forms.RadioSelect,
                             error_messages={"required": "Choose what is wrong."})
    text = forms.CharField(
        label="Where, and what you see", max_length=FACTS, widget=forms.Textarea(AREA),
        help_text="Name the place: the photo, the row, the sentence. Do not repeat personal data.",
        error_messages={"required": "Write what is wrong, and where it is to be seen."})

    def __init__(self, data=None, **rest):
        super().__init__(data, use_required_attribute=False, **rest)


class HideForm(forms.Form):
    reason = forms.CharField(
        label="What is to be seen, and where", max_length=1000, widget=forms.Textarea({"rows": 3}),
        help_text="Such as “the parcel label in photo 3”. Do not repeat the personal data.",
        error_messages={"required": "Write what is to be seen and where, such as “the parcel "
                                    "label in photo 3”."})


class AppealForm(forms.Form):
    text = forms.CharField(
        label="Why the decision should be looked at again", max_length=6000,
        widget=forms.Textarea({"rows": 6}), error_messages={
            "required": "Write why the decision should be looked at again."})


class SavedReplyForm(forms.Form):
    title = forms.CharField(label="Title", max_length=80, help_text="Only moderators see it.",
                            error_messages={"required": "Write a title to find it by."})
    code = forms.ChoiceField(label="Reason it goes with", required=False,
                             choices=[("", "Any reason"), *DECIDABLE])
    text = forms.CharField(label="Text", max_length=FACTS, widget=forms.Textarea(AREA),
                           error_messages={"required": "Write the text that is inserted."})
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)


class HandOverForm(forms.Form):
    to = forms.CharField(label="Hand over to", max_length=150,
                         help_text="The public name of another moderator.", error_messages={
                             "required": "Write the name of the moderator who takes it."})


class MergeForm(forms.Form):
    into = forms.IntegerField(
        label="Number of the record that stays", min_value=1, max_value=2**31,
        help_text="It stands in its address: /units/12/ is number 12.", error_messages={
            "required": "Write the number of the other record.",
            "invalid": "Write the number alone, such as 12."})
    reason = forms.CharField(
        label="How you know that it is one specimen", max_length=2000,
        help_text="It stands at the record’s address from then on. Name no person.",
        widget=forms.Textarea({"rows": 4}), error_messages={
            "required": "Write how you know: the second person decides by it."})


class RoomForm(forms.Form):
    times = forms.TypedChoiceField(
        label="Room for files and open sheets", coerce=int, error_messages={
            "required": "Choose how much.", "invalid_choice": "Choose one of the sizes."})

    def __init__(self, data=None, *, sizes: Iterable[tuple[int, str]], **rest):
        super().__init__(data, use_required_attribute=False, **rest)
        self.fields["times"].choices = list(sizes)


class RoleForm(forms.Form):
    role = forms.ChoiceField(label="New role", error_messages={"required": "Choose a role."})
    reason = forms.CharField(label="Why", max_length=2000, widget=forms.Textarea({"rows": 3}),
                             error_messages={"required": "Write why: the second person decides "
                                                         "by it."})

    def __init__(self, data=None, *, roles: Iterable[tuple[str, str]], **rest):
        super().__init__(data, use_required_attribute=False, **rest)
        self.fields["role"].choices = [("", "Choose a role"), *roles]
