"""A command killed with SIGKILL before each thing it does to the files of its folder.

One process runs the command once, so that everything is imported and drawn, and then forks for
each kill: the child counts what it does to files under its own folder (open for writing, write,
synchronise, rename, remove, change rights, cut) and dies before the n-th, or, of a write, after
half of its bytes. A last few children die inside a buffered write, by a limit on the size of a
file whose signal they do not catch.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

DRIVER = r"""
import json, os, resource, shutil, signal, sys
template, scratch, words, limits = sys.argv[1], sys.argv[2], *map(json.loads, sys.argv[3:5])
from mockup.cli.main import main

def ran():
    sys.argv = ["mockup", *words]
    kept = sys.stdout, sys.stderr
    sys.stdout = sys.stderr = open(os.devnull, "w")
    try:
        main()
    except SystemExit as end:
        return end.code or 0
    finally:
        sys.stdout, sys.stderr = kept
    return 0

def here(target):
    if isinstance(target, int):
        try:
            target = os.readlink(f"/proc/self/fd/{target}")
        except OSError:
            return False
    try:
        return os.path.abspath(os.fspath(target)).startswith(os.getcwd() + os.sep)
    except TypeError:
        return False

class Killer:
    def __init__(self, at):
        self.at, self.done = at, 0
    def step(self, target):
        if not here(target):
            return False
        self.done += 1
        return self.done == self.at
    def die(self):
        os.kill(os.getpid(), signal.SIGKILL)
    def audit(self, event, args):
        if event == "open":
            flags = args[2] if isinstance(args[2], int) else 0
            touched = bool(flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
        else:
            touched = event in ("os.rename", "os.remove", "os.chmod", "os.truncate")
        if touched and self.step(args[0]):
            self.die()
    def arm(self):
        real_write, real_sync = os.write, os.fsync
        def write(handle, data):
            if self.step(handle):
                self.die()
            if self.step(handle):
                real_write(handle, data[: len(data) // 2])
                self.die()
            return real_write(handle, data)
        def fsync(handle):
            if self.step(handle):
                self.die()
            real_sync(handle)
        os.write, os.fsync = write, fsync
        sys.addaudithook(self.audit)

def child(folder, at, limit):
    os.chdir(folder)
    report, given = os.pipe()
    pid = os.fork()
    if pid == 0:
        killer = Killer(at)
        killer.arm()
        if limit:
            signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
        code = ran()
        os.write(given, json.dumps([code, killer.done]).encode())
        os._exit(0)
    os.close(given)
    _, status = os.waitpid(pid, 0)
    said = os.read(report, 100)
    os.close(report)
    return os.WIFSIGNALED(status), json.loads(said) if said else None

out = sys.stdout
first = os.path.join(scratch, "first")
shutil.copytree(template, first)
os.chdir(first)
code, deaths = ran(), []
assert code == 0, code
whole = os.path.join(scratch, "whole")
shutil.copytree(template, whole)
_, (code, steps) = child(whole, 0, 0)
assert code == 0, code
kills = [*((n, 0) for n in range(1, steps + 1)), *((0, m) for m in limits)]
for number, (at, limit) in enumerate(kills):
    folder = os.path.join(scratch, f"killed-{number}")
    shutil.copytree(template, folder)
    killed, _ = child(folder, at, limit)
    deaths.append([folder, killed])
json.dump({"whole": whole, "killed": deaths}, out)
out.flush()
os._exit(0)
"""


def killed_everywhere(
    template: Path, scratch: Path, words: list[str], limits: tuple[int, ...] = ()
) -> tuple[Path, list[Path]]:
    """The folder as the whole command leaves it, and a folder for each death.

    Every child that was to die has died, or this raises.
    """
    arguments = [str(template), str(scratch), json.dumps(words), json.dumps(limits)]
    done = subprocess.run(
        [sys.executable, "-B", "-c", DRIVER, *arguments],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    if done.returncode or not done.stdout:
        raise AssertionError(done.stderr or "the driver said nothing")
    told = json.loads(done.stdout)
    survived = [folder for folder, killed in told["killed"] if not killed]
    if survived:
        raise AssertionError(f"{survived} were not killed")
    return Path(told["whole"]), [Path(folder) for folder, _ in told["killed"]]
