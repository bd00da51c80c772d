import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { chooseEngine, measuredFor, type EngineState, type Measured } from '../../src/recogniser/vosk/choose-engine';
import { chooseNodeEngine } from '../../src/recogniser/vosk/node';

const root = join(import.meta.dirname, '../..');
const states = (embedded: EngineState, vosk: EngineState): Readonly<Record<'embedded' | 'vosk', EngineState>> => ({ embedded, vosk });
const figures = (conditions: Measured['conditions']): Measured => ({ model: 'm', command: 'c', voices: 'v', clips: 1, conditions });
const at = (exact: number, wronglyFiled: number): Measured => figures({ quiet: { exact, wronglyFiled } });

describe('the choice of engine', () => {
  it.each([
    ['the only one installed', states({ installed: true }, { installed: false }), 'automatic', 'embedded', /only one installed/],
    ['the embedded one until the other has been measured', states({ installed: true, measured: at(0.5, 0.1) }, { installed: true }), 'automatic', 'embedded', /no measured figures for the second engine/],
    ['the embedded one where its own model has no figures', states({ installed: true }, { installed: true, measured: at(1, 0) }), 'automatic', 'embedded', /no measured figures for its model/],
    ['the better one when both were measured', states({ installed: true, measured: at(0.9, 0.001) }, { installed: true, measured: at(0.95, 0) }), 'automatic', 'vosk', /better of the two/],
    ['not the one that hears more and errs more', states({ installed: true, measured: at(0.9, 0.001) }, { installed: true, measured: at(0.95, 0.01) }), 'automatic', 'embedded', /not measured to be better/],
    ['not one that was measured and then removed', states({ installed: true, measured: at(0.9, 0) }, { installed: false, measured: at(1, 0) }), 'automatic', 'embedded', /only one installed/],
    ['what was asked for', states({ installed: true, measured: at(0.9, 0) }, { installed: true }), 'vosk', 'vosk', /was chosen/],
  ])('is %s', (_, engines, wanted, engine, why) => {
    const choice = chooseEngine(engines, wanted);
    expect(choice.engine).toBe(engine);
    expect(choice.why).toMatch(why);
  });

  it('compares engines under the conditions that both were measured in, and no others', () => {
    const embedded = figures({ quiet: { exact: 0.8, wronglyFiled: 0 }, loud: { exact: 0.1, wronglyFiled: 0 } });
    expect(chooseEngine(states({ installed: true, measured: embedded }, { installed: true, measured: at(0.7, 0) })).engine).toBe('embedded');
    expect(chooseEngine(states({ installed: true, measured: embedded }, { installed: true, measured: figures({ elsewhere: { exact: 1, wronglyFiled: 0 } }) }))).toEqual({ engine: 'embedded', why: 'the two engines were not measured under the same conditions' });
  });

  it('says what to do when it cannot be followed', () => {
    expect(() => chooseEngine(states({ installed: true }, { installed: false }), 'vosk')).toThrow('Run "npm run model:vosk"');
    expect(() => chooseEngine(states({ installed: true }, { installed: false }), 'other')).toThrow('Choose one of: automatic, embedded, vosk.');
  });

  it('works on what is installed here', () => {
    expect(chooseNodeEngine('automatic', '/nowhere')).toEqual({ engine: 'embedded', why: 'it is the only one installed' });
    expect(chooseNodeEngine('embedded').engine).toBe('embedded');
  });
});

describe('figures on record', () => {
  const { engines } = JSON.parse(readFileSync(join(root, 'models/measured.json'), 'utf8')) as { engines: Record<string, Measured & { printedIn: string }> };

  it('belong to one model', () => {
    expect(measuredFor('embedded', 'm', { embedded: at(1, 0) })).toEqual(at(1, 0));
    expect(measuredFor('embedded', 'another', { embedded: at(1, 0) })).toBeUndefined();
    expect(measuredFor('vosk', 'm', { embedded: at(1, 0) })).toBeUndefined();
  });

  it.each(Object.entries(engines))('of the engine "%s" are those that their command printed', (_, { command, printedIn, conditions }) => {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
    expect(Object.keys(scripts)).toContain(/^npm run (\S+)/.exec(command)?.[1] ?? '');
    expect(existsSync(join(root, printedIn)), printedIn).toBe(true);
    const lines = readFileSync(join(root, printedIn), 'utf8').split('\n');
    const percent = (share: number): string => (100 * share).toFixed(1);
    for (const [name, { exact, wronglyFiled }] of Object.entries(conditions)) {
      const printed = lines.filter((line) => line.startsWith(`${name} `)).map((line): string[] => line.match(/\d+\.\d/g) ?? []);
      expect(printed.some((row) => row.includes(percent(exact)) && row.includes(percent(wronglyFiled))), `${name} in ${printedIn}`).toBe(true);
    }
  });
});
