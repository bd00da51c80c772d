import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readFstSymbols, readTextSymbols, readVocabulary, SymbolTableError } from '../../src/recogniser/vosk/symbol-table';

/** Written by kaldifst 1.8.3 (PyPI), see fixtures/make-fst.py; none of this project's code took part. */
const fixture = (name: string): Uint8Array => readFileSync(new URL(`./fixtures/${name}`, import.meta.url));
const WORDS = ['<eps>', '!SIL', '[unk]', 'the', 'numb', 'finger', "don't", 'café', 'Index', '#0', '<s>', '</s>'];
const text = (value: string): Uint8Array => new TextEncoder().encode(value);

describe('symbol table of a transducer that another library wrote', () => {
  it.each(['acceptor.fst', 'transducer.fst', 'input-only.fst', 'const.fst'])('%s gives its words in order', (name) => {
    expect(readFstSymbols(fixture(name))).toEqual(WORDS);
  });

  it('says so when there is no table', () => {
    expect(() => readFstSymbols(fixture('bare.fst'))).toThrow('The transducer carries no symbol table.');
  });

  it('says so when the file is cut off anywhere', () => {
    const whole = fixture('const.fst');
    const end = whole.length - 12;
    for (let length = 4; length < end; length += 1) {
      let words: string[] | null = null;
      try { words = readFstSymbols(whole.subarray(0, length)); } catch (error) { expect(error, `${length} bytes`).toBeInstanceOf(SymbolTableError); }
      if (words) expect(words, `${length} bytes`).toEqual(WORDS);
    }
    expect(() => readFstSymbols(whole.subarray(0, 100))).toThrow(/ends in the middle/);
  });

  it('refuses other files', () => {
    expect(() => readFstSymbols(text('not a transducer'))).toThrow(/not a finite-state transducer/);
    expect(() => readFstSymbols(new Uint8Array())).toThrow(SymbolTableError);
  });
});

describe('text symbol table', () => {
  it('reads words and numbers', () => {
    expect(readTextSymbols('<eps> 0\nthe 1\nnumb\t2\n')).toEqual(['<eps>', 'the', 'numb']);
  });
  it('names the line at fault', () => {
    expect(() => readTextSymbols('the 1\nnumb\n')).toThrow('Line 2 of the symbol table is not a word and its number: "numb".');
  });
});

describe('vocabulary of a model', () => {
  it('keeps words only, in lower case', () => {
    expect([...readVocabulary(new Map([['graph/Gr.fst', fixture('acceptor.fst')]]))]).toEqual(['the', 'numb', 'finger', "don't", 'café', 'index']);
  });
  it('prefers the text table', () => {
    expect([...readVocabulary(new Map([['graph/words.txt', text('only 1\n')], ['graph/Gr.fst', fixture('acceptor.fst')]]))]).toEqual(['only']);
  });
  it('names the file at fault', () => {
    expect(() => readVocabulary(new Map([['graph/Gr.fst', fixture('bare.fst')]]))).toThrow('graph/Gr.fst: The transducer carries no symbol table.');
    expect(() => readVocabulary(new Map([['graph/words.txt', text('<eps> 0\n')]]))).toThrow('graph/words.txt: There is no word in it.');
    expect(() => readVocabulary(new Map())).toThrow(/None of graph\/words\.txt, graph\/Gr\.fst, graph\/HCLG\.fst is there/);
  });
});
