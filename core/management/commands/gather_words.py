"""Brings the catalogues of translations in step with the texts of the site."""
import json
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from core.words.gather import all_texts, held_against, read, renewed
from core.words.gather_scripts import texts_of_script
from core.words.said import mo_file, po_file

SHOWN = 20


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser):
        parser.add_argument("--check", action="store_true",
                            help="only look, and fail if out of step")

    def handle(self, *, check, **options):
        texts = all_texts()
        for code, _ in settings.LANGUAGES:
            if code != "en":
                self._one(code, texts, check)

    def _one(self, code, texts, check):
        catalogue = read(po_file(code))
        step = held_against(catalogue, texts)
        self.stdout.write(f"{code}: {len(texts)} texts, {len(step.missing)} not translated, "
                          f"{len(step.gone)} translations of texts that are gone")
        if not check:
            new = renewed(catalogue, texts)
            new.save(str(po_file(code)))
            new.save_as_mofile(str(mo_file(code)))
            words_of_scripts(code, new)
        elif step.missing or step.gone:
            raise CommandError("; ".join((step.missing + step.gone)[:SHOWN])
                               + ". Run `manage.py gather_words` and translate what is empty.")


def words_of_scripts(code, catalogue):
    """A module of the texts that scripts say, for the browser."""
    folder = Path(settings.BASE_DIR) / "static/js"
    known = {entry.msgid: entry.msgstr for entry in catalogue if entry.msgstr}
    texts = {text for path in sorted(folder.rglob("*.js")) for text in texts_of_script(path)}
    words = {text: known[text] for text in sorted(texts) if text in known}
    (folder / "words").mkdir(exist_ok=True)
    (folder / "words" / f"{code}.js").write_text(
        "// Made by `manage.py gather_words`.\nexport const WORDS = "
        + json.dumps(words, ensure_ascii=False, indent=2) + ";\n")
