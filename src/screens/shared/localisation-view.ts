import type { Evidence, Localisation, RankedLesion } from '../../localiser/localisation';
import type { LocalisationView, PlaceView } from './view';
import { percent, sideInWords } from './view';

const lines = (evidence: readonly Evidence[]): readonly string[] => evidence.map(({ words }) => words);

const placeInWords = ({ side, structure, level, kind }: RankedLesion): string =>
  kind === 'normal' ? `${sideInWords(side)}: no lesion found in what was examined` : `${sideInWords(side)}: ${structure}${level ? `, ${level}` : ''}`;

function placeView(lesion: RankedLesion): PlaceView {
  return { id: lesion.id, words: placeInWords(lesion), percent: percent(lesion.probability), speaksFor: lines(lesion.for), spared: lines(lesion.spared), speaksAgainst: lines(lesion.against) };
}

/** Below this the first place is one of many, and is not shown as if it were an answer (a choice). */
const CLEAR = 0.3;

/** A longer reason is not read at the bedside. */
const LONGEST_REASON = 160;

/** Which two explanations a test tells apart, in words; empty unless both are on the list. */
function apart(ranked: readonly RankedLesion[], [one, other]: readonly string[]): string {
  const [first, second] = [one, other].map((id) => ranked.find((lesion) => lesion.id === id));
  const words = first && second ? `tells “${placeInWords(first)}” from “${placeInWords(second)}”` : '';
  return words.length <= LONGEST_REASON ? words : '';
}

/** What the screens show of a localisation; null while there is too little to go by. A side that looks normal is not shown above one that doesn't. */
export function localisationView(localisation: Localisation): LocalisationView | null {
  if (localisation.fit === 'too little' || !localisation.ranked.length) return null;
  const ranked = [...localisation.ranked].sort((a, b) => Number(a.kind === 'normal') - Number(b.kind === 'normal'));
  const shown = ranked.some(({ kind }) => kind !== 'normal') ? ranked.filter(({ kind }) => kind !== 'normal') : ranked;
  const notes = [
    ...(localisation.fit === 'poor' ? ['No single place explains all findings.'] : []),
    ...(localisation.stability.stable ? [] : [localisation.stability.words]),
    ...localisation.problems,
  ];
  return {
    clear: (shown[0]?.probability ?? 0) >= CLEAR,
    places: shown.map(placeView),
    nextTests: localisation.nextTests.map(({ words, separates }) => ({ words, why: apart(localisation.ranked, separates) })),
    ...(notes.length ? { note: notes.join(' ') } : {}),
  };
}
