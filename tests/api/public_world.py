"""A public unit with all that can be read of it, and the addresses of everything about it."""
import pytest

from tests.core.policy_world import world_in


@pytest.fixture
def world(db, tmp_path):
    """Published twice, with a photo, a log, a comment, a reply, a part and a family."""
    return world_in("published", tmp_path)


def addresses(world) -> dict[str, str]:
    """For each path of the description that is read in public, an address that is there."""
    unit, part, slug = world.unit.pk, world.things["part"].pk, world.things["family"].slug
    log, standing = world.things["log"].key, world.unit.publication.standing_id
    paths = {
        "/": "/", "/method": "/method", "/method/rules/{group}/{rule}":
        "/method/rules/power/bridge", "/quantities": "/quantities", "/licence": "/licence",
        "/log": "/log", "/facets": "/facets", "/population": "/population",
        "/units": "/units", "/search": "/search?q=Veltrice", "/parts": "/parts",
        "/parts/{id}": f"/parts/{part}", "/families": "/families",
        "/families/{slug}": f"/families/{slug}",
        "/parts/{id}/comments": f"/parts/{part}/comments",
        "/families/{slug}/comments": f"/families/{slug}/comments",
    }
    of_unit = {
        "": "", "/document": "", "/versions": "", "/versions/{number}": "/versions/1",
        "/versions/{number}/against/{other}": "/versions/2/against/1", "/assessments": "",
        "/assessments/{id}": f"/assessments/{standing}", "/replies": "", "/comments": "",
        "/claims/{key}/working": "/claims/out/working", "/photos": "",
        "/photos/{key}": "/photos/board", "/photos/{key}/annotations": "/photos/board/annotations",
        "/recordings": "", "/recordings/{key}": f"/recordings/{log}",
        "/recordings/{key}/values": f"/recordings/{log}/values",
    }
    line = next(each for each in world.unit.publication.standing.payload["lines"])
    where = next(end for end, values in line["ends"].items() if values)
    of_unit["/working/{group}/{rule}/{end}"] = f"/working/{line['id']}/{where}"
    return paths | {f"/units/{{unit}}{path}": f"/units/{unit}{address or path}"
                    for path, address in of_unit.items()}

