"""The preview answers its own name only, is only looked at, and no path leads out of what it makes."""

from __future__ import annotations

import socket

import pytest

from saltbridge.build import publish

ELSEWHERE = "not for the preview"


@pytest.mark.parametrize(
    "host",
    [
        "",
        "evil.example",
        "evil.example:{port}",
        "127.0.0.1",
        "127.0.0.1:1",
        "127.0.0.1:{port}.evil.example",
        "[::1]:{port}",
        "0.0.0.0:{port}",
    ],
)
def test_another_name_is_not_answered(looked_at, host):
    for path in ("/", "/anode-of-two", "/stamp/"):
        status, _, text = looked_at.asked(path, host=host.format(port=looked_at.port) if host else "")
        assert status in {400, 421}
        assert "pier" not in text


@pytest.mark.parametrize("host", ["127.0.0.1:{port}", "localhost:{port}", "LOCALHOST:{port}"])
def test_its_own_names_are(looked_at, host):
    assert looked_at.asked("/", host=host.format(port=looked_at.port))[0] == 200


def test_a_whole_address_in_the_request_does_not_stand_for_the_name(looked_at):
    assert looked_at.asked("http://evil.example/", host="evil.example")[0] == 421


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "get"])
def test_it_is_only_looked_at(looked_at, method):
    before = looked_at.stamp()
    status, head, _ = looked_at.asked("/anode-of-two", method=method)
    assert (status, head.get("Allow")) == (405, "GET, HEAD") or status == 400
    assert looked_at.stamp() == before


def test_a_head_is_an_answer_without_a_body(looked_at):
    status, head, text = looked_at.asked("/anode-of-two", method="HEAD")
    assert (status, text) == (200, "")
    assert int(head["Content-Length"]) > 1000


def test_a_long_body_or_heading_is_refused(looked_at):
    assert looked_at.asked("/", method="GET", **{"X-Long": "x" * 40_000})[0] in {400, 431}
    assert looked_at.asked("/", method="POST", **{"Content-Length": str(10**9)})[0] in {400, 405, 413}


@pytest.mark.parametrize(
    "path",
    [
        "/../bank.yaml", "/..%2fbank.yaml", "/%2e%2e/bank.yaml", "/%2e%2e%2fbank.yaml", "/site/../../bank.yaml", "/site/..%5cbank.yaml",
        "/bank.yaml", "/cells/anode-of-two.yaml", "//etc/passwd", "/etc/passwd", "/site//etc/passwd.html", "/site/%2fetc%2fpasswd.html",
        "/site/../anode-of-two.html", "/secret.txt", "/link", "/link.html", "/site/link.html", "/site/link/secret.html", "/paper/../1.pdf", "/paper/anode-of-two/../../1.pdf",
        "/paper/anode-of-two/0.pdf", "/paper/anode-of-two/31.pdf", "/paper/anode-of-two/-1.pdf", "/paper/anode-of-two/1-0.svg", "/paper/anode-of-two/1-99.svg",
        "/paper/anode-of-two/1-1.png", "/paper/anode-of-two/1.pdf/x", "/key/anode-of-two/1.pdf", "/paper/anode-of-two/%d9%a1.pdf",
        "/%00", "/anode-of-two%00.html", "/anode-of-two/", "/ANODE-OF-TWO", "/%ff%fe", "/" + "a/" * 400, "/C:/windows", "/..\\..\\bank.yaml", "/favicon.ico",
    ],
)  # fmt: skip
def test_no_path_leads_out_of_what_it_makes(looked_at, path):
    (looked_at.folder.parent / "secret.txt").write_text(ELSEWHERE, encoding="utf-8")
    for link in ("link", "link.html"):
        if not (looked_at.folder / link).is_symlink():
            (looked_at.folder / link).symlink_to(looked_at.folder.parent / "secret.txt")
    status, _, text = looked_at.asked(path)
    assert status in {400, 404}
    assert ELSEWHERE not in text
    assert "root:" not in text
    assert "format: 1" not in text


def test_a_link_in_the_bank_is_a_fault_and_its_goal_is_not_read(written):
    (written.folder.parent / "secret.yaml").write_text(f"title: {ELSEWHERE}\n", encoding="utf-8")
    before = written.stamp()
    (written.folder / "cells" / "stranger.yaml").symlink_to(written.folder.parent / "secret.yaml")
    written.waits(lambda: written.stamp() != before)
    for path in ("/", "/stranger"):
        text = written.asked(path)[2]
        assert ELSEWHERE not in text
    assert "a link to another place" in written.text("/")


@pytest.mark.parametrize(
    "query",
    ["version=0", "version=-1", "version=99999999999999", "version=x", "version=1&version=2", "version=%27%3Cscript%3E", "v", ""],
)
def test_an_odd_version_is_none_or_the_nearest(looked_at, query):
    status, _, text = looked_at.asked(f"/anode-of-two?{query}")
    assert status == 200
    assert "<script>%27" not in text
    assert "'<script>" not in text
    assert looked_at.asked(f"/site/anode-of-two.html?{query}")[0] in {200, 404}


def test_nobody_else_can_frame_or_read_it(looked_at):
    for path in ("/", "/anode-of-two", "/site/anode-of-two.html", "/paper/anode-of-two/1-1.svg"):
        head = looked_at.asked(path)[1]
        assert head["X-Frame-Options"] == "SAMEORIGIN"
        assert head["Cross-Origin-Resource-Policy"] == "same-origin"
        assert head["X-Content-Type-Options"] == "nosniff"
        assert head["Cache-Control"] == "no-store"
        assert "Access-Control-Allow-Origin" not in head
        assert "Server" not in head
    assert "default-src 'none'" in looked_at.asked("/anode-of-two")[1]["Content-Security-Policy"]


def test_what_a_template_says_is_no_code_on_its_preview(written):
    bad = "<img src=x onerror=alert(1)>"
    source = (written.folder / "cells" / "cell-potential.yaml").read_text(encoding="utf-8")
    written.saved(
        "cells/cell-potential.yaml", source.replace("Two metals joined", bad).replace("outcome: T3.4", f"outcome: '{bad}'")
    )
    assert bad not in written.text("/")
    assert bad not in written.text("/cell-potential")


def test_it_listens_on_this_machine_only(looked_at):
    with socket.create_connection(("127.0.0.1", looked_at.port), timeout=5) as line:
        assert line.getpeername()[0] == "127.0.0.1"
    others = {each[4][0] for each in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)} - {"127.0.0.1"}
    for other in others:
        if not other.startswith("127."):
            with pytest.raises(OSError, match=r"refused|timed out|unreachable"):
                socket.create_connection((other, looked_at.port), timeout=2).close()


def test_nothing_of_the_preview_is_ever_published(folder, tmp_path, looked_at):
    """What looks for changes stands in the preview's own pages only, not even in the page of the site that they show."""
    done = publish(folder, tmp_path / "out", variants=2)
    pages = [path.read_text(encoding="utf-8") for path in done.site.rglob("*.html")] + [looked_at.text("/site/anode-of-two.html")]
    marks = ("/stamp/", "location.reload", "data-watch", "127.0.0.1", str(looked_at.port))
    assert len(pages) > 4
    assert [mark for page in pages for mark in marks if mark in page] == []
    assert all(mark in looked_at.text("/anode-of-two") for mark in marks[:3])
