"""Who gets in, and what every answer carries."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest

from counterproof.desk.guards import LARGEST_BODY, TOKEN_HEADER, hosts_of, loopback

Asking = Any  # the fixture's own class, which a test cannot name
EPISODE = "01-barley-pot"
READS = ("/leaf/recipe", "/leaf/script", "/why?key=serving")
CHANGES = ("/marks", "/vetted", "/save", "/drop-draft", "/bring-in", "/version", "/keep-a-copy", "/press")  # fmt: skip
SHELL = ("/", "/script", "/kitchen", "/questions", "/static/desk.js", "/favicon.ico")


@pytest.mark.parametrize("path", READS)
def test_nothing_is_told_without_the_token(asking: Asking, path: str) -> None:
    assert asking.stranger.get(path).status_code == 401
    assert asking.stranger.get(path, headers={TOKEN_HEADER: "guess"}).status_code == 401
    assert asking.stranger.get(path, headers={TOKEN_HEADER: "ünknown".encode()}).status_code == 401


@pytest.mark.parametrize("path", CHANGES)
def test_nothing_is_changed_without_the_token(asking: Asking, path: str) -> None:
    before = asking.recipe.read_bytes()
    assert asking.stranger.post(path, json={}).status_code == 401
    assert asking.recipe.read_bytes() == before


def test_a_cookie_is_no_key(asking: Asking) -> None:
    answer = asking.stranger.get("/leaf/recipe", headers={"Cookie": f"{TOKEN_HEADER}=the-token"})
    assert answer.status_code == 401


def test_the_token_is_taken_from_no_address(asking: Asking) -> None:
    assert asking.stranger.get("/leaf/recipe?token=the-token").status_code == 401


@pytest.mark.parametrize("path", SHELL)
def test_the_frame_is_given_to_anyone_and_holds_no_word_of_the_folder(
    asking: Asking, path: str
) -> None:
    answer = asking.stranger.get(path)
    assert answer.status_code == 200
    for told in ("Barley", EPISODE, "Evenings", "the-token", str(asking.root)):
        assert told not in answer.text


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8000", "127.0.0.1", "127.0.0.1:9000", "127.0.0.1.evil:8000", ""]
)  # fmt: skip
def test_another_name_for_the_desk_is_refused(asking: Asking, host: str) -> None:
    # DNS rebinding: a name of the attacker's that resolves to loopback arrives as Host.
    for path in ("/", "/leaf/recipe"):
        assert asking.client.get(path, headers={"Host": host}).status_code == 421


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "https://127.0.0.1:8000", "http://127.0.0.1:9000", "null", "http://localhost:8000"]
)  # fmt: skip
def test_another_origin_is_refused_even_with_the_token(asking: Asking, origin: str) -> None:
    told = {"name": EPISODE, "text": "x", "over": "y"}
    assert asking.client.post("/save", json=told, headers={"Origin": origin}).status_code == 403
    assert asking.client.get("/leaf/recipe", headers={"Origin": origin}).status_code == 403


def test_our_own_origin_may_ask(asking: Asking) -> None:
    answer = asking.client.get("/leaf/recipe", headers={"Origin": "http://127.0.0.1:8000"})
    assert answer.status_code == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site", "none"])
def test_a_request_that_another_page_started_is_refused(asking: Asking, site: str) -> None:
    answer = asking.client.get("/leaf/recipe", headers={"Sec-Fetch-Site": site})
    assert answer.status_code == 403


@pytest.mark.published
@pytest.mark.parametrize("path", ["/", "/leaf/recipe", "/static/desk.css", "/nowhere"])
def test_every_answer_opens_nothing_but_our_own(asking: Asking, path: str) -> None:
    """Directives and their meaning: W3C, Content Security Policy Level 3, sections 6.1 to 6.4."""
    headers = asking.client.get(path).headers
    policy = dict(
        part.strip().partition(" ")[::2] for part in headers["Content-Security-Policy"].split(";")
    )
    assert policy.pop("default-src") == "'none'"
    for directive in ("base-uri", "frame-ancestors", "form-action"):
        assert policy.pop(directive) == "'none'"
    assert set(policy.values()) == {"'self'"}
    assert set(policy) == {"script-src", "style-src", "img-src", "font-src", "connect-src"}
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Cache-Control"] == "no-store"
    assert "Set-Cookie" not in headers


def test_refusals_carry_the_headers_too(asking: Asking) -> None:
    answer = asking.stranger.get("/leaf/recipe")
    assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'")
    assert answer.json()["error"]["remedy"]


def test_what_is_too_large_is_not_read(asking: Asking) -> None:
    headers = {"Content-Length": str(LARGEST_BODY + 1), "Content-Type": "application/json"}
    assert asking.client.post("/bring-in", content=b"{}", headers=headers).status_code == 413


def test_no_page_of_ours_holds_a_style_or_a_script_of_its_own(asking: Asking) -> None:
    for html in (asking.client.get("/").text, str(asking.page()["html"])):
        assert "style=" not in html
        assert "<style" not in html
        assert "onclick" not in html
        assert "javascript:" not in html
        for script in html.split("<script")[1:]:
            assert script.split(">")[1].startswith("</script")


@pytest.mark.parametrize("name", ["../app.py", "..%2fapp.py", "app.py", "desk.py", "%2e%2e/guards.py", "desk.css/../desk.js"])  # fmt: skip
def test_only_our_own_assets_are_given(asking: Asking, name: str) -> None:
    for room in ("static", "faces"):
        answer = asking.client.get(f"/{room}/{name}")
        assert answer.status_code == 404 or "from __future__" not in answer.text


@pytest.mark.published
@pytest.mark.parametrize(
    ("host", "own"),
    [("127.0.0.1", True), ("127.9.9.9", True), ("::1", True), ("localhost", True), ("0.0.0.0", False), ("192.0.2.7", False), ("2001:db8::1", False)],  # noqa: S104 (asked about, not bound)
)  # fmt: skip
def test_loopback_is_what_the_standards_say(host: str, own: bool) -> None:
    """127/8: RFC 1122, 3.2.1.3 (g); ::1: RFC 4291, 2.5.3. Others: RFC 5737 and RFC 3849."""
    assert loopback(host) is own
    assert ("localhost:80" in hosts_of(host, 80)) is own


def test_an_address_others_can_reach_needs_a_word_of_its_own() -> None:
    command = [sys.executable, "-m", "counterproof", "desk", "--host", "0.0.0.0"]  # noqa: S104
    told = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)  # noqa: S603
    assert told.returncode == 2
    assert "--reachable" in told.stderr
