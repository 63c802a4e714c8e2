"""A question that is kept stays in its place, is on its rung, and is matched in every version."""

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.operations.rungs import rung_set
from generator.packs.building import another, build_pack
from generator.packs.keeping import CannotBeKeptError, as_kept
from generator.packs.pack import Item, Pack
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec, shipped
from specs.spec import position_of

NAMES = ("produce-stall", "carrying-across-the-point", "sharing", "ordering", "puzzles")


def spec_of(text: str) -> Spec:
    return read_spec(text.encode(), "lesson.yaml", VOCABULARY)


def items(pack: Pack, section: str, version: int = 1) -> tuple[Item, ...]:
    found = (s.items for s in pack.sections if (s.name, s.version) == (section, version))
    return next(found, ())


def asked(pack: Pack) -> dict[tuple[str, int, str], str]:
    return {
        (section.name, section.version, item.label): item.question.text
        for section in pack.sections
        for item in section.items
    }


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.sampled_from(NAMES),
    st.integers(0, 10**6),
    st.integers(0, 10**6),
    st.randoms(use_true_random=False),
)
@pytest.mark.slow
def test_another_question_takes_the_place_of_one_alone(
    name: str, seed: int, other_seed: int, chance: Random
) -> None:
    """All others stay; only the matches of examples are drawn with an eye to one another."""
    text = shipped(name).read_text("utf-8")
    spec = spec_of(text)
    before = build_pack(spec, seed)
    section = chance.choice(before.sections)
    item = chance.choice(section.items[:: 2 if section.kind == "example" else 1])
    found = next(another(spec, seed, 1, section.name, position_of(item.label)), None)
    if found is None:
        assert rung_set(spec.rung(item.rung)).count < 200
        return
    assert found in rung_set(spec.rung(item.rung))
    assert found.identity not in {i.question.identity for s in before.sections for i in s.items}
    kept = f'{text}\nkeep: {{{section.name}: {{{item.label}: "{as_kept(found).text}"}}}}\n'
    after = build_pack(spec_of(kept), seed)
    place = (section.name, 1, item.label)
    was, now = asked(before), asked(after)
    assert sorted(now[place]) == sorted(found.text)
    changed = {at for at in was if was[at] != now[at]}
    matches = {("examples", 1, i.label) for i in items(before, "examples")[1::2]}
    assert changed <= {place, *(matches if section.kind == "example" else ())}
    there = build_pack(spec_of(kept), other_seed, versions=2)
    assert asked(there)[place] == now[place]
    identities = [i.question.identity for s in there.sections for i in s.items]
    assert len(set(identities)) == len(identities)


def test_versions_match_what_is_kept() -> None:
    text = shipped().read_text("utf-8") + '\nkeep: {core: {c: "7.004 − 2.936"}}\n'
    pack = build_pack(spec_of(text), 3, versions=4)
    signatures = {items(pack, "core", version)[2].signature for version in range(1, 5)}
    assert items(pack, "core")[2].question.text == "7.004 − 2.936"
    assert len(signatures) == 1


def test_the_match_of_a_kept_example_is_as_hard() -> None:
    text = shipped().read_text("utf-8") + '\nkeep: {examples: {c: "6.002 - 2.415"}}\n'
    shown, match = items(build_pack(spec_of(text), 1), "examples")[2:4]
    assert shown.question.text == "6.002 − 2.415"
    assert match.signature == shown.signature
    assert match.question != shown.question


def test_numbers_stay_in_the_order_in_which_they_were_written() -> None:
    text = shipped().read_text("utf-8") + '\nkeep: {core: {a: "3.48 + 2.75", b: "2.68 + 3.75"}}\n'
    first, second = items(build_pack(spec_of(text), 1), "core")[:2]
    assert (first.question.text, second.question.text) == ("3.48 + 2.75", "2.68 + 3.75")
    turned = shipped().read_text("utf-8") + '\nkeep: {core: {e: "8 x 3.45"}}\n'
    assert items(build_pack(spec_of(turned), 1), "core")[4].question.text == "3.45 × 8"


@pytest.mark.parametrize(
    "question",
    ["1.2 + 3", "2.5 + 3.4", "9 - 8", "5 ÷ 0", "0 ÷ 5", "2.75 + 3.48 + 1", "round 3.47 to 1"],
)
def test_what_is_not_on_the_rung_is_refused(question: str) -> None:
    for label in ("a", "c", "e", "g"):
        text = shipped().read_text("utf-8") + f'\nkeep: {{core: {{{label}: "{question}"}}}}\n'
        with pytest.raises(CannotBeKeptError, match="no question of"):
            build_pack(spec_of(text), 1)
