# SPDX-License-Identifier: GPL-3.0-or-later
"""What goes wrong, as exceptions."""
from __future__ import annotations

import re
from dataclasses import dataclass

_PLACE = re.compile(r"^(?P<file>\S.*?):(?P<line>\d+):(?P<column>\d+): (?P<text>.*)$")


@dataclass(frozen=True)
class Mistake:
    """One mistake in an input. Line and column count from 1."""

    file: str
    line: int
    column: int
    text: str


class SpalltimeError(Exception):
    """There is no answer. `status` is the exit status of the program, `messages` what it prints on standard error."""

    def __init__(self, status: int, messages: str) -> None:
        super().__init__(messages.strip() or f"spalltime ended with status {status}")
        self.status = status
        self.messages = messages


class UsageError(SpalltimeError):
    """A command or an option that there is not, or that does not go with the others (status 2)."""


class InputError(SpalltimeError):
    """An input with mistakes (status 3). `mistakes` has those that have a place."""

    def __init__(self, status: int, messages: str) -> None:
        super().__init__(status, messages)
        found = (_PLACE.match(line) for line in messages.splitlines())
        self.mistakes = [
            Mistake(one["file"], int(one["line"]), int(one["column"]), one["text"]) for one in found if one
        ]


class OutOfMemory(SpalltimeError, MemoryError):
    """There is not enough memory for the answer (status 4)."""


def raise_for(status: int, messages: str) -> None:
    """Raises what an exit status stands for; 0 and 1 are answers."""
    if status in (0, 1):
        return
    if status == 4 and "out of memory" in messages:
        raise OutOfMemory(status, messages)
    kinds = {2: UsageError, 3: InputError}
    raise kinds.get(status, SpalltimeError)(status, messages)
