"""Problems for programs, as RFC 9457 has them."""
import json

from core.problems import problem, speaks_json


def test_a_problem_has_the_members_of_the_standard():
    answer = problem(404, "There is no such unit.")
    assert answer["Content-Type"] == "application/problem+json"
    assert json.loads(answer.content) == {
        "type": "about:blank", "title": "Not Found", "status": 404,
        "detail": "There is no such unit."}


def test_what_is_wrong_is_listed_and_more_may_be_said():
    said = json.loads(problem(422, errors=[{"detail": "No.", "pointer": "/a"}], etag="x").content)
    assert said["errors"] == [{"detail": "No.", "pointer": "/a"}] and said["etag"] == "x"


def test_addresses_of_the_api_speak_json(rf):
    assert speaks_json(rf.get("/api/v1/units")) and speaks_json(rf.get("/api/v1/nowhere"))
    assert not speaks_json(rf.get("/api/")) and not speaks_json(rf.get("/units/"))


def test_where_nothing_more_is_known_it_says_the_status_and_blames_nobody():
    """RFC 9110, 15.6.4: 503 is Service Unavailable, and not the sender's mistake."""
    assert json.loads(problem(503).content)["detail"] == "Service Unavailable."
