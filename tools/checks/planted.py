# tools/checks/planted.py -- proof that a check can fail: faults planted in a scratch folder.
"""Every check in tools/ runs with --self-test first: each planted file must be found, and only it."""
import pathlib
import sys
import tempfile


def self_test(faults_in, clean, planted):
    """Runs `faults_in(root)` on made-up trees.

    clean    {path: text} in which nothing is wrong
    planted  list of (path, text, words): one fault each, `words` must be in what is reported
    """
    def reported(files):
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            for path, text in files.items():
                (root / path).parent.mkdir(parents=True, exist_ok=True)
                (root / path).write_text(text, encoding="utf-8")
            return faults_in(root)

    wrong = [f"reported in a clean tree: {fault}" for fault in reported(clean)]
    for path, text, words in planted:
        found = reported({**clean, path: text})
        if len(found) != 1 or path not in found[0] or words not in found[0]:
            wrong.append(f"planted {text!r} in {path}: reported {found}")
    return wrong


def main(faults_in, clean, planted):
    root = pathlib.Path(__file__).resolve().parents[2]
    if sys.argv[1:] == ["--self-test"]:
        faults = self_test(faults_in, clean, planted)
        told = f"self-test: {len(planted)} planted faults found"
    else:
        faults = faults_in(root)
        told = "no fault"
    for fault in faults:
        print(fault)
    print(f"{len(faults)} faults" if faults else told)
    sys.exit(1 if faults else 0)
