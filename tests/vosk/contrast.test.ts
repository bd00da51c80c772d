import { describe, expect, it } from 'vitest';
import { acceptor, readContrasts } from '../../src/grammar';
import { doubtfulRivals } from '../../src/recogniser/vosk/contrast';
import { projectSpokenGrammar } from '../../src/setup/vosk-language';
import { readFileSync } from 'node:fs';

const grammar = projectSpokenGrammar();
const contrasts = readContrasts(readFileSync(new URL('../../grammars/contrasts.txt', import.meta.url), 'utf8'));
const rivals = (sentence: string, ...spelled: string[]): string[] =>
  doubtfulRivals(sentence.split(' '), { contrasts, isSentence: acceptor(grammar), pronunciations: grammar.pronunciations, isSpelled: (word) => spelled.includes(word) });

describe('contrasts that the second engine cannot vouch for', () => {
  it('are those of a spelled word with a near neighbour, either way round', () => {
    expect(rivals('thumb abduction grade four left', 'adduction')).toEqual(['thumb adduction grade four left']);
    expect(rivals('thumb adduction grade four left', 'adduction')).toEqual(['thumb abduction grade four left']);
  });
  it('are none where the model has both words, or where the neighbour sounds different', () => {
    expect(rivals('thumb abduction grade four left')).toEqual([]);
    expect(rivals('thumb flexion grade four left', 'extension')).toEqual([]);
  });
});
