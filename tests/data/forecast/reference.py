"""Asks a reference library the questions of cases.csv: the daily rate by Croston's method, its Syntetos-Boylan
approximation (SBA) and the Teunter-Syntetos-Babai method (TSB).

    python3 -m venv venv && venv/bin/pip install statsforecast==2.1.1
    venv/bin/python tests/data/forecast/reference.py

Run at development time only; the answers are kept in reference.csv.
"""

import csv
import pathlib

import numpy
from statsforecast.models import TSB, CrostonClassic, CrostonSBA

HERE = pathlib.Path(__file__).parent
METHODS = {"croston": CrostonClassic(), "sba": CrostonSBA(), "tsb": TSB(alpha_d=0.1, alpha_p=0.1)}


def rate(method, frozen):
    first = next(day for day, pounds in enumerate(frozen) if pounds > 0)
    series = numpy.array(frozen[first:], dtype=float)
    return float(method.forecast(y=series, h=1)["mean"][0])


with open(HERE / "cases.csv", newline="") as questions, open(HERE / "reference.csv", "w", newline="") as answers:
    writer = csv.writer(answers, lineterminator="\n")
    writer.writerow(["case", *METHODS])
    for row in csv.DictReader(questions):
        frozen = [float(pounds) for pounds in row["frozen_lb_by_day"].split()]
        writer.writerow([row["case"], *(f"{rate(method, frozen):.6f}" for method in METHODS.values())])
