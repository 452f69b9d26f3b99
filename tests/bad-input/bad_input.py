"""What the scripts of this folder share: a scratch corpus and the program."""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
HANGTAB = os.environ.get("HANGTAB", str(ROOT / "build/hangtab"))

# A small sound corpus: file, text.
GOOD = {
    "corpus.yaml": "format: 1\ntitle: Two words\n",
    "toyline/line.yaml": "id: line\nname: The line\n",
    "term/words.yaml": "- id: hang-tab\n"
                       "  name: hang tab\n"
                       "  meaning: The tab at the top of a card.\n"
                       "- id: punched\n"
                       "  name: punched\n"
                       "  meaning: With the hole of the tab opened.\n"
                       "  see: [hang-tab]\n",
}


class Bad:
    """Runs functions that each make one bad situation, and counts."""

    def __init__(self):
        self.passed = self.failed = self.skipped = 0

    def run(self, functions):
        for function in functions:
            with tempfile.TemporaryDirectory() as folder:
                at = pathlib.Path(folder)
                self.one(function, at)

    def one(self, function, at):
        try:
            why = function(at)
        except AssertionError as error:
            print(f"{function.__name__}: {function.__doc__}\n    {error}")
            self.failed += 1
            return
        if why:
            print(f"skip {function.__name__}: {why}")
            self.skipped += 1
        else:
            self.passed += 1

    def close(self):
        print(f"{self.passed} passed, {self.failed} failed, "
              f"{self.skipped} skipped")
        sys.exit(1 if self.failed else 0)


def corpus(at, **changed):
    """Write the sound corpus to at/corpus; bytes or text per changed file."""
    folder = at / "corpus"
    for name, text in {**GOOD, **changed.pop("files", {})}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def hangtab(at, *arguments, **options):
    """Run the program in `at`; it may take a minute and never hang."""
    try:
        return subprocess.run(
            [HANGTAB, *map(str, arguments)], cwd=at, text=True,
            errors="replace", stdin=subprocess.DEVNULL,
            stdout=options.pop("stdout", subprocess.PIPE),
            stderr=subprocess.PIPE, timeout=120, **options)
    except subprocess.TimeoutExpired:
        raise AssertionError(f"{arguments} hangs") from None


def expect(done, status, *parts):
    """The exit status, and words that the message has to hold."""
    said = (done.stdout or "") + (done.stderr or "")
    assert done.returncode == status, \
        f"exit status {done.returncode}, not {status}: {said}"
    for part in parts:
        assert part in said, f"\"{part}\" is not said: {said}"
    if status != 0:
        assert said.strip(), "nothing is said"


def tree(folder):
    """Every file of a folder with its bytes."""
    return {path.relative_to(folder).as_posix(): path.read_bytes()
            for path in folder.rglob("*") if path.is_file()}


def beside(folder):
    """What lies beside a folder, itself not counted."""
    return sorted(path.name for path in folder.parent.iterdir()
                  if path != folder)


def mount_tiny(at, size):
    """A file system of `size` at `at`; False where we may not."""
    at.mkdir(exist_ok=True)
    return shutil.which("mount") is not None and os.getuid() == 0 and \
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}",
                        "none", at], capture_output=True).returncode == 0


def unmount(at):
    subprocess.run(["umount", at], check=True)
