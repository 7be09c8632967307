"""The content code: a few letters that stand on every sheet of one design.

Two sheets with the same code come from the same parameters, the same profiles and the same
program, so an old print can't be mixed with a new one unnoticed.
"""

from __future__ import annotations

from collections.abc import Iterable

#: Digits and capitals without I, L, O and U, so that none is misread or misheard.
LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

#: 8 letters of 32 are 40 bits: two of 1000 designs share a code once in two million times.
LENGTH = 8


def content_code(texts: Iterable[str]) -> str:
    """The code of some texts in their order, such as `7K3M-9QXA`.

    The texts are told apart: ("ab", "c") and ("a", "bc") have different codes.
    """
    from hashlib import sha256

    digest = sha256()
    for text in texts:
        encoded = text.encode()
        digest.update(b"%d:" % len(encoded))
        digest.update(encoded)
    number = int.from_bytes(digest.digest()[:5], "big")
    code = "".join(LETTERS[number >> shift & 31] for shift in range(35, -1, -5))
    return f"{code[:4]}-{code[4:]}"
