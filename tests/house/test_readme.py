"""What the README shows is what the bot says."""

import re
from pathlib import Path

import pytest

from bot import programme, talk
from bot.__main__ import main
from bot.reading.words import vocabulary
from tests.conftest import DEMO

README = (Path(__file__).parents[2] / "README.md").read_text()


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
    known = set(re.findall(r"^    (\w+)  ", capsys.readouterr().out, re.M))
    shown = {line.split()[1] for line in re.findall(r"deploy/try \w+.*", README)}
    assert len(known) >= 9
    assert shown == known - {"chat"}
