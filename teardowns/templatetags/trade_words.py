"""Words of the trade, explained where they stand.

    {% explained %}…{% endexplained %}      those that its content has, ahead of it
    {% explained after %}…                  the same, behind it: where it answers first
    {% trade_words "creepage" "rms" %}      these
"""
import re
from functools import lru_cache

from django import template
from django.template.loader import render_to_string
from django.utils.safestring import mark_safe
from django.utils.translation import get_language

from teardowns.presenting.trade_words import words_in, words_named

register = template.Library()
NOT_SAID = re.compile(r"<[^>]*>")
PART = "teardowns/_trade_words.html"


@register.tag
def explained(parser, token):
    content = parser.parse(("endexplained",))
    parser.delete_first_token()
    return Explained(content, token.split_contents()[1:] == ["after"])


class Explained(template.Node):
    def __init__(self, nodelist, is_after):
        self.nodelist, self.is_after = nodelist, is_after

    def render(self, context):
        """A record on paper, which is made of no request, has no folds."""
        content = self.nodelist.render(context)
        if "request" not in context:
            return content
        words = words_in(NOT_SAID.sub(" ", content))
        fold = _fold(get_language(), tuple(words)) if words else ""
        return content + fold if self.is_after else fold + content


@register.simple_tag
def trade_words(*names):
    return _fold(get_language(), tuple(words_named(names)))


@lru_cache(maxsize=500)
def _fold(language, words):
    """What explains them; most pages of a kind have the same ones."""
    return mark_safe(render_to_string(PART, {"words": words}))
