"""SMS through the real gateway: `python -m tests.bench.gateway [MESSAGES [BOT_KILLS [GATEWAY_KILLS]]]`, by hand.

First how many messages a second come from the test centre through Kannel to a committed log and a queued reply, beside the
same through Kannel to an address that only says ACCEPTED. Then as many again under kill -9 of bot and gateway at random
moments, with the books checked after: nothing lost, no entry twice, nobody's texts out of order; doubles on the air counted.
"""

import random
import sys
import tempfile
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from tests.wires.road import aggregator
from tests.wires.running import until

EACH = 10  # messages of one person
AT_ONCE = 20
HANG_S = 1800


def crew(messages):
    return [f"+25471200{at:04}" for at in range(-(-messages // EACH))]


def sent(carrier, senders, first):
    """Send everybody's messages, each person's in order; return what was said by whom."""
    said = {sender: [f"got {at} bags cement" for at in range(first, first + EACH)] for sender in senders}

    def one(sender):
        for text in said[sender]:
            carrier.say(sender, text)

    with ThreadPoolExecutor(AT_ONCE) as phones:
        list(phones.map(one, senders))
    return said


def bare_rate(road, senders, count):
    """Messages a second to a bare route of the same server."""
    taken = []

    async def incoming(request):
        taken.append(request.query_params["id"])
        return PlainTextResponse("ACCEPTED")

    app = Starlette(routes=[Route("/sms/mo", incoming)])
    server = uvicorn.Server(uvicorn.Config(app, port=road.bot.port, log_config=None))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    since = time.perf_counter()
    sent(road.carrier, senders, 1)
    until(lambda: len(taken) >= count, "the bare address", 300)
    rate = count / (time.perf_counter() - since)
    server.should_exit = True
    thread.join()
    return rate


def road_rate(road, senders, count):
    since = time.perf_counter()
    sent(road.carrier, senders, 1)
    until(lambda: road.bot.rows("SELECT count(*) FROM outgoing")[0][0] >= count, "the replies", 300)
    rate = count / (time.perf_counter() - since)
    until(lambda: not road.bot.rows("SELECT 1 FROM outgoing WHERE receipt IS NULL LIMIT 1"), "the reports", 600)
    return rate, count / (time.perf_counter() - since)


def killed(road, senders, bot_kills, gateway_kills):
    """Messages under kills at random moments; (what was said, texts heard twice)."""
    heard = road.listen(senders)
    chance, said = random.Random(3), {}
    load = threading.Thread(target=lambda: said.update(sent(road.carrier, senders, 40)))
    load.start()
    kills = ["bot"] * bot_kills + ["gateway"] * gateway_kills
    chance.shuffle(kills)
    for at, what in enumerate(kills, 1):
        time.sleep(chance.uniform(0.0, 1.5))
        getattr(road, what).kill()
        getattr(road, what).start()  # fails where it does not stand within two minutes
        print(f"\r{at} of {len(kills)} kills", end="", flush=True)
    load.join(HANG_S)
    assert not load.is_alive(), f"the load hangs; said by {len(said)} people"
    return said, road.settled(said, heard)


def main(messages=500, bot_kills=100, gateway_kills=10):
    senders = crew(messages)
    count = len(senders) * EACH
    sites = [f"GA{at:02}" for at in range(min(len(senders), 100))]
    with tempfile.TemporaryDirectory() as name, aggregator(Path(name), senders, sites) as road:
        road.bot.stop()
        print(f"bare    {bare_rate(road, senders, count):8.1f} messages/s to an address that stores nothing", flush=True)
        road.bot.start()
        rate, out = road_rate(road, senders, count)
        print(
            f"road    {rate:8.1f} messages/s to a committed log and a queued reply; {out:.1f}/s to the report of its delivery", flush=True
        )
        said, doubles = killed(road, senders, bot_kills, gateway_kills)
    print(
        f"kills   {sum(map(len, said.values()))} messages, {bot_kills} of the bot, {gateway_kills} of the gateway: 0 lost, 0 entries twice,"
    )
    print(f"        0 out of order for anybody, {doubles} texts twice on the air")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
