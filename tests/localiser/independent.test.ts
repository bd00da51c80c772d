import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { toBif } from './independent/bif';
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

  it('writes a network in the Bayesian Interchange Format in which every column of every table adds up to 1', () => {
    const network = exported(trial(7)), text = toBif(network);
    expect(text.match(/^variable /gm)).toHaveLength(network.factors.length);
    const tables = text.split(/^probability /m).slice(1);
    expect(tables).toHaveLength(network.factors.length);
    for (const table of tables) for (const [, numbers] of table.matchAll(/(?:table|\)) ([\d.e, -]+);/g)) expect(numbers!.split(', ').reduce((sum, p) => sum + Number(p), 0)).toBeCloseTo(1, 9);
  });

  it.skipIf(!available)('and pgmpy reads that file with its own reader and agrees (skipped without pgmpy, as above)', () => {
    const one = trial(100100);
    const { stdout, status } = spawnSync(python, [`${here}solve.py`, '--bif'], { input: toBif(exported(one)), encoding: 'utf8', maxBuffer: 2 ** 26 });
    expect(status).toBe(0);
    expect(furthest(one.posterior, JSON.parse(stdout) as number[])).toBeLessThanOrEqual(TOLERANCE);
  }, 180000);
});
