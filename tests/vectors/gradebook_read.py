"""What pandas reads in the two gradebooks, as JSON: one with commas, one with semicolons and decimal commas.

Run:  pip install pandas==3.1.1
      python tests/vectors/gradebook_read.py > tests/vectors/gradebook_read.json
"""

import json
import pathlib

import pandas

HERE = pathlib.Path(__file__).parent


def read(name, sep, decimal):
    table = pandas.read_csv(HERE / name, sep=sep, decimal=decimal)
    lines = json.loads(table.to_json(orient="records"))
    # A percent sign makes a cell a text, whose decimal mark is of its country.
    for line in lines:
        if isinstance(line["earlier yields"], str):
            line["earlier yields"] = line["earlier yields"].replace(",", ".")
    return lines


print(
    json.dumps(
        {
            "comma": read("gradebook_comma.csv", ",", "."),
            "semicolon": read("gradebook_semicolon.csv", ";", ","),
        },
        indent=1,
    )
)
