#!/usr/bin/env python3
"""Validates knowledge files against the JSON Schemas beside them.

    validate_schemas.py TREE          every file under TREE/rules and TREE/symptoms
    validate_schemas.py TREE FILE...  files of any place, against the schema of the list they hold

Prints one complaint a line. Exit code: 0 all valid, 1 some are not, 77 python3-jsonschema missing.
"""
import json
import pathlib
import sys

try:
    from jsonschema import Draft202012Validator, RefResolver
except ImportError:
    print("python3-jsonschema is not installed")
    sys.exit(77)

LISTED_BY_NAME = ("ageing", "eras")  # single files of rules/, not folders
COMPLAINTS = ("words", "elsewhere", "often", "remembered")  # lists of one folder, rules/complaints/
DECISION = ("shop", "remedies", "on_sight")  # one file each of rules/decision/


def schema_path(tree, name):
    """The schema of a list, by the list's name."""
    if name in LISTED_BY_NAME:
        return tree / "rules" / f"{name}.schema.json"
    if name in COMPLAINTS:
        name = "complaints"
    if name in DECISION:
        return tree / "rules" / "decision" / f"{name}.schema.json"
    folder = tree / "symptoms" if name == "symptoms" else tree / "rules" / name
    return folder / f"{name}.schema.json"


def complaints(tree, file, name):
    schema_file = schema_path(tree, name)
    schema = json.loads(schema_file.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    # Schemas refer to rules/entry.schema.json by relative path.
    resolver = RefResolver(base_uri=schema_file.resolve().as_uri(), referrer=schema)
    validator = Draft202012Validator(schema, resolver=resolver)
    document = json.loads(file.read_text(encoding="utf-8"))
    for error in validator.iter_errors(document):
        pointer = "".join(f"/{part}" for part in error.absolute_path)
        yield f"{file} ({pointer}): {error.message[:200]}"


def shipped_files(tree):
    for name in LISTED_BY_NAME:
        yield tree / "rules" / f"{name}.json", name
    folders = [f for f in (tree / "rules").iterdir() if f.is_dir()] + [tree / "symptoms"]
    for folder in sorted(folders):
        for file in sorted(folder.glob("*.json")):
            if ".schema." not in file.name:
                yield file, file.stem if folder.name == "decision" else folder.name


def list_in(file):
    document = json.loads(file.read_text(encoding="utf-8"))
    return next(key for key in document if key != "schema")


def main(tree, *named):
    tree = pathlib.Path(tree)
    files = [(file, list_in(file)) for file in map(pathlib.Path, named)]
    files = files or list(shipped_files(tree))
    found = [line for path, name in files for line in complaints(tree, path, name)]
    print("\n".join(found) if found else f"{len(files)} files valid")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
