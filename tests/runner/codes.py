"""tests/codes/CODE: a sample that raises the diagnostic, and it mended.

failing.yaml (or a corpus failing/) gives the diagnostics that are marked in
it and no other; mended.yaml (or mended/) gives none. A mark is a comment below
the line it speaks of:

    number: eighteen
    #       ^^^^^^^^ bad-whole

or, where carets cannot stand (columns 1 and 2, block text, other files), a
comment anywhere, with the place as --format json prints it:

    # @3:1-7 bad-whole          line 3, from column 1 up to before column 7
    # @3:1-5:4 bad-whole        to line 5, column 4
    # @- missing-corpus         a diagnostic without a place

Beside failing.yaml, failing.expect holds such @ lines without "#" (with
"FILE " before the @ for a corpus of several files), failing.schema/ holds
files that replace or join those of schema/, failing.args the arguments after
`check` in place of `-C failing.yaml`, and failing.command another command with
its arguments.
"""
import json
import os
import pathlib
import re
import shutil
import tempfile
import time

from runner.common import Result, diff, hangtab

NAME = "codes"

CARETS = re.compile(r"^( *#[ ]*)(\^+) ([a-z0-9-]+) *$")
PLACE = r"@(?:-|(\d+):(\d+)-(?:(\d+):)?(\d+)) ([a-z0-9-]+) *$"
AT = re.compile(r"^ *# *" + PLACE)
LINE = re.compile(r"^(?:(\S+) )?" + PLACE)


def row(file, line, column, end_line, end_column, code):
    if line is None:
        return f"{code}\n"
    return f"{file}:{line}:{column}-{end_line}:{end_column} {code}\n"


def at_row(file, match):
    line, column, end_line, end_column, code = match.groups()[-5:]
    return row(file, line, column, end_line or line, end_column, code)


def marks(path, shown):
    """The rows that the marks in a file promise."""
    target = 0
    text = path.read_bytes().decode(errors="replace")
    for number, line in enumerate(text.split("\n"), 1):
        carets = CARETS.match(line)
        at = AT.match(line)
        if carets:
            column = len(carets[1]) + 1
            yield row(shown, target, column, target,
                      column + len(carets[2]), carets[3])
        elif at:
            yield at_row(shown, at)
        else:
            target = number


def expected(folder, name):
    rows = []
    for path in corpus_files(folder, name):
        rows += marks(path, path.relative_to(folder).as_posix())
    extra = folder / f"{name}.expect"
    if extra.exists():
        for line in extra.read_text().splitlines():
            match = LINE.match(line)
            if match:
                rows.append(at_row(match[1] or f"{name}.yaml", match))
            elif line.strip():
                raise ValueError(f"{extra}: not a place and a code: {line}")
    return "".join(sorted(rows))


def corpus_files(folder, name):
    """The files that may hold marks."""
    one = folder / f"{name}.yaml"
    if one.exists():
        yield one
    for inside in (name, f"{name}.schema"):
        yield from sorted(path for path in (folder / inside).rglob("*.yaml")
                          if path.is_file())


def schema_beside(setting, folder, name, scratch):
    """HANGTAB_DATA with the sample's own schema files laid over ours."""
    overlay = folder / f"{name}.schema"
    if not overlay.is_dir():
        return {}
    shutil.copytree(setting.root / "schema", f"{scratch}/schema")
    os.symlink(setting.root / "site", f"{scratch}/site")
    shutil.copytree(overlay, f"{scratch}/schema", dirs_exist_ok=True)
    return {"HANGTAB_DATA": scratch}


def found(setting, folder, name):
    """The rows that the program prints, its exit status and its words."""
    args, command = folder / f"{name}.args", folder / f"{name}.command"
    if command.exists():
        arguments = command.read_text().split()
    elif args.exists():
        arguments = ["check", *args.read_text().split()]
    else:
        inside = name if (folder / name).is_dir() else f"{name}.yaml"
        arguments = ["check", "-C", inside]
    with tempfile.TemporaryDirectory() as scratch:
        extra = schema_beside(setting, folder, name, scratch)
        status, out, err = hangtab(
            setting, [*arguments, "--format", "json"], folder, extra)
        rows, severities, words = [], set(), err
        for line in out.splitlines():
            item = json.loads(line)
            if "code" not in item:
                continue
            file = item.get("file", "").replace(
                f"{scratch}/schema/", f"{name}.schema/")
            rows.append(row(file, item.get("line"), item.get("column"),
                            item.get("end_line"), item.get("end_column"),
                            item["code"]))
            severities.add(item["severity"])
            words += f"{rows[-1].strip()}: {item['message']}\n"
    return "".join(sorted(rows)), status, severities, words


def compare(setting, folder, name):
    """What is wrong with one sample, as a text; empty when nothing is."""
    if setting.rewrite and name == "failing":
        rewrite(setting, folder)
    want = expected(folder, name)
    got, status, severities, words = found(setting, folder, name)
    wrong = diff(want, got, f"{folder.name}/{name}")
    if wrong:
        wrong += words
    exit_wanted = 1 if "error" in severities else 0
    if status != exit_wanted:
        wrong += f"{name}: exit status {status}, not {exit_wanted}\n{words}"
    if name == "failing" and not re.search(
            rf"(^| ){re.escape(folder.name)}$", want, re.M):
        wrong += f"{name} promises no {folder.name}\n"
    if name == "mended" and want:
        wrong += "mended has marks\n"
    return wrong


def rewrite(setting, folder):
    """Put the marks of failing.yaml where the program finds things."""
    path = folder / "failing.yaml"
    if not path.exists() or (folder / "failing.expect").exists():
        return
    before = path.read_text()
    lines = [line for line in before.split("\n")
             if not CARETS.match(line) and not AT.match(line)]
    path.write_text("\n".join(lines))
    rows = found(setting, folder, "failing")[0].splitlines()
    below, far = {}, []
    for text in rows:
        match = re.match(r"failing.yaml:(\d+):(\d+)-(\d+):(\d+) (.*)", text)
        if not match:
            far.append((0, f"@- {text}"))
            continue
        line, column, end_line, end = map(int, match.groups()[:4])
        target = lines[line - 1]
        if line == end_line and end > column > 2:
            indent = min(len(target) - len(target.lstrip()), column - 2)
            mark = " " * indent + "#"
            mark = mark.ljust(column - 1) + "^" * (end - column)
            below.setdefault(line, []).append(f"{mark} {match[5]}")
        else:
            far.append((line, (line, column, end_line, end, match[5])))
    shift, marked, moved = 0, [], {}
    for number, line in enumerate(lines, 1):
        moved[number] = number + shift
        marked.append(line)
        marked += below.get(number, [])
        shift += len(below.get(number, []))
    tail = marked.pop() if marked and marked[-1] == "" else None
    for _, mark in far:
        if isinstance(mark, tuple):
            line, column, end_line, end, code = mark
            place = f"{moved[line]}:{column}-" + (
                f"{moved[end_line]}:" if end_line != line else "") + f"{end}"
            mark = f"@{place} {code}"
        marked.append(f"# {mark}")
    if tail is not None:
        marked.append(tail)
    after = "\n".join(marked)
    path.write_text(after)
    print(diff(before, after, str(path.relative_to(setting.root))), end="")


def run(setting, wanted):
    """One result for each folder of tests/codes."""
    for folder in sorted((setting.root / "tests/codes").glob("*/")):
        label = f"codes/{folder.name}"
        if wanted and not label.startswith(wanted):
            continue
        start = time.monotonic()
        text = ""
        for name in ("failing", "mended"):
            try:
                if not (any(corpus_files(folder, name))
                        or (folder / f"{name}.args").exists()
                        or (folder / name).is_dir()):
                    text += f"{label} has no {name}.yaml\n"
                else:
                    text += compare(setting, pathlib.Path(folder), name)
            except (OSError, ValueError) as error:
                text += f"{label}/{name}: {error}\n"
        yield Result(label, 0 if text else 1, 1 if text else 0, 0, text,
                     time.monotonic() - start)
