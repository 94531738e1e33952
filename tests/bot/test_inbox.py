"""The road from outside: who may send what, what bad input does, open questions, settings, corrections."""

from datetime import timedelta

import pytest

from tests.conftest import NOON

MASON, ASHA = "mason", "supervisor"


def log(book, code="TB07"):
    with book.page() as page:
        return page.site(code).log


# ---- strangers, roles, sites


def test_a_stranger_is_told_how_to_join_once_a_day(send):
    assert send("+254799", "hello").reply.startswith("This number is not known here. Send: join")
    assert send("+254799", "hello again").rows == ()
    assert send("+254799", "hello", NOON + timedelta(days=2)).reply.startswith("This number is not known")


def test_a_stranger_who_reports_danger_is_told_to_stop_and_the_supervisors_of_the_site_hear_of_it(send):
    sent = send("+254799", "tb07 man fell in the pit")
    assert sent.reply.startswith("STOP. DO NOT GO IN.")
    assert [row.role for row in sent.rows] == ["stranger", "supervisor", "mason"]


def test_a_stranger_cannot_read_or_write_a_site(book, send):
    send("+254799", "tb07 status")
    assert send("+254799", "tb07 pit deep 1.8 m").rows == ()
    assert log(book) == ()


def test_joining_waits_for_the_supervisor(book, send):
    asked = send("+254799", "join tb07 mason juma")
    assert "JOIN TB07: Juma (+254799) wants to be mason" in asked.rows[1].text
    assert send("+254799", "tb07 base 10.5 11 11 cm", NOON + timedelta(days=2)).reply.startswith("Your supervisor has not admitted you")
    assert "nobody called" in send(ASHA, "admit otto tb07").reply
    admitted = send(ASHA, "admit juma tb07")
    assert [row.to for row in admitted.rows] == ["+254700000200", "+254799"]
    assert send("+254799", "base 10.5 11 11 cm").reply.count("Thick 10.5, 11, 11 cm") == 1
    assert log(book)[-1].name == "Juma"


@pytest.mark.parametrize("name", ["Ram", "Sita", "Tano"])
def test_who_is_called_like_a_word_joins_too(name, send, book):
    assert f"to take {name} as mason" in send("+254799", f"join tb07 mason {name.lower()}").reply
    send(ASHA, f"admit {name.upper()} tb07")
    send("+254799", "tb07 base 10.5 11 11 cm")
    assert log(book)[-1].name == name


@pytest.mark.parametrize(
    "text", ["join tb07 as mason", "how to join tb07 as mason?", "join tb07 mason tomorrow", "join tb07 mason in the pit"]
)
def test_what_can_be_no_name_is_none(text, send, book):
    assert send("+254799", text).reply.startswith("Send: join TB07, what you are, your name.")
    assert log(book) == ()


def test_nobody_joins_as_supervisor_by_message(send):
    assert send("+254799", "join tb07 supervisor juma").reply.startswith("Supervisors are named in the programme file")


def test_a_role_may_send_only_its_own_kinds(book, send):
    assert send(MASON, "release tb07 pit").reply == "TB07: only the supervisor may send that. Nothing saved."
    assert "only the mason, supervisor may send that" in send("farmer", "pit deep 1.8 m wide 3.1 m").reply
    assert "You are not on the list of KV12" in send(MASON, "kv12 status").reply
    assert log(book) == ()


def test_an_unknown_site_and_two_sites_are_not_guessed(book, send):
    assert send(MASON, "xx99 base 10 cm").reply == "No site XX99 here. Nothing saved. Check the code."
    assert send(MASON, "tb07 kv12 base 10 cm").reply.startswith("Two sites in one message: KV12, TB07. Nothing saved.")
    assert log(book) == ()


def test_a_code_of_a_site_one_is_not_at_does_not_take_one_there(book, send):
    assert "not on the list of KV12" in send("mason", "kv12 base 10.5 11 11 cm").reply
    assert send("mason", "child fell in").reply.count("TB07") == 1
    with book.page() as page:
        assert [[entry.kind for entry in page.site(code).log] for code in ("TB07", "KV12")] == [["danger"], ["foreign"]]


def test_somebody_with_several_sites_is_asked_which_and_then_stays_there_for_a_shift(book, send):
    assert send("zuberi", "base 10.5 11 11 cm").reply.startswith("Which site: KV03, KV12? Nothing saved.")
    assert "KV03 #1 BASE" in send("zuberi", "kv03").reply
    assert "KV03 Wanjiru: 4 of 17" in send("zuberi", "status").reply
    assert send("zuberi", "status", NOON + timedelta(hours=13)).reply.startswith("Which site")


# ---- bad input


@pytest.mark.parametrize(
    "text",
    [
        "9**9**9 m", "pit depth 9**9 m", "pit depth nan m", "pit depth inf m", "pit depth 1e3 m", "pit depth 1_0 m", "pit depth -2 m",
        "pit deep 1.8.3 m", "pit deep 1,8,3,1", "pit deep 1.8 m 7", "base 10 cm 3 goats", "pit deep 4 haath", "x" * 2000, "pit " * 500,
        "", " ", "\x00\x01", "🚧🚧🚧", "1.8", "m", "pit", "pit m",
    ],
)  # fmt: skip
def test_what_cannot_be_read_without_guessing_stores_nothing_and_gets_one_answer(book, send, text):
    sent = send(MASON, text)
    assert len(sent.replies) == 1
    assert log(book) == ()


@pytest.mark.parametrize(
    "text", ["pit depth 1.83 m", "pit depth १.८३ m", "pit depth ١٫٨٣ m", "pit depth ۱.۸۳ m", "pit depth 1.83 m 🚧", "PIT  DEPTH 1.83M."]
)
def test_digits_of_other_scripts_and_ornaments_do_not_change_a_reading(book, send, text):
    send(MASON, text)
    assert log(book)[-1].fields["pit_depth_m"] == [1.83]


def test_a_danger_word_is_heard_in_a_text_of_2000_characters(send):
    assert send(MASON, "man fell in the pit " + "bla " * 495).reply.startswith("STOP. DO NOT GO IN.")


def test_a_danger_is_heard_with_an_open_question_and_in_a_message_that_is_unclear(send):
    send(MASON, "size 4")
    assert send(MASON, "gas smell in kitchen").reply.startswith("STOP. Gas smell")
    assert send(MASON, "smell gas 7 9 3").reply.startswith("STOP. Gas smell")


@pytest.mark.parametrize(
    "who, text",
    [
        ("seydou", "the pit has a crack bd03"),
        ("seydou", "la fosse a une fissure bd03"),
        ("seydou", "pit has water 20 cm bd03"),
        ("farmer", "the pit has a crack"),
        ("njoroge", "pit deep 1.20 m crack in the side"),
        ("zuberi", "the pit has a crack"),  # of two sites, neither is said
        ("zuberi", "kv12 the pit has a crack"),
    ],
)
def test_a_danger_among_readings_gets_its_stop_and_its_alert_whatever_becomes_of_the_readings(who, text, send):
    sent = send(who, text)
    assert sent.replies[0].startswith("STOP. Water in the pit." if "water" in text else "STOP. Ground crack or movement.")
    assert any(row.role == "supervisor" and "ALERT" in row.text for row in sent.rows)
    assert "only the mason" not in sent.reply


def test_water_in_a_pit_with_nobody_in_is_answered_by_the_pit_itself(book, send):
    send("mason", "pit deep 0.60 m soil b heap 1.6 m watcher yes")
    sent = send("mason", "water in pit 5 cm nobody in pit")
    assert [entry.kind for entry in log(book)] == ["pit", "pit"]
    assert "Said: in pit 0, water yes" in sent.reply and "Noted" not in sent.reply


def test_a_danger_of_somebody_at_no_site_goes_to_the_supervisors_of_all_his_sites(send):
    sent = send("zuberi", "man fell in")
    assert sent.reply.startswith("STOP. DO NOT GO IN.")
    assert "maybe KV03" in sent.rows[1].text
    assert "maybe KV12" in sent.rows[2].text


# ---- open questions


def test_a_question_is_answered_by_its_number_by_a_unit_or_by_a_word(book, send):
    assert "is it 1)" in send(MASON, "pit d 6.1 w 10.3 ft").reply
    send(MASON, "2")
    assert log(book)[-1].fields["pit_depth_m"] == [pytest.approx(6.1 * 0.3048)]
    send(MASON, "size 4")
    assert "4 cows" in send(MASON, "cows").reply
    assert "Came or used?" in send(MASON, "sand 1 brass").reply
    assert "Came: 2.83 m3 sand" in send(MASON, "came").reply


def test_a_whole_new_message_drops_the_question(book, send):
    send(MASON, "size 4")
    assert "Thick" in send(MASON, "base 10.5 11 11 cm").reply
    assert "Not understood" in send(MASON, "cows").reply


def test_a_question_is_open_for_one_shift(send):
    send(MASON, "size 4")
    assert "Not understood" in send(MASON, "cows", NOON + timedelta(hours=13)).reply


def test_feet_with_a_point_are_kept_where_both_readings_stand_alike(book, send):
    """5.1 ft is 5 ft 1 in or 5.1 ft: both far too shallow, so the deeper one is kept and marked as inferred."""
    sent = send(MASON, "pit deep 5.1 ft wide 10.3 ft")
    assert log(book)[-1].kind == "pit"
    assert "5 ft 1" in sent.reply


def test_a_depth_a_little_out_of_range_is_kept_only_if_its_number_is_sent_again(book, send):
    assert "If it is right send: YES and the number" in send(MASON, "pit deep 3.8 m").reply
    assert log(book) == ()
    assert send(MASON, "yes").reply.startswith("STOP. 3.80 m")
    assert log(book) == ()
    send(MASON, "yes 3.8 m")
    assert log(book)[-1].fields["pit_depth_m"] == [3.8]


def test_a_change_of_an_old_number_waits_for_yes(book, send):
    send(MASON, "got 8 bags cement")
    assert send(MASON, "cement 8 nahi 6 bori").reply.startswith("Change 8 to 6? Nothing changed yet.")
    assert "Nothing changed" in send(MASON, "no").reply
    send(MASON, "cement 8 nahi 6 bori")
    assert "6 bags (300 kg)" in send(MASON, "yes").reply
    kinds = [(entry.number, entry.kind, entry.refers) for entry in log(book)]
    assert kinds == [(1, "stock", None), (2, "undo", 1), (3, "stock", None)]


# ---- the log only grows


def test_undo_takes_back_ones_own_last_entry_and_keeps_it(book, send):
    send(MASON, "base 10.5 11 9 cm")
    send(MASON, "undo")
    assert [entry.kind for entry in log(book)] == ["base", "undo"]
    assert "no entry of yours" in send(MASON, "undo").reply


def test_nobody_takes_back_what_another_sent(book, send):
    send(MASON, "base 10.5 11 9 cm")
    assert "no entry of yours" in send(ASHA, "tb07 undo").reply


def test_a_correction_names_the_entry_it_replaces(book, send):
    send(MASON, "pit deep 1.83 m wide 3.12 3.10 3.08 m")
    sent = send(MASON, "wrong. depth 1.82 m")
    assert "It corrects #1, which stays in the log." in sent.reply
    assert "Deep 1.82 m (182 cm)" in sent.reply
    assert log(book)[-1].fields["pit_depth_m"] == [1.82]
    assert log(book)[-1].fields["pit_dia_m"] == [3.12, 3.10, 3.08]


def test_slurry_is_a_latch_that_no_undo_opens(book, send):
    send("zuberi", "kv12 first fill done")
    send("zuberi", "undo")
    with book.page() as page:
        assert page.site("KV12").ever_filled
    assert send("zuberi", "go in and clean").reply.startswith("STOP. NEVER go in a used plant")


# ---- releases


def dug(send):
    send(MASON, "pit wide 3.12 3.10 3.08 m deep 1.83 m soil b ladder 100 cm watcher yes heap 1.6 m")
    return send(MASON, "pit done")


def test_a_hold_is_asked_released_bound_to_its_reading_and_ended_by_a_new_one(book, send):
    assert "HOLD: no next step" in dug(send).reply
    assert "stands under #2" in send(ASHA, "release tb07 pit #7").reply
    released = send(ASHA, "release tb07 pit #2")
    assert "entry #2, released by Asha" in released.reply
    assert "is released already" in send(ASHA, "release tb07 pit").reply
    send(MASON, "pit deep 1.84 m")
    with book.page() as page:
        from bot.standing import finished

        assert not finished("pit", page.site("TB07"))


def test_nobody_releases_his_own_reading(send):
    send(ASHA, "tb07 pit wide 3.12 3.10 3.08 m deep 1.83 m")
    send(ASHA, "pit done")
    assert "the readings are your own" in send(ASHA, "release tb07 pit").reply
    assert "the reading is your own" in send(ASHA, "release tb07 support 1.83 m").reply


def test_a_release_of_the_sides_needs_the_kind_and_the_depth_on_record(send):
    assert "no pit depth on record" in send(ASHA, "release tb07 support 1.83 m").reply
    dug(send)
    assert "slope or support?" in send(ASHA, "release tb07 sides 1.83 m").reply
    assert "the depth on record is 1.83 m" in send(ASHA, "release tb07 support 1.60 m").reply
    assert "signed by Asha until" in send(ASHA, "release tb07 support 1.83 m").reply


def test_a_signed_side_takes_back_the_stop_until_the_shift_is_over(send):
    dug(send)
    send(ASHA, "release tb07 support 1.83 m")
    assert not send(MASON, "pit deep 1.84 m ladder 100 cm watcher yes").reply.startswith("STOP")
    late = send(MASON, "pit deep 1.84 m ladder 100 cm watcher yes", NOON + timedelta(hours=13))
    assert late.reply.startswith("STOP")
    assert "no longer counts: older than a shift" in late.reply


@pytest.mark.parametrize(
    ("said", "cause"),
    [("rain 1 in pit", "rain"), ("water in pit 20 cm", "water"), ("pit deep 1.95 m", "10 cm deeper"), ("soil c", "other soil")],
)
def test_a_release_of_the_sides_dies_by_events(send, said, cause):
    dug(send)
    send(ASHA, "release tb07 support 1.83 m")
    sent = send(MASON, said, NOON + timedelta(hours=1))
    assert sent.reply.startswith("STOP")
    assert f"no longer counts: {cause}" in sent.reply


@pytest.mark.parametrize("who, name", [("farmer", "Kamla"), (ASHA, "Asha")])
def test_the_mason_hears_of_a_crack_that_another_reports_and_that_his_release_is_ended(who, name, send):
    dug(send)
    send(ASHA, "release tb07 support 1.83 m")
    (told,) = [row.text for row in send(who, "tb07 crack in the pit").rows if row.role == "mason"]
    assert told.startswith("STOP. Ground crack or movement. Everyone out now")
    assert told.endswith(f"by {name}. Release #3 ended. Nobody in.")
    (again,) = [row.text for row in send(who, "tb07 crack in the pit").rows if row.role == "mason"]
    assert "ended" not in again  # it had ended before


def test_the_mason_hears_of_a_crack_among_the_readings_of_another(send):
    dug(send)
    send(ASHA, "release tb07 support 1.83 m")
    (told,) = [row.text for row in send(ASHA, "tb07 the pit has a crack").rows if row.role == "mason"]
    assert told.startswith("STOP. Ground crack or movement.") and told.endswith("Release #3 no longer counts: crack.")


@pytest.mark.parametrize("text", ["status", "next", "site tb07"])
@pytest.mark.parametrize("who", [MASON, ASHA, "farmer"])
def test_how_far_a_site_is_opens_with_the_stop_that_stands_and_sends_nobody_into_the_pit(who, text, send):
    assert "Send: pit deep" in send(who, f"tb07 {text}").reply
    send("farmer", "crack in the pit")
    reply = send(who, f"tb07 {text}").reply
    assert reply.startswith("STOP. Ground crack or movement.")
    assert "At: pit. No work in the pit while this stands." in reply
    assert "Next:" not in reply and "Send:" not in reply


@pytest.mark.parametrize("said, word", [("crack in the pit", "crack"), ("water in the pit", "water")])
def test_sides_are_not_signed_over_a_danger_that_nobody_says_he_looked_at(said, word, book, send):
    dug(send)
    send("farmer", said)
    for text in ("release tb07 support 1.83 m", f"release tb07 support 1.83 m {'water' if word == 'crack' else 'crack'} checked"):
        refused = send(ASHA, text)
        assert f"TB07: {word} #3 12:00 Kamla stands. Nothing recorded." in refused.reply
        assert f"send: release TB07 support n.nn m {word} checked." in refused.reply
    assert "release" not in [entry.kind for entry in log(book)]


@pytest.mark.parametrize("looked", ["crack checked", "looked at crack", "inspected the crack"])
def test_sides_signed_over_a_crack_name_it_to_both_and_in_the_log(looked, book, send):
    dug(send)
    send("farmer", "crack in the pit")
    sent = send(ASHA, f"release tb07 support 1.83 m {looked}")
    assert [("Looked at: crack #3 12:00 Kamla." in row.text, row.role) for row in sent.rows] == [(True, "supervisor"), (True, "mason")]
    assert log(book)[-1].fields["looked_at"] == [3]
    assert "Looked at" not in send(ASHA, "release tb07 support 1.83 m").reply  # that crack has been signed for


@pytest.mark.parametrize("text", ["crack in the pit", "crack not checked", "crack seen", "crack checked?"])
def test_a_crack_beside_a_release_that_is_not_called_looked_at_is_a_danger(text, book, send):
    dug(send)
    assert send(ASHA, f"release tb07 support 1.83 m {text}").reply.startswith("STOP. Ground crack or movement.")
    assert "release" not in [entry.kind for entry in log(book)]


@pytest.mark.parametrize("text", ["crack checked", "pit crack looked at", "crack inspected it grows"])
def test_a_crack_that_a_mason_looked_at_is_still_a_danger(text, send):
    assert send(MASON, text).reply.startswith("STOP. Ground crack or movement.")


def test_a_mason_is_not_sent_his_own_stop(send):
    assert [row.role for row in send(MASON, "crack in the pit").rows] == ["mason", "supervisor"]


@pytest.mark.parametrize("text, end", [("crack in the pit", "Masons get this too. Call the site now."), ("alone in pit", "Call the site.")])
def test_a_supervisor_who_reports_a_danger_is_not_told_to_wait_for_himself(text, end, send):
    reply = send(ASHA, f"tb07 {text}").reply
    assert reply.endswith(end)
    assert "Alert sent" not in reply


def test_a_refusal_keeps_its_reason_and_stops_the_stage(send):
    dug(send)
    sent = send(ASHA, "refuse tb07 pit sides too steep")
    assert "Reason:" in sent.rows[1].text
    assert send(MASON, "base done").reply.count("First finish: pit") == 1


# ---- settings


def test_units_and_language_are_the_senders_own(book, send):
    send(MASON, "units feet")
    assert "(10 ft 2 7/8 in" in send(MASON, "pit 3.12 3.08 3.10 deep 1.83").reply
    assert send(MASON, "hindi").reply.startswith("भाषा: हिंदी.")
    with book.page() as page:
        person = page.person(short="mason")
    assert (person.language, person.units) == ("hi", "feet")


def test_a_reply_tells_the_sites_own_time(send):
    assert "sent 12:00" in send(MASON, "pit deep 1.83 m").reply  # 09:00 UTC in Nairobi
