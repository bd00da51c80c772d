import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSpokenPage } from './browser';

/** The first seven prompts, read by a synthetic Scottish voice (espeak-ng en-gb-scotland+m7), through Chromium's fake microphone. */
describe('a voice profile read into the microphone', () => {
  let spoken: Awaited<ReturnType<typeof openSpokenPage>>;
  let page: Page;

  beforeAll(async () => {
    spoken = await openSpokenPage('voice-prompts.opus');
    ({ page } = spoken);
  });
  afterAll(() => spoken?.close());

  const kept = (): Promise<string> => page.getByRole('region', { name: 'Kept profile' }).innerText();

  it('is reached from the microphone check, by keyboard', async () => {
    await page.getByRole('link', { name: 'Voice profile' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Begin reading' }).waitFor();
    expect(await kept()).toContain('No voice profile is kept');
  });

  it('takes one sentence after the other without a hand on the screen', async () => {
    expect(spoken.speech.peak).toBeGreaterThan(8000);
    await page.getByRole('button', { name: 'Begin reading' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Sentence 1 of 12, 0 taken.').waitFor({ timeout: 60_000 });
    await page.getByText('Sentence 8 of 12, 7 taken.').waitFor({ timeout: (spoken.speech.seconds + 40) * 1000 });
  }, 180_000);

  it('makes do with the sentences that were read, and keeps the profile over a reload', async () => {
    const skip = page.getByRole('button', { name: 'Skip this sentence' });
    for (let left = 5; left > 0; left -= 1) await skip.press('Enter');
    await page.getByText('Done. The next examination hears you with it.').waitFor({ timeout: 60_000 });
    await page.reload();
    await page.getByText('In use: made').waitFor();
  }, 120_000);

  it('is deleted when asked, after asking back', async () => {
    await page.getByRole('button', { name: 'Delete the voice profile' }).click();
    await page.getByRole('button', { name: 'Delete it' }).click();
    await page.getByText('No voice profile is kept').waitFor();
    await page.reload();
    await page.getByRole('button', { name: 'Begin reading' }).waitFor();
    expect(await kept()).toContain('No voice profile is kept');
  });

  it('sent nothing anywhere, and ran without an error', () => expect(spoken.watch).toEqual({ outside: [], blocked: [], errors: [] }));
});
