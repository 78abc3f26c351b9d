"""A comment's text → cleaned HTML: paragraphs, emphasis, code, lists, quotes and links."""
from __future__ import annotations

import re
from html import escape
from urllib.parse import urlsplit

from markdown_it import MarkdownIt

from .clean import clean, is_web_address

RULES = ("backticks", "blockquote", "code", "emphasis", "escape", "fence", "list", "newline")
LINK_RULES = ("link", "autolink")
DEEPEST = 12             # lists and quotes inside each other; deeper text is shown as it was typed
PARSED = 200             # the parser drops what lies deeper than this, so it must never get there
# Not text: what a terminal obeys, and what turns the reading direction of the words after it.
UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff"
    "\ufff9-\ufffb\ufffe\uffff\ud800-\udfff]")
BLANKS = re.compile(r"\s+")


class Parser(MarkdownIt):
    """Makes a link of a whole web address only; what is none stays as it was typed."""

    def validateLink(self, url: str) -> bool:
        return is_web_address(url)


def _parser(*rules):
    made = Parser("zero", {"breaks": True, "html": False, "maxNesting": PARSED}).enable(rules)
    made.add_render_rule("link_close", _close_link)
    return made


def _close_link(renderer, tokens, index, options, env):
    """The end of a link with the host it leads to, unless its words are that address."""
    opened = max(i for i in range(index) if tokens[i].type == "link_open")
    host = urlsplit(str(tokens[opened].attrGet("href"))).hostname or ""
    if not "".join(token.content for token in tokens[opened + 1:index]).strip():
        return f"{escape(host)}</a>"             # a link needs words
    if tokens[opened].info == "auto" and host in tokens[opened + 1].content.lower():
        return "</a>"
    return f"</a> ({escape(host)})"


WITH_LINKS = _parser(*RULES, *LINK_RULES)
WITHOUT_LINKS = _parser(*RULES)


def render(text: str, *, links: bool = True) -> str:
    """Cleaned HTML of a text.

    links : False leaves links as they were typed, for people of whom nothing is published yet
    """
    text = visible(text)
    parser = WITH_LINKS if links else WITHOUT_LINKS
    tokens = parser.parse(text)
    if max((token.level for token in tokens), default=0) > 2 * DEEPEST:
        return clean(f"<p>{escape(text)}</p>")
    return clean(parser.renderer.render(tokens, parser.options, {}))


def visible(text: str) -> str:
    """The text without characters that show nothing; lines end in one way."""
    return UNSEEN.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def plain_excerpt(text: str, length: int = 160) -> str:
    """The start of a text on one line, cut between words, as it was typed."""
    line = BLANKS.sub(" ", visible(text)).strip()
    if len(line) <= length:
        return line
    return f"{line[:length].rsplit(' ', 1)[0]} …"
