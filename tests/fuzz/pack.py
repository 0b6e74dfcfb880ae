"""Inputs in folders to one file, one input a line as a JSON string, and back.

pack.py pack FILE KILOBYTES FOLDER...: the shortest inputs first, those of the first folder before those of the next, as many as fit.
pack.py unpack FILE FOLDER
"""

import hashlib
import json
import pathlib
import sys


def lines(folder):
    for path in folder.iterdir():
        try:
            yield json.dumps(path.read_bytes().decode(), ensure_ascii=False) + "\n"
        except UnicodeDecodeError:
            pass  # bytes that are no text are few, and do not fit a line


what, file = sys.argv[1], pathlib.Path(sys.argv[2])
if what == "pack":
    left, kept = 1024 * int(sys.argv[3]), []
    for folder in sys.argv[4:]:
        for line in sorted(set(lines(pathlib.Path(folder))) - set(kept), key=lambda line: (len(line), line)):
            left -= len(line.encode())
            if left < 0:
                break
            kept.append(line)
    file.write_text("".join(sorted(kept, key=lambda line: (len(line), line))))
else:
    folder = pathlib.Path(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    for line in file.read_text().split("\n")[:-1]:
        text = json.loads(line).encode()
        (folder / hashlib.sha1(text).hexdigest()).write_bytes(text)
