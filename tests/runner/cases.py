"""tests/cases/STAGE/NAME: in.yaml (or a corpus in/) and what it should give.

    expect.diag   check -C in.yaml --color=never        what is printed
    expect.json   check -C in.yaml --format json        standard output
    expect.tree   check -C in.yaml --dump read          standard output
    expect.dump   check -C in.yaml --dump STAGE         standard output
    expect.out    the arguments in the file `args`, one a line: its exit
                  status in the first line, then what is printed

What is there is compared; at least one must be.
"""
import time

from runner.common import Result, diff, hangtab

NAME = "cases"

PLAIN = {
    "expect.diag": ["--color=never"],
    "expect.json": ["--format", "json"],
    "expect.tree": ["--dump", "read"],
    "expect.dump": ["--dump", None],
}


def produce(setting, folder, name):
    """The text to hold against folder/name."""
    if name == "expect.out":
        arguments = (folder / "args").read_text().splitlines()
        status, out, err = hangtab(setting, arguments, folder)
        return f"exit {status}\n{out}{err}"
    inside = "in" if (folder / "in").is_dir() else "in.yaml"
    arguments = [part or folder.parent.name for part in PLAIN[name]]
    status, out, err = hangtab(
        setting, ["check", "-C", inside, *arguments], folder)
    if status not in (0, 1):
        return f"exit {status}\n{out}{err}"
    return out + err if name == "expect.diag" else out


def compare(setting, folder):
    wrong = ""
    names = [name for name in [*PLAIN, "expect.out"]
             if (folder / name).exists()]
    if not names:
        return "nothing is expected: write an empty expect.diag and " \
            "use --rewrite\n"
    for name in names:
        path = folder / name
        found = produce(setting, folder, name)
        shown = str(path.relative_to(setting.root))
        difference = diff(path.read_text(), found, shown)
        if difference and setting.rewrite:
            path.write_text(found)
            print(difference, end="")
        else:
            wrong += difference
    return wrong


def run(setting, wanted):
    """One result for each folder of tests/cases/STAGE."""
    for folder in sorted((setting.root / "tests/cases").glob("*/*/")):
        label = f"cases/{folder.parent.name}/{folder.name}"
        if wanted and not label.startswith(wanted):
            continue
        start = time.monotonic()
        try:
            text = compare(setting, folder)
        except (OSError, ValueError) as error:
            text = f"{label}: {error}\n"
        yield Result(label, 0 if text else 1, 1 if text else 0, 0, text,
                     time.monotonic() - start)
