"""Forms about versions: propose a correction, withdraw, make public again."""
from __future__ import annotations

from django import forms

from teardowns.reasons import DECIDABLE, REPORTABLE
from teardowns.services.open_correction import SAY_WHAT, SHORTEST

CHOOSE = [("", "Choose a reason")]
FACTS = 4000


class CorrectionForm(forms.Form):
    reason = forms.CharField(
        label="What is wrong, and how you know", max_length=2000,
        widget=forms.Textarea({"rows": 4}), help_text=SAY_WHAT,
        error_messages={"required": SAY_WHAT})
    again = forms.TypedChoiceField(
        label="Begin with", required=False, coerce=int, empty_value=None)

    def __init__(self, data=None, *, earlier=(), **rest):
        """earlier : own corrections that came to nothing and can be taken up once more"""
        super().__init__(data, use_required_attribute=False, **rest)
        if not earlier:
            del self.fields["again"]
            return
        self.fields["again"].choices = [
            ("", "the public version"),
            *((one.pk, f"what you proposed on {one.opened_at:%Y-%m-%d}: {one.reason[:80]}")
              for one in earlier)]

    def clean_reason(self):
        reason = self.cleaned_data["reason"].strip()
        if len(reason) < SHORTEST:
            raise forms.ValidationError(SAY_WHAT)
        return reason


class WithdrawForm(forms.Form):
    """A reason of the list and the facts: both stand on the tombstone for good."""

    code = forms.ChoiceField(label="Reason", choices=[*CHOOSE, *REPORTABLE], error_messages={
        "required": "Choose the reason: it stands at the record’s address from then on."})
    facts = forms.CharField(
        label="What readers should know", max_length=FACTS, widget=forms.Textarea({"rows": 4}),
        help_text="It stands at the record’s address from then on. Name no person.",
        error_messages={"required": "Write what readers of a link to this record should know."})

    def __init__(self, data=None, **rest):
        super().__init__(data, use_required_attribute=False, **rest)


class ReinstateForm(WithdrawForm):
    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        self.fields["code"].choices = [*CHOOSE, *DECIDABLE]
        self.fields["code"].error_messages["required"] = "Choose the reason."
        facts = self.fields["facts"]
        facts.label = "Facts"
        facts.help_text = "What was found out since. The contributor reads it."
        facts.error_messages["required"] = "Write what was found out since."
