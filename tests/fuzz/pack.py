"""A folder of inputs to one file, one input a line as a JSON string, and back: pack.py pack FOLDER FILE, pack.py unpack FILE FOLDER."""

import hashlib
import json
import pathlib
import sys

what, source, target = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
if what == "pack":
    inputs = set()
    for path in source.iterdir():
        try:
            inputs.add(path.read_bytes().decode())
        except UnicodeDecodeError:
            pass  # bytes that are no text are few, and do not fit a line
    ordered = sorted(inputs, key=lambda text: (len(text), text))
    target.write_text("".join(json.dumps(text) + "\n" for text in ordered))
else:
    target.mkdir(parents=True, exist_ok=True)
    for line in source.read_text().splitlines():
        text = json.loads(line).encode()
        (target / hashlib.sha1(text).hexdigest()).write_bytes(text)
