"""The codes that rules about safety read, as a person says them."""
from teardowns.models import (
    Barrier,
    Bridged,
    Damage,
    Kind,
    LayerKind,
    Material,
    Path,
    Role,
    Shape,
    Site,
    Situation,
    State,
    WindingRole,
    WireInsulation,
)

from .evidence_names import quantity_label

LABELS = {name: {code: label for choices in of for code, label in choices.choices}
          for name, of in {
    "barrier": (Barrier,), "path": (Path,), "site": (Site,), "situation": (Situation,),
    "shape": (Shape,), "role": (Role,), "state": (State,), "bridges": (Bridged,),
    "kind": (LayerKind, Kind), "winding": (WindingRole,), "inner": (WindingRole,),
    "outer": (WindingRole,), "wire_insulation": (WireInsulation,), "material": (Material,),
    "damage": (Damage,),
}.items()}


def in_words(name: str, code: str) -> str:
    """The label of a code; what is no code is printed as it was recorded."""
    if name == "code":                      # of a quantity
        return quantity_label(code)
    return str(LABELS.get(name, {}).get(code, code.strip()))
