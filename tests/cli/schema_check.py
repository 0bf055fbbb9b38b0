# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds YAML files against a JSON Schema: schema_check.py SCHEMA < list of paths, one a line.
Prints "valid PATH" or "invalid PATH: why". Each file is read twice, with yes and no as booleans (YAML 1.1) and as words
(YAML 1.2, which editors read); it is valid if it is in both."""
import json
import sys

import yaml
from jsonschema import Draft7Validator


class NewerLoader(yaml.SafeLoader):
    """YAML 1.2 as far as booleans go."""


NewerLoader.yaml_implicit_resolvers = {
    first: [(tag, shape) for tag, shape in rows if tag != "tag:yaml.org,2002:bool" or first in "tTfF"]
    for first, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def find_fault(validator, path):
    for loader in (yaml.SafeLoader, NewerLoader):
        try:
            with open(path, encoding="utf-8-sig") as file:
                content = yaml.load(file, loader)
        except (yaml.YAMLError, UnicodeDecodeError, ValueError) as error:
            return "not read: " + type(error).__name__
        for error in validator.iter_errors(content):
            return "/".join(map(str, error.absolute_path)) + ": " + error.message[:100]
    return None


with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
Draft7Validator.check_schema(schema)
for line in sys.stdin:
    path = line.strip()
    fault = find_fault(Draft7Validator(schema), path)
    print(f"invalid {path}: {fault}" if fault else f"valid {path}")
