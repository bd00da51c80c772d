import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decibels, levelView, SILENT_AFTER_S } from '../../src/screens/hearing/level';
import { ACTIONS, giveKey, parseKeyMap, readKey, USUAL_KEYS } from '../../src/screens/shared/keys';
import { messageOf, MESSAGES } from '../../src/screens/shared/messages';
import { formatRoute, parseRoute } from '../../src/screens/shared/route';
import { SCORE, SOUNDS } from '../../src/screens/shared/sounds';
import { percent } from '../../src/screens/shared/view';
import { readSetUp } from '../../src/screens/start/set-up';
import type { SetUpForm } from '../../src/screens/start/set-up';

describe('level meter', () => {
  const level = (rms: number, peak = rms * 4, clipped = false) => ({ rms, peak, clipped });

  it('shows 0 dB at the right end and -60 dB at the left', () => {
    // Decibels relative to full scale: 20 log10 (IEC 61606, from memory); halving the amplitude takes 6.02 dB.
    expect(decibels(0.5)).toBeCloseTo(-6.02, 2);
    expect(levelView('listening', level(1), 0, 9).fill).toBe(1);
    expect(levelView('listening', level(0.001), 0, 9).fill).toBeCloseTo(0, 5);
    expect(levelView('listening', level(0), 0, 9).fill).toBe(0);
  });

  it('has a word of its own for every state', () => {
    const words = [
      levelView('listening', level(0.1), 0, 9), levelView('held', level(0.1), 0, 9), levelView('listening', level(0), SILENT_AFTER_S + 1, 9),
      levelView('listening', level(0.9, 1, true), 0, 0), levelView('off', null, 0, 9), levelView('failed', null, 0, 9), levelView('restarting', null, 0, 9), levelView('starting', null, 0, 9), levelView('reading', level(0.1), 0, 9),
    ].map(({ word }) => word);
    expect(words.slice(0, 4)).toEqual(['Listening', 'Held', 'No signal', 'Too loud']);
    expect(new Set(words).size).toBe(words.length);
  });

  it('does not call a held microphone silent', () => {
    expect(levelView('held', level(0), 60, 9).word).toBe('Held');
  });
});

describe('keys and pedals', () => {
  it('reads the usual keys, and digits as answers', () => {
    expect(readKey(USUAL_KEYS, ' ', null)).toEqual({ action: 'hold' });
    expect(readKey(USUAL_KEYS, 'PageDown', null)).toEqual({ action: 'forward' });
    expect(readKey(USUAL_KEYS, '2', null)).toEqual({ option: 1 });
    expect(readKey(USUAL_KEYS, 'q', null)).toBeNull();
  });

  it('leaves keys to the field or button that has the focus', () => {
    expect(readKey(USUAL_KEYS, ' ', 'text')).toBeNull();
    expect(readKey(USUAL_KEYS, '2', 'text')).toBeNull();
    expect(readKey(USUAL_KEYS, 'Enter', 'button')).toBeNull();
    expect(readKey(USUAL_KEYS, 'PageDown', 'text')).toEqual({ action: 'forward' });
  });

  it('never has one key do two things', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.constantFrom(...ACTIONS), fc.constantFrom('a', ' ', 'PageDown', 'F13', '1', 'Enter'))), (changes) => {
      const map = changes.reduce((now, [action, key]) => giveKey(now, action, key), USUAL_KEYS);
      const keys = Object.values(map).flat();
      expect(new Set(keys).size).toBe(keys.length);
      expect(keys).not.toContain('1');
    }));
  });

  it.each([null, '', 'nonsense', '[]', '{"hold":7}', '{"hold":["1"]}'])('falls back to the usual keys on a stored map of %s', (text) => {
    expect(parseKeyMap(text)).toEqual(USUAL_KEYS);
  });

  it('keeps a stored change', () => {
    expect(parseKeyMap(JSON.stringify(giveKey(USUAL_KEYS, 'hold', 'F13'))).hold).toEqual(['F13']);
  });
});

describe('addresses', () => {
  it.each(['', '#', '#/nowhere', '#/bedside', '#/bedside/', '#/desk/%E0%A4%A'])('"%s" leads to the start', (hash) => {
    expect(parseRoute(hash)).toEqual({ screen: 'start' });
  });
  it('comes back from every address it makes', () => {
    fc.assert(fc.property(fc.string({ minLength: 1 }), (examinationId) => {
      expect(parseRoute(formatRoute({ screen: 'bedside', examinationId }))).toEqual({ screen: 'bedside', examinationId });
    }));
  });
});

describe('messages', () => {
  it('says what to do each time', () => {
    for (const { what, todo } of Object.values(MESSAGES)) { expect(what).toMatch(/\.$/); expect(todo.length).toBeGreaterThan(20); }
  });
  it.each([
    ['No microphone was found. Connect one and try again.', { what: 'No microphone was found.', todo: 'Connect one and try again.' }],
    ['boom', { what: 'boom', todo: '' }],
  ])('takes "%s" apart', (text, message) => { expect(messageOf(new Error(text))).toEqual(message); });
  it('passes a message on unchanged', () => { expect(messageOf(MESSAGES.modelMissing)).toBe(MESSAGES.modelMissing); });
});

describe('sounds', () => {
  it('differ in their course, not only in pitch', () => {
    const courses = SOUNDS.map((sound) => SCORE[sound].map((note, n, all) => `${n ? Math.sign(note.hertz - (all[n - 1]?.hertz ?? 0)) : ''}${note.lasts > 0.3 ? 'long' : ''}`).join(' '));
    expect(new Set(courses).size).toBe(SOUNDS.length);
  });
  it('a finding is confirmed in under a quarter of a second', () => {
    for (const { at, lasts } of SCORE.accepted) expect(at + lasts).toBeLessThan(0.25);
  });
});

describe('percentages', () => {
  it.each([[0.5, '50 %'], [0.999, 'over 99 %'], [0.001, 'under 1 %'], [1, 'over 99 %'], [0, 'under 1 %'], [NaN, '?']])('%d is "%s"', (p, words) => { expect(percent(p)).toBe(words); });
});

describe('set-up', () => {
  const form: SetUpForm = { label: 'Heron 27', injuredSide: 'left', handedness: '', mechanism: ' Cut by glass ', onsetValue: '3', onsetUnit: 'h', protocol: 'complete' };
  it('keeps what was said and leaves the rest open', () => {
    expect(readSetUp(form)).toEqual({ ok: true, setUp: { label: 'Heron 27', injuredSide: 'left', mechanism: 'Cut by glass', onset: { value: 3, unit: 'h' }, protocol: 'complete' } });
  });
  it('gives every hint at once', () => {
    const reading = readSetUp({ ...form, label: 'Anna Smith', onsetValue: 'three' });
    expect(reading.ok ? [] : Object.keys(reading.hints)).toEqual(['label', 'onset']);
  });
  it.each(['-1', 'x', '1/2'])('refuses the onset "%s"', (onsetValue) => { expect(readSetUp({ ...form, onsetValue }).ok).toBe(false); });
});

describe('colours', () => {
  const css = readFileSync(new URL('../../src/screens/styles/theme.css', import.meta.url), 'utf8');
  const tokens = (block: string): Record<string, string> => Object.fromEntries([...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map(([, name, value]) => [name!, value!]));
  const lamp = tokens(css.slice(css.indexOf(':root {'), css.indexOf("data-look='paper'")));
  const paper = { ...lamp, ...tokens(css.slice(css.indexOf("data-look='paper'"))) };
  // Relative luminance and contrast as defined by WCAG 2.2; 4.5:1 is success criterion 1.4.3 (AA), 7:1 is 1.4.6 (AAA).
  const luminance = (hex: string): number => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a: string, b: string): number => { const [x, y] = [luminance(a), luminance(b)].sort((m, n) => n - m) as [number, number]; return (x + 0.05) / (y + 0.05); };

  it('the formula gives 21:1 for black on white (WCAG 2.2)', () => { expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5); });

  it.each([['lamp', lamp], ['paper', paper]] as const)('every text tint of the %s look reaches 4.5:1 on every ground', (_, look) => {
    for (const tint of ['ink', 'ink-soft', 'lamp', 'leaf', 'sky', 'ember'] as const)
      for (const ground of ['ground', 'panel', 'raised'] as const) expect(contrast(look[tint]!, look[ground]!), `${tint} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    expect(contrast(look['on-lamp']!, look.lamp!)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(look['on-ember']!, look.ember!)).toBeGreaterThanOrEqual(4.5);
  });
  it('what is read at two metres reaches 7:1 in the dark bay', () => { for (const tint of ['ink', 'lamp', 'leaf'] as const) expect(contrast(lamp[tint]!, lamp.panel!)).toBeGreaterThanOrEqual(7); });
});
