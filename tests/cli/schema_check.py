# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks YAML files against a JSON Schema: schema_check.py SCHEMA < list of paths, one on each line.
Prints "valid PATH" or "invalid PATH: why". Each file is read twice, with yes and no as booleans (YAML 1.1) and as words
(YAML 1.2, which editors read); it is valid if it is in both."""
import json
import sys

import yaml
from jsonschema import Draft7Validator


OlderLoader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # YAML 1.1; much faster if available


class NewerLoader(OlderLoader):
    """YAML 1.2 in its reading of booleans."""


NewerLoader.yaml_implicit_resolvers = {
    first: [(tag, shape) for tag, shape in rows if tag != "tag:yaml.org,2002:bool" or first in "tTfF"]
    for first, rows in OlderLoader.yaml_implicit_resolvers.items()
}


def find_fault(validator, path):
    judged = []
    for loader in (OlderLoader, NewerLoader):
        try:
            with open(path, encoding="utf-8-sig") as file:
                content = yaml.load(file, loader)
        except (yaml.YAMLError, UnicodeDecodeError, ValueError) as error:
            return "not read: " + type(error).__name__
        if content in judged:  # without yes and no both readings are the same
            continue
        judged.append(content)
        for error in validator.iter_errors(content):
            return "/".join(map(str, error.absolute_path)) + ": " + error.message[:100]
    return None


with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
Draft7Validator.check_schema(schema)
validator = Draft7Validator(schema)
for line in sys.stdin:
    path = line.strip()
    fault = find_fault(validator, path)
    print(f"invalid {path}: {fault}" if fault else f"valid {path}")
