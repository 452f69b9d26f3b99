"""What the tests of this folder share: building a site, and the Nu checker."""
import os
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
HANGTAB = os.environ.get("HANGTAB", str(ROOT / "build/hangtab"))
CHECKER = ROOT / "tests/browser/node_modules/vnu-jar/build/dist/vnu.jar"
ERROR = re.compile(r'^"file:(.*?)":[\d.-]+: error: (.*)$')


def build(corpus, out, *more):
    """Builds the site alone; stops the test where that fails."""
    done = subprocess.run(
        [HANGTAB, "build", "-C", str(corpus), "-o", str(out), *more],
        cwd=ROOT, stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"build of {corpus} failed:\n{done.stderr}")


def nu_errors(folder):
    """What the Nu checker calls an error in the pages of a folder."""
    if not CHECKER.exists():
        sys.exit(f"{CHECKER.relative_to(ROOT)} is missing: sh .ci/need check")
    done = subprocess.run(
        ["java", "-Xss4m", "-jar", str(CHECKER), "--format", "gnu",
         "--stdout", "--skip-non-html", str(folder)],
        stdin=subprocess.DEVNULL, capture_output=True, text=True)
    lines = (done.stdout + done.stderr).splitlines()
    found = [f"{match[1]}: {match[2]}" for match in map(ERROR.match, lines)
             if match]
    # Whatever else it says with ": error: " counts as well.
    found += [line for line in lines
              if ": error:" in line and not ERROR.match(line)]
    if done.returncode not in (0, 1):
        found.append(f"the checker ended with {done.returncode}: "
                     + "\n".join(lines[-3:]))
    return found


class Counts:
    """Passed and failed, and the closing line."""

    def __init__(self):
        self.passed = self.failed = 0

    def note(self, what, wrong):
        """One thing looked at, with what is wrong about it."""
        if wrong:
            self.failed += 1
            print(f"{what}: {len(wrong)} wrong")
            for line in wrong[:10]:
                print(f"    {line}")
        else:
            self.passed += 1

    def close(self):
        print(f"{self.passed} passed, {self.failed} failed")
        sys.exit(1 if self.failed else 0)
