"""The codes of packs and pages: read back exactly, and never from a mistyped sign."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.packs.codes import LETTERS, CodeError, PageCode, in_letters, pack_code

versions = st.integers(1, 10_000).flatmap(lambda n: st.tuples(st.just(n), st.integers(1, n)))
page_codes = st.builds(
    lambda spec, seed, of, section, page, look: PageCode(spec, seed, *of, section, page, look),
    st.text(LETTERS, min_size=4, max_size=4),
    st.integers(0, 999_999_999),
    versions,
    st.integers(0, 40),
    st.integers(1, 400),
    st.integers(0, 30),
)


@given(page_codes)
def test_a_code_says_what_was_written_into_it(code: PageCode) -> None:
    assert PageCode.parse(str(code)) == code
    assert PageCode.parse(f"  {str(code).lower()}\n") == code
    assert PageCode.parse(str(code).replace("-", " ")) == code
    assert PageCode.parse(str(code).replace("-", " – ")) == code


@given(page_codes)
def test_a_code_holds_nothing_but_its_signs_and_hyphens(code: PageCode) -> None:
    assert set(str(code)) <= {*LETTERS, "-"}


def test_the_code_of_an_ordinary_sheet_is_short_enough_for_the_smallest_qr_code() -> None:
    """ISO/IEC 18004, table 7: version 1 with level M holds 20 alphanumeric characters."""
    for tier in range(2, 7):
        for page in range(1, 6):
            assert len(str(PageCode("K7HM", 4711, 30, 17, tier, page, look=5))) <= 20


@pytest.mark.parametrize("code", ["K7HM-D4-A-CF-M", str(PageCode("ACDE", 0, 30, 29, 4, 2, 3))])
def test_every_mistyped_sign_is_refused(code: str) -> None:
    for at, sign in enumerate(code):
        for wrong in {*LETTERS, "-", "0", "O", "B"} - {sign}:
            with pytest.raises(CodeError):
                PageCode.parse(code[:at] + wrong + code[at + 1 :])
    for at in range(len(code)):
        with pytest.raises(CodeError):
            PageCode.parse(code[:at] + code[at + 1 :])
    for at in range(len(code) - 1):
        swapped = code[:at] + code[at + 1] + code[at] + code[at + 2 :]
        if swapped != code:
            with pytest.raises(CodeError):
                PageCode.parse(swapped)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("K7HB-D4-A-CF-M", "'B' is in no code"),
        ("K7HM-D4-A-CF-N", "a sign in it is wrong or out of place"),
        ("K7HM-D4-T", "a whole pack's"),
        ("K7HM", "five groups, like K7HM-D4-A-CF-M"),
        ("", "five groups"),
        ("A" * 5000, "read it again"),
    ],
)
def test_the_message_names_the_code_and_what_to_do(text: str, says: str) -> None:
    with pytest.raises(CodeError, match=says) as refused:
        PageCode.parse(text)
    assert repr(text[:40]) in str(refused.value)
    assert len(str(refused.value)) < 200


def test_the_code_in_the_messages_is_a_sound_one() -> None:
    assert str(PageCode.parse("K7HM-D4-A-CF-M")) == "K7HM-D4-A-CF-M"


@given(page_codes)
def test_a_page_code_begins_as_its_packs_does(code: PageCode) -> None:
    assert str(code).startswith(f"{code.spec}-{in_letters(code.seed, 2)}-")
    pack = pack_code("ab" * 32, code.seed)
    assert pack.split("-")[1] == str(code).split("-")[1]
