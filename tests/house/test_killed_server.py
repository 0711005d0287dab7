"""Killing the server in the middle of saving: what was acknowledged is there, and nothing is there by half."""

from __future__ import annotations

import os
import random
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from http.cookiejar import CookieJar
from pathlib import Path
from threading import Thread
from urllib.error import URLError
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

import pytest

from calculators.planning import documents

ROOT = Path(__file__).parents[2]
ROUNDS, WRITERS = 4, 3
PARTS = "/workshops/thornbank-workshop/builds/TW-33/parts/"


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def start_server(data: Path, port: int) -> subprocess.Popen[bytes]:
    """The demonstration, as a person starts it, in a process group of its own."""
    env = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    env |= {"ODDLEG_DATA": str(data), "DJANGO_SETTINGS_MODULE": "buildlog.settings.demonstration"}
    server = subprocess.Popen(
        [sys.executable, "manage.py", "demo", "--port", str(port)],
        cwd=ROOT,
        env=env,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    for _ in range(600):
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
            return server
        except OSError:
            assert server.poll() is None, "the server did not start"
            time.sleep(0.05)
    pytest.fail("the server did not answer")


def kill(server: subprocess.Popen[bytes]) -> None:
    """Kill the server and all that it started, giving nothing time to tidy up."""
    os.killpg(server.pid, signal.SIGKILL)
    server.wait(10)


def write(port: int, name: str, acknowledged: list[str]) -> None:
    """Add parts, several at once, until the server is gone; note those that it said were saved."""
    opener = build_opener(HTTPCookieProcessor(CookieJar()))
    address = f"http://127.0.0.1:{port}{PARTS}"
    try:
        page = opener.open(address, timeout=10).read().decode()
        found = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
        assert found
        for count in range(10_000):
            names = [f"{name}x{count}y{each}" for each in range(5)]
            lines = "\n".join(f"{each} 300 x 20 x 10 oak" for each in names)
            sent = urlencode({"csrfmiddlewaretoken": found[1], "lines": lines}).encode()
            answer = opener.open(address, sent, timeout=10)
            answer.read()
            if answer.status == 200 and not answer.url.endswith("?"):
                acknowledged.extend(names)
    except (OSError, URLError):
        return


def names_in(database: Path) -> tuple[set[str], sqlite3.Connection]:
    """The names of the parts of the build, read without the program."""
    found = sqlite3.connect(database)
    assert found.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    rows = found.execute(
        "SELECT r.document FROM builds_record r JOIN builds_build b ON b.id = r.build_id"
        " WHERE b.number = 'TW-33' AND r.kind = 'component'"
    )
    return {documents.read_document("component", text).name for (text,) in rows}, found


def test_nothing_acknowledged_is_lost_and_nothing_is_there_by_half(tmp_path: Path) -> None:
    data, acknowledged = tmp_path / "data", []
    chance = random.Random(20260601)
    for turn in range(ROUNDS):
        port = free_port()
        server = start_server(data, port)
        said: list[list[str]] = [[] for _ in range(WRITERS)]
        writers = [Thread(target=write, args=(port, f"r{turn}w{n}", said[n])) for n in range(WRITERS)]
        for writer in writers:
            writer.start()
        deadline = time.monotonic() + 20
        while sum(map(len, said)) < 10 and time.monotonic() < deadline:
            time.sleep(0.02)
        time.sleep(chance.uniform(0.05, 0.6))
        kill(server)
        for writer in writers:
            writer.join(30)
        acknowledged += [name for each in said for name in each]
        there, database = names_in(data / "oddleg.sqlite3")
        assert len(acknowledged) >= 10 * (turn + 1)
        assert set(acknowledged) <= there
        # Five parts went with each saving, so a saving is there whole or not at all.
        savings: dict[str, int] = {}
        for name in there:
            if "y" in name and name.startswith("r"):
                savings[name.rsplit("y", 1)[0]] = savings.get(name.rsplit("y", 1)[0], 0) + 1
        assert set(savings.values()) == {5}
        # Each saving has its line in the log with its five rows, and nothing else has one.
        logged = database.execute(
            "SELECT count(*) FROM builds_altered a JOIN builds_change c ON c.id = a.change_id"
            " WHERE a.kind = 'component' AND a.old = '' GROUP BY c.id"
        ).fetchall()
        assert [count for (count,) in logged] == [5] * len(savings)
        database.close()
        assert {path.name for path in data.iterdir()} <= {
            "oddleg.sqlite3", "oddleg.sqlite3-wal", "oddleg.sqlite3-shm", "secret-key",
        }  # fmt: skip
