#!/usr/bin/env python3
"""Writes small files as other people write them, and what must be read from each: files/ and cases.toml.

Everything in them is invented. What is expected was worked out by hand from the texts below, never by running the
program: a girth is pi times a diameter, an inch 2.54 cm, a foot 30.48 cm (international yard and pound, 1959).
Usage: make_habits.py, in any folder.
"""
import pathlib

import notebooks
import spreadsheets
from text_tables import CASES

HERE = pathlib.Path(__file__).parent
FILES = HERE / "files"


def toml_text(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def toml_list(texts):
    return "[" + ", ".join(toml_text(t) for t in texts) + "]"


def main():
    FILES.mkdir(exist_ok=True)
    for old in FILES.iterdir():
        old.unlink()
    lines = ["# Written by make_habits.py."]
    notebooks.add()
    spreadsheets.add()
    for case in CASES:
        (FILES / case["file"]).write_bytes(case["bytes"])
        lines += ["", "[[case]]"]
        for key in ("name", "file", "layer", "inputs", "site", "stops"):
            if case.get(key):
                lines.append(f"{key} = {toml_text(case[key])}")
        for key in ("used", "set_aside"):
            if key in case:
                lines.append(f"{key} = {case[key]}")
        for key in ("findings", "values"):
            if key in case:
                lines.append(f"{key} = {toml_list(case[key])}")
    (HERE / "cases.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
