"""Things of known height into pages or columns."""

from hypothesis import given
from hypothesis import strategies as st

from layouts.planning import flow

heights = st.lists(st.integers(1, 10), min_size=1, max_size=25)


def contiguous(runs, count) -> bool:
    ends = [end for _, end in runs]
    return [start for start, _ in runs] == [0, *ends[:-1]] and ends[-1] == count


@given(heights, st.integers(10, 30), st.integers(0, 3))
def test_each_thing_is_in_one_run_and_no_run_is_too_tall(things, capacity, gap):
    fewest = flow.greedy(things, capacity, gap)
    for runs in (fewest, flow.even(things, len(fewest), capacity, gap)):
        assert contiguous(runs, len(things))
        for start, end in runs:
            assert sum(things[start:end]) + gap * (end - start - 1) <= capacity


@given(heights, st.integers(10, 30))
def test_sharing_evenly_takes_no_more_runs_and_is_never_less_even(things, capacity):
    fewest = flow.greedy(things, capacity, 0)
    shared = flow.even(things, len(fewest), capacity, 0)
    assert len(shared) == len(fewest)

    def spread(runs):
        return sum(sum(things[start:end]) ** 2 for start, end in runs)

    assert spread(shared) <= spread(fewest)


def test_seven_equal_things_in_three_runs():
    assert flow.even([1] * 7, 3, 5, 0) == ((0, 3), (3, 5), (5, 7))
