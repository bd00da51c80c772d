import { LOCALISATION_CAUTION, localise } from '../localiser';
import type { Evidence, Localisation, NextTest, Options } from '../localiser';
import type { Finding } from '../vocabulary';
import { InputError } from './input';

const round = (value: number): number => Math.round(value * 10_000) / 10_000;
const testOut = ({ item, side, gain, words }: NextTest): Record<string, unknown> => ({ side, what: item, gain: round(gain), words });

/** Where the lesion may be, as the headless command prints it. @param idOf how a finding is named in the output */
export function localisationOut(localisation: Localisation, idOf: (finding: Finding) => string | null): Record<string, unknown> {
  const evidence = (list: readonly Evidence[]): unknown[] => list.map(({ finding, words, bits }) => ({ finding: idOf(finding), words, bits: round(bits) }));
  const { fit, sides, ranked, cannotTellApart, wouldTellApart, nextTests, comparison, stability, problems } = localisation;
  return {
    fit,
    sides: Object.fromEntries(Object.entries(sides).map(([side, answer]) => [side, { fit: answer.fit, words: answer.words, stable: answer.stability.stable, structures: answer.structures.map(({ structure, probability }) => ({ structure, probability: round(probability) })) }])),
    ranked: ranked.map(({ id, structure, level, side, probability, words, for: supporting, spared, against }) => ({ id, structure, level, side, probability: round(probability), words, for: evidence([...supporting, ...spared]), against: evidence(against) })),
    cannotTellApart, wouldTellApart: wouldTellApart.map(testOut), nextTests: nextTests.map(testOut),
    ...(comparison ? { comparison: { leftOnly: round(comparison.leftOnly), rightOnly: round(comparison.rightOnly), both: round(comparison.both), neither: round(comparison.neither), differing: comparison.differing.map(({ item, worse, words }) => ({ what: item, worse, words })), words: comparison.words } } : {}),
    stability: { stable: stability.stable, hangsOn: stability.hangsOn.map(idOf), words: stability.words },
    problems, caution: LOCALISATION_CAUTION,
  };
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Localises a list of coded findings read from a file: a JSON array of findings, or { "findings": […], "onset": …, "injuredSide": … }.
 * A faulty finding is left out and named in `problems`, as the localiser does it.
 * @returns the printed form; findings are named by their place in the list, from 1
 * @throws InputError when the text is no such list
 */
export function localiseText(text: string, from: string): Record<string, unknown> {
  let value: unknown;
  try { value = JSON.parse(text); } catch (error) { throw new InputError(`${from}: this is not JSON (${(error as Error).message}).`); }
  const { findings, onset, injuredSide } = Array.isArray(value) ? { findings: value, onset: undefined, injuredSide: undefined } : isObject(value) ? value : {};
  if (!Array.isArray(findings)) throw new InputError(`${from}: name a list of findings, or an object with "findings". Its schema: src/headless/findings.schema.json.`);
  if (onset !== undefined && !isObject(onset)) throw new InputError(`${from}: "onset" is a time, such as { "value": 3, "unit": "d" }.`);
  if (injuredSide !== undefined && injuredSide !== 'left' && injuredSide !== 'right' && injuredSide !== 'both') throw new InputError(`${from}: "injuredSide" is left, right or both.`);
  const list = findings as Finding[];
  const place = (finding: Finding): string | null => { const at = list.indexOf(finding); return at < 0 ? null : String(at + 1); };
  return localisationOut(localise(list, { ...(onset ? { onset: onset as unknown as Options['onset'] & object } : {}), ...(injuredSide ? { injuredSide } : {}) }), place);
}
