"""The content code and the manifest."""

from __future__ import annotations

import hashlib
import json
import re

from hypothesis import given
from hypothesis import strategies as st

from flatpack import manifest
from flatpack.content_code import LETTERS, content_code
from flatpack.manifest import File


def test_code_is_the_first_forty_bits_of_the_digest() -> None:
    # hashlib, of the standard library, is the referee: lengths, then the texts themselves.
    digest = hashlib.sha256(b"3:abc0:2:\xc3\xa4").digest()
    bits = "".join(f"{byte:08b}" for byte in digest)[:40]
    expected = "".join(LETTERS[int(bits[i : i + 5], 2)] for i in range(0, 40, 5))
    assert content_code(["abc", "", "ä"]) == f"{expected[:4]}-{expected[4:]}"


@given(st.lists(st.text(), max_size=4), st.lists(st.text(), max_size=4))
def test_code_tells_texts_apart_and_can_be_read_aloud(a: list[str], b: list[str]) -> None:
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", content_code(a))
    assert (content_code(a) == content_code(b)) == (a == b)


def test_letters_that_are_misread_are_left_out() -> None:
    assert len(set(LETTERS)) == 32
    assert set("ILOU").isdisjoint(LETTERS)


def test_manifest_lists_every_file_with_its_digest() -> None:
    files = {"b.csv": File(b"1,2\r\n", "cutting list"), "a.dxf": File(b"", "side rail")}
    made = json.loads(manifest.manifest(files, {"piece": "Bänk", "content_code": "0000-0000"}))
    # SHA-256 of nothing is published with the algorithm (FIPS 180-4 example values).
    nothing = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    two = hashlib.sha256(b"1,2\r\n").hexdigest()
    assert made["files"] == [
        {"name": "a.dxf", "purpose": "side rail", "bytes": 0, "sha256": nothing},
        {"name": "b.csv", "purpose": "cutting list", "bytes": 5, "sha256": two},
    ]
    assert (made["piece"], made["content_code"]) == ("Bänk", "0000-0000")
    assert manifest.listed(manifest.manifest(files, {})) == {"a.dxf": nothing, "b.csv": two}


def test_what_is_no_manifest_of_ours() -> None:
    for text in (b"", b"[]", b"\xff", b"null", b'{"made_by": "flatpack"}', b'{"files": []}'):
        assert manifest.listed(text) is None
