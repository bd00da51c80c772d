import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import * as runtime from 'onnxruntime-web';
import { describe, expect, it } from 'vitest';
import { readRescorer } from '../../src/recogniser/rescorer/files';
import { openRescorer } from '../../src/recogniser/rescorer/rescorer';
import { mergings, rankOf, written } from '../../src/recogniser/rescorer/tokens';
import { treeOf } from '../../src/recogniser/rescorer/tree';
import { listClips, readClip } from '../speech/clips';

describe('the tree of sentences', () => {
  const sentence = fc.array(fc.nat(5), { minLength: 1, maxLength: 7 });

  it('leads along each sentence, token by token, and computes what is shared once', () => {
    fc.assert(fc.property(fc.array(sentence, { maxLength: 8 }), (sentences) => {
      const { tokens, links, paths, positions } = treeOf([90, 91], sentences);
      expect(paths.map((path) => path.map((link) => links[link]?.[1]))).toEqual(sentences);
      for (const path of paths) path.forEach((link, i) => {
        const [node = -1] = links[link] ?? [];
        expect(positions[node]).toBe(i + 1);
        expect(tokens[node]).toBe(i === 0 ? 91 : links[path[i - 1] ?? -1]?.[1]);
      });
      const prefixes = new Set(sentences.flatMap((each) => each.slice(0, -1).map((_, i) => each.slice(0, i + 1).join())));
      expect(tokens.length).toBe(2 + prefixes.size);
      expect(new Set(links.map(String)).size).toBe(links.length);
    }));
  });

  it('lets a node see itself and what it came from, and nothing else', () => {
    const { mask, tokens } = treeOf([90, 91], [[1, 2, 9], [1, 3, 9]]);
    expect(tokens).toEqual([90, 91, 1, 2, 3]);
    const seen = tokens.map((_, row) => tokens.filter((_token, column) => mask[row * tokens.length + column] === 0));
    expect(seen).toEqual([[90], [90, 91], [90, 91, 1], [90, 91, 1, 2], [90, 91, 1, 3]]);
  });
});

describe('words in pieces', () => {
  it('merges the pair that was learned first (the worked example of Sennrich, Haddow and Birch 2016, figure 1)', () => {
    const rank = rankOf(['l', 'o', 'w', 'e', 'r', 'r·', 'lo', 'low', 'er·']);
    expect(mergings('low', rank).at(-1)).toEqual(['low']);
    expect(mergings('lower', rank).at(-1)).toEqual(['low', 'e', 'r']);
    expect(mergings('lol', rank)).toEqual([['l', 'o', 'l'], ['lo', 'l']]);
  });
  it('writes a sentence as people do', () => expect(written('no wasting left')).toEqual(['ĠNo', 'Ġwasting', 'Ġleft']));
});

const folder = new URL('../../models/files/rescorer/', import.meta.url);
describe.skipIf(!existsSync(new URL('made.json', folder)))('weighing sentences against audio (needs the network that set-up fetches)', () => {
  const opened = readRescorer(async (name) => new Uint8Array(readFileSync(new URL(name, folder)))).then((parts) => openRescorer(runtime, parts));

  it('finds a sentence that was said more probable than the same with another side, and than another sentence altogether', async () => {
    const rescorer = await opened;
    const clips = listClips().filter(({ text }) => /\b(left|right)\b/.test(text)).slice(0, 40);
    let right = 0;
    for (const { file, text } of clips) {
      const weigh = await rescorer.hear(await readClip(file));
      const [said, side, other] = await weigh([text, text.replace(/\b(left|right)\b/, (word) => (word === 'left' ? 'right' : 'left')), 'amend the last one to grade four']);
      expect(said?.total, text).toBeGreaterThan(other?.total ?? 0);
      if ((said?.total ?? -Infinity) > (side?.total ?? 0)) right += 1;
    }
    // Synthetic voices; 40 of 40 when this was written.
    expect(right).toBeGreaterThanOrEqual(39);
  });

  it('gives a sentence the same weight alone and in company', async () => {
    const [clip] = listClips();
    const weigh = await (await opened).hear(await readClip(clip?.file ?? ''));
    const texts = ['no wasting left hand', 'no wasting left thumb', 'no wasting right hand'];
    const together = await weigh(texts);
    for (const [i, text] of texts.entries()) {
      const [alone] = await weigh([text]);
      // Matrices in 8 bits: what stands beside a sentence changes the rounding a little.
      expect(Math.abs((alone?.total ?? 0) - (together[i]?.total ?? 0))).toBeLessThan(1);
    }
    expect(await weigh([])).toEqual([]);
  });

  it('answers two who ask at once, each for its own audio', async () => {
    const rescorer = await opened;
    const clips = listClips().slice(0, 3);
    const audio = await Promise.all(clips.map(({ file }) => readClip(file)));
    const ask = async (i: number): Promise<number | undefined> => (await (await rescorer.hear(audio[i] ?? new Float32Array()))([clips[i]?.text ?? '']))[0]?.total;
    const oneByOne = [await ask(0), await ask(1), await ask(2)];
    expect(await Promise.all([ask(0), ask(1), ask(2)])).toEqual(oneByOne);
  });
});
