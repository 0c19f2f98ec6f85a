"""Works out the chain of a record from its lines: a hash is SHA-256 (hashlib) of the hash before, a line break, and what stands after
`said: ` on its own line; before the first stand 64 noughts. Writes all hashes, a line each.

    python3 chain.py chain.visit.ron > chain.txt
"""

import hashlib
import re
import sys

before = "0" * 64
stated = None
for line in open(sys.argv[1], encoding="utf-8"):
    own = re.search(r'hash: "([0-9a-f]{64})"', line)
    stated = own.group(1) if own else stated
    said = re.search(r"said: (\(.*\)),$", line.rstrip("\n"))
    if said is None:
        continue
    # Around an entry stand the brackets that hold its hash too.
    said = said.group(1)[: -1 if own else None]
    before = hashlib.sha256(f"{before}\n{said}".encode("utf-8")).hexdigest()
    print(before)
    if before != stated:
        sys.exit(f"it states {stated}")
