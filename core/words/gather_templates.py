"""Texts of templates, as Django's own reader finds them."""
from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from django.template import Engine
from django.template.base import Node
from django.templatetags.i18n import BlockTranslateNode, TranslateNode

# What is left over of a template when tags and values are gone: words that no tag translates.
MARKUP = re.compile(r"{#.*?#}|{%\s*comment.*?endcomment\s*%}|"
                    r"{%\s*blocktrans(?:late)?\b.*?{%\s*endblocktrans(?:late)?\s*%}|"
                    r"{%.*?%}|{{.*?}}|<(script|style|code|pre|kbd)\b.*?</\1>|"
                    r"<!--.*?-->|&\w+;|&#\d+;", re.DOTALL)
SHOWN_ATTRIBUTES = re.compile(
    r"\b(?:aria-label|title|alt|placeholder|aria-description|label)=\"([^\"]*)\"")
TAG = re.compile(r"<[^>]*>", re.DOTALL)
LETTERS = re.compile(r"[^\W\d_]{2,}")


def texts_of_template(name: str) -> Iterator[str]:
    """The msgid of each tag that translates."""
    template = Engine.get_default().get_template(name)
    for node in _nodes(template.nodelist):
        if isinstance(node, TranslateNode):
            yield node.filter_expression.var.literal.replace("%", "%%")
        elif isinstance(node, BlockTranslateNode):
            yield _block_text(node)


def _nodes(nodes):
    for node in nodes:
        if isinstance(node, Node):
            yield node
            for part in {*node.child_nodelists, "nodelist"}:
                yield from _nodes(getattr(node, part, None) or ())
            for _, inside in getattr(node, "conditions_nodelists", ()):
                yield from _nodes(inside)


def _block_text(node):
    """As the tag asks its catalogue; singular and plural are two tags here, not `{% plural %}`."""
    text, _ = node.render_token_list(node.singular)
    return text


def untranslated(path: Path) -> list[str]:
    """Words of a template that would stay English, with their surroundings."""
    text = path.read_text()
    left = MARKUP.sub("\x00", text)
    shown = [*SHOWN_ATTRIBUTES.findall(left), *TAG.sub("\x00", left).split("\x00")]
    return [" ".join(one.split()) for one in shown if LETTERS.search(one)]
