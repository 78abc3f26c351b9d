"""Small picture files as a camera writes them: turned, with a position and a preview inside."""
from PIL import Image, ImageDraw

GPS, ORIENTATION, MODEL = 0x8825, 0x0112, 0x0110
CANARY = "canary-51.5N"


def photograph(folder, name="photo.jpg", *, size=(400, 300), colour="white", turned=1):
    """A white ground with a red field of a quarter of each side at the top left, as stored."""
    image = Image.new("RGB", size, colour)
    ImageDraw.Draw(image).rectangle((0, 0, size[0] // 4, size[1] // 4), fill="red")
    tags = Image.Exif()
    tags[ORIENTATION], tags[MODEL] = turned, CANARY
    tags.get_ifd(GPS)[29] = CANARY
    path = folder / name
    image.save(path, exif=tags)
    return path


def damaged(folder, name="damaged.jpg"):
    """The first half of a photograph."""
    path = photograph(folder, name, size=(800, 600))
    path.write_bytes(path.read_bytes()[:-2000])
    return path
