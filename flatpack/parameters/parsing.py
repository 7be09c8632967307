"""TOML text to plain values; what isn't TOML is told with its line and column."""

from __future__ import annotations

from typing import Any

from flatpack.errors import ReadError


def parsed(source: str, file: str) -> dict[str, Any]:
    """The text as plain values.

    Raises:
        ReadError: it isn't TOML; with line and column.
    """
    import tomllib

    try:
        return tomllib.loads(source)
    except tomllib.TOMLDecodeError as error:
        reason, line, column = _place(str(error), source)
        reason += _unquoted(source, line)
        raise ReadError(file, f"not valid TOML: {reason}", line, column) from None
    except RecursionError:
        raise ReadError(file, "not valid TOML: nested too deeply") from None
    except ValueError:  # a whole number of more digits than Python will read
        raise ReadError(file, "not valid TOML: a number has too many digits") from None


def _unquoted(source: str, line: int) -> str:
    """A hint where what follows the sign of equality is words, or a number with a unit, bare."""
    import re

    said = source.split("\n")[line - 1] if line else ""
    key, rest = r"\s*[\w.-]+\s*=\s*\[?\s*", r"[A-Za-z][^\"'=]*"
    words, measure = rf"(?!(?:true|false|inf|nan)\b){rest}", rf"[0-9][0-9./]* *{rest}"
    match = re.fullmatch(rf"{key}({words}|{measure})", said.partition("#")[0].rstrip())
    if match is None:
        return ""
    return f'; text must stand in quotation marks: "{match[1].strip(" ,]")}"'


def _place(message: str, source: str) -> tuple[str, int, int]:
    import re

    match = re.fullmatch(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", message, re.S)
    if match is None:
        return message, 0, 0
    if match[2]:
        return match[1], int(match[2]), int(match[3])
    ended = source.split("\n")
    return f"{match[1]} (the text ends here)", len(ended), len(ended[-1]) + 1
