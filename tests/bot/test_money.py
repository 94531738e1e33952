"""Money in messages: sums are read or asked back and never kept; prices for farmer and supervisor; nothing made up."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from bot import programme
from bot.channels import Inbound
from bot.forms import Ask, Form, Understood
from bot.inbox import take
from bot.kinds import KINDS, cost, first
from bot.letters import segments
from bot.phrases import Reader, word
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from bot.stages import STAGES
from tests.conftest import DEMO, NOON, ROOT

HINTS = Hints(codes=frozenset({"TB07"}), bag_kg=50.0, litres={"bucket": 10.0})


def understood(text):
    return read(text, KINDS, vocabulary(), HINTS)


@pytest.fixture
def site(book):
    def found(code="TB07", **rules):
        with book.page() as page:
            made = page.site(code)
        return replace(made, rules=replace(made.rules, **rules))

    return found


def told(kind, site, now=NOON, **fields):
    answer = {"cost": cost.answer, "first": first.answer, "orders": first.when}[kind](Form(kind, fields), site, None, now)
    assert not answer.entries
    return word(answer.reply, Reader())


@pytest.mark.parametrize(
    ("text", "money"),
    [
        ("i have 20000", "20000"),
        ("we have 1500", "1500"),
        ("i have 20000 shillings", "20000"),
        ("i have ksh 20000", "20000"),
        ("i have 900 shillings", "900"),
        ("what can i buy with 20000", "20000"),
        ("what can i buy with 500", "500"),
        ("i have 2500000 ush", "2500000"),
        ("i have 20000.50 shillings", "20000.50"),
        ("i have money 20000", "20000"),
    ],
)
def test_one_clear_sum_is_read(text, money):
    outcome = understood(text)
    assert isinstance(outcome, Understood)
    assert [(form.kind, form.get("money")) for form in outcome.forms] == [("first", money)]


@pytest.mark.parametrize(
    "text",
    [
        "i have 20,000", "i have 20 000", "i have 20k", "i have 20 k", "i have 20.000", "i have 2,00,000 rupees", "i have 2 lakh rupees",
        "i have 20 thousand shillings", "i have no money", "i dont have 20000", "i have 0 shillings", "i have 1e4 shillings",
        "i have 20000 or 30000", "i have 12", "20000 shillings", "i paid 20000 shillings", "price cement 420", "cement 750 shillings a bag",
        "i have 20000 shillings for cement", "bricks 14 shillings", "i have -20000 shillings", "i have 1234567890 shillings",
        "i have money",
    ],
)  # fmt: skip
def test_any_other_sum_is_asked_back(text):
    assert isinstance(understood(text), Ask), text


@pytest.mark.parametrize(
    "text", ["i have 20000 shillings", "sand 4200 shillings", "cement 20000 shillings came", "20000 rs", "bricks cost 14", "got 500 ksh"]
)
def test_no_sum_is_ever_a_reading(text, send, book):
    for name in ("mason", "farmer", "supervisor"):
        send(name, text)
    with book.page() as page:
        assert page.site("TB07").log == ()


def test_a_thousand_bricks_are_no_money():
    outcome = understood("bricks 1000 came")
    assert [form.kind for form in outcome.forms] == ["stock"]


def test_a_mason_is_told_who_may_ask(send):
    for text in ("cost", "price of cement", "what first", "i have 20000"):
        said = send("mason", text).reply
        assert "farmer" in said
        assert "shillings" not in said


def test_prices_are_told_with_shop_day_and_sum(site):
    """The demo's plant takes 23 bags of 50 kg: 23 x 750."""
    said = told("cost", site(), item="cement")
    assert "cement 750 shillings per bag of 50 kg, Kilima Hardware, 16 Feb 2026" in said
    assert "23 bags of 50 kg: keep 17250 shillings" in said


def test_without_prices_no_sum_is_told(site):
    bare = site(prices=())
    for said in (told("cost", bare), told("cost", bare, item="cement"), told("first", bare, money="20000")):
        assert "no price is known" in said


def test_a_thing_without_a_price_is_named_and_not_counted(site):
    """All but one thing are priced: what is told is less than with any price for it."""
    made = site()
    assert "ask the price of main valve" in told("cost", made)
    less = [row for row in made.rules.prices if row["item"] != "sand_m3"]
    assert "ask the price of sand, main valve" in told("cost", replace(made, rules=replace(made.rules, prices=tuple(less))))


def test_labour_without_day_rates_is_unknown(site):
    made = site()
    rows = tuple(row for row in made.rules.prices if not row["item"].endswith("_d"))
    said = told("cost", replace(made, rules=replace(made.rules, prices=rows)), item="labour")
    assert (
        said == "TB07 COST: ask the price of labourer days, mason days." or said == "TB07 COST: ask the price of mason days, labourer days."
    )


def test_stages_and_labour_add_up_to_the_whole(site):
    said = told("cost", site(), each="stage")
    listed = said.partition("By stage: ")[2].partition(". ")[0]
    parts = [Decimal(piece.rpartition(" ")[2]) for piece in listed.split(", ")]
    assert f"keep {sum(parts)} shillings" in said


def kept_ready(said):
    """The sum that an answer tells to keep ready, 0 where there is none."""
    return Decimal(said.partition("keep ")[2].partition(" shillings ready")[0] or 0)


@pytest.mark.parametrize("code", ["TB07", "TB11", "BD03"])
def test_stages_asked_one_by_one_cost_what_the_plant_costs(site, code):
    """A bag or a day that one stage begins is paid once."""
    made = site(code)
    each = {stage: kept_ready(told("cost", made, stage=stage)) for stage in STAGES}
    assert sum(each.values()) == kept_ready(told("cost", made)) > 0


def test_a_stage_that_lives_on_what_others_left_says_so(site):
    made = site()
    said = {stage: told("cost", made, stage=stage) for stage in STAGES}
    assert "What the stages before leave over is counted." in said["dome"]
    assert "leave over" not in said["layout"]  # nothing is before it


@pytest.mark.parametrize(("days", "old"), [(60, False), (61, True)])
def test_a_price_is_named_as_old_after_the_days_of_the_programme(site, days, old):
    seen = datetime(2026, 2, 16, 9, tzinfo=UTC)
    assert ("Old, ask again: cement." in told("cost", site(), seen + timedelta(days=days), item="cement")) is old


def test_cement_is_not_bought_before_its_time(site):
    """With five days to keep, no stage that ends after them has its cement bought today."""
    said = told("first", site(cement_ahead_d=5), money="60000")
    assert "Keep money for" in said
    assert "not before" in said
    assert "Keep money" not in told("first", site(cement_ahead_d=45), money="3000")


def test_the_fewer_days_cement_keeps_the_more_orders(site):
    counts = [told("orders", site(cement_ahead_d=days)).count(" by ") for days in (45, 12, 6)]
    assert counts[0] == 1
    assert counts == sorted(counts)
    assert counts[-1] > 1


def test_orders_without_a_crew_say_what_is_missing(site):
    assert "crew n mason n labour" in told("orders", site(crew_masons=None))


@pytest.mark.parametrize("code", ["TB07", "TB11", "KV03", "BD03", "BD09"])
@pytest.mark.parametrize("now", [NOON, NOON + timedelta(days=300)], ids=["fresh", "old"])
@pytest.mark.parametrize("rules", [{}, {"cement_ahead_d": 7}, {"currency_word": "longmoney."}], ids=["demo", "keeps a week", "long word"])
def test_every_answer_goes_into_two_messages(site, code, now, rules):
    made = site(code, **rules)
    asked = [("cost", {}), ("cost", {"each": "stage"}), ("first", {}), ("orders", {})]
    asked += [("cost", {"stage": stage}) for stage in ("pit", "base", "wall", "dome", "outlet", "plaster", "covers", "pipe", "backfill")]
    asked += [
        ("cost", {"item": item}) for item in ("cement", "sand", "mesh", "bar", "labour", "cement,sand,gravel,bricks,bar,waterproofer")
    ]
    asked += [("first", {"money": money}) for money in ("1", "900", "5000", "20000", "31234.50", "45678.90", "60000", "80000", "999999999")]
    for kind, fields in asked:
        said = told(kind, made, now, **fields)
        assert segments(said)[0] <= 2, said


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('item = "bricks"', 'item = "gold"', "price"),
        ('pack = "piece"\nholds = 1\nprice = 14', 'pack = "piece"\nholds = 0\nprice = 14', "holds"),
        ("price = 14\ncurrency = \"KES\"", "price = 14\ncurrency = \"UGX\"", "one currency"),
        ("price_old_d = 60", "price_old_d = 0", "price_old_d"),
        ("cement_ahead_d = 30", "cement_ahead_d = 46", "cement_ahead_d"),
        ('currency_word = "shillings"', 'currency_word = "20000"', "currency_word"),
    ],
)  # fmt: skip
def test_a_price_that_is_none_does_not_load(tmp_path, old, new, said):
    text = DEMO.read_text()
    assert text.count(old) >= 1
    path = tmp_path / "changed.toml"
    path.write_text(text.replace(old, new, 1))
    with pytest.raises(programme.Refused) as caught:
        programme.read(path)
    assert said in "\n".join(caught.value.faults)


def test_a_price_of_a_day_to_come_is_not_stored(book):
    made, digest = programme.read(DEMO)
    with book.page() as page, pytest.raises(programme.Refused, match="still to come"):
        programme.store(page, made, digest, datetime(2026, 2, 19, 12, tzinfo=UTC))


def test_a_site_is_asked_only_for_what_its_stages_still_take(site):
    """KV03 was loaded at its wall: the base is built, and what comes is for the wall and after it."""
    said = told("first", site("KV03"))
    assert said.startswith("KV03 FIRST: buy for the wall first: ")
    assert told("first", site("BD09")) == "BD09 FIRST: nothing more to buy."
    assert told("orders", site("BD09")) == "BD09 CEMENT: no more cement to buy."


def test_what_came_is_not_bought_again(send, site):
    """The wall's first item is told less by what came for it."""
    before = told("first", site("KV03"))
    send("zuberi", "kv03 3 bags cement came")
    after = told("first", site("KV03"))
    bags = [int(said.partition("cement ")[2].partition(" bag")[0]) if "cement" in said else 0 for said in (before, after)]
    assert bags[0] - bags[1] == 3


def test_a_stage_that_takes_nothing_costs_nothing(site):
    assert "nothing to buy or to pay for that" in told("cost", site(), stage="site")


def test_all_of_it_is_said_where_the_sum_reaches(site):
    made = site("TB07")
    valve = {**made.rules.prices[0], "item": "valve", "pack": "piece", "holds": 1, "price": "300"}
    said = told("first", replace(made, rules=replace(made.rules, prices=(*made.rules.prices, valve))), money="900000")
    assert "buy all of it" in said
    assert "Enough for all stages." in said


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("cost", {}),
        ("what does it cost", {}),
        ("cost list", {"each": "stage"}),
        ("cost of the dome", {"stage": "dome"}),
        ("price of bricks and sand", {"item": "bricks,sand"}),
        ("cost of labour", {"item": "labour"}),
        ("cost of 2 m3 plant", {"plant_m3": 2.0}),
        ("how expensive is cement", {"item": "cement"}),
    ],
)
def test_what_is_asked_the_price_of(text, fields):
    outcome = understood(text)
    assert isinstance(outcome, Understood)
    assert [(form.kind, form.fields) for form in outcome.forms] == [("cost", fields)]


def test_nothing_is_bought_first_without_a_plan(send):
    for text in ("kv12 what first", "kv12 cost", "kv12 cement orders", "kv12 assumptions"):
        assert "no plan yet" in send("supervisor", text).reply


def test_each_dome_is_told_as_it_is_counted(send):
    assert "laid flat 1:3" in send("farmer", "assumptions").reply
    assert "1:2 on 2 layers of mesh" in send("supervisor", "tb11 assumptions").reply
    assert "Dome concrete 1:1.5:3" in send("supervisor", "bd03 assumptions").reply


def test_a_price_that_nobody_knows_is_to_be_asked(site):
    assert told("cost", site("TB11"), item="mesh") == "TB11 COST: ask the price of mesh."
    assert told("first", site(prices=())).startswith("TB07 FIRST: buy for the base first: ")


def test_a_word_for_money_alone_asks_nothing_of_the_log():
    assert isinstance(understood("shillings"), Ask)


@pytest.mark.parametrize("talk", ["money", "farmer", "everyday", "works", "build"])
def test_no_text_to_a_mason_tells_a_price(talk, send):
    """Whatever anybody writes in a talk, written by the mason."""
    lines = (ROOT / "tests" / "talks" / f"{talk}.talk").read_text().splitlines()
    for text in (line.partition(" > ")[2] for line in lines if " > " in line):
        told = [row.text for row in send("mason", text).rows if row.to == "+254700000107"]
        assert not any("shilling" in each or "KES" in each for each in told), text


@pytest.mark.parametrize("text", ["cost", "price of cement", "what first", "i have 20000", "phase 1"])
def test_no_price_is_told_where_others_read_along(text, book):
    with book.page() as page:
        page.link(page.person(short="farmer").id, "telegram", "tg:98765", NOON)
    take(Inbound("telegram", "g1", "tg:98765", text, NOON, chat="tg:-100"), book, vocabulary(), NOON)
    with book.page() as page:
        told = [row["text"] for row in page.queued("telegram", "g1")]
    assert told and not any("shilling" in each for each in told), told
