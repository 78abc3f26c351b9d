"""Why a file is not taken, in a stable word for programs and a sentence for people."""
from .limits import MAX_BYTES, MAX_PIXELS, MAX_SIDE


class Refused(Exception):
    """A file that is not taken: `code` is stable, `message` says what is wrong and what helps."""

    def __init__(self, code: str, message: str):
        super().__init__(message)
        self.code = code
        self.message = message


ANEW = "Take it from the camera again, or save it anew in a picture editor, and upload that."
SAVE_ANEW = "Open it in a picture editor, save it as JPEG without extra data and upload that."


def corrupt(reason: str) -> Refused:
    return Refused("corrupt_image", f"The picture is damaged: {reason}. {ANEW}")


def too_complex(reason: str) -> Refused:
    return Refused("too_complex", f"The picture is built in too many parts: {reason}. {SAVE_ANEW}")


def animated() -> Refused:
    return Refused(
        "animated", "The file holds a moving picture; only still pictures are taken. "
        "Save the one frame that shows the evidence and upload that.")


def too_much_metadata(reason: str) -> Refused:
    return Refused(
        "too_much_metadata", f"The file carries too much beside the picture: {reason}. {SAVE_ANEW}")


def too_large(byte_size: int) -> Refused:
    return Refused(
        "too_large", f"The file has {byte_size / 1e6:.1f} MB; at most {MAX_BYTES // 10**6} MB are "
        "taken. Save the picture with a lower quality or fewer pixels and upload that.")


def empty_file() -> Refused:
    return Refused("empty_file", "The file is empty: 0 bytes arrived. Choose the picture again.")


def check_pixels(width: int, height: int) -> None:
    """Raises for sides that no decoder should be asked to fill."""
    if width < 1 or height < 1:
        raise corrupt(f"it says that it is {width} × {height} pixels")
    if width * height > MAX_PIXELS or max(width, height) > MAX_SIDE:
        raise Refused(
            "too_many_pixels", f"The picture has {width} × {height} pixels; at most "
            f"{MAX_PIXELS // 10**6} million are taken and {MAX_SIDE} along one side. "
            "Save a smaller copy or crop it, and upload that.")


IN_DECODING = {                  # what may go wrong once the decoder runs
    "corrupt_image": f"The picture is damaged: it cannot be decoded to its end. {ANEW}",
    "too_much_metadata": "The file carries too much beside the picture: its colour profile is too "
                         f"long. {SAVE_ANEW}",
    "too_complex": f"The picture needs too much memory to be decoded. {SAVE_ANEW}",
    "decode_timeout": f"The picture took too long to decode. {SAVE_ANEW}",
    "decode_failed": f"The picture could not be decoded. {SAVE_ANEW}",
}


def in_decoding(code: str) -> Refused:
    known = code if code in IN_DECODING else "decode_failed"
    return Refused(known, IN_DECODING[known])
