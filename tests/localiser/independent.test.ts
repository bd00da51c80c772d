import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { exported, trial } from './independent/network';

/*
 * The same networks solved by a general-purpose library, pgmpy (pypi.org/project/pgmpy, MIT licence). The kept answers are checked
 * everywhere; where Python with pgmpy is at hand, fresh networks are solved too. After a change of the localiser's numbers run
 * tests/localiser/independent/make-fixture.sh.
 */
const TOLERANCE = 1e-6;
const here = fileURLToPath(new URL('./independent/', import.meta.url));
const kept = JSON.parse(readFileSync(`${here}pgmpy-posteriors.json`, 'utf8')) as { solver: string; firstSeed: number; posteriors: number[][] };
const furthest = (one: readonly number[], other: readonly number[]) => Math.max(...one.map((p, at) => Math.abs(p - other[at]!)));

const python = process.env.PGMPY_PYTHON ?? 'python3';
const available = spawnSync(python, ['-c', 'import pgmpy'], { timeout: 60000 }).status === 0;

describe('independent inference', () => {
  it(`agrees with ${kept.solver} within ${TOLERANCE} on ${kept.posteriors.length} random records`, () => {
    expect(kept.posteriors.length).toBeGreaterThanOrEqual(500);
    const apart = kept.posteriors.flatMap((posterior, at) => {
      const { posterior: ours } = trial(kept.firstSeed + at);
      const distance = ours.length === posterior.length ? furthest(ours, posterior) : Infinity;
      return distance <= TOLERANCE ? [] : [`record ${kept.firstSeed + at}: ${distance}`];
    });
    expect(apart).toEqual([]);
  });

  it.skipIf(!available)(`solves fresh networks with pgmpy now (skipped unless ${python} has pgmpy: pip install pgmpy==1.1.2, or set PGMPY_PYTHON)`, () => {
    const trials = Array.from({ length: 12 }, (_, at) => trial(100000 + at));
    const { stdout, status } = spawnSync(python, [`${here}solve.py`], { input: `${trials.map(one => JSON.stringify(exported(one))).join('\n')}\n`, encoding: 'utf8', maxBuffer: 2 ** 26 });
    expect(status).toBe(0);
    stdout.trim().split('\n').forEach((line, at) => expect(furthest(trials[at]!.posterior, JSON.parse(line) as number[])).toBeLessThanOrEqual(TOLERANCE));
  }, 180000);
});
