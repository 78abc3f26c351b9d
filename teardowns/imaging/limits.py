"""How much of a file is looked at, and what a picture may ask of the machine."""

MAX_BYTES = 40 * 10**6           # of an uploaded file
MAX_PIXELS = 62_000_000          # a phone's 50 Mpx picture fits
MAX_SIDE = 20_000                # px
MAX_METADATA = 8 * 2**20         # bytes of everything that is not the picture
MAX_PARTS = 1_000                # segments, chunks, boxes or tags; pixel data counted apart
MAX_STEPS = 20_000               # boxes, items and links of an AVIF, all together
MAX_FILL = 1_000                 # fill bytes before a marker of a JPEG
MAX_DATA_CHUNKS = 20_000         # PNG pixel data; 40 MB in pieces of 2 kB
MAX_SCANS = 100                  # of a progressive JPEG; cameras write about ten
MAX_SCAN_PIXELS = 10**9          # scans × pixels: what a progressive JPEG costs to decode
MAX_PROFILE = 4 * 2**20          # bytes of a colour profile, unpacked

LIST_WIDTH = 320                 # of the picture beside a unit in a list
WIDTHS = (LIST_WIDTH, 640, 1280, 2560)  # of the derivatives, px
SMALL, STEP = 640, 4 / 3         # px; beyond it one step is at least so many times the one before
ZOOM_WIDTH = 5120                # the last step, for pictures wider than the largest of WIDTHS
MAX_DERIVED_SIDE = 16_383        # px; the WebP format holds no more
MAX_DERIVED_PIXELS = 20_000_000  # of the zoom size: keeps time and memory of encoding bounded

CPU_SECONDS = 10                 # of the decoding process
WALL_SECONDS = 30
ADDRESS_SPACE = 1_600 * 10**6    # bytes
OUTPUT_BYTES = 64 * 10**6
