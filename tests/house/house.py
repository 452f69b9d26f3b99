"""What the scripts of this folder share: the sources, and how they close."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
COMPILER = ROOT / "compiler"

# Comments, strings and characters, so that rules speak of code alone.
TOKENS = re.compile(
    r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)


def sources(pattern="*.[ch]"):
    return sorted(COMPILER.rglob(pattern))


def shown(path):
    return path.relative_to(ROOT).as_posix()


def bare_code(text):
    """The text with comments and literals blanked; lines stay in place."""
    return TOKENS.sub(lambda match: re.sub(r"[^\n]", " ", match[0]), text)


class House:
    """Counts what was looked at and what was wrong there."""

    def __init__(self, name):
        self.name = name
        self.looked = self.wrong = 0

    def look(self, *complaints):
        """One thing looked at, with what is wrong about it, if anything."""
        self.looked += 1
        found = [complaint for complaint in complaints if complaint]
        for complaint in found:
            print(complaint)
        self.wrong += bool(found)

    def close(self):
        print(f"{self.name}: {self.looked - self.wrong} passed, "
              f"{self.wrong} failed")
        sys.exit(1 if self.wrong else 0)
