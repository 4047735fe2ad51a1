"""A small bank that is being written, and its preview served in a thread."""

from __future__ import annotations

import http.client
import shutil
import threading
import time
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

from saltbridge.home import shipped
from saltbridge.preview.serving import served

WORKED = shipped("data") / "worked"
PATIENCE = 20  # seconds for a save to be seen, on a machine that does other things too


@dataclass(frozen=True)
class Written:
    """The bank's folder and where its preview is."""

    folder: Path
    address: str

    @property
    def port(self):
        return int(self.address.rstrip("/").rpartition(":")[2])

    @property
    def host(self):
        return f"127.0.0.1:{self.port}"

    def asked(self, path, *, method="GET", host=None, **headers):
        """Ask with exactly this path, as no browser would; the answer's status, headings and text."""
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
        if host != "":
            line.putheader("Host", host or self.host)
        for name, value in headers.items():
            line.putheader(name, value)
        line.endheaders()
        answer = line.getresponse()
        body = answer.read()
        line.close()
        return answer.status, dict(answer.getheaders()), body.decode("utf-8", "replace")

    def text(self, path):
        status, _, text = self.asked(path)
        assert status == 200, (path, status, text)
        return text

    def stamp(self, name=""):
        return self.text(f"/stamp/{name}")

    def saved(self, file, text):
        """Save a file, and wait until the preview has looked at the bank again."""
        before = self.stamp()
        (self.folder / file).write_text(text, encoding="utf-8")
        self.waits(lambda: self.stamp() != before)

    def waits(self, what):
        end = time.monotonic() + PATIENCE
        while not what():
            assert time.monotonic() < end, "the preview has not seen it"
            time.sleep(0.05)


def _bank(made):
    """A bank of three templates."""
    for name in ("bank.yaml", "cells/cell-potential.yaml", "cells/anode-of-two.yaml", "electrolysis/linked-coating.yaml"):
        (made / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(WORKED / name, made / name)
    return made


@contextmanager
def _in_a_thread(folder):
    with served(folder) as preview:
        thread = threading.Thread(target=preview.run, daemon=True)
        thread.start()
        yield Written(folder, preview.address)
        preview.stop()
        thread.join(timeout=PATIENCE)
        assert not thread.is_alive()


@pytest.fixture
def folder(tmp_path):
    """A bank of three templates."""
    return _bank(tmp_path / "bank")


@pytest.fixture
def written(folder):
    """Its preview, once it sees what is saved."""
    with _in_a_thread(folder) as found:
        before = found.stamp()

        def seen():
            (folder / "couples.csv").write_text("", encoding="utf-8")
            time.sleep(0.2)
            return found.stamp() != before

        found.waits(seen)
        last = found.stamp()
        (folder / "couples.csv").unlink()
        found.waits(lambda: found.stamp() != last and "couples" not in found.text("/"))
        yield found


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory):
    """A preview that no test changes."""
    with _in_a_thread(_bank(tmp_path_factory.mktemp("looked-at") / "bank")) as found:
        yield found
