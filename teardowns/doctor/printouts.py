"""Whether records can be put on paper."""
from core.doctor.findings import examines, fault, good, note
from teardowns.typesetting.fonts import font_folders
from teardowns.typesetting.typeset import NotSet, typeset

TRIAL = {"meta": {"title": "Trial", "author": [], "keywords": [], "date": [2026, 1, 1, 0, 0, 0]},
         "running": {"left": "", "right": "", "foot": ""},
         "blocks": [{"b": "p", "style": "", "runs": [{"t": "12 V ⎓ 1.5 A"}]}]}


@examines("printouts")
def letters_are_at_hand():
    folders = font_folders()
    if not any(folder.endswith("opentype/noto") for folder in folders):
        yield note("Chinese, Japanese and Korean letters are not at hand: on paper their code "
                   "points stand in their place.", "apt-get install fonts-noto-cjk")
    if not any(folder.endswith("dejavu") for folder in folders):
        yield note("Some signs of the trade are not at hand on paper.",
                   "apt-get install fonts-dejavu-core")


@examines("printouts")
def records_can_be_typeset():
    try:
        typeset(TRIAL, {})
    except NotSet as error:
        yield fault(f"No record can be put on paper: {str(error).splitlines()[0][:200]}",
                    "Install the packages of requirements.txt, typst among them, into the site's "
                    "own Python.")
    else:
        yield good("Records can be put on paper.")
