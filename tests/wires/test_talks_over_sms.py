"""Written conversations over SMS, line by line the same as without wires. All of them: `python -m tests.bench.talks`."""

import pytest

from tests.wires.talk_over_sms import TALKS, compared

FEW = ("answers", "case_02_ladder", "case_06_crack", "case_14_man_down", "case_15_gas_smell", "record")


@pytest.mark.parametrize("name", FEW)
def test_a_conversation_over_sms_is_the_same_as_without_wires(name, tmp_path):
    faults, plain, over = compared(TALKS / f"{name}.talk", tmp_path)
    assert not faults, "\n".join(faults)
    assert over == plain
    assert any(texts for _, texts in over)
