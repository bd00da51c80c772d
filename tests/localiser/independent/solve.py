"""Solves exported networks with pgmpy (pip install pgmpy==1.1.2, MIT licence): one JSON network a line in, one JSON list of posteriors a line out.
With --bif: one network in the Bayesian Interchange Format in, read by pgmpy's own reader."""
import json
import logging
import sys
import warnings

warnings.filterwarnings("ignore")
logging.disable(logging.WARNING)

from pgmpy.factors.discrete import TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork


def solve(network):
    sizes = {factor["variable"]: factor["values"] for factor in network["factors"]}
    model = DiscreteBayesianNetwork()
    model.add_nodes_from(list(sizes))
    for factor in network["factors"]:
        for parent in factor["parents"]:
            model.add_edge(parent, factor["variable"])
    for factor in network["factors"]:
        model.add_cpds(TabularCPD(factor["variable"], factor["values"], factor["table"], evidence=factor["parents"] or None,
                                  evidence_card=[sizes[parent] for parent in factor["parents"]] or None))
    answer = VariableElimination(model).query([network["ask"]], evidence={name: 0 for name in network["seen"]}, show_progress=False)
    return [float(answer.values[state]) for state in range(sizes[network["ask"]])]


def solve_bif(text):
    from pgmpy.readwrite import BIFReader

    asked, seen = text.split("\n", 1)[0].removeprefix("// Ask for ").split(", having seen in state s0: ")
    answer = VariableElimination(BIFReader(string=text).get_model()).query([asked], evidence={name: "s0" for name in seen.split()}, show_progress=False)
    values = dict(zip(answer.state_names[asked], answer.values))
    return [float(values[f"s{state}"]) for state in range(len(values))]


if "--bif" in sys.argv:
    print(json.dumps(solve_bif(sys.stdin.read())))
else:
    for line in sys.stdin:
        print(json.dumps(solve(json.loads(line))), flush=True)
