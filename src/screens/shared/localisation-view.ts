import type { Comparison, Evidence, Localisation, NextTest, RankedLesion } from '../../localiser/localisation';
import { SIDES } from '../../vocabulary';
import type { Side } from '../../vocabulary';
import type { ApartView, LocalisationView, PlaceView } from './view';
import { percent, sideInWords } from './view';

const lines = (evidence: readonly Evidence[]): readonly string[] => evidence.map(({ words }) => words);

const placeInWords = ({ side, structure, level, kind }: RankedLesion): string =>
  kind === 'normal' ? `${sideInWords(side)}: no lesion found in what was examined` : `${sideInWords(side)}: ${structure}${level ? `, ${level}` : ''}`;

/** An explanation's id alone may stand on both hands. */
const brief = (lesion: RankedLesion): ApartView['places'][number] => ({ id: `${lesion.side} ${lesion.id}`, words: placeInWords(lesion), percent: percent(lesion.probability) });

function placeView(lesion: RankedLesion): PlaceView {
  return { ...brief(lesion), speaksFor: lines(lesion.for), spared: lines(lesion.spared), speaksAgainst: lines(lesion.against) };
}

/** Below this the first place is one of many, and is not shown as if it were an answer (a choice). */
const CLEAR = 0.3;

/** A longer reason is not read at the bedside. */
const LONGEST_REASON = 160;

/** Which two explanations a test tells apart, in words; empty unless both are on the list. */
function reasonFor(ranked: readonly RankedLesion[], { side, separates: [one, other] }: NextTest): string {
  const [first, second] = [one, other].map((id) => ranked.find((lesion) => lesion.side === side && lesion.id === id));
  const words = first && second ? `tells “${placeInWords(first)}” from “${placeInWords(second)}”` : '';
  return words.length <= LONGEST_REASON ? words : '';
}

/** What one hand's findings leave open. Where no explanation fits, telling the nearest apart would suggest that one of them is right. */
function apartView({ sides }: Localisation, side: Side): readonly ApartView[] {
  const answer = sides[side];
  if (answer?.fit !== 'ok' || !answer.cannotTellApart.length) return [];
  const places = answer.cannotTellApart.flatMap((id) => answer.ranked.filter((lesion) => lesion.id === id)).map(brief);
  return [{ places, tests: answer.wouldTellApart.map(({ words }) => words) }];
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
    apart: SIDES.toSorted((a, b) => Number(b === shown[0]?.side) - Number(a === shown[0]?.side)).flatMap((side) => apartView(localisation, side)),
    nextTests: localisation.nextTests.map((test) => ({ words: test.words, why: reasonFor(localisation.ranked, test) })),
    ...(notes.length ? { note: notes.join(' ') } : {}),
  };
}

const HANDS = { leftOnly: 'only the left hand', rightOnly: 'only the right hand', both: 'both hands', neither: 'neither hand' } as const;
/** A chance below this is not worth a reader's time (a choice). */
const WORTH_SAYING = 0.01;

/** How likely each hand, both or neither has a lesion, likeliest first: "only the left hand 87 %, both hands 12 %". */
export const handsInWords = (comparison: Comparison): string =>
  (Object.keys(HANDS) as (keyof typeof HANDS)[]).filter((hands) => comparison[hands] >= WORTH_SAYING).sort((a, b) => comparison[b] - comparison[a])
    .map((hands) => `${HANDS[hands]} ${percent(comparison[hands]).replaceAll(' ', '\u00a0')}`).join(', ');
