"""A bounded look into EXIF: which way is up, and what private things are inside.

Only tag numbers and the orientation are read; no value is followed, unpacked or shown.
"""
from teardowns.imaging.limits import MAX_PARTS

ORIENTATION, EXIF_DIRECTORY, GPS_DIRECTORY = 0x0112, 0x8769, 0x8825
WORDS = {                            # EXIF 2.32 (JEITA CP-3451), tag numbers
    0x010F: "camera make and model", 0x0110: "camera make and model",
    0x0132: "date and time", 0x9003: "date and time", 0x9004: "date and time",
    0x010E: "comments", 0x9286: "comments", 0x9C9C: "comments", 0x9C9B: "comments",
    0x013B: "author's name", 0x8298: "author's name", 0x9C9D: "author's name",
    0xA430: "owner's name", 0xA431: "camera serial number", 0xA435: "lens serial number",
    0xA420: "picture identifier", 0x927C: "maker's notes", 0x013C: "name of the computer",
    0x0131: "name of the software", GPS_DIRECTORY: "GPS position",
}


def look(tiff: bytes) -> tuple[int, list[str]]:
    """(orientation 1 to 8, words); a block that makes no sense gives 1 and "camera data"."""
    order = {b"II": "little", b"MM": "big"}.get(tiff[:2])
    if order is None or len(tiff) < 8:
        return 1, ["camera data"]
    return _Look(tiff, order).result()


class _Look:
    def __init__(self, tiff, order):
        self.tiff, self.order = tiff, order
        self.orientation, self.words, self.left = 1, [], MAX_PARTS

    def number(self, at, length):
        return int.from_bytes(self.tiff[at:at + length], self.order)

    def result(self):
        after = self.directory(self.number(4, 4), main=True)
        if after:
            self.words.append("preview picture")
            self.directory(after)
        return self.orientation, self.words or ["camera data"]

    def directory(self, at, main=False):
        """Reads one directory and gives the offset of the next; 0 when there is none."""
        if at < 8 or at + 2 > len(self.tiff):
            return 0
        count = self.number(at, 2)
        for entry in range(at + 2, min(at + 2 + 12 * count, len(self.tiff) - 11), 12):
            self.left -= 1
            if self.left < 0:
                return 0
            self.tag(entry, main)
        return self.number(at + 2 + 12 * count, 4)

    def tag(self, entry, main):
        tag = self.number(entry, 2)
        if tag == ORIENTATION and main:
            value = self.number(entry + 8, 2)
            self.orientation = value if 1 <= value <= 8 else 1
        if tag in WORDS:
            self.words.append(WORDS[tag])
        if tag == EXIF_DIRECTORY and main:
            self.directory(self.number(entry + 8, 4))


def words_in_xmp(packet: bytes) -> list[str]:
    """XMP stays opaque; two plain searches tell what people would want to know."""
    words = ["XMP description"]
    if b"GPSLatitude" in packet or b"GPSLongitude" in packet:
        words.append("GPS position")
    if b"SerialNumber" in packet:
        words.append("camera serial number")
    return words
