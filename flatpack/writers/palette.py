"""Index colours of the DXF palette as web colours.

1 to 9 and 250 to 255 are listed; 10 to 249 run round the colour wheel in steps of 15 degrees:
the tens give the hue, even units full colours, odd ones half as strong, in five brightnesses.
"""

from __future__ import annotations

_LISTED = {
    1: "#ff0000",
    2: "#ffff00",
    3: "#00ff00",
    4: "#00ffff",
    5: "#0000ff",
    6: "#ff00ff",
    7: "#000000",  # black on white paper
    8: "#808080",
    9: "#c0c0c0",
    250: "#333333",
    251: "#505050",
    252: "#696969",
    253: "#828282",
    254: "#bebebe",
    255: "#ffffff",
}
_BRIGHTNESS = (255, 165, 127, 76, 38)


def web_colour(index: int) -> str:
    """The colour of a palette index, "#rrggbb", for white paper.

    Raises:
        ValueError: the index isn't from 1 to 255.
    """
    if index in _LISTED:
        return _LISTED[index]
    if not 10 <= index <= 249:
        raise ValueError(f"no palette colour {index}")
    tens, unit = divmod(index, 10)
    high = _BRIGHTNESS[unit // 2]
    low = high / 2.0 if unit % 2 else 0.0
    return "#" + "".join(f"{int(part):02x}" for part in _wheel(15 * (tens - 1), low, high))


def _wheel(hue: int, low: float, high: float) -> tuple[float, float, float]:
    """Red, green, blue at a hue in degrees: each rises, stays and falls a third of a turn apart."""

    def part(turned: int) -> float:
        away = abs((hue - turned + 180) % 360 - 180)
        return low + (high - low) * min(max(2.0 - away / 60.0, 0.0), 1.0)

    return part(0), part(120), part(240)
