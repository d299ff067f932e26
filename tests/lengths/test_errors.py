"""The family of errors whose words are for people."""

from __future__ import annotations

from mockup.errors import CannotWrite, Fault, FaultsFound, MockupError
from mockup.lengths import NotALength


def test_a_fault_says_where_what_and_what_instead() -> None:
    fault = Fault("ruby.toml:12", "'13' has no unit", "write 13in")
    assert str(fault) == "ruby.toml:12: '13' has no unit; write 13in"


def test_a_fault_leaves_out_what_it_does_not_know() -> None:
    assert str(Fault("", "no title", "")) == "no title"
    assert str(Fault("a.toml", "is empty")) == "a.toml: is empty"


def test_faults_are_told_together_in_their_order_and_end_with_two() -> None:
    found = FaultsFound(Fault(f"a.toml:{n}", "wrong") for n in (2, 1))
    assert str(found) == "a.toml:2: wrong\na.toml:1: wrong"
    assert len(found.faults) == 2
    assert found.exit_code == 2


def test_every_error_for_people_is_of_one_family() -> None:
    assert issubclass(FaultsFound, MockupError)
    assert issubclass(CannotWrite, MockupError)
    assert issubclass(NotALength, MockupError)
    assert issubclass(NotALength, ValueError)
