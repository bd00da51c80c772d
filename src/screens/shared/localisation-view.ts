import type { Evidence, Localisation, RankedLesion } from '../../localiser/localisation';
import type { LocalisationView, PlaceView } from './view';
import { percent, sideInWords } from './view';

const lines = (evidence: readonly Evidence[]): readonly string[] => evidence.map(({ words }) => words);

const placeInWords = ({ side, structure, level, kind }: RankedLesion): string =>
  kind === 'normal' ? `${sideInWords(side)}: nothing abnormal` : `${sideInWords(side)}: ${structure}${level ? `, ${level}` : ''}`;

function placeView(lesion: RankedLesion): PlaceView {
  return { id: lesion.id, words: placeInWords(lesion), percent: percent(lesion.probability), speaksFor: lines(lesion.for), spared: lines(lesion.spared), speaksAgainst: lines(lesion.against) };
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
    places: shown.map(placeView),
    nextTests: localisation.nextTests.map(({ words, separates }) => ({ words, why: separates.length > 1 ? `Tells ${separates.slice(0, 2).join(' from ')}.` : '' })),
    ...(notes.length ? { note: notes.join(' ') } : {}),
  };
}
