import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createGenerator, linkGrammars } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { readArguments } from '../../src/headless/arguments';
import { run } from '../../src/headless/run';
import type { Outcome } from '../../src/headless/run';
import { installedVoskModel } from '../../src/recogniser/vosk/node';

const root = fileURLToPath(new URL('../..', import.meta.url));
const schema = JSON.parse(readFileSync(join(root, 'src/headless/output.schema.json'), 'utf8'));
const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(schema);

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'headless-')); });
afterAll(() => rmSync(folder, { recursive: true }));

const put = (name: string, content: string | Uint8Array): string => { writeFileSync(join(folder, name), content); return name; };
/** Runs the command on notes and gives back what it printed, checked against the schema. */
async function notes(lines: readonly string[], ...options: string[]): Promise<any> {
  const { code, out } = await run([...options, put('notes.txt', lines.join('\n'))], folder);
  expect(code).toBe(0);
  const output = JSON.parse(out);
  expect(validate(output), JSON.stringify(validate.errors, null, 1)).toBe(true);
  return output;
}

describe('notes, one utterance a line', () => {
  test('become findings with side, result and utterance', async () => {
    const { utterances, findings } = await notes(['left hand', 'abductor pollicis brevis four', 'reduced sensation index tip left', 'phalen positive at thirty seconds left', '', 'entirely something else', 'two point discrimination index radial side twelve millimetres left']);
    expect(utterances.map(({ n, status, order, from }: any) => [n, status, order, from])).toEqual([1, 2, 3, 4, 5, 6].map((n) => [n, n === 5 ? 'unparsed' : 'accepted', null, 'notes.txt']));
    expect(findings.map(({ id: _, corrected: __, qualifiers: ___, ...rest }: any) => rest)).toEqual([
      { side: 'left', category: 'power', what: 'power@APB', result: 'weak', grade: '4', utterance: 2 },
      { side: 'left', category: 'sensation', what: 'light.touch@D2.pulp', result: 'reduced', utterance: 3 },
      { side: 'left', category: 'special test', what: 'phalen@wrist', result: 'present', value: 30, unit: 's', utterance: 4 },
      { side: 'left', category: 'sensation', what: 'two.point@D2r', result: 'measured', value: 12, unit: 'mm', utterance: 6 },
    ]);
  });

  test('without a side are asked about, never filed', async () => {
    const { findings, questions, utterances } = await notes(['abductor pollicis brevis four']);
    expect(findings).toEqual([]);
    expect(utterances[0].status).toBe('queried');
    expect(questions).toMatchObject([{ utterance: 1, state: 'open', options: [[{ side: 'left', what: 'power@APB', grade: '4' }], [{ side: 'right' }], [{ side: 'left' }, { side: 'right' }]] }]);
  });

  test('obey orders', async () => {
    const { utterances, findings, withdrawn, concluded, stage } = await notes(['abductor pollicis brevis four left', 'withdraw that', 'hold', 'abductor pollicis brevis three left', 'carry on', 'next stage', 'conclude']);
    expect(utterances.map(({ status, order }: any) => [status, order])).toEqual([['accepted', null], ['accepted', 'withdraw'], ['accepted', 'hold'], ['ignored', null], ['accepted', 'carry on'], ['accepted', 'next stage'], ['accepted', 'conclude']]);
    expect([findings.length, withdrawn.length, concluded, stage]).toEqual([0, 1, true, 'feel']);
  });

  test('tell what remains by stage and side', async () => {
    const { stages, share } = await notes(['radial pulse present left', 'ulnar pulse present left', 'capillary refill two seconds left']);
    expect(stages.find(({ id }: any) => id === 'perfusion')).toEqual({ id: 'perfusion', done: false, remaining: ['radial', 'ulnar', 'refill'].map((name) => ({ side: 'right', item: `perfusion.${name}`, what: name === 'refill' ? 'refill@hand' : `pulse@${name}.artery` })) });
    expect(share).toMatchObject({ done: 3, total: 116 });
  });

  test('follow the protocol asked for', async () => {
    const output = await notes(['abductor pollicis brevis four left'], '--protocol', 'wound');
    expect([output.protocol, output.stages[0].id]).toEqual(['wound', 'perfusion']);
  });

  // Carpal tunnel syndrome: Preston & Shapiro 2013 [from memory]; spared thenar base: Wheeless [checked]
  test('carpal tunnel syndrome is localised, with the findings for it', async () => {
    const { localisation, findings } = await notes(['right hand', 'light touch thumb tip reduced', 'light touch index tip reduced', 'light touch middle tip reduced', 'abductor pollicis brevis four', 'flexor pollicis longus five', 'light touch little finger tip normal', 'phalen positive at forty seconds']);
    expect(findings).toHaveLength(7);
    expect(localisation.ranked[0]).toMatchObject({ id: 'median.carpal-tunnel', side: 'right', structure: 'median nerve' });
    const ids = new Set(findings.map(({ id }: any) => id));
    expect(localisation.ranked[0].for.length).toBeGreaterThan(0);
    for (const { finding } of localisation.ranked[0].for) expect(ids.has(finding)).toBe(true);
    expect(localisation.nextTests.length).toBeGreaterThan(0);
  });

  // BOAST compartment syndrome 2016 [checked] (via secondary): pulses may be normal
  test('a tense forearm with pain on passive stretch raises its caution, good pulse or not', async () => {
    const { cautions, findings } = await notes(['left hand', 'tense forearm', 'pain on passive stretch of the fingers', 'radial pulse present', 'abductor pollicis brevis five', 'caution noted']);
    const caution = cautions.find(({ id }: any) => id === 'compartment.left');
    expect(caution.acknowledged).toBe(true);
    expect(caution.because.map((id: string) => findings.find((finding: any) => finding.id === id).what)).toEqual(expect.arrayContaining(['tense@forearm']));
  });
});

describe('what must raise a caution, said as it is said, beside a good grade', () => {
  test.each<[string, string[], string]>([
    // Kennedy 2017 [checked]
    ['Kanavel signs', ['left hand', 'middle finger swollen', 'middle finger held flexed', 'tender along the flexor sheath of the middle finger', 'pain on passive extension of the middle finger'], 'flexor-sheath.left.D3'],
    // BSSH draft standards, open hand fractures, item 5 [checked]
    ['a white digit', ['left hand', 'ring finger white', 'capillary refill ring finger five seconds', 'fdp ring finger five'], 'pale-digit.left.D4'],
    // Patzakis 1987 [checked] (via secondary)
    ['a small cut over a knuckle', ['right hand', 'four millimetre laceration over the ring mcp joint', 'abductor pollicis brevis five'], 'fight-bite.right'],
    // Hogan & Ruland 2006 [checked]
    ['a high-pressure injection', ['right hand', 'high pressure injection injury index finger', 'abductor pollicis brevis five'], 'injection.right'],
    // BOAST arterial injuries [from memory]
    ['no radial pulse', ['right hand', 'radial pulse absent', 'abductor pollicis brevis five'], 'ischaemic-hand.right'],
    // Green's 2022 [from memory]
    ['numbness beyond a cut', ['left hand', 'laceration volar wrist', 'abductor pollicis brevis zero', 'little finger tip normal'], 'nerve-with-wound.left'],
  ])('%s', async (_, lines, id) => {
    expect((await notes(lines, '--protocol', 'wound')).cautions.map((caution: any) => caution.id)).toContain(id);
  });
});

describe('whatever the grammar can say', () => {
  test('is read, printed as the schema says, and no utterance is lost', async () => {
    const generate = createGenerator(linkGrammars(grammarSources().grammars), 20260302);
    // Findings first: a "hold" among the orders that follow keeps what comes after it.
    const lines = [...Array.from({ length: 120 }, () => 'finding'), ...Array.from({ length: 60 }, () => 'spoken')].map((rule) => generate(rule).words.join(' '));
    const { utterances, findings, withdrawn } = await notes(['left hand', ...lines]);
    expect(utterances.map(({ text }: any) => text)).toEqual(['left hand', ...lines]);
    expect(findings.length + withdrawn.length).toBeGreaterThan(50);
  });
});

describe('recordings', () => {
  // Synthetic voice (flite slt, 16 kHz): "reduced sensation index tip left", "first dorsal interosseous three left", made for this test.
  const clip = join(root, 'tests/headless/two-sentences.wav');

  test('go through the recogniser to the same findings, with times, beside notes', async () => {
    const { code, out } = await run([clip, put('after.txt', 'abductor pollicis brevis five left')], folder);
    expect(code).toBe(0);
    const output = JSON.parse(out);
    expect(validate(output), JSON.stringify(validate.errors, null, 1)).toBe(true);
    expect(output.utterances.map(({ text, from, status }: any) => [text, from, status])).toEqual([['reduced sensation index tip left', clip, 'accepted'], ['first dorsal interosseous three left', clip, 'accepted'], ['abductor pollicis brevis five left', 'after.txt', 'accepted']]);
    expect(output.findings.map(({ side, what, grade, utterance }: any) => [side, what, grade, utterance])).toEqual([['left', 'light.touch@D2.pulp', undefined, 1], ['left', 'power@DI1', '3', 2], ['left', 'power@APB', '5', 3]]);
    const [first, second, third] = output.utterances;
    expect(first.startS).toBeGreaterThan(0.2); // speech begins at 0.8 s; the recogniser keeps some silence before it
    expect(first.startS).toBeLessThan(1);
    expect(second.startS).toBeGreaterThan(first.endS);
    expect([third.startS, third.endS, third.confidence]).toEqual([null, null, 1]);
  });

  test('a silent recording is read, and said to hold no speech', async () => {
    const bytes = readFileSync(clip);
    const { code, out, err } = await run([put('silent.wav', new Uint8Array(bytes).fill(0, 44))], folder);
    expect([code, JSON.parse(out).utterances, err]).toEqual([0, [], 'silent.wav: no speech was heard.\n']);
  });
});

describe('bad input ends with 1, names the file and prints nothing', () => {
  const wav = readFileSync(join(root, 'tests/headless/two-sentences.wav'));
  test.each<[string, string, string | Uint8Array | null, RegExp]>([
    ['a missing file', 'gone.txt', null, /^gone\.txt: there is no such file\./], ['an empty note', 'empty.txt', ' \n\n', /^empty\.txt: the file is empty\./], ['a note that is no text', 'binary.txt', new Uint8Array([0xff, 0xfe, 0x00]), /^binary\.txt: this is not UTF-8 text/],
    ['a recording of no length', 'zero.wav', '', /^zero\.wav: the file is empty\./], ['a recording that is none', 'fake.wav', 'hello there, this is no audio', /^fake\.wav: this is not a WAV/],
    ['a truncated recording', 'cut.wav', wav.subarray(0, 4000), /^cut\.wav: the file is cut short/], ['another kind of file', 'notes.pdf', 'x', /^notes\.pdf: only \.wav recordings and \.txt notes are read\./], ['a folder', '.', null, /^\.: this is a folder/],
  ])('%s', async (_, name, content, message) => {
    if (content !== null) put(name, content);
    const { code, out, err } = await run([name], folder);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(message);
  });

  test('one bad file among good ones', async () => {
    put('good.txt', 'abductor pollicis brevis four left');
    expect(await run(['good.txt', 'gone.wav'], folder)).toEqual({ code: 1, out: '', err: 'gone.wav: there is no such file.\n' });
  });
});

test.skipIf(installedVoskModel())('a recording for the second engine without its model ends with 1 and says how to install it', async () => {
  const second = new Uint8Array(44 + 32_000);
  const view = new DataView(second.buffer);
  [...'RIFF____WAVEfmt '].forEach((letter, at) => { second[at] = letter.charCodeAt(0); });
  view.setUint32(4, second.length - 8, true); view.setUint32(16, 16, true); view.setUint16(20, 1, true); view.setUint16(22, 1, true);
  view.setUint32(24, 16_000, true); view.setUint32(28, 32_000, true); view.setUint16(32, 2, true); view.setUint16(34, 16, true);
  [...'data'].forEach((letter, at) => { second[36 + at] = letter.charCodeAt(0); });
  view.setUint32(40, 32_000, true);
  expect(await run(['--engine', 'vosk', put('second.wav', second)], folder)).toMatchObject({ code: 1, out: '', err: expect.stringMatching(/npm run model:vosk/) });
});

describe('wrong use ends with 2 and says how', () => {
  test.each<[string[], RegExp]>([
    [[], /Name at least one \.wav or \.txt file/], [['--protocol'], /--protocol needs a name/], [['--protocol', 'feet', 'a.txt'], /Unknown protocol "feet"\. Known: complete, wound, entrapment\./], [['--engine', 'ear', 'a.txt'], /Unknown engine "ear"/], [['--loud', 'a.txt'], /Unknown option --loud/], [['--protocol=toString', 'a.txt'], /Unknown protocol "toString"/],
  ])('%j', async (argv, message) => {
    const { code, out, err } = await run(argv, folder);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
    expect(err).toContain('Usage:');
  });

  test('options may come anywhere and as --name=value; after -- all are files', () => {
    expect(readArguments(['a.txt', '--protocol=wound', '--', '--odd.txt'])).toEqual({ kind: 'examine', protocol: 'wound', engine: 'automatic', files: ['a.txt', '--odd.txt'] });
  });
});

describe('the vocabulary', () => {
  test('lists every id that an output may hold', async () => {
    const { code, out } = await run(['--vocabulary'], folder);
    const { signs, sites, protocols, cautions, sides } = JSON.parse(out);
    expect(code).toBe(0);
    const output = await notes(['left hand', 'laceration palm', 'light touch index tip reduced', 'abductor pollicis brevis four']);
    for (const { what, side, result } of output.findings) {
      const [sign, site] = what.split('@');
      expect(signs[sign]).toBeDefined();
      expect(sites[site]).toBeDefined();
      expect(sides).toContain(side);
      expect([...signs[sign].levels, 'measured', 'not testable']).toContain(result);
    }
    expect(output.cautions.length).toBeGreaterThan(0);
    for (const { id } of output.cautions) expect(cautions.map((flag: any) => flag.id)).toContain(id.split('.')[0]);
    const items = protocols.find(({ id }: any) => id === output.protocol).stages.flatMap((stage: any) => stage.items.map((item: any) => item.id));
    for (const { item } of output.stages.flatMap((stage: any) => stage.remaining)) expect(items).toContain(item);
  });
});

describe('the command itself', () => {
  const call = (...argv: string[]): Outcome => {
    const { status, stdout, stderr } = spawnSync('npm', ['run', '-s', '--prefix', root, 'headless', '--', ...argv], { cwd: folder, encoding: 'utf8', env: { ...process.env, INIT_CWD: folder } });
    return { code: status as 0 | 1 | 2, out: stdout, err: stderr };
  };

  test('prints one JSON object from a file beside it, and nothing else', () => {
    put('here.txt', 'abductor pollicis brevis four left');
    const { code, out, err } = call('here.txt');
    expect([code, err]).toEqual([0, '']);
    expect(validate(JSON.parse(out))).toBe(true);
  });

  test('gives its exit codes to the shell', () => {
    expect(call('gone.txt').code).toBe(1);
    expect(call('--nonsense').code).toBe(2);
  });
});
