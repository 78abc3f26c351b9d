"""Words of the trade, explained where they stand.

    {% explained %}…{% endexplained %}      those that its content has, ahead of it
    {% trade_words "creepage" "rms" %}      these
"""
import re

from django import template
from django.template.loader import render_to_string
from django.utils.safestring import mark_safe

from teardowns.presenting.trade_words import words_in, words_named

register = template.Library()
NOT_SAID = re.compile(r"<[^>]*>")
PART = "teardowns/_trade_words.html"


@register.tag
def explained(parser, token):
    content = parser.parse(("endexplained",))
    parser.delete_first_token()
    return Explained(content)


class Explained(template.Node):
    def __init__(self, nodelist):
        self.nodelist = nodelist

    def render(self, context):
        """A record on paper, which is made of no request, has no folds."""
        content = self.nodelist.render(context)
        if "request" not in context:
            return content
        words = words_in(NOT_SAID.sub(" ", content))
        return render_to_string(PART, {"words": words}) + content if words else content


@register.simple_tag
def trade_words(*names):
    return mark_safe(render_to_string(PART, {"words": words_named(names)}))
