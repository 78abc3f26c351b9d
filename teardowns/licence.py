"""Under which terms a contribution is handed in. Editions stay as people agreed to them."""
from dataclasses import dataclass
from hashlib import sha256

# Names from the SPDX licence list.
MEASUREMENTS, WORKS = "CC0-1.0", "CC-BY-4.0"
NAMES = {
    MEASUREMENTS: "Creative Commons Zero 1.0, dedicated to the public domain",
    WORKS: "Creative Commons Attribution 4.0 International",
}
ADDRESSES = {
    MEASUREMENTS: "https://creativecommons.org/publicdomain/zero/1.0/",
    WORKS: "https://creativecommons.org/licenses/by/4.0/",
}


@dataclass(frozen=True)
class Edition:
    number: int
    since: str                          # day, ISO 8601
    parts: tuple[tuple[str, str], ...]  # (heading, paragraph)
    statement: str                      # what is ticked

    @property
    def text(self) -> str:
        """All of it as one text, which is what the hash is of."""
        paragraphs = [f"{heading}\n{paragraph}" for heading, paragraph in self.parts]
        return "\n\n".join([*paragraphs, self.statement])

    @property
    def sha256(self) -> str:
        return sha256(self.text.encode()).hexdigest()


FIRST = Edition(1, "2026-11-26", (
    ("Measurements",
     "Every number with its uncertainty and conditions, every answer to what was looked for, and "
     "every marking or printed text as read off the unit is dedicated to the public domain under "
     "Creative Commons Zero 1.0 (CC0-1.0): anybody may use it for anything."),
    ("Text and photos",
     "Notes, captions, descriptions, photos, and what is drawn on photos are licensed under "
     "Creative Commons Attribution 4.0 International (CC-BY-4.0): anybody may use and change "
     "them who names you by the name of your account, names the licence, and says what was "
     "changed."),
    ("For how long",
     "For good. What was published stays under these terms, also where a record is withdrawn or "
     "an account is deleted later."),
    ("What is not part of it",
     "The files as they came in, of photos and of logs, stay private. What others get is made "
     "anew from them."),
), "I made these measurements, texts and photos myself, or may hand them in under these terms.")
EDITIONS = {edition.number: edition for edition in (FIRST,)}
IN_FORCE = FIRST
