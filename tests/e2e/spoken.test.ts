import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { begin, findingsAtDesk, launch, openPage, openSpokenPage, servePage } from './browser';
import { MEDIAN_WRIST } from './median-wrist';

/** A whole examination by voice, through Chromium's fake microphone. Synthetic voices; nothing was tuned on this recording. */
describe('an examination spoken into the microphone', () => {
  let spoken: Awaited<ReturnType<typeof openSpokenPage>>;
  let page: Page;

  beforeAll(async () => {
    spoken = await openSpokenPage('median-wrist.flac');
    ({ page } = spoken);
  });
  afterAll(() => spoken?.close());

  it('has speech in the recording (a missing file would be silence, not an error)', () => {
    expect(spoken.speech.peak).toBeGreaterThan(8000);
    expect(spoken.speech.seconds).toBeGreaterThan(45);
  });

  it('is heard to the end', async () => {
    await begin(page, { side: 'Right', protocol: 'Acute wound', label: 'Heron 27' });
    await page.getByText('“what remains”').first().waitFor({ timeout: (spoken.speech.seconds + 40) * 1000 });
    expect(await page.locator('.side-shown').innerText()).toContain('Right');
  }, 150_000);

  it('shows what remains, by side', async () => {
    const board = page.getByRole('region', { name: 'Stages and what remains' });
    expect(await board.innerText()).toMatch(/Perfusion[\s\S]*2\/4/);
    expect(await board.getByLabel('Remaining in Perfusion').innerText()).toBe('Right (2): radial pulse, colour');
    expect(await board.innerText()).toMatch(/Motor nerves[\s\S]*2\/3/);
  });

  it('puts the median nerve at the wrist first, with its evidence', async () => {
    const where = await page.getByRole('region', { name: 'Where the lesion may be' }).innerText();
    expect(where).toMatch(/Findings fit best\s+Right: median nerve[^·]*(wrist|distal forearm)/);
    // What decides: muscles of the anterior interosseous nerve spared, feeling lost at the thenar base (its branch leaves above the carpal tunnel).
    expect(where).toMatch(/Spared: .*(flexor pollicis longus|profundus of the index finger)/);
    expect(where).toContain('thenar base (palmar branch of the median nerve): absent');
    expect(where).toContain('Tells most next:');
  });

  it('raised cautions, which were acknowledged by voice', async () => {
    const seen = await page.getByLabel('Cautions, acknowledged').innerText();
    expect(seen).toMatch(/Nerve deficit with an open wound/);
    expect(await page.getByText('Supports the examiner, never diagnoses.').count()).toBe(1);
  });

  it('keeps exactly the findings that were spoken, also after a reload', async () => {
    await page.getByRole('link', { name: 'Desk' }).click();
    await page.getByRole('heading', { name: 'Heron 27', exact: true }).waitFor();
    expect((await findingsAtDesk(page)).sort()).toEqual([...MEDIAN_WRIST].sort());
    await page.reload();
    await page.getByRole('heading', { name: 'Heron 27', exact: true }).waitFor();
    expect((await findingsAtDesk(page)).sort()).toEqual([...MEDIAN_WRIST].sort());
    await page.getByRole('link', { name: 'Bedside' }).click();
    expect(await page.locator('.side-shown').innerText()).toContain('Right');
    expect(await page.getByRole('region', { name: 'Where the lesion may be' }).innerText()).toMatch(/Right: median nerve/);
  });

  it('ignored what was said to the patient, and kept its sound out of the record', async () => {
    await page.getByRole('link', { name: 'Desk' }).click();
    const ignored = page.locator('.utterances > li').filter({ hasText: 'Not for the recorder' });
    expect(await ignored.count()).toBe(1);
    expect(await ignored.getByRole('button', { name: /^Play/ }).count()).toBe(0);
  });

  it('lets the reviewer hear an utterance', async () => {
    const played = page.getByRole('button', { name: 'Play “opposition grade zero”' });
    await played.waitFor();
    await played.click();
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('asked nothing of any other server, and nothing that its own policy forbids', () => {
    expect(spoken.watch).toEqual({ outside: [], blocked: [], errors: [] });
  });
});

/** The bundled demonstration, as a newcomer without a microphone sees it. */
describe('the demonstration', () => {
  let served: Awaited<ReturnType<typeof servePage>>;
  let browser: Browser;
  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ kind: 'none' });
  });
  afterAll(async () => {
    await browser?.close();
    await served?.stop();
  });

  it('plays through the real recogniser: asks, warns, ignores, files, and finds the ulnar nerve', async () => {
    const { page, watch } = await openPage(await browser.newContext({ viewport: { width: 1280, height: 800 } }), served.address);
    await page.getByRole('link', { name: 'Try the demonstration' }).click();
    await page.getByRole('button', { name: 'Play the demonstration' }).click();
    await page.getByRole('alert', { name: 'Question' }).getByRole('heading', { name: /left or right/ }).waitFor({ timeout: 60_000 });
    await page.getByRole('alert', { name: 'Caution' }).waitFor({ timeout: 60_000 });
    await page.getByText('“what remains”').first().waitFor({ timeout: 120_000 });
    expect(await page.locator('.side-shown').innerText()).toContain('Left');
    expect(await page.getByRole('region', { name: 'Where the lesion may be' }).innerText()).toMatch(/Findings fit best\s+Left: ulnar nerve/);
    expect(await page.getByLabel('Cautions, acknowledged').innerText()).toContain('Nerve deficit with an open wound');
    await page.getByRole('link', { name: 'Desk' }).click();
    expect(await page.locator('.utterances > li').filter({ hasText: 'Not for the recorder' }).count()).toBe(1);
    expect(watch).toEqual({ outside: [], blocked: [], errors: [] });
  }, 250_000);
});
