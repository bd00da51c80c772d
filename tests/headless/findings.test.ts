import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { run } from '../../src/headless/run';
import { LOCALISATION_CAUTION } from '../../src/localiser';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name: string) => JSON.parse(readFileSync(join(root, 'src/headless', name), 'utf8'));
const output = read('output.schema.json');
const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true });
const isLocalisation = ajv.compile({ $defs: output.$defs, $ref: '#/$defs/localisation' });
const isFindings = ajv.compile(read('findings.schema.json'));

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'findings-')); });
afterAll(() => rmSync(folder, { recursive: true }));
const put = (content: string): string => { writeFileSync(join(folder, 'list.json'), content); return 'list.json'; };
async function localised(value: unknown): Promise<any> {
  const { code, out } = await run(['--findings', put(JSON.stringify(value))], folder);
  expect(code).toBe(0);
  const printed = JSON.parse(out);
  expect(isLocalisation(printed), JSON.stringify(isLocalisation.errors, null, 1)).toBe(true);
  return printed;
}

// Cubital tunnel syndrome: Preston & Shapiro 2013 [from memory]; dorsal skin of the ulnar side lost = above its branch, Botte 1990 [checked]
const cubital = [
  { side: 'left', sign: 'power', site: 'DI1', result: { kind: 'grade', grade: '3' } }, { side: 'left', sign: 'power', site: 'FDP5', result: { kind: 'grade', grade: '4' } }, { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '5' } },
  { side: 'left', sign: 'light.touch', site: 'D5.pulp', result: { kind: 'level', level: 'reduced' } }, { side: 'left', sign: 'light.touch', site: 'DU', result: { kind: 'level', level: 'reduced' } }, { side: 'left', sign: 'light.touch', site: 'FM', result: { kind: 'level', level: 'normal' } },
  { side: 'left', sign: 'elbow.flexion.test', site: 'cubital.tunnel', result: { kind: 'level', level: 'present' }, at: { value: 30, unit: 's' } },
];

describe('a list of coded findings', () => {
  test('is localised alone, each finding named by its place in the list', async () => {
    expect(isFindings(cubital)).toBe(true);
    const { ranked, sides, caution, nextTests } = await localised(cubital);
    expect(ranked[0]).toMatchObject({ id: 'ulnar.elbow', side: 'left' });
    expect(ranked[0].for.map(({ finding }: any) => finding)).toEqual(expect.arrayContaining(['1', '5']));
    expect(sides.left.words).toMatch(/^Left: ulnar nerve at the elbow/);
    expect(caution).toBe(LOCALISATION_CAUTION);
    expect(nextTests.length).toBeGreaterThan(0);
  });

  test('may say when it began and which side is complained of; both hands are set against one another', async () => {
    const value = { findings: [...cubital, ...cubital.map((finding) => ({ ...finding, side: 'right', result: finding.result.kind === 'grade' ? { kind: 'grade', grade: '5' } : { kind: 'level', level: finding.sign === 'light.touch' ? 'normal' : 'absent' } }))], onset: { value: 60, unit: 'd' }, injuredSide: 'left' };
    expect(isFindings(value)).toBe(true);
    const { comparison } = await localised(value);
    expect(comparison.leftOnly).toBeGreaterThan(0.5);
    expect(comparison.differing.map(({ worse }: any) => worse)).toContain('left');
  });

  test('with faulty findings keeps the sound ones and names the others', async () => {
    const { problems, ranked } = await localised([...cubital, { side: 'left', sign: 'power', site: 'DI1', result: { kind: 'grade', grade: '7' } }, 'nonsense', { side: 'left', sign: 'power', site: 'XYZ', result: { kind: 'grade', grade: '5' } }]);
    expect(problems).toHaveLength(3);
    expect(ranked[0].id).toBe('ulnar.elbow');
  });

  test('that is empty says that too little is known, and names nothing', async () => {
    const { fit, ranked } = await localised([]);
    expect([fit, ranked]).toEqual(['too little', []]);
  });

  test.each([
    ['what is no JSON', 'left hand', /list\.json: this is not JSON/], ['a number', '7', /name a list of findings/], ['an object without findings', '{"onset":{"value":1,"unit":"d"}}', /name a list of findings/], ['a side that is none', '{"findings":[],"injuredSide":"middle"}', /"injuredSide" is left, right or both/], ['an onset in words', '{"findings":[],"onset":"yesterday"}', /"onset" is a time/],
  ])('%s: exit code 1 and a message', async (_, content, message) => {
    const { code, out, err } = await run(['--findings', put(content)], folder);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(message);
  });

  test('a missing file and a missing name are told apart', async () => {
    expect(await run(['--findings', 'gone.json'], folder)).toMatchObject({ code: 1, err: 'gone.json: there is no such file.\n' });
    expect(await run(['--findings'], folder)).toMatchObject({ code: 2 });
  });
});
