"""`flatpack schema`: the JSON Schema of a family's parameter file."""

from __future__ import annotations

import json
from argparse import Namespace

from flatpack.command_line.new import record_of
from flatpack.command_line.terminal import Terminal
from flatpack.parameters import schema


def run(args: Namespace, terminal: Terminal) -> int:
    """Print the schema."""
    made = schema(record_of(args.family), args.family)
    terminal.say(json.dumps(made, indent=2, ensure_ascii=False))
    return 0
