"""What the README shows is what the bot says."""

import re
import tomllib

import pytest

from bot import programme, talk
from bot.__main__ import main
from bot.config import Settings
from bot.duty import Duty
from bot.kinds import answering, listing, signed
from bot.phrases import Reader, word
from bot.reading.words import vocabulary
from tests.conftest import DEMO, ROOT

README, DEVELOPERS = (ROOT / "README.md").read_text(), (ROOT / "DEVELOPERS.md").read_text()


def test_the_conversation_goes_as_shown(book):
    script = re.search(r"```\n(.+?)```", README, re.S).group(1)
    made, _ = programme.read(DEMO)
    numbers = {row.short: row.number for row in made.person}
    went = list(talk.run(script, book, vocabulary(), numbers, made.programme.zone))
    assert not [fault for _, fault in went if fault]
    shown = sum(" < " in line for line in script.splitlines())
    assert shown == sum(line.startswith("    ") for line, _ in went), "a text went out that is not shown"


def test_every_command_is_shown(capsys):
    with pytest.raises(SystemExit):
        main(["--help"])
    known = set(re.findall(r"^    ([\w-]+)(?:  |$)", capsys.readouterr().out, re.M))
    shown = {line.split()[1] for line in re.findall(r"deploy/try \w+.*", README)}
    assert len(known) >= 9
    assert shown == known - {"chat"}


def test_every_setting_is_shown():
    rows = [line.split("|")[1] for line in README.splitlines() if line.startswith("| `PEGLINE_")]
    shown = [name.lower() for row in rows for name in re.findall(r"`PEGLINE_(\w+)`", row)]
    assert sorted(shown) == sorted(Settings.model_fields)


def test_every_setting_of_the_office_is_shown_with_what_it_is_unless_set():
    rows = [line.split("|")[1:4] for line in README.splitlines() if line.startswith("| `") and "PEGLINE" not in line]
    shown = [(name, told) for names, _, told in rows for name in re.findall(r"`(\w+)`", names)]
    assert [name for name, _ in shown] == list(Duty.model_fields)
    for name, told in shown:
        usual = getattr(Duty(), name)
        for each in usual if isinstance(usual, list) else [f"{usual:g}" if isinstance(usual, float) else usual or "none"]:
            assert re.search(rf"\b{each}", told), name


@pytest.mark.parametrize("kind", [answering.SEEN, answering.CLOSED, listing.KIND, signed.KIND], ids=lambda kind: kind.name)
def test_what_the_office_sends_is_shown(kind):
    assert re.search(rf"^    {word(kind.example, Reader()).split()[0]} .*#", README, re.M)


@pytest.mark.parametrize("name", ["log_level", "log_format", "database_url", "host", "port", "sms_rate", "telegram_api", "telegram_rate"])
def test_what_a_setting_is_unless_set_is_true(name):
    (row,) = [line for line in README.splitlines() if f"`PEGLINE_{name.upper()}`" in line and line.startswith("|")]
    assert f"{Settings.model_fields[name].default:g}" in row if name.endswith("_rate") else str(Settings.model_fields[name].default) in row


def test_every_library_says_why_it_is_there():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    named = project["dependencies"] + project["optional-dependencies"]["test"]
    told = set(re.findall(r"[\w-]+", " ".join(line.split("|")[1] for line in DEVELOPERS.splitlines() if line.startswith("| "))))
    assert {re.match(r"[\w-]+", each).group() for each in named} - told == set()
