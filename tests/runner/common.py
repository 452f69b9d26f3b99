"""What the runners share: the setting of a run, a result, running hangtab."""
import collections
import difflib
import subprocess

# root: the source tree. build: where the program is. environment: for it.
Setting = collections.namedtuple(
    "Setting", "root build environment long sanitize rewrite")

Result = collections.namedtuple(
    "Result", "name passed failed skipped text seconds")


def hangtab(setting, arguments, cwd, extra=None):
    """Run the program; returns exit status, standard output and error."""
    done = subprocess.run(
        [str(setting.build / "hangtab"), *arguments], cwd=cwd,
        env={**setting.environment, **(extra or {})},
        stdin=subprocess.DEVNULL, capture_output=True, timeout=300)
    return (done.returncode, done.stdout.decode(errors="replace"),
            done.stderr.decode(errors="replace"))


def diff(expected, found, name):
    """A unified diff of two texts; empty where they are the same."""
    lines = list(difflib.unified_diff(
        expected.splitlines(), found.splitlines(), f"{name} (expected)",
        f"{name} (found)", lineterm=""))
    if not lines and expected != found:
        lines = [f"{name}: differs at the end of its last line"]
    return "".join(line + "\n" for line in lines)
