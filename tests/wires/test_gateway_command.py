"""deploy/gateway: what it writes, and what it refuses. That the gateway runs with it is tested over the air."""

import re
import subprocess

import pytest

from tests.conftest import ROOT
from tests.wires.running import FOUND

GIVEN = {
    "PATH": FOUND,
    "PEGLINE_SMS_KEY": "shared-key",
    "PEGLINE_SMS_PASSWORD": "a&b|c %d/$HOME",
    "PEGLINE_SMS_FROM": "2020",
    "GATEWAY_ADMIN_PASSWORD": "admin",
    "GATEWAY_DEVICE": "/dev/serial/by-id/modem",
    "GATEWAY_HOST": "smpp.example.org",
    "GATEWAY_USER": "user",
    "GATEWAY_PASSWORD": "pass",
}


def gateway(*words, **given):
    env = {name: value for name, value in (GIVEN | given).items() if value is not None}
    command = ["sh", str(ROOT / "deploy" / "gateway"), *map(str, words)]
    return subprocess.run(command, env=env, stdin=subprocess.DEVNULL, capture_output=True, text=True)


@pytest.mark.parametrize("kind", ["modem", "aggregator"])
def test_a_configuration_is_whole_and_for_the_owner_alone(kind, tmp_path):
    done = gateway("render", kind, tmp_path / "k")
    assert done.returncode == 0, done.stderr
    path = tmp_path / "k" / "kannel.conf"
    assert path.stat().st_mode & 0o077 == 0
    lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
    assert not [line for line in lines if re.search(r"@[A-Z]", line)]
    assert 'password = "a&b|c %d/$HOME"' in lines
    for name in ("admin-interface", "smsbox-interface", "sendsms-interface", "connect-allow-ip"):
        assert f'{name} = "127.0.0.1"' in lines
    assert not [line for line in lines if line.startswith("access-log")], "it would keep every number and every text"
    assert not [line for line in lines if line.startswith("pin")], "none was given"


def test_each_of_the_two_has_its_own_carrier(tmp_path):
    for kind, wanted in (("modem", 'device = "/dev/serial/by-id/modem"'), ("aggregator", 'host = "smpp.example.org"')):
        gateway("render", kind, tmp_path / kind)
        assert wanted in (tmp_path / kind / "kannel.conf").read_text()
    assert 'pin = "1234"' in gateway_text(tmp_path, GATEWAY_PIN="1234")


@pytest.mark.parametrize("ways, ports", [("yes", ["port = 2775"]), ("no", ["port = 2775", "receive-port = 2775"])])
def test_a_carrier_may_want_a_connection_each_way(ways, ports, tmp_path):
    gateway("render", "aggregator", tmp_path / "k", GATEWAY_TRANSCEIVER=ways, GATEWAY_ID_TYPE="1")
    groups = (tmp_path / "k" / "kannel.conf").read_text().split("\n\n")
    carriers = [group for group in groups if "smsc = smpp" in group]
    assert [re.search(r"^(receive-)?port = \d+", group, re.M).group() for group in carriers] == ports
    assert f"transceiver-mode = {ways}" in carriers[0]
    assert all("msg-id-type = 1" in group and 'host = "smpp.example.org"' in group for group in carriers)
    assert "allowed-smsc-id = out" in carriers[0] and not [group for group in carriers[1:] if "denied-smsc-id = out" not in group]


def gateway_text(folder, **given):
    gateway("render", "modem", folder / "pin", **given)
    return (folder / "pin" / "kannel.conf").read_text()


@pytest.mark.parametrize(
    "given, said",
    [
        ({"PEGLINE_SMS_KEY": None}, "PEGLINE_SMS_KEY is not set"),
        ({"PEGLINE_SMS_KEY": "a&b"}, "PEGLINE_SMS_KEY: letters, digits, - and _ only"),
        ({"PEGLINE_SMS_PASSWORD": 'a"b'}, "SEND_PASSWORD: no quote, backslash or new line"),
        ({"PEGLINE_SMS_PASSWORD": "a\nadmin-password = x"}, "SEND_PASSWORD: no quote, backslash or new line"),
        ({"GATEWAY_HOST": None}, "GATEWAY_HOST is not set"),
    ],
)
def test_what_is_missing_or_would_break_the_file_is_said(given, said, tmp_path):
    done = gateway("render", "aggregator", tmp_path / "k", **given)
    assert (done.returncode, said in done.stderr) == (2, True), done.stderr
    assert not (tmp_path / "k" / "kannel.conf").exists() or not (tmp_path / "k" / "kannel.conf").read_text()


@pytest.mark.parametrize("words", [(), ("start",), ("render", "fax", "x"), ("render", "modem")])
def test_another_word_is_refused(words, tmp_path):
    assert gateway(*words).returncode == 2


def test_no_gateway_is_said(tmp_path):
    done = gateway("status", GATEWAY_CONF=str(tmp_path / "none.conf"))
    assert (done.returncode, "cannot be read" in done.stderr) == (2, True)
