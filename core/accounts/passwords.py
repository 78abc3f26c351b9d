"""Passwords that would be tried here first, beside those of the list of leaked ones."""
from itertools import pairwise

from django.core.exceptions import ValidationError

SITE_WORDS = ("underplate", "charger", "teardown", "password", "passphrase")
LEFT_OVER = 8       # characters that a password must have beside the words of the site
FEWEST = 5          # different characters
STEPS = 0.6         # of all steps between neighbours: more that repeat or count are a pattern


class NotMadeOfSiteWords:
    """Refuses a password that is little more than what this site is about."""

    def validate(self, password, user=None):
        rest = password.lower()
        for word in SITE_WORDS:
            rest = rest.replace(word, "")
        if len(rest) < LEFT_OVER and rest != password.lower():
            raise ValidationError(self.get_help_text(), code="password_of_site_words")

    def get_help_text(self):
        return "A password must be more than words that belong to this site."


class NotAPattern:
    """Refuses what counts up or down, or repeats itself: `123456789012`, `aaaaaaaaaaaa`."""

    def validate(self, password, user=None):
        steps = [abs(ord(b) - ord(a)) <= 1 for a, b in pairwise(password.lower())]
        if len(set(password)) < FEWEST or sum(steps) > STEPS * len(steps):
            raise ValidationError(self.get_help_text(), code="password_is_pattern")

    def get_help_text(self):
        return "A password must be more than a few characters that repeat or count on."
