/** The built-in engine on sound as it is stored for the reviewer: cut close and in 16 bits. Voices are synthetic (tests/speech/clips). */
import { expect, it } from 'vitest';
import { linkGrammars, spokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node';
import { createParser, createSameMeaning } from '../../src/parser';
import { createNodeRecogniser } from '../../src/recogniser/node';
import { hearClip } from '../../src/recogniser/vosk';
import { fromPcm16, toPcm16 } from '../../src/record/audio';
import { openSecondEar } from '../../src/screens/session/second-ear';
import { listClips, readClip } from '../speech/clips';
import { inQuietRoom } from '../speech/mix';

it('hears in a stored clip what it heard when it was said', async () => {
  const { grammars, lexicon, base } = grammarSources();
  const rules = linkGrammars(grammars);
  const sameMeaning = createSameMeaning(createParser(rules));
  const grammar = spokenGrammar(rules, lexicon, base);
  const first = createNodeRecogniser({ sameMeaning, keepAudio: true });
  await first.load();
  await first.setGrammar(grammar);
  const ear = await openSecondEar(createNodeRecogniser({ sameMeaning }), grammar);
  let heard = 0;
  for (const [seed, { file }] of listClips().slice(0, 5).entries()) {
    for (const { text, audio } of (await hearClip(first, inQuietRoom(await readClip(file), seed + 1))).filter(({ verdict }) => verdict !== 'ignored')) {
      heard += 1;
      const again = await ear.hear(fromPcm16(toPcm16(audio!)));
      expect(again && sameMeaning(again.text, text), `${text} / ${again?.text}`).toBe(true);
    }
  }
  expect(heard).toBeGreaterThanOrEqual(4);
  first.dispose();
  ear.close();
});
