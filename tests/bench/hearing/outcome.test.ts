import { describe, expect, it } from 'vitest';
import { linkGrammars } from '../../../src/grammar';
import { grammarSources } from '../../../src/grammar/sources.node.ts';
import { createParser } from '../../../src/parser';
import { outcomeOf, textOutcome, wordErrors, wordsOf, type Heard } from './outcome';

const parse = createParser(linkGrammars(grammarSources().grammars));
const accepted = (...readings: string[]): Heard => ({ verdict: 'accepted', readings });
const queried = (...readings: string[]): Heard => ({ verdict: 'queried', readings });
const ignored: Heard = { verdict: 'ignored', readings: ['left hand'] };

describe('what became of a sentence', () => {
  const said = 'left thumb abduction grade three';
  it.each<[string, readonly Heard[], string]>([
    ['filed as said', [accepted(said)], 'exact'],
    ['the same meaning in other words', [accepted('thumb abduction grade three left')], 'exact'],
    ['another grade', [accepted('left thumb abduction grade two')], 'wrong, filed'],
    ['another side', [accepted('right thumb abduction grade three')], 'wrong, filed'],
    ['without its side: asked for, but the grade is right', [accepted('thumb abduction grade three')], 'part filed'],
    ['without its side, and the movement is wrong', [accepted('thumb adduction grade three')], 'wrong, filed'],
    ['an order instead', [accepted('withdraw that')], 'wrong, filed'],
    ['asked, first reading right', [queried(said, 'left thumb abduction grade two')], 'asked, right'],
    ['asked, second reading right', [queried('left thumb abduction grade two', said)], 'asked, offered'],
    ['asked, none right', [queried('left thumb adduction grade two')], 'asked, wrong'],
    ['ignored', [ignored], 'missed'],
    ['nothing', [], 'missed'],
    ['cut in two, both filed', [accepted('left hand'), accepted('thumb abduction grade three')], 'exact'],
    ['cut in two, one lost', [accepted('left hand'), ignored], 'part filed'],
    ['a needless question beside the finding', [accepted(said), queried('no')], 'asked, right'],
  ])('%s', (_, heard, outcome) => expect(outcomeOf(parse, said, heard)).toBe(outcome));

  it('reads a recogniser\'s text like a typed line', () => {
    expect(textOutcome(parse, said, 'Left thumb abduction, grade 3.')).toBe('exact');
    expect(textOutcome(parse, said, 'Left thumb abduction, grade 2.')).toBe('wrong, filed');
    expect(textOutcome(parse, said, 'Left some addiction great tree.')).toBe('missed');
  });
});

describe('errors per word', () => {
  // Wagner and Fischer, Journal of the ACM 21(1):168-173, 1974: changes, insertions and deletions count one each.
  it('counts words changed, added and left out', () => {
    expect(wordErrors('no wasting left hand', 'no wasting left hand')).toBe(0);
    expect(wordErrors('no wasting left hand', 'wasting of left arm')).toBe(3);
    expect(wordErrors('no wasting', '')).toBe(2);
    expect(wordErrors('', 'no wasting')).toBe(2);
  });
  it('does not count how numbers, capitals, stops and abbreviations are written', () => {
    expect(wordsOf('Grade 4, left ECRB.')).toEqual(['grade', 'four', 'left', 'e', 'c', 'r', 'b']);
    expect(wordErrors('elbow flexion forty five degrees', 'Elbow flexion 45 degrees.')).toBe(0);
  });
});
