"""Choices, hints and options of widgets in the reader's language; records keep their names."""
import pytest
from django import forms
from django.utils.translation import override

from core.accounts.models import Role, User
from core.words.said import Catalogue

GERMAN = {"Not stated": "Nicht angegeben", "Board": "Platine", "Name of it": "Sein Name",
          "Parts": "Bauteile"}


@pytest.fixture(autouse=True)
def german(monkeypatch):
    monkeypatch.setattr("core.words.said.catalogue", lambda code: Catalogue(code, GERMAN))


class Sheet(forms.Form):
    place = forms.ChoiceField(choices=[("", "Not stated"), ("Parts", [("board", "Board")])])
    site = forms.ChoiceField(choices=[("board", "Board")], widget=forms.RadioSelect)
    name = forms.CharField(widget=forms.TextInput(attrs={
        "placeholder": "Name of it", "aria-label": "Name of it", "class": "Board"}))


def test_choices_groups_and_hints_are_said():
    with override("de"):
        page = str(Sheet()["place"]) + str(Sheet()["site"]) + str(Sheet()["name"])
    assert "Nicht angegeben" in page and 'label="Bauteile"' in page
    assert page.count("Platine") == 2
    assert 'placeholder="Sein Name"' in page and 'aria-label="Sein Name"' in page


def test_codes_stay():
    with override("de"):
        assert 'value="board"' in str(Sheet()["place"]) and 'class="Board"' in str(Sheet()["name"])


def test_english_is_not_touched():
    with override("en"):
        assert "Not stated" in str(Sheet()["place"]) and "Board" in str(Sheet()["site"])


@pytest.mark.django_db
def test_records_keep_the_names_that_they_have():
    User.objects.create(username="Board", role=Role.CONTRIBUTOR)

    class Choice(forms.Form):
        user = forms.ModelChoiceField(User.objects.all(), empty_label="Not stated")

    with override("de"):
        page = str(Choice()["user"])
    assert ">Board<" in page and "Nicht angegeben" in page
