"""Texts that scripts say: what is handed to say() in plain quotes."""
from core.words.gather_scripts import texts_of_script


def test_what_is_handed_to_say_is_a_text(tmp_path):
    file = tmp_path / "drawing.js"
    file.write_text('label.textContent = say("Add a point");\n'
                    'say(\n  "{n} of {all}", {n, all});\nsay("with \\"quotes\\"");\n'
                    'hearsay("no text"); say(words); say(`${n} points`);\n')
    assert list(texts_of_script(file)) == ["Add a point", "{n} of {all}", 'with "quotes"']
