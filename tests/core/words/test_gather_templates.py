"""Texts of templates, as the tags ask for them, and words that no tag translates."""
import pytest

from core.words.gather_templates import texts_of_template, untranslated


@pytest.fixture
def template(settings, tmp_path):
    engine = settings.TEMPLATES[0] | {"DIRS": [tmp_path], "APP_DIRS": False}
    settings.TEMPLATES = [engine]

    def named(source):
        (tmp_path / "page.html").write_text(source)
        return tmp_path / "page.html"
    return named


@pytest.mark.parametrize(("source", "found"), [
    ('{% translate "Sign in" %}', ["Sign in"]),
    ('<a aria-label="{% translate "Main" %}">', ["Main"]),
    ('{% translate "Try again." as words %}{{ words }}', ["Try again."]),
    ("{% blocktranslate trimmed %}A page\n  of two lines.{% endblocktranslate %}",
     ["A page of two lines."]),
    ("{% blocktranslate with n=row.n %}{{ n }} of {{ all }}{% endblocktranslate %}",
     ["%(n)s of %(all)s"]),
    ("{% blocktranslate %}at least 50 % of it{% endblocktranslate %}", ["at least 50 %% of it"]),
    ('{% if a %}{% for b in c %}{% translate "Inside" %}{% empty %}{% translate "None" %}'
     '{% endfor %}{% else %}{% translate "Else" %}{% endif %}', ["Inside", "None", "Else"]),
    ("Plain words, {{ value }}", []),
])
def test_what_a_tag_translates_is_a_text(template, source, found):
    template(source)
    assert set(texts_of_template("page.html")) == set(found)


@pytest.mark.parametrize("source", [
    '<p>{% translate "Sign in" %} <b>{{ name }}</b>, 12 × 3 &amp; {# a note #}</p>',
    "<p>{% blocktranslate %}All of <b>this</b>.{% endblocktranslate %}</p>",
    "<code>GET /units/</code><script>let words = 1;</script><!-- remark -->",
    '<a class="second button" href="/units/">{{ value|said }}</a>',
])
def test_a_template_may_be_translated_throughout(template, source):
    assert untranslated(template(source)) == []


@pytest.mark.parametrize(("source", "left"), [
    ("<p>Sign in, {{ name }}</p>", ["Sign in,"]),
    ('<input placeholder="A name">', ["A name"]),
    ('<p>{% if a %}yes{% endif %}</p>', ["yes"]),
    ('<a aria-label="Main">1</a>', ["Main"]),
])
def test_words_that_no_tag_translates_are_told(template, source, left):
    assert untranslated(template(source)) == left
