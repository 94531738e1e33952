"""Small habits that the code keeps."""

import ast
import inspect
import re
from importlib import import_module
from pathlib import Path

import pytest

from bot.kinds import KINDS
from bot.phrases import Reader, word
from bot.reading.words import vocabulary

ROOT = Path(__file__).parents[2]
CALC = sorted(path.stem for path in (ROOT / "calc").glob("*.py") if path.stem not in ("__init__", "errors"))
BOT = sorted((ROOT / "bot").rglob("*.py"))


def public(name):
    found = import_module(f"calc.{name}")
    return [(n, f) for n, f in inspect.getmembers(found, inspect.isfunction) if not n.startswith("_") and f.__module__ == found.__name__]


@pytest.mark.parametrize("name", CALC)
def test_every_public_function_of_calc_says_what_it_returns_in_what_unit(name):
    for function, body in public(name):
        text = inspect.getdoc(body) or ""
        assert text, f"{name}.{function} has no docstring"
        assert re.match(r"(Return|Yield|True|The |Whether)", text), f"{name}.{function} does not begin with what it returns"


def test_nine_public_functions_of_calc_in_ten_show_an_example():
    predicates = {"signs"}  # one line each, shown by the table of rules that uses them
    texts = [inspect.getdoc(body) for name in CALC if name not in predicates for _, body in public(name)]
    assert sum(">>>" in text for text in texts) >= 0.9 * len(texts)


@pytest.mark.parametrize("path", BOT, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_branch_on_a_channel_a_language_or_a_kind(path):
    assert not re.search(r"\bif (channel|lang|language|kind) ==", path.read_text())


@pytest.mark.parametrize("path", [p for p in BOT if p.name != "__main__.py"], ids=lambda path: path.relative_to(ROOT).as_posix())
def test_the_clock_is_read_only_by_the_command_line(path):
    assert not re.search(r"\b(now|utcnow|today)\(", path.read_text().replace("def now(", ""))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_an_example_is_no_reading(kind):
    assert not re.search(r"\d", word(kind.example, Reader())), "a number in an example may come back as a reading"


def concepts():
    return {tag for tags in vocabulary().phrases.values() for tag in tags}


SIGNS = {
    "number", "bare", "length", "mass", "volume", "area", "time", "container", "ratio", "question", "code", "pressure", "C", "vessel",
    "asked", "closing", "seeing", "seeing_alone", "stranger", "listing", "logging", "alone",
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_sign_and_field_word_of_a_kind_stands_in_a_words_file(kind):
    known = concepts()
    sections = {tag.partition(".")[0] for tag in known}
    for cue in kind.cues:
        for sign in cue.split():
            name = sign.lstrip("-")
            assert name in SIGNS | known | sections, f"{kind.name}: {name}"
    for field in kind.fields:
        assert set(field.words) <= known, f"{kind.name}.{field.name}: {set(field.words) - known}"


def test_texts_are_marked_for_the_catalogue_where_they_are_plain():
    """A T_ takes a literal sentence, never one put together by the code, so that the catalogue has it whole."""
    for path in BOT:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "T_" and node.args:
                first = node.args[0]
                assert not isinstance(first, ast.JoinedStr | ast.BinOp), f"{path.name}:{node.lineno}"
