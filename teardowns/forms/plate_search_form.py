"""The text of a plate, and a marking, that near units are looked for by."""
from django import forms
from django.core.validators import MaxLengthValidator

MOST_TEXT = 1000            # letters: the text stands in the address, so that it can be passed on
MOST_MARKING = 60
UNSEARCHABLE = ("This holds a character that no keyboard types: type the words instead of pasting "
                "them.")


class PlateSearchForm(forms.Form):
    """Without a maxlength in the page: a browser would cut what is pasted and not say so."""

    text = forms.CharField(
        label="What is printed on the plate", required=False, strip=True,
        widget=forms.Textarea(attrs={"rows": 7, "spellcheck": "false", "autocapitalize": "none"}),
        validators=[MaxLengthValidator(MOST_TEXT, message=(
            "These are %(show_value)s characters, and %(limit_value)s can be looked up at once: "
            "leave what is on the package or in the listing out."))],
        error_messages={"null_characters_not_allowed": UNSEARCHABLE})
    marking = forms.CharField(
        label="A marking inside, if you know one", required=False,
        widget=forms.TextInput(attrs={"spellcheck": "false", "autocapitalize": "none"}),
        validators=[MaxLengthValidator(MOST_MARKING, message=(
            "A marking has at most %(limit_value)s characters: write one alone."))],
        error_messages={"null_characters_not_allowed": UNSEARCHABLE})

    def clean(self):
        cleaned = super().clean()
        if not self.errors and not (cleaned["text"] or cleaned["marking"]):
            self.add_error("text", "Type or paste what is printed on the charger, or give a "
                                   "marking from inside.")
        return cleaned
