"""The number of a question is kept: a seed prints the same sheets, today and in years to come.

A seed names numbers, and a rung turns each into a question. So it is not enough that a rung
holds the right questions (``test_counting``, ``test_products``, ``test_quotients`` and
``test_order`` go through all of them): each must keep its number. Kept here are how many there
are, the first, the last, and the beginning of the SHA-256 of all of them in their order, a line
each. They change with Rungsheet's major version only.
"""

from hashlib import sha256

import pytest

from tests.generator.ladders import questions

NUMBERED = [
    (
        "add, places: 1, whole: {between: [0, 1]}, carries: none",
        1000,
        "9.4 + 0.5",
        "0.1 + 0.1",
        "ce00e182bd62",
    ),
    ("add, places: 1, whole: 1, carries: every", 1205, "9.9 + 9.9", "1.1 + 8.9", "40eb8c75f719"),
    ("add, places: {ragged: [1, 2]}, whole: 0", 810, "0.9 + 0.99", "0.1 + 0.01", "bca090dad29d"),
    (
        "add, places: 2, whole: 0, carries: {only: [hundredths]}",
        1025,
        "0.49 + 0.49",
        "0.01 + 0.09",
        "cc290bf03d63",
    ),
    ("add, places: 1, whole: 1, repeats: forbid", 2592, "9.8 + 8.9", "1.1 + 2.2", "ac2aea5c06fe"),
    (
        "add, addends: 3, places: 1, whole: 0",
        165,
        "0.9 + 0.9 + 0.9",
        "0.2 + 0.1 + 0.1",
        "bd42feed3f5f",
    ),
    (
        "add, addends: 4, places: 1, whole: 0, answer: {whole_number: true}",
        51,
        "0.7 + 0.7 + 0.8 + 0.8",
        "0.2 + 0.6 + 0.1 + 0.1",
        "4f90fcc2ba33",
    ),
    (
        "add, addends: 3, places: {ragged: [0, 1]}, whole: {between: [0, 1]}, carries: "
        "none, repeats: forbid",
        2173,
        "9 + 0.4 + 0.5",
        "1 + 2 + 0.1",
        "9ec99e7e9e29",
    ),
    (
        "add, places: 1, whole: {between: [0, 1]}, answer: {between: [9.5, 10]}",
        241,
        "4.9 + 4.9",
        "0.1 + 9.4",
        "cbb73f193bea",
    ),
    (
        "add, places: 2, whole: 0, answer: {above: 0.125, below: 0.5}",
        472,
        "0.19 + 0.29",
        "0.01 + 0.21",
        "b6ca01fe9909",
    ),
    (
        "add, places: 2, whole: 1, zeros: {inside: require}, carries: every",
        2385,
        "9.09 + 9.99",
        "1.01 + 8.99",
        "2b6d1ed3a596",
    ),
    (
        "add, places: 1, whole: 1, zeros: {end: require}, carries: none",
        344,
        "8.0 + 1.9",
        "1.0 + 1.0",
        "89cbe6ecf359",
    ),
    (
        "add, places: 0, whole: {between: [1, 2]}, carries: none",
        1425,
        "84 + 15",
        "10 + 10",
        "931129109433",
    ),
    ("add, places: 0, whole: 2, zeros: {end: forbid}", 3321, "99 + 99", "11 + 11", "ad605df8e305"),
    ("subtract, places: 0, whole: 2, exchanges: none", 2385, "99 − 89", "11 − 10", "21c887e0b23c"),
    (
        "subtract, places: 0, whole: 2, exchanges: {count: 1}",
        1620,
        "98 − 89",
        "20 − 11",
        "7432d173a89f",
    ),
    (
        "subtract, places: {between: [0, 1]}, whole: {between: [0, 1]}, longer: "
        "second, exchanges: every",
        405,
        "9 − 8.9",
        "1 − 0.1",
        "c48de4758268",
    ),
    (
        "subtract, places: 1, whole: {between: [0, 1]}, exchanges: {across_point: true}",
        1620,
        "9.8 − 8.9",
        "1.1 − 0.2",
        "70382907efd0",
    ),
    (
        "subtract, places: 1, whole: {between: [0, 1]}, zeros: {end: require}, exchanges: none",
        441,
        "9.9 − 9.0",
        "2.0 − 1.0",
        "b3a84dac04d6",
    ),
    ("multiply, digits: 1, places: {between: [0, 2]}", 300, "2 × 2", "0.09 × 0.09", "63108cb506fe"),
    ("multiply, digits: 2, places: 0, carries: none", 138, "11 × 11", "33 × 33", "41e3959e1241"),
    ("multiply, digits: 2, places: 0, carries: every", 1702, "12 × 99", "99 × 99", "3ccf6f3961cf"),
    (
        "multiply, digits: 2, places: 0, carries: {count: [2, 3]}",
        1462,
        "12 × 91",
        "93 × 93",
        "c7293de0edba",
    ),
    (
        "multiply, digits: 2, places: 1, answer: {ends_in_zero: true}",
        324,
        "1.5 × 1.2",
        "9.8 × 9.5",
        "0440614c3b72",
    ),
    (
        "multiply, digits: 2, places: 1, answer: {whole_number: true}",
        36,
        "2.5 × 1.2",
        "8.8 × 7.5",
        "fffcd824f912",
    ),
    (
        "multiply, digits: {between: [1, 2]}, places: 1, answer: {whole: 0}",
        128,
        "1.1 × 0.2",
        "0.9 × 0.9",
        "525111cfa1c3",
    ),
    ("multiply, factors: 3, places: 0", 120, "2 × 2 × 2", "9 × 9 × 9", "e72a91c5f871"),
    (
        "multiply, factors: 3, places: {between: [0, 1]}, carries: {count: 2}",
        494,
        "4 × 4 × 2",
        "0.9 × 0.9 × 0.9",
        "5597737ccafd",
    ),
    ("multiply, digits: [2, 1], places: [1, 0]", 648, "1.1 × 2", "9.9 × 9", "bdfb2569b283"),
    (
        "multiply, digits: [1, 2], places: [2, 0], carries: every",
        464,
        "0.02 × 55",
        "0.09 × 99",
        "962563622c3c",
    ),
    (
        "multiply, digits: [3, 1], places: 0, zeros: {inside: require}",
        648,
        "101 × 2",
        "909 × 9",
        "a8a5ae83aea8",
    ),
    (
        "multiply, digits: [3, 1], places: 0, zeros: {inside: forbid}, carries: {count: [0, 1]}",
        608,
        "111 × 2",
        "911 × 9",
        "4cec581799c9",
    ),
    (
        "multiply, digits: 2, places: [2, 1], carries: {count: 1}",
        436,
        "0.51 × 1.2",
        "0.21 × 9.4",
        "89de07952083",
    ),
    (
        "multiply, digits: [3, 2], places: [1, 2], answer: {places: 1, below: 9}",
        95,
        "12.5 × 0.12",
        "10.8 × 0.75",
        "c5a8e9fe2ad5",
    ),
    ("divide, dividend: {digits: [1, 3]}", 1823, "2 ÷ 2", "999 ÷ 9", "b027f477fde1"),
    (
        "divide, divisor: {digits: 2}, dividend: {digits: 3}",
        2014,
        "110 ÷ 11",
        "990 ÷ 99",
        "e8c614884dad",
    ),
    (
        "divide, divisor: [12, 5, 1, 10], dividend: {digits: [2, 3]}",
        1370,
        "10 ÷ 1",
        "996 ÷ 12",
        "99f0e3b6c7f6",
    ),
    ("divide, divisor: 7, ending: remainder", 849, "10 ÷ 7", "999 ÷ 7", "d2ba0ba9e71f"),
    (
        "divide, divisor: 15, dividend: {digits: [1, 3]}, ending: fraction",
        919,
        "16 ÷ 15",
        "999 ÷ 15",
        "c7efb374f751",
    ),
    ("divide, remainders: none", 442, "10 ÷ 2", "999 ÷ 9", "71dd8468c750"),
    (
        "divide, divisor: [4, 7], remainders: some, ending: remainder",
        1324,
        "50 ÷ 4",
        "999 ÷ 7",
        "dfdfbc8f8418",
    ),
    (
        "divide, divisor: [4, 7], remainders: every, ending: remainder",
        1060,
        "50 ÷ 4",
        "999 ÷ 7",
        "ee929f0c8ad9",
    ),
    (
        "divide, remainders: {count: [1, 2]}, dividend: {digits: 3}, divisor: [3, 11, 12]",
        366,
        "102 ÷ 3",
        "996 ÷ 12",
        "14473af1dd80",
    ),
    (
        "divide, zero_in_quotient: require, dividend: {digits: 3}",
        290,
        "100 ÷ 2",
        "990 ÷ 9",
        "593e9f132601",
    ),
    (
        "divide, divisor: [3, 8], zero_in_quotient: require, ending: remainder",
        267,
        "31 ÷ 3",
        "967 ÷ 8",
        "e57e74e5fe54",
    ),
    (
        "divide, divisor: [3, 8], zero_in_quotient: forbid, ending: remainder",
        1260,
        "10 ÷ 3",
        "999 ÷ 8",
        "aa258d4bf574",
    ),
    (
        "divide, quotient: {digits: 2}, dividend: {digits: [2, 3]}",
        720,
        "20 ÷ 2",
        "891 ÷ 9",
        "f23fe64d053b",
    ),
    ("divide, zeros: {inside: require}", 131, "102 ÷ 2", "909 ÷ 9", "389f5d08952e"),
    (
        "divide, zeros: {inside: forbid, end: forbid}, dividend: {digits: [1, 3]}",
        1330,
        "2 ÷ 2",
        "999 ÷ 9",
        "955ca3555241",
    ),
    (
        "divide, zeros: {end: require}, places: {between: [0, 1]}",
        362,
        "10 ÷ 2",
        "990 ÷ 9",
        "d076fe6ae37a",
    ),
    (
        "divide, divisor: [3, 4], places: {between: [0, 3]}",
        2062,
        "12 ÷ 3",
        "0.996 ÷ 4",
        "c7fa14a273fe",
    ),
    (
        "divide, places: {between: [0, 2]}, divisor_places: {between: [0, 2]}, divisor: [6, 30]",
        1815,
        "12 ÷ 6",
        "9.96 ÷ 0.06",
        "a2d37923bee7",
    ),
    (
        "divide, divisor_places: 1, places: {between: [0, 1]}, remainders: every, "
        "zero_in_quotient: forbid",
        1884,
        "11 ÷ 0.2",
        "89.1 ÷ 0.9",
        "a05548ce6943",
    ),
    ("divide, ending: {decimal: 1}", 1824, "11 ÷ 2", "996 ÷ 8", "4daf132e3a08"),
    (
        "divide, divisor: [8, 16], dividend: {digits: [1, 2]}, ending: {decimal: 3}",
        130,
        "1 ÷ 8",
        "98 ÷ 16",
        "3acfc0e14499",
    ),
    (
        "divide, ending: {decimal: 2}, places: {between: [0, 2]}, divisor_places: "
        "{between: [0, 1]}, divisor: [8, 15]",
        3623,
        "10 ÷ 8",
        "9.99 ÷ 1.5",
        "738fd75340c4",
    ),
    (
        "divide, divisor: [4, 8], ending: {decimal: 2}, remainders: {count: 2}, "
        "zero_in_quotient: require",
        93,
        "41 ÷ 4",
        "964 ÷ 8",
        "a4f83f7a2eaf",
    ),
    (
        "divide, divisor: [4, 8], ending: {decimal: 2}, quotient: {digits: 3}",
        213,
        "11 ÷ 4",
        "796 ÷ 8",
        "f327d61b0eb9",
    ),
    (
        "divide, ending: {rounded: 0}, dividend: {digits: 2}",
        556,
        "11 ÷ 2",
        "98 ÷ 9",
        "d6731a05fa8b",
    ),
    (
        "divide, ending: {rounded: 1}, places: {between: [0, 2]}, divisor: [8, 27], "
        "dividend: {digits: 2}",
        308,
        "10 ÷ 8",
        "9.9 ÷ 27",
        "91c3c38825dd",
    ),
    (
        "divide, ending: {rounded: 1}, divisor_places: {between: [1, 2]}, places: "
        "{between: [0, 1]}, divisor: [7, 12], dividend: {digits: 2}",
        535,
        "10 ÷ 0.7",
        "9.8 ÷ 0.12",
        "c4e096e16267",
    ),
    (
        "divide, divisor: [3, 7], answer: {above: 20, below: 40}, ending: remainder",
        160,
        "61 ÷ 3",
        "279 ÷ 7",
        "7e227a40ec32",
    ),
    (
        "divide, answer: {between: [1.5, 25]}, places: {between: [0, 1]}, divisor: [4, "
        "6], divisor_places: {between: [0, 1]}",
        396,
        "12 ÷ 4",
        "14.4 ÷ 0.6",
        "eeaadafff807",
    ),
    (
        "divide, answer: {above: 8}, dividend: {digits: [1, 2]}, zeros: {inside: forbid}",
        114,
        "18 ÷ 2",
        "99 ÷ 9",
        "af976afdb87f",
    ),
    (
        "order, numbers: 3, whole: 0, places: 1",
        84,
        "0.3, 0.2, 0.1",
        "0.9, 0.8, 0.7",
        "0e0efda3bc32",
    ),
    (
        "compare, whole: {between: [0, 1]}, places: {ragged: [0, 1]}",
        810,
        "1 □ 1.1",
        "0.9 □ 9",
        "199d98a9b5aa",
    ),
    (
        "compare, whole: 1, places: 1, zeros: {end: allow}",
        4005,
        "1.1 □ 1.0",
        "9.9 □ 9.8",
        "b59a9bab1c7f",
    ),
    ("add, places: [1, 2], whole: 0", 810, "0.9 + 0.99", "0.1 + 0.01", "bca090dad29d"),
    (
        "add, addends: 3, places: 0, whole: 1, repeats: forbid",
        84,
        "7 + 8 + 9",
        "1 + 2 + 3",
        "fac7c47b8666",
    ),
    (
        "add, addends: 6, places: 0, whole: 1, carries: every",
        2996,
        "9 + 9 + 9 + 9 + 9 + 9",
        "1 + 1 + 1 + 1 + 1 + 5",
        "5f04c785d98e",
    ),
    (
        "subtract, places: {between: [0, 2]}, whole: 0, longer: first",
        405,
        "0.99 − 0.9",
        "0.11 − 0.1",
        "dbdcaade967e",
    ),
    (
        "subtract, places: {between: [0, 1]}, whole: {between: [0, 1]}, longer: first",
        405,
        "9.9 − 9",
        "1.1 − 1",
        "709136bd6324",
    ),
    (
        "multiply, digits: [1, 2], places: [1, 0], zeros: {end: require}",
        1296,
        "0.2 × 1100",
        "0.9 × 990",
        "f421bac3d483",
    ),
    (
        "multiply, digits: [2, 3], places: [0, 0], zeros: {inside: require}, carries: {count: 1}",
        524,
        "12 × 501",
        "94 × 102",
        "ce155f79f4ff",
    ),
    (
        "divide, dividend: {digits: 5}, divisor: [6, 12], answer: {between: [2000, 2040]}",
        82,
        "12000 ÷ 6",
        "24480 ÷ 12",
        "7a633ca19996",
    ),
    (
        "divide, dividend: {digits: 3}, divisor: 7, zeros: {inside: require}, ending: {rounded: 1}",
        70,
        "101 ÷ 7",
        "909 ÷ 7",
        "d2b7ab593d7c",
    ),
    (
        "divide, dividend: {digits: 3}, divisor: 7, zeros: {inside: allow, end: "
        "require}, ending: remainder",
        77,
        "100 ÷ 7",
        "990 ÷ 7",
        "1997bc1f4ca4",
    ),
    (
        "divide, dividend: {digits: 4}, divisor: 6, zeros: {inside: require, end: "
        "forbid}, remainders: every",
        144,
        "1002 ÷ 6",
        "9804 ÷ 6",
        "26b686810065",
    ),
    (
        "add, addends: 6, places: 1, whole: 0, answer: {whole_number: true}",
        303,
        "0.9 + 0.9 + 0.8 + 0.8 + 0.8 + 0.8",
        "0.5 + 0.1 + 0.1 + 0.1 + 0.1 + 0.1",
        "f4a261c23622",
    ),
    (
        "add, addends: 3, places: 1, whole: {between: [0, 1]}, carries: none, repeats: forbid",
        1162,
        "9.2 + 0.3 + 0.4",
        "0.1 + 0.2 + 0.3",
        "9bce410ae324",
    ),
    (
        "add, places: {between: [0, 1]}, whole: {between: [0, 1]}, zeros: {end: "
        "require}, carries: {count: 1}",
        475,
        "9.0 + 9.9",
        "1 + 9.0",
        "316b5a593bf3",
    ),
    (
        "subtract, places: 0, whole: 3, exchanges: {through_zeros: 1}, answer: {below: 30}",
        1080,
        "908 − 899",
        "200 − 171",
        "c980aa39ab17",
    ),
    (
        "subtract, places: 0, whole: {between: [1, 2]}, repeats: forbid, exchanges: every",
        2061,
        "9 − 8",
        "10 − 1",
        "3b87a3022901",
    ),
    ("order, numbers: 4, whole: 1, places: 0", 126, "4, 3, 2, 1", "9, 8, 7, 6", "449f6bc2ed5c"),
    (
        "round, whole: {between: [0, 1]}, places: 2, to: tenths",
        896,
        "0.95 to 1 decimal place",
        "9.94 to 1 decimal place",
        "0a7ac6291aa7",
    ),
    (
        "round, whole: 3, places: {between: [0, 1]}, to: hundreds, goes: up, over_nine: require",
        500,
        "950 to the nearest hundred",
        "999.9 to the nearest hundred",
        "8782fb558c3a",
    ),
    (
        "multiply, power_of_ten: {by: [ten, hundred], places: [1, 2], whole: [0, 1]}",
        1980,
        "0.1 × 10",
        "9.99 × 100",
        "fcf190057832",
    ),
    (
        "divide, power_of_ten: {by: [thousand], places: [0, 1], whole: [1, 2]}",
        990,
        "1 ÷ 1000",
        "99.9 ÷ 1000",
        "89a68c0f3469",
    ),
    (
        "multiply, digits: {between: [1, 2]}, places: 0, carries: every",
        2198,
        "12 × 99",
        "9 × 9",
        "1be66b6f75e3",
    ),
    (
        "multiply, digits: {between: [1, 2]}, places: 0, carries: {count: 1}",
        438,
        "51 × 12",
        "9 × 9",
        "d11fbc75d10b",
    ),
    (
        "divide, dividend: {digits: 4}, divisor: 7, zeros: {end: require}",
        128,
        "1050 ÷ 7",
        "9940 ÷ 7",
        "009a4afae756",
    ),
    (
        "divide, divisor: 16, dividend: {digits: [2, 3]}, ending: {decimal: "
        "4}, zero_in_quotient: require",
        146,
        "17 ÷ 16",
        "993 ÷ 16",
        "1c6e8ebdcf19",
    ),
    (
        "divide, divisor: [20], dividend: {digits: [2, 3]}, ending: {decimal: "
        "2}, zero_in_quotient: forbid",
        820,
        "10 ÷ 20",
        "999 ÷ 20",
        "6c88acdc4d2d",
    ),
    (
        "divide, divisor: [4, 8], ending: {decimal: 2}, remainders: {count: 1}",
        58,
        "10 ÷ 4",
        "884 ÷ 8",
        "bf2a1a005a57",
    ),
    (
        "divide, divisor_places: 2, divisor: [2, 5, 8], places: 0, remainders: {count: [0, 1]}",
        932,
        "10 ÷ 0.02",
        "968 ÷ 0.08",
        "21fdfaa59180",
    ),
]


@pytest.mark.parametrize(("text", "count", "first", "last", "digest"), NUMBERED)
def test_each_question_of_a_rung_keeps_its_number(
    text: str, count: int, first: str, last: str, digest: str
) -> None:
    rung = questions(f"operation: {text}")
    found = [rung.unrank(number) for number in range(rung.count)]
    assert (len(found), found[0].text, found[-1].text) == (count, first, last)
    written = "\n".join(question.text for question in found)
    assert sha256(written.encode()).hexdigest()[:12] == digest
    assert [rung.rank(question) for question in found[::7]] == list(range(0, count, 7))


LARGE = [
    (
        "add, addends: 5, places: {ragged: [1, 3]}, whole: {between: [0, 2]}",
        33712339168279953000000,
        (
            "89.21 + 97.783 + 40.364 + 31.438 + 75.568",
            "4.24 + 67.422 + 95.926 + 97.037 + 84.118",
            "7.294 + 44.07 + 61.232 + 39.555 + 76.369",
            "5.771 + 15.09 + 12.556 + 30.124 + 47.234",
            "4.905 + 3.308 + 12.85 + 26.591 + 82.823",
            "40.52 + 34.79 + 17.643 + 85.344 + 55.099",
        ),
    ),
    (
        "add, addends: 6, places: {ragged: [0, 2]}, carries: {count: [3, 4]}, repeats: forbid",
        6917737985618,
        (
            "8.9 + 5.12 + 1.44 + 7.76 + 3.57 + 9.89",
            "1.7 + 9.52 + 6.14 + 0.25 + 3.36 + 0.68",
            "2.4 + 3.51 + 1.92 + 5.35 + 6.86 + 8.19",
            "4.4 + 5.8 + 9.04 + 3.15 + 7.56 + 1.39",
            "1.7 + 9.8 + 8.52 + 4.93 + 0.27 + 0.08",
            "0.6 + 1.7 + 3.41 + 0.84 + 4.05 + 0.57",
        ),
    ),
    (
        "add, addends: 3, places: {between: [0, 4]}, whole: {between: [0, 5]}, "
        "carries: {across_point: true, not_in: [ones]}, zeros: {inside: require}",
        20401212927354501324748653,
        (
            "32570.5152 + 63211.4828 + 81062.9758",
            "58201.7793 + 89620.6357 + 87184.3818",
            "31752.3182 + 21410.4234 + 65620.7909",
            "28435.1181 + 49160.0482 + 18333.9999",
            "74534.689 + 63341.4712 + 50962.2169",
            "8481.4422 + 16581.9851 + 18415.0182",
        ),
    ),
    (
        "subtract, places: 4, whole: 5, exchanges: {through_zeros: [2, 4]}",
        7426784092500000,
        (
            "48500.2059 − 10939.3324",
            "58550.0147 − 30216.3454",
            "60040.5904 − 14175.5253",
            "71634.0045 − 51581.0969",
            "40001.3853 − 37027.5778",
            "70009.9362 − 63095.2594",
        ),
    ),
    (
        "subtract, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, exchanges: every",
        639634177851885,
        (
            "89999.484 − 39999.7978",
            "69999.282 − 19999.3837",
            "98999.07 − 69999.3936",
            "99999.575 − 29999.6764",
            "79999.262 − 29999.7973",
            "49999.06 − 19999.7872",
        ),
    ),
    (
        "add, addends: 4, places: [1, 3, 3, 0], answer: {whole: 2, ends_in_zero: false}",
        28070698500,
        (
            "5.9 + 0.856 + 4.399 + 9",
            "5.1 + 4.894 + 7.729 + 8",
            "0.3 + 0.134 + 3.877 + 8",
            "5.9 + 8.962 + 2.627 + 9",
            "8.7 + 5.703 + 6.174 + 8",
            "1.3 + 9.042 + 4.703 + 5",
        ),
    ),
    (
        "multiply, digits: [4, 2], places: {between: [0, 3]}, carries: {count: [2, 4]}",
        3105888,
        (
            "2693 × 0.19",
            "284.7 × 41",
            "106.4 × 0.77",
            "24.88 × 1.5",
            "50.03 × 0.028",
            "7.711 × 6.1",
        ),
    ),
    (
        "multiply, digits: [5, 3], places: [2, 1], zeros: {inside: require}, carries: some",
        22429546,
        (
            "401.29 × 21.4",
            "978.02 × 35.1",
            "293.01 × 48.6",
            "738.81 × 60.6",
            "930.44 × 72.9",
            "420.72 × 86.5",
        ),
    ),
    (
        "divide, divisor: {digits: 2}, dividend: {digits: 4}, remainders: every, ending: remainder",
        746470,
        (
            "2888 ÷ 25",
            "2730 ÷ 38",
            "8487 ÷ 50",
            "2984 ÷ 63",
            "5741 ÷ 75",
            "8007 ÷ 87",
        ),
    ),
    (
        "divide, dividend: {digits: 8}, remainders: {count: [3, 6]}, ending: {decimal: 3}",
        127532011,
        (
            "51612967 ÷ 2",
            "93226685 ÷ 2",
            "45868770 ÷ 4",
            "17017222 ÷ 5",
            "48031116 ÷ 5",
            "12328287 ÷ 6",
        ),
    ),
    (
        "divide, divisor: [3, 6, 7, 11], dividend: {digits: [2, 4]}, places: 1, "
        "ending: {rounded: 2}, answer: {between: [1, 50]}, zeros: {inside: require}",
        1692,
        (
            "108.2 ÷ 6",
            "90.2 ÷ 7",
            "220.6 ÷ 7",
            "101.5 ÷ 11",
            "220.9 ÷ 11",
            "403.5 ÷ 11",
        ),
    ),
    (
        "order, numbers: 5, whole: {between: [0, 1]}, places: {ragged: [1, 3]}",
        336811948502636250,
        (
            "1.01, 7.829, 5.278, 3.573, 2.512",
            "1.01, 9.121, 8.768, 2.716, 2.472",
            "1.01, 9.987, 7.836, 7.797, 6.166",
            "1.1, 5.06, 5.494, 2.344, 1.896",
            "0.351, 4.42, 8.782, 4.779, 1.772",
            "0.656, 0.289, 1.97, 7.861, 2.283",
        ),
    ),
    (
        "round, whole: 4, places: 3, to: hundredths",
        8100000,
        (
            "2571.427 to 2 decimal places",
            "5142.855 to 2 decimal places",
            "7714.278 to 2 decimal places",
            "1321.424 to 2 decimal places",
            "4214.283 to 2 decimal places",
            "7107.142 to 2 decimal places",
        ),
    ),
]


@pytest.mark.parametrize(("text", "count", "asked"), LARGE)
def test_questions_of_a_large_rung_keep_their_numbers(
    text: str, count: int, asked: tuple[str, ...]
) -> None:
    rung = questions(f"operation: {text}")
    assert rung.count == count
    numbers = [count * seventh // 7 for seventh in range(1, 7)]
    found = [rung.unrank(number) for number in numbers]
    assert tuple(question.text for question in found) == asked
    assert [rung.rank(question) for question in found] == numbers
