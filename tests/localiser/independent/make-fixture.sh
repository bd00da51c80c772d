#!/bin/sh
# Solves 520 exported networks with pgmpy and keeps the answers beside the seeds: run after any change to the localiser's numbers.
# Usage: PYTHON=/path/to/python-with-pgmpy sh tests/localiser/independent/make-fixture.sh
set -e
here=$(dirname "$0")
(echo '{"solver": "pgmpy 1.1.2, VariableElimination", "firstSeed": 1, "posteriors": ['
npx tsx "$here/export.ts" 1 521 | "${PYTHON:-python3}" "$here/solve.py" | "${PYTHON:-python3}" -c "
import json, sys
print(',\n'.join('[' + ','.join('%.10g' % p for p in json.loads(line)) + ']' for line in sys.stdin))"
echo ']}') > "$here/pgmpy-posteriors.json.new"
mv "$here/pgmpy-posteriors.json.new" "$here/pgmpy-posteriors.json"
