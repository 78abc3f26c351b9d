"""Text that can be stored: no NUL, which no database keeps, and no half of a character."""
from typing import Annotated

from pydantic import AfterValidator
from pydantic_core import PydanticCustomError


def storable(text: str) -> str:
    if "\0" in text:
        raise PydanticCustomError("nul", "It contains the character NUL: remove it.")
    if any("\ud800" <= sign <= "\udfff" for sign in text):
        raise PydanticCustomError("half", "It contains half of a character: type it again.")
    return text


WITHOUT_NUL = r"^[^\x00]*$"            # of a parameter, so that its schema says so as well
Line = Annotated[str, AfterValidator(storable)]
