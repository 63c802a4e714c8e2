"""Seeds: the same choice on every machine, and orders that are true permutations."""

from collections import Counter
from hashlib import blake2b
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from generator.numbered.permutation import Permutation
from generator.numbered.seeds import Dice, key
from generator.packs.codes import LETTERS, check_sign, in_letters, pack_code

GOLDEN_WORDS = [13240845542680388206, 3979287742012385732, 9350562247237013771]
GOLDEN_BELOW = [9, 799, 8712364727601491502761592856186961528177]
GOLDEN_SHUFFLE = "ghafbedc"
GOLDEN_ORDER = [54530396717, 890641825545, 250779300113]

addresses = st.lists(st.text() | st.integers(), max_size=4).map(tuple)


def test_the_raw_stream_never_changes() -> None:
    """Golden values: if these move, every printed sheet's seed is worthless."""
    dice = Dice(key(1, "starter", 0))
    assert [dice.next() for _ in range(3)] == GOLDEN_WORDS
    assert [Dice(key(2026)).below(n) for n in (10, 10**3, 10**40)] == GOLDEN_BELOW
    assert Dice(key("shuffle")).shuffled("abcdefgh") == list(GOLDEN_SHUFFLE)
    order = Permutation(10**12, key("order"))
    assert [order[place] for place in range(3)] == GOLDEN_ORDER


def test_the_stream_is_blake2b_as_the_standard_library_has_it() -> None:
    """RFC 7693; the reference is CPython's hashlib, asked for the first block directly."""
    secret = key("any")
    counted = blake2b((0).to_bytes(8, "big"), key=secret, digest_size=64).digest()
    stream = Dice(secret)
    assert b"".join(stream.next().to_bytes(8, "big") for _ in range(8)) == counted


@given(addresses, addresses)
def test_different_addresses_have_different_keys(one: tuple, other: tuple) -> None:
    assert (key(*one) == key(*other)) == (one == other and str(one) == str(other))


def test_numbers_below_a_bound_are_equally_likely() -> None:
    dice = Dice(key("fair"))
    drawn = Counter(dice.below(7) for _ in range(7000))
    assert stats.chisquare([drawn[value] for value in range(7)]).pvalue > 0.001


def test_orders_are_equally_likely() -> None:
    dice = Dice(key("orders"))
    drawn = Counter(tuple(dice.shuffled("abcd")) for _ in range(24 * 200))
    tally = [drawn[order] for order in permutations("abcd")]
    assert stats.chisquare(tally).pvalue > 0.001


@pytest.mark.parametrize("size", [*range(1, 40), 511, 512, 513, 514, 1000, 2047, 4096, 5003])
def test_every_small_order_is_a_permutation(size: int) -> None:
    order = Permutation(size, key("small", size))
    values = [order[place] for place in range(size)]
    assert sorted(values) == list(range(size))
    assert [order.place_of(value) for value in values] == list(range(size))


@given(st.integers(1, 10**60), st.binary(min_size=32, max_size=32), st.data())
def test_every_large_order_has_an_inverse(size: int, secret: bytes, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, size - 1))
    order = Permutation(size, secret)
    assert 0 <= order[place] < size
    assert order.place_of(order[place]) == place


def test_values_of_a_large_order_are_spread_evenly() -> None:
    order = Permutation(10**6, key("spread"))
    tenths = Counter(order[place] // 10**5 for place in range(5000))
    assert stats.chisquare([tenths[tenth] for tenth in range(10)]).pvalue > 0.001


def test_outside_the_order_there_is_nothing() -> None:
    order = Permutation(1000, key("edge"))
    for wrong in (-1, 1000):
        with pytest.raises(IndexError):
            order[wrong]
        with pytest.raises(IndexError):
            order.place_of(wrong)
    with pytest.raises(ValueError, match="nothing to permute"):
        Permutation(0, key("edge"))


codes = st.text(LETTERS, min_size=2, max_size=12)


@given(codes, st.data())
def test_a_code_with_one_wrong_sign_is_never_right(code: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(code) - 1))
    wrong = data.draw(st.sampled_from([sign for sign in LETTERS if sign != code[at]]))
    assert check_sign(code[:at] + wrong + code[at + 1 :]) != check_sign(code)


@given(codes, st.data())
def test_a_code_with_two_neighbours_exchanged_is_never_right(
    code: str, data: st.DataObject
) -> None:
    at = data.draw(st.integers(0, len(code) - 2))
    swapped = code[:at] + code[at + 1] + code[at] + code[at + 2 :]
    assert (check_sign(swapped) == check_sign(code)) == (swapped == code)


def test_signs_that_are_misread_for_one_another_do_not_stand_together() -> None:
    for alike in ("B8", "O0Q", "I1L", "S5", "Z2", "G6"):
        assert len(set(alike) & set(LETTERS)) <= 1
    assert len(LETTERS) == len(set(LETTERS)) == 23


def test_a_pack_code_names_spec_and_seed() -> None:
    assert in_letters(0, 2) == "AA"
    one, other = pack_code("ab" * 32, 7), pack_code("ab" * 32, 8)
    assert one[:4] == other[:4]
    assert one != other
    assert pack_code("cd" * 32, 7)[:4] != one[:4]
