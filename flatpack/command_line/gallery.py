"""`flatpack gallery`: a page of pictures to choose by eye."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from flatpack import gallery, output_folder
from flatpack.command_line import own_profiles
from flatpack.command_line.terminal import Terminal
from flatpack.profile_files import read_text, shipped_folder


def run(args: Namespace, terminal: Terminal) -> int:
    """Draw the examples that ship with flatpack, and every shape of part."""
    output_folder.check(args.out)
    terminal.progress("drawing the examples ...")
    folder: Path = shipped_folder() / "pieces"
    examples = {p.name: read_text(str(p)) for p in sorted(folder.glob("*.toml"))}
    files = gallery.files(examples, own_profiles.texts(args.profiles))
    output_folder.write(args.out, {name: file.content for name, file in files.items()})
    terminal.progress("")
    terminal.say(f"Wrote {args.out}/{gallery.PAGE} with {len(files) - 2} pictures.")
    return 0
