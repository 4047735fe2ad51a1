"""The command says where the preview is, and ends cleanly."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import urllib.request

import pytest
from click.testing import CliRunner

from saltbridge.cli import main
from saltbridge.preview.serving import served


def _started(*words):
    command = [sys.executable, "-u", "-m", "saltbridge", "preview", *map(str, words)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ)


@pytest.mark.parametrize(("asked", "code"), [(signal.SIGINT, 0), (signal.SIGTERM, 143)])
def test_it_ends_without_a_traceback(folder, asked, code):
    running = _started(folder)
    line = running.stdout.readline()
    address = re.search(r"http://127\.0\.0\.1:\d+/", line)[0]
    with urllib.request.urlopen(f"{address}anode-of-two", timeout=20) as answer:  # noqa: S310 - an address of our own
        assert answer.status == 200
    running.send_signal(asked)
    out, err = running.communicate(timeout=20)
    assert (running.returncode, err) == (code, "")
    assert out.endswith("The preview has ended.\n") is (code == 0)


def test_nothing_is_written_into_the_bank(folder):
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*")}
    running = _started(folder)
    address = re.search(r"http://\S+", running.stdout.readline())[0]
    with urllib.request.urlopen(f"{address}cell-potential", timeout=20):  # noqa: S310 - an address of our own
        pass
    running.send_signal(signal.SIGINT)
    running.communicate(timeout=20)
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*")} == before


def test_no_bank_and_a_port_in_use_are_told(folder, tmp_path):
    missing = CliRunner().invoke(main, ["preview", str(tmp_path / "none")])
    assert (missing.exit_code, "[no-bank]" in missing.output) == (1, True)
    with served(folder) as preview:
        port = preview.address.rstrip("/").rpartition(":")[2]
        taken = CliRunner().invoke(main, ["preview", str(folder), "--port", port])
    assert taken.exit_code == 1
    assert re.fullmatch(
        rf"expected a port that is free; found {port}: .*\. Name another port, or leave `--port` out\. \[port-in-use\]\n",
        taken.output,
    )


def test_a_bank_with_faults_is_previewed_all_the_same(folder):
    (folder / "bank.yaml").write_text("format: 1\n", encoding="utf-8")
    with served(folder) as preview:
        assert preview.address.startswith("http://127.0.0.1:")
