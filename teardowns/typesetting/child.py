"""The process in which a document is set: it ends with its one document, and so does all it took.

Arguments: the folder with `data.json` and the pictures, then folders of fonts. Standard output is
the PDF; on standard error a line of JSON says what stood in the way. The typesetter is loaded here
and nowhere else: in a fork of a process that has set something before, it waits for ever.
"""
import json
import resource
import shutil
import sys
from pathlib import Path

MEMORY = 4 << 30                 # bytes of address space, most of it reserved and never touched
SECONDS = 90                     # of processor
STANDARDS = ["a-2a", "ua-1"]     # ISO 19005-2 level A, ISO 14289-1
TEMPLATE = Path(__file__).with_name("report.typ")


def main(folder: str, fonts: list[str]) -> int:
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    import typst

    source = shutil.copy(TEMPLATE, folder)
    try:
        made = typst.compile(
            source, root=folder, font_paths=fonts, ignore_system_fonts=True, format="pdf",
            pdf_standards=STANDARDS)
    except typst.TypstError as error:
        sys.stderr.write(json.dumps({"message": str(error), "trace": str(error.trace or "")}))
        return 1
    sys.stdout.buffer.write(made)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
