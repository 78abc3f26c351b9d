"""What a saved search is called."""
from django import forms


class SearchNameForm(forms.Form):
    name = forms.CharField(label="Name", max_length=120, error_messages={
        "required": "A search needs a name: write a word or two.",
        "max_length": "This is longer than %(limit_value)s characters: shorten it.",
        "null_characters_not_allowed": "This holds a character that cannot be kept: type the name "
                                       "anew instead of pasting it."})
