"""Documents of invented boards, as small as a comparison needs."""
from teardowns.exchange.document import read_document


def component(role, marking="", key="", **more):
    return {"key": key or role.replace("_", "-"), "how": "read_off", "review_state": "confirmed",
            "role": role, "marking": marking, **more}


def winding(name, position, turns, **more):
    return {"key": f"{name}-{position}", "how": "measured", "review_state": "confirmed",
            "kind": "winding", "winding": name, "position": position, "turns": turns, **more}


def measured(quantity, value, u=None, **more):
    stated = {} if u is None else {"uncertainty": u, "uncertainty_kind": "standard"}
    return {"key": quantity.replace("_", "-"), "review_state": "confirmed", "quantity": quantity,
            "value": value, **stated, **more}


def document(components=(), stack=(), measurements=(), **more):
    return read_document({"form": "underplate-unit/1",
                          "unit": {"kind": "plug_in", "title": "A charger"},
                          "components": list(components), "stack": list(stack),
                          "measurements": list(measurements), **more})
