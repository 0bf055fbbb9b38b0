# SPDX-License-Identifier: GPL-3.0-or-later
"""The two shared libraries, and the program as one call."""
from __future__ import annotations

import ctypes
import functools
import os
import pathlib
from typing import Mapping, NamedTuple, Sequence

_SO = ".so.0"


class _File(ctypes.Structure):
    _fields_ = [("name", ctypes.c_char_p), ("text", ctypes.c_char_p), ("length", ctypes.c_size_t)]


class _Request(ctypes.Structure):
    _fields_ = [("words", ctypes.POINTER(ctypes.c_char_p)), ("word_count", ctypes.c_int),
                ("files", ctypes.POINTER(_File)), ("file_count", ctypes.c_int)]


class _Reply(ctypes.Structure):
    _fields_ = [("exit_status", ctypes.c_int), ("body", ctypes.c_void_p), ("body_length", ctypes.c_size_t),
                ("messages", ctypes.c_char_p)]


class Reply(NamedTuple):
    """What the program gives: its exit status, its standard output, its standard error."""

    status: int
    body: bytes
    messages: str


def _places() -> list[pathlib.Path]:
    """Where the libraries may be: as the environment says, in the source tree, or installed beside this package."""
    named = os.environ.get("SPALLTIME_LIBRARY_DIR")
    if named:
        return [pathlib.Path(named)]
    here = pathlib.Path(__file__).resolve()
    return [here.parents[3] / "build" / "release", *(above / "lib" for above in here.parents)]


def _load(name: str) -> ctypes.CDLL:
    for place in _places():
        for path in sorted(place.glob(f"{name}{_SO}*")):
            return ctypes.CDLL(str(path))
    try:
        return ctypes.CDLL(name + _SO)
    except OSError as error:
        raise ImportError(f"{name}{_SO} is not found: install spalltime (`make install`, then `ldconfig`), or set "
                          f"SPALLTIME_LIBRARY_DIR to the folder that has it ({error})") from error


@functools.cache
def model() -> ctypes.CDLL:
    """libspalltime: models and kernel."""
    return _load("libspalltime")


@functools.cache
def _program() -> ctypes.CDLL:
    """libspalltime_run: the program."""
    model()
    library = _load("libspalltime_run")
    library.spt_run.argtypes = [ctypes.POINTER(_Request), ctypes.POINTER(_Reply)]
    library.spt_run.restype = ctypes.c_int
    library.spt_run_answer_free.argtypes = [ctypes.POINTER(_Reply)]
    library.spt_run_answer_free.restype = None
    return library


def call(words: Sequence[str], files: Mapping[str, bytes]) -> Reply:
    """Runs a command line, with files that exist in memory only."""
    library = _program()
    given = [word.encode() for word in words]
    if any(b"\0" in word for word in given):
        raise ValueError("an option or a name contains a zero byte")
    held = [_File(name.encode(), text, len(text)) for name, text in files.items()]
    request = _Request((ctypes.c_char_p * len(given))(*given), len(given), (_File * len(held))(*held), len(held))
    reply = _Reply()
    library.spt_run(ctypes.byref(request), ctypes.byref(reply))
    try:
        body = ctypes.string_at(reply.body, reply.body_length) if reply.body else b""
        messages = reply.messages.decode(errors="replace") if reply.messages is not None else "out of memory"
        return Reply(reply.exit_status, body, messages)
    finally:
        library.spt_run_answer_free(ctypes.byref(reply))


@functools.cache
def version() -> str:
    """Version of the library that is loaded, such as "0.1.0"."""
    return call(["--version"], {}).body.decode().split()[1]
