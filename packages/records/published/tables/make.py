"""Writes tables.json beside it: tables as Python's own csv module writes them, letters as its codecs write them, and
names and digests as its uuid and hashlib modules make them. Python 3.11; the seed is fixed. Run: python3 make.py"""

import csv
import hashlib
import io
import json
import pathlib
import random
import uuid

random.seed(20261125)
SIGNS = ["a", "ü", "ñ", ",", ";", "\t", '"', "'", "\n", "\r\n", " ", "0", "=", "é", "山"]


def cell():
    return "".join(random.choice(SIGNS) for _ in range(random.randrange(6)))


def table(delimiter, quoting):
    rows = [[cell() for _ in range(random.randrange(2, 6))] for _ in range(8)]
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=delimiter, quoting=quoting, lineterminator="\r\n").writerows(rows)
    return {"delimiter": delimiter, "text": out.getvalue(), "rows": rows}


LETTERS = "Müller, Señora Ñu – €3 “Zoë” Œuvre"
TEXTS = ["", "abc", "goat " * 13, "Müller 山羊 🐐", "x" * 55, "x" * 56, "x" * 64, "x" * 1000]
SPACE = "6f1b1d0e-5a0c-4c8e-9b57-2f3d8a9c4e61"

pathlib.Path(__file__).with_name("tables.json").write_text(
    json.dumps(
        {
            "source": "Python 3.11.7: csv, codecs, hashlib, uuid; made by make.py beside this file",
            "tables": [table(d, q) for d in ",;\t" for q in (csv.QUOTE_MINIMAL, csv.QUOTE_ALL)],
            "letters": [
                {"encoding": name, "text": LETTERS, "bytes": LETTERS.encode(codec).hex()}
                for name, codec in [
                    ("utf-8", "utf-8"),
                    ("utf-8", "utf-8-sig"),
                    ("windows-1252", "cp1252"),
                    ("utf-16", "utf-16"),
                ]
            ],
            "digests": [{"text": t, "sha1": hashlib.sha1(t.encode()).hexdigest()} for t in TEXTS],
            "names": [
                {"text": t, "space": s, "name": str(uuid.uuid5(uuid.UUID(s), t))}
                for t in ["www.example.com", "Müller 山羊"]
                for s in [str(uuid.NAMESPACE_DNS), SPACE]
            ],
        },
        ensure_ascii=False,
        indent=1,
    )
    + "\n",
    encoding="utf-8",
)
