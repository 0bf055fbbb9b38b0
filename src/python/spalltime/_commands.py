# SPDX-License-Identifier: GPL-3.0-or-later
"""The commands of the program as functions."""
from __future__ import annotations

import io
import json
import os
import tempfile
import warnings
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Union

from . import _library
from ._errors import InputError, raise_for

if TYPE_CHECKING:
    import numpy

Input = Union[str, bytes, "os.PathLike[str]", Mapping[str, Any]]
"""A text of YAML or CSV, a path object for a file, or a dict with the keys of a scenario."""
Option = Union[str, int, float, bool, None, "os.PathLike[str]", Sequence["str | os.PathLike[str]"]]
Files = Mapping[str, Union[str, bytes]]


class Answer(Mapping[str, Any]):
    """An answer, with the members of the program's JSON.

    `met` is false where something is missed that the scenario asks for (exit status 1), `verdict` is the word of the
    verdict ("met", "caution", "missed" or "open") where the command gives one, `messages` what the program says beside
    its answer.
    """

    def __init__(self, content: dict[str, Any], status: int, messages: str) -> None:
        self._content = content
        self.status = status
        self.messages = messages

    @property
    def met(self) -> bool:
        return self.status == 0

    @property
    def verdict(self) -> str | None:
        judged = self._content.get("verdict")
        return judged.get("verdict") if isinstance(judged, dict) else judged

    def __getitem__(self, key: str) -> Any:
        return self._content[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._content)

    def __len__(self) -> int:
        return len(self._content)

    def __repr__(self) -> str:
        return f"<spalltime answer: {self.verdict or ('met' if self.met else 'missed')}; {', '.join(self._content)}>"


class _Words:
    """The words of a command line, and the files that only exist in memory."""

    def __init__(self, command: str, files: Files | None) -> None:
        self.words = [command]
        self.files = {name: _bytes(text) for name, text in (files or {}).items()}

    def add_options(self, options: Mapping[str, Option]) -> None:
        for key, value in options.items():
            name = "--" + key.replace("_", "-")
            if value is None or value is False:
                continue
            several = isinstance(value, Sequence) and not isinstance(value, (str, bytes))
            for one in value if several else [value]:
                self.words.append(name if one is True else f"{name}={os.fspath(one) if _is_path(one) else one}")

    def add_inputs(self, inputs: Sequence[Input], name: str) -> None:
        for number, one in enumerate(inputs, 1):
            if _is_path(one):
                self.words.append(_safe(os.fspath(one)))
                continue
            called = name if len(inputs) == 1 else f"{name} {number}"
            self.files[called] = _bytes(one)
            self.words.append(called)


def _is_path(what: object) -> bool:
    return isinstance(what, os.PathLike)


def _safe(path: str) -> str:
    return "./" + path if path.startswith("-") else path


def _bytes(what: Input) -> bytes:
    if isinstance(what, Mapping):
        return json.dumps(what, ensure_ascii=False, allow_nan=False, indent=1).encode()
    return what.encode() if isinstance(what, str) else bytes(what)


def run(*words: str, files: Files | None = None) -> _library.Reply:
    """Any command line of the program: run("help", "reach"). Nothing is raised; see the status."""
    given = {name: _bytes(text) for name, text in (files or {}).items()}
    return _library.call(words, given)


def _call(command: str, inputs: Sequence[Input], files: Files | None, options: Mapping[str, Option],
          name: str = "scenario") -> _library.Reply:
    line = _Words(command, files)
    line.add_options(options)
    line.add_inputs(inputs, name)
    reply = _library.call(line.words, line.files)
    raise_for(reply.status, reply.messages)
    return reply


def _ask(command: str, inputs: Sequence[Input], files: Files | None, options: Mapping[str, Option],
         name: str = "scenario") -> Answer:
    reply = _call(command, inputs, files, {**options, "format": "json"}, name)
    return Answer(json.loads(reply.body), reply.status, reply.messages)


def life(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """Basic and modified rating life under the duty cycle, the causes of loss, the flags."""
    return _ask("life", [scenario], files, options)


def compare(*scenarios: Input, files: Files | None = None, **options: Option) -> Answer:
    """Scenarios and their variants side by side."""
    return _ask("compare", scenarios, files, options)


def reach(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """The change of a single input that reaches a wanted life: reach(scenario, life="20000 h")."""
    return _ask("reach", [scenario], files, options)


def timeline(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """The damage over time with regreasing, events and drifts."""
    return _ask("timeline", [scenario], files, options)


def schedule(*scenarios: Input, files: Files | None = None, **options: Option) -> Answer:
    """A maintenance plan: greasing, oil, inspection, replacement; costs=True compares by money."""
    return _ask("schedule", scenarios, files, options)


def spread(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """The uncertainty of the life, and which input causes most of it."""
    return _ask("spread", [scenario], files, options)


def setting(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """The life of a wheel hub against end play and preload."""
    return _ask("setting", [scenario], files, options)


def choose(scenario: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """Bearings of a list tried in the place of those of a scenario; `from_` names the list."""
    return _ask("choose", [scenario], files, _own_words(options))


def fit(field: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """A Weibull fit to lives from the field (CSV)."""
    return _ask("fit", [field], files, options, "field data")


def duty(history: Input, scenario: Input | None = None, *, files: Files | None = None, **options: Option) -> Answer:
    """Measured loads (CSV) sorted into bins."""
    line = _Words("duty", files)
    line.add_options({**options, "format": "json"})
    line.add_inputs([history], "history")
    if scenario is not None:
        line.add_inputs([scenario], "scenario")
    reply = _library.call(line.words, line.files)
    raise_for(reply.status, reply.messages)
    return Answer(json.loads(reply.body), reply.status, reply.messages)


def diagnose(case: Input, *, files: Files | None = None, **options: Option) -> Answer:
    """Why a bearing failed: its findings weighed against the causes."""
    return _ask("diagnose", [case], files, options, "case")


def damage(*words: str, files: Files | None = None, **options: Option) -> Answer:
    """What damage looks like: damage("fluting"), or a search by words."""
    line = _Words("damage", files)
    line.add_options({**options, "format": "json"})
    reply = _library.call([*line.words, *words], line.files)
    raise_for(reply.status, reply.messages)
    return Answer(json.loads(reply.body), reply.status, reply.messages)


def check(*scenarios: Input, files: Files | None = None, **options: Option) -> list[InputError | None]:
    """Reads scenarios; for each None, or the InputError with its mistakes, which is not raised."""
    found: list[InputError | None] = []
    for scenario in scenarios:
        try:
            _call("check", [scenario], files, options)
            found.append(None)
        except InputError as error:
            found.append(error)
    return found


def catalog(*words: str, **options: Option) -> Answer:
    """The catalog, or one entry of it: catalog("bearings", "roller 60-110")."""
    line = _Words("catalog", None)
    line.add_options({**options, "format": "json"})
    reply = _library.call([*line.words, *words], {})
    raise_for(reply.status, reply.messages)
    return Answer(json.loads(reply.body), reply.status, reply.messages)


def example(name: str) -> str:
    """A scenario that comes with the program, as text to change: example("lesson_2_debris")."""
    reply = _library.call(["example", _safe(name)], {})
    raise_for(reply.status, reply.messages)
    return reply.body.decode()


def schema(of: str = "scenario") -> dict[str, Any]:
    """The JSON Schema of scenarios, or with "case" of the cases of diagnose()."""
    reply = _call("schema", [], None, {"of": of, "format": "json"})
    return json.loads(reply.body)


def write(command: str, *inputs: Input, files: Files | None = None, **options: Option) -> str:
    """The answer as the program writes it: write("life", scenario, format="html"), write("report", scenario)."""
    return _call(command, inputs, files, _own_words(options)).body.decode()


def sweep(scenario: Input, *, files: Files | None = None, **options: Option) -> "numpy.ndarray":
    """Many load cases, one row each, as a NumPy array with a name for each column.

    The grid is the section `sweep` of the scenario, or a table: sweep(scenario, cases=path) or
    sweep(scenario, cases="cases.csv", files={"cases.csv": text}). Rows of a table that cannot be read are an
    InputError; with rejects=path they are written there and left out, with a warning. A grid is written to no file, a
    table passes through a temporary one.
    """
    import numpy

    if options.get("cases") is not None:
        return _sweep_table(scenario, files, options)
    reply = _call("sweep", [scenario], files, {**options, "format": "npy"})
    stream = io.BytesIO(reply.body)
    numpy.lib.format.read_magic(stream)
    shape, _, kind = numpy.lib.format.read_array_header_1_0(stream)
    return numpy.frombuffer(reply.body, dtype=kind, offset=stream.tell()).reshape(shape)


def _sweep_table(scenario: Input, files: Files | None, options: Mapping[str, Option]) -> "numpy.ndarray":
    import numpy

    line = _Words("sweep", files)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "rows.npy")
        line.add_options({**options, "format": "npy", "output": path})
        line.add_inputs([scenario], "scenario")
        reply = _library.call(line.words, line.files)
        if not (options.get("rejects") and os.path.exists(path)):
            raise_for(reply.status, reply.messages)
        if reply.messages:
            warnings.warn(reply.messages.strip(), stacklevel=3)
        return numpy.load(path)


def _own_words(options: Mapping[str, Option]) -> dict[str, Option]:
    """An option whose name is a word of Python is written with an underscore at its end."""
    return {key.rstrip("_"): value for key, value in options.items()}
