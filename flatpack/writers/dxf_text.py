r"""Text in a DXF file: one line, the format's own signs escaped, in the version's encoding.

Versions before R2007 are written in the code page cp1252, and a character that it lacks as
\U+XXXX (two of them, a surrogate pair, beyond U+FFFF); later versions are UTF-8.
"""

from __future__ import annotations

_CONTROL = dict.fromkeys((*range(0x20), 0x7F), " ")


def written_text(text: str, encoding: str) -> str:
    """The value of a text tag.

    Control characters, line ends among them, become spaces.  "^" begins a control character in
    a DXF string and "%%" a special sign, so "^" is written "^ " and "%%" as "%%%%%%" (%%% = %).
    """
    if not text.isascii() and encoding != "utf-8":
        text = "".join(_within(c, encoding) for c in text)
    if not text.isprintable():
        text = text.translate(_CONTROL)
    if "^" in text:
        text = text.replace("^", "^ ")
    return text.replace("%%", "%%%%%%") if "%%" in text else text


def _within(character: str, encoding: str) -> str:
    try:
        character.encode(encoding)
    except UnicodeEncodeError:
        units = character.encode("utf-16-be")
        return "".join(f"\\U+{units[i]:02X}{units[i + 1]:02X}" for i in range(0, len(units), 2))
    return character
