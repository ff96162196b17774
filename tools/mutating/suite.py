# tools/mutating/suite.py -- runs the battery and the Catch2 tests with one fault at work.
"""A fault is asked the questions that come past it, and then the tests that do, until one fails.

What a question or a test comes past is recorded once, without a fault, and kept while the core and
the questions stay the same; a test that is new is recorded then.
"""
import concurrent.futures
import hashlib
import json
import os
import re
import select
import subprocess
import threading
import time

from mutating import judge

SLOW_QUESTION_s, SLOW_TEST_s = 20.0, 30.0  # beyond ten times the faultless run and these: endless


def environment(fault=0, past=None):
    env = {k: v for k, v in os.environ.items() if not k.startswith("CANEWRIGHT_")}
    env["CANEWRIGHT_MUTANT"] = str(fault)
    if past:
        env["CANEWRIGHT_PAST"] = str(past)
    return env


def ids(path):
    return [int(line) for line in path.read_text().split()] if path.exists() else []


class Suite:
    def __init__(self, out, questions, skip, most_s):
        self.out, self.questions, self.skip, self.most_s = out, questions, skip, most_s
        self.answers, self.asked_s = [], []
        self.question_past, self.test_past = [], {}  # test: (seconds, room, set of faults)

    def key(self):
        digest = hashlib.sha256("\n".join(self.questions).encode())
        digest.update((self.out / "battery").read_bytes())
        return digest.hexdigest()

    def record(self, say, jobs):
        cache = self.out / "recorded.json"
        kept = json.loads(cache.read_text()) if cache.exists() else {}
        with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
            if kept.get("key") != self.key():
                asked = list(pool.map(self.recorded_question, self.questions))
                kept = {"key": self.key(), "questions": asked, "tests": {}}
                say(f"{len(asked)} questions, {sum(q[1] for q in asked):.0f} s")
            self.answers, self.asked_s, past = zip(*kept["questions"])
            self.question_past = [set(p) for p in past]
            tests = list(self.tests())
            new = [name for name, _ in tests if name not in kept["tests"]]
            kept["tests"].update(zip(new, pool.map(self.recorded_test, new)))
        cache.write_text(json.dumps(kept))
        for name, room in tests:
            s, met, failed = kept["tests"][name]
            if failed:
                say(f"fails without a fault, left out: {name}")
            else:
                self.test_past[name] = (s, room, set(met))
        say(f"{len(self.test_past)} tests, {sum(t[0] for t in self.test_past.values()):.0f} s")

    def recorded_question(self, question):
        past, start = self.out / f"past-{threading.get_ident()}", time.monotonic()
        past.unlink(missing_ok=True)
        lines = self.ask(0, [question], past)
        return lines[0] if lines else "", time.monotonic() - start, ids(past)

    def recorded_test(self, name):
        past, start = self.out / f"past-{threading.get_ident()}", time.monotonic()
        past.unlink(missing_ok=True)
        failed = self.run([name], environment(0, past), 900) != 0
        return time.monotonic() - start, ids(past), failed

    def tests(self):
        """Names with the room of core/ that their file is in; none that a tag hides."""
        shown = subprocess.run([self.out / "tests", "~[.]", "--list-test-names-only", "-v", "high"],
                               text=True, capture_output=True).stdout
        for name, file in re.findall(r"^(.*)\t@(.*):\d+$", shown, re.M):
            room = re.search(r"tests/(?:core/)?(\w+)", file[file.rindex("/tests/"):]).group(1)
            if not any(word in file for word in self.skip):
                yield name, room

    def ask(self, fault, questions, past=None, limits_s=None):
        """The answers, as far as they came: None in place of one that took too long."""
        with subprocess.Popen([self.out / "battery"], stdin=subprocess.PIPE, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                              env=environment(fault, past)) as battery:
            lines = []
            for n, question in enumerate(questions):
                try:
                    battery.stdin.write(question + "\n")
                    battery.stdin.flush()
                except BrokenPipeError:
                    break
                if limits_s and not select.select([battery.stdout], [], [], limits_s[n])[0]:
                    lines.append(None)
                    battery.kill()
                    break
                line = battery.stdout.readline()
                if not line:
                    break
                lines.append(line.rstrip("\n"))
                if limits_s and judge.differ(self.expected[question], lines[-1]):
                    battery.kill()
                    break
            try:
                battery.stdin.close()
            except BrokenPipeError:
                pass
        return lines

    @property
    def expected(self):
        return dict(zip(self.questions, self.answers))

    def moves(self, fault):
        """The first question whose answer the fault moves, or None."""
        met, asked_s = [], 0.0
        for n in sorted(range(len(self.questions)), key=lambda n: self.asked_s[n]):
            if fault in self.question_past[n] and asked_s < self.most_s:
                met.append(n)
                asked_s += self.asked_s[n]
        questions = [self.questions[n] for n in met]
        limits_s = [SLOW_QUESTION_s + 10 * self.asked_s[n] for n in met]
        lines = self.ask(fault, questions, limits_s=limits_s)
        for n, question in enumerate(questions):
            if n >= len(lines) or lines[n] is None or \
                    judge.differ(self.expected[question], lines[n]):
                return question
        return None

    def run(self, names, env, limit_s):
        quoted = ['"' + re.sub(r'([\\,\[\]"])', r"\\\1", name) + '"' for name in names]
        try:
            return subprocess.run([self.out / "tests", "--abort", ",".join(quoted)], env=env,
                                  stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                  timeout=limit_s).returncode
        except subprocess.TimeoutExpired:
            return -1

    def seen_by(self, fault, room):
        """The room of the tests that see the fault, or None. Own and quick tests come first."""
        met = sorted(((own != room, s, own, name)
                      for name, (s, own, past) in self.test_past.items() if fault in past))
        batch, batch_s, whole_s = [], 0.0, 0.0
        for n, (_, s, own, name) in enumerate(met):
            if whole_s > self.most_s:
                break
            batch.append(name)
            batch_s += s
            whole_s += s
            last = n + 1 == len(met) or met[n + 1][2] != own or whole_s > self.most_s
            if last or batch_s > 2.0:
                if self.run(batch, environment(fault), SLOW_TEST_s + 10 * batch_s) != 0:
                    return own
                batch, batch_s = [], 0.0
        return None
