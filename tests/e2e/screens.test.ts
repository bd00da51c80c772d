import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { begin, findingsAtDesk, launch, openPage, options, servePage, type, violations } from './browser';
import type { Watch } from './browser';

let served: Awaited<ReturnType<typeof servePage>>;
let browser: Browser;
beforeAll(async () => {
  served = await servePage();
  browser = await launch({ kind: 'tone' });
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

const contexts: BrowserContext[] = [];
const watches: Watch[] = [];
async function fresh(hash = '', from = browser, settings = options()): Promise<Page> {
  const context = await from.newContext(settings);
  contexts.push(context);
  const { page, watch } = await openPage(context, served.address, hash);
  watches.push(watch);
  return page;
}
afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
  const seen = watches.splice(0);
  expect(seen.flatMap(({ outside, blocked, errors }) => [...outside, ...blocked, ...errors])).toEqual([]);
});

/** The engine loads first, which takes seconds on a busy machine. Chromium's own test tone is at full scale, which the meter says. */
const listening = (page: Page): Promise<void> => page.getByText(/^(Listening|Too loud)$/).waitFor({ timeout: 60_000 });
const press = async (page: Page, ...keys: readonly string[]): Promise<void> => { for (const key of keys) await page.keyboard.press(key); };
const examination = async (page = fresh()): Promise<Page> => {
  const opened = await page;
  await begin(opened, { side: 'Left', protocol: 'Acute wound', label: 'Heron 27' });
  return opened;
};

describe('typed line', () => {
  it('does what speech does: side, findings, orders, answers', async () => {
    const page = await examination();
    await type(page, 'froment positive');
    const question = page.getByRole('alert', { name: 'Question' });
    await question.waitFor();
    expect(await question.innerText()).toContain('left or right');
    await type(page, 'option one');
    await page.getByText('Left · Froment, thumb: positive').first().waitFor();
    expect(await page.locator('.side-shown').innerText()).toContain('No side set');

    await type(page, 'left hand');
    await type(page, 'abductor digiti minimi grade three');
    await page.getByText('Left · power, abductor digiti minimi: grade 3').first().waitFor();
    await type(page, 'amend to grade two');
    await page.getByText('Left · power, abductor digiti minimi: grade 2').first().waitFor();
    await type(page, 'withdraw that');
    await page.getByText(/^Withdrawn: /).waitFor();
    await type(page, 'what remains');
    await page.getByText(/^Perfusion\. Left: radial pulse, ulnar pulse, capillary refill, colour\./).waitFor();
    await type(page, 'the weather is fine today');
    await page.getByLabel('Kept, not understood').getByText('“the weather is fine today”').waitFor();
    await type(page, 'hold');
    await page.getByRole('button', { name: 'Carry on' }).waitFor();
    await type(page, 'radial pulse absent');
    await type(page, 'carry on');
    await page.getByRole('button', { name: 'Hold' }).waitFor();

    await page.getByRole('link', { name: 'Desk' }).click();
    expect(await findingsAtDesk(page)).toEqual(['Left · Froment, thumb: positive']);
    expect(await page.getByText('Kept, not filed: on hold').count()).toBe(1);
  });
});

describe('keyboard and pedal alone', () => {
  it('begin, answer, acknowledge, hold and go on without a pointer', async () => {
    const page = await fresh();
    await page.getByLabel('Label (a code, never a name)').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('Heron 27');
    await press(page, 'Tab', 'ArrowLeft', 'Tab', 'Enter');
    await page.getByLabel('Type what you would say').waitFor();

    await press(page, '/');
    await page.keyboard.type('open wound over the volar wrist');
    await press(page, 'Enter', 'Escape');
    const question = page.getByRole('alert', { name: 'Question' });
    await question.waitFor();
    // Nothing is marked at first: a pedal pressed by accident chooses no side.
    await press(page, 'Enter');
    expect(await question.locator('[aria-current=true]').count()).toBe(0);
    await press(page, 'PageDown', 'PageDown', 'PageUp');
    expect(await question.locator('[aria-current=true]').innerText()).toMatch(/Left/);
    await press(page, 'Enter');
    await page.getByText('Left · wound, volar wrist: present').first().waitFor();

    await page.getByRole('alert', { name: 'Caution' }).waitFor();
    await press(page, 'Enter');
    await page.getByLabel('Cautions, acknowledged').waitFor();
    await press(page, ' ');
    await page.getByRole('button', { name: 'Carry on' }).waitFor();
    await press(page, ' ');
    await page.getByRole('button', { name: 'Hold' }).waitFor();
    await press(page, 'PageDown');
    await page.getByText(/Next: /).waitFor();
    await press(page, 'Delete');
    await page.getByText(/^Withdrawn: /).waitFor();
  });

  it('every control can be reached with Tab and shows its focus', async () => {
    const page = await examination();
    await type(page, 'froment positive');
    await page.getByRole('alert', { name: 'Question' }).waitFor();
    const wanted = await page.locator('button:visible, a:visible, input:visible, select:visible').count();
    await page.evaluate(() => { (document.activeElement as HTMLElement | null)?.blur(); });
    const reached = new Set<string>();
    for (let n = 0; n < wanted + 5; n += 1) {
      await page.keyboard.press('Tab');
      const seen = await page.evaluate(() => {
        const element = document.activeElement;
        if (!element || element === document.body) return null;
        return { name: `${element.tagName} ${element.textContent} ${element.id}`, outline: getComputedStyle(element).outlineStyle };
      });
      if (seen) { reached.add(seen.name); expect(seen.outline, seen.name).not.toBe('none'); }
    }
    expect(reached.size).toBeGreaterThanOrEqual(wanted);
  });

  it('a pedal can be given any key, and keeps it', async () => {
    const page = await examination();
    await page.getByRole('button', { name: 'Keys and sounds' }).click();
    await page.getByRole('listitem').filter({ hasText: 'Hold, or carry on' }).getByRole('button').click();
    await press(page, 'F8');
    await page.reload();
    await page.getByRole('button', { name: 'Hold' }).waitFor();
    await page.getByRole('button', { name: 'Hold' }).focus();
    await press(page, 'F8');
    await page.getByRole('button', { name: 'Carry on' }).waitFor();
  });
});

describe('start', () => {
  it('refuses what looks like a name, with a hint, and asks again', async () => {
    const page = await fresh();
    await page.getByLabel('Label (a code, never a name)').fill('Anna Smith');
    await page.getByRole('button', { name: 'Begin' }).click();
    expect(await page.getByRole('alert').innerText()).toContain('could be a name');
    expect(page.url()).not.toContain('bedside');
  });

  it('checks the microphone, and says that a tone at full scale is too loud', async () => {
    const page = await fresh();
    await page.getByRole('button', { name: 'Check the microphone' }).click();
    await page.getByRole('region', { name: 'Microphone check' }).getByText('Too loud').waitFor();
    await page.getByText('move the microphone away').waitFor();
    await page.waitForFunction(() => /scaleX\(0?\.[1-9]/.test(document.querySelector<HTMLElement>('.level-fill')?.style.transform ?? ''));
  });
});

describe('desk', () => {
  it('corrects, withdraws, files what was not understood, answers, signs, exports and imports', async () => {
    const page = await examination();
    for (const text of ['left hand', 'froment positive', 'abductor digiti minimi grade three', 'something nobody understands']) await type(page, text);
    await page.getByLabel('Kept, not understood').waitFor();
    await type(page, 'radial pulse absent right');
    await page.getByText('Right · pulse, radial artery: absent').first().waitFor();
    await page.getByRole('link', { name: 'Desk' }).click();

    await page.getByRole('button', { name: 'Correct: Left · power, abductor digiti minimi: grade 3' }).click();
    const editor = page.getByRole('group', { name: /^Correct: Left · power/ });
    await editor.getByLabel('Result').selectOption('grade 2');
    await editor.getByLabel('Why (optional)').fill('heard again');
    await editor.getByRole('button', { name: 'Save the correction' }).click();
    await page.getByText('Left · power, abductor digiti minimi: grade 2').first().waitFor();

    await page.getByRole('button', { name: 'Correct: Right · pulse, radial artery: absent' }).click();
    await page.getByRole('button', { name: 'Withdraw the finding' }).click();
    await page.locator('.finding.withdrawn').waitFor();

    await page.getByRole('button', { name: 'Write what was said: “something nobody understands”' }).click();
    await page.getByLabel('What was said instead of “something nobody understands”').fill('capillary refill two seconds left');
    await page.getByRole('button', { name: 'File this instead' }).click();
    await page.getByText('Left · capillary refill, hand: 2 s').first().waitFor();
    const standing = ['Left · Froment, thumb: positive', 'Left · power, abductor digiti minimi: grade 2', 'Left · capillary refill, hand: 2 s'];
    expect((await findingsAtDesk(page)).sort()).toEqual([...standing].sort());
    // Nothing is overwritten: the earlier wording stays, marked as replaced.
    expect(await page.locator('.finding.replaced').innerText()).toContain('grade 3');

    await page.getByLabel('Your role and initials').fill('Reviewer R.');
    await page.getByRole('button', { name: 'Sign the report' }).click();
    await page.getByText(/^Signed by Reviewer R\./).first().waitFor();
    const report = await page.getByRole('region', { name: 'Report' }).innerText();
    expect(report).toContain('does not diagnose');
    expect(report).toMatch(/\d+ of \d+ items done/);

    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Export file' }).click();
    const path = await (await download).path();
    const other = await fresh();
    await other.getByLabel('Import an examination file').setInputFiles(path);
    await other.getByRole('link', { name: 'Review at the desk: Heron 27' }).click();
    await other.getByRole('heading', { name: 'Heron 27', exact: true }).waitFor();
    expect((await findingsAtDesk(other)).sort()).toEqual([...standing].sort());
  });

  it('refuses a file that is no examination, naming the fault', async () => {
    const page = await fresh();
    await page.getByLabel('Import an examination file').setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('{"format":') });
    expect(await page.getByRole('alert').innerText()).toMatch(/“x\.json” was not imported\.\s*Not a JSON file/);
  });
});

describe('when things go wrong', () => {
  it('two tabs: the second is told, and can go on once the first has closed', async () => {
    const first = await examination();
    await type(first, 'froment positive left');
    await first.getByText('Left · Froment, thumb: positive').first().waitFor();
    const { page: second } = await openPage(first.context(), first.url().split('#')[0] as string, `#${first.url().split('#')[1]}`);
    expect(await second.getByRole('alert').innerText()).toContain('open in another tab or window');
    await first.close();
    await second.getByText('Left · Froment, thumb: positive').first().waitFor();
  });

  it.each([
    [{ kind: 'refused' } as const, /not allowed to use the microphone/],
    [{ kind: 'none' } as const, /No microphone was found/],
  ])('microphone %o: says so, and typing goes on', async (microphone, message) => {
    const other = await launch(microphone);
    try {
      const page = await examination(fresh('', other, { viewport: { width: 1280, height: 800 } }));
      const alert = page.getByRole('alert').filter({ hasText: message });
      await alert.waitFor();
      expect(await alert.getByRole('button', { name: 'Turn the microphone on' }).count()).toBe(1);
      await type(page, 'froment positive left');
      await page.getByText('Left · Froment, thumb: positive').first().waitFor();
    } finally {
      for (const context of contexts.splice(0)) await context.close();
      await other.close();
    }
  });

  it('the microphone is unplugged in mid-examination: nothing is lost', async () => {
    const page = await fresh();
    await page.evaluate(() => {
      const media = navigator.mediaDevices;
      const ask = media.getUserMedia.bind(media);
      media.getUserMedia = async (wanted) => { const stream = await ask(wanted); Object.assign(window, { track: stream.getAudioTracks()[0] }); return stream; };
    });
    await examination(Promise.resolve(page));
    await type(page, 'froment positive left');
    await listening(page);
    await page.evaluate(() => (window as unknown as { track: MediaStreamTrack }).track.dispatchEvent(new Event('ended')));
    await page.getByRole('alert').filter({ hasText: 'The microphone was disconnected' }).waitFor();
    await page.getByText('Left · Froment, thumb: positive').first().waitFor();
    await page.getByRole('button', { name: 'Turn the microphone on' }).first().click();
    await listening(page);
  });

  it('the recogniser crashes: it is restarted, and nothing is lost', async () => {
    const page = await examination();
    await type(page, 'froment positive left');
    await listening(page);
    const worker = page.workers().find((each) => /worker/.test(each.url()));
    await worker?.evaluate(() => { setTimeout(() => { throw new Error('made to fail by a test'); }); });
    await page.getByRole('alert').filter({ hasText: 'Hearing stopped and was started again' }).waitFor();
    await listening(page);
    await page.getByText('Left · Froment, thumb: positive').first().waitFor();
    watches.forEach(({ errors }) => errors.splice(0));
  });

  it('the model is missing: says how to get it, and typing goes on', async () => {
    const page = await fresh();
    await page.route('**/models/**', (route) => route.fulfill({ status: 404, body: 'Not found' }));
    await examination(Promise.resolve(page));
    expect(await page.getByRole('alert').innerText()).toMatch(/speech model could not be loaded[\s\S]*npm start/);
    await type(page, 'froment positive left');
    await page.getByText('Left · Froment, thumb: positive').first().waitFor();
  });

  it('storage is blocked: says that nothing can be kept', async () => {
    const context = await browser.newContext(options());
    contexts.push(context);
    await context.addInitScript(() => { Object.defineProperty(window, 'indexedDB', { value: undefined }); });
    const { page } = await openPage(context, served.address);
    expect(await page.getByRole('alert').innerText()).toContain('does not let the page keep anything');
  });

  it('storage is full: the finding is shown as not stored, and stored once there is room', async () => {
    const page = await examination();
    await page.evaluate(() => {
      const add = IDBObjectStore.prototype.add;
      Object.assign(window, { makeRoom: () => { IDBObjectStore.prototype.add = add; } });
      IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); };
    });
    await type(page, 'froment positive left');
    const alert = page.getByRole('alert').filter({ hasText: 'Not stored yet' });
    await alert.waitFor();
    expect(await alert.innerText()).toContain('no room left');
    await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom());
    await alert.getByRole('button', { name: 'Try to store again' }).click();
    await alert.waitFor({ state: 'detached' });
    await page.reload();
    await page.getByText('Left · Froment, thumb: positive').first().waitFor();
  });

  it('an unknown address of an examination: says so and leads back', async () => {
    const page = await fresh('#/bedside/nowhere');
    expect(await page.getByRole('alert').innerText()).toContain('no such examination');
    await page.getByRole('link', { name: 'To the start' }).click();
    await page.getByRole('heading', { name: 'Lumbrical' }).waitFor();
  });
});

describe('accessibility (axe-core, WCAG 2.2 AA)', () => {
  it.each([[1280, 800], [1024, 768], [390, 844]] as const)('start and demonstration at %d x %d', async (width, height) => {
    const page = await fresh('', browser, options(width, height));
    await page.getByRole('heading', { name: 'Lumbrical' }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('link', { name: 'Try the demonstration' }).click();
    await page.getByRole('heading', { name: 'Demonstration' }).waitFor();
    expect(await violations(page)).toEqual([]);
  });

  it.each([[1280, 800], [1024, 768], [390, 844]] as const)('bedside with findings, caution, question and settings, and the desk, at %d x %d', async (width, height) => {
    const page = await examination(fresh('', browser, options(width, height)));
    for (const text of ['left hand', 'absent sensation little finger tip', 'clawing of the ring and little fingers', 'nonsense in the room']) await type(page, text);
    await page.getByLabel('Kept, not understood').waitFor();
    expect(await violations(page)).toEqual([]);
    await type(page, 'open wound over the volar wrist');
    await page.getByRole('alert', { name: 'Caution' }).waitFor();
    await type(page, 'normal sensation little finger tip');
    await page.getByRole('alert', { name: 'Question' }).waitFor();
    await page.getByRole('button', { name: 'Keys and sounds' }).click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('link', { name: 'Desk' }).click();
    await page.getByRole('button', { name: /^Correct: / }).first().click();
    expect(await violations(page)).toEqual([]);
  });

  it.each([[1280, 800], [1024, 768], [390, 844]] as const)('what would tell apart, and left against right, at %d x %d', async (width, height) => {
    // Skin of the thenar base tells a cut below the palmar cutaneous branch of the median nerve from one above it: Wheeless [checked].
    const page = await examination(fresh('', browser, options(width, height)));
    for (const text of ['left hand', 'laceration over the volar wrist', 'caution noted', 'abductor pollicis brevis grade zero', 'opponens pollicis grade zero', 'absent sensation index finger tip', 'flexor pollicis longus grade five', 'flexor digitorum profundus index grade five', 'normal sensation little finger tip', 'caution noted'])
      await type(page, text);
    const where = page.getByRole('region', { name: 'Where the lesion may be' });
    const telling = where.getByText('To tell apart: Left: light touch, thenar base');
    await telling.waitFor();
    // In sight without scrolling the panel, with cautions above it.
    const [line, panel] = [await telling.boundingBox(), await where.boundingBox()];
    expect(line!.y + line!.height / 2).toBeLessThan(panel!.y + panel!.height);
    expect(await where.innerText()).toMatch(/Not told apart from: Left: median nerve, in the distal forearm/);
    for (const text of ['right hand', 'abductor pollicis brevis grade five', 'normal sensation little finger tip']) await type(page, text);
    await page.getByText('Right · light touch, little fingertip: normal').first().waitFor();
    expect(await violations(page)).toEqual([]);

    await page.getByRole('link', { name: 'Desk' }).click();
    const apart = page.getByRole('region', { name: 'What would tell these apart' });
    expect(await apart.getByRole('listitem').allInnerTexts()).toEqual(expect.arrayContaining([expect.stringMatching(/^Left: median nerve, at the wrist/), expect.stringMatching(/^Left: median nerve, in the distal forearm/), expect.stringMatching(/^Left: light touch, thenar base/)]));
    const rows = page.getByRole('region', { name: 'Left against right' }).getByRole('row');
    expect(await rows.allInnerTexts()).toEqual(['Examined\tLeft\tRight\tCompared', 'power, abductor pollicis brevis\tgrade 0\tgrade 5\tleft worse', 'light touch, little fingertip\tnormal\tnormal\talike']);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    expect(await violations(page)).toEqual([]);
    await page.evaluate(() => { document.documentElement.dataset.look = 'lamp'; });
    expect(await violations(page)).toEqual([]);
  });
});

/** Every button 80 px each way or more, and 16 px from every other. */
async function expectRoomForGloves(buttons: readonly Locator[]): Promise<void> {
  const boxes = (await Promise.all(buttons.map((button) => button.boundingBox()))).map((box) => box ?? { x: 0, y: 0, width: 0, height: 0 });
  for (const [n, one] of boxes.entries()) {
    expect(Math.min(one.width, one.height)).toBeGreaterThanOrEqual(80);
    for (const other of boxes.slice(n + 1)) {
      const across = Math.max(other.x - one.x - one.width, one.x - other.x - other.width);
      const down = Math.max(other.y - one.y - one.height, one.y - other.y - other.height);
      expect(Math.max(across, down)).toBeGreaterThanOrEqual(15.9);
    }
  }
}

describe('reading distance', () => {
  // A capital letter should span 16 minutes of arc or more (ISO 9241-303, from memory): 9.3 mm at 2 m. Capitals are some 0.7 of the type size (common practice, no source).
  // A 24-inch screen of 1920 x 1080 has 0.277 mm a pixel.
  it('side, finding and question can be read at two metres on a 24-inch screen', async () => {
    const page = await examination(fresh('', browser, options(1920, 1080)));
    await type(page, 'left hand');
    await type(page, 'froment positive');
    await page.locator('.coded').waitFor();
    for (const part of ['.side-shown', '.coded']) {
      const size = await page.locator(part).first().evaluate((element) => parseFloat(getComputedStyle(element).fontSize));
      expect(size * 0.7 * 0.277, part).toBeGreaterThan(9.3);
    }
  });

  it.each([[1280, 800], [1920, 1080], [1024, 768]] as const)('the bedside fits %d x %d without scrolling', async (width, height) => {
    const page = await examination(fresh('', browser, options(width, height)));
    await type(page, 'open wound over the volar wrist left');
    await page.getByRole('alert', { name: 'Caution' }).waitFor();
    const over = await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
    expect(over).toBeLessThanOrEqual(0);
  });

  // Two findings an answer, with the longest names; one finding with a long word.
  it.each([[1280, 800], [1024, 768], [390, 844]] as const)('long answers stay inside their buttons, which stay inside the page, at %d x %d', async (width, height) => {
    const page = await examination(fresh('', browser, options(width, height)));
    const question = page.getByRole('alert', { name: 'Question' });
    for (const lines of [
      ['left F D S index grade three', 'left F D S middle grade two', 'left F D S index and middle grade four'],
      ['compression test positive at left carpal tunnel into the middle finger'],
      ['tenderness thumb'],
    ]) {
      for (const text of lines) await type(page, text);
      await question.waitFor();
      const buttons = await question.getByRole('button').all();
      expect(buttons.length, lines.at(-1)).toBeGreaterThan(2);
      for (const button of buttons) {
        const over = await button.evaluate((element) => {
          const inside = element.getBoundingClientRect();
          const range = document.createRange();
          range.selectNodeContents(element);
          return [...range.getClientRects()].some(({ left, right, top, bottom }) => left < inside.left || right > inside.right || top < inside.top || bottom > inside.bottom);
        });
        expect(over, await button.innerText()).toBe(false);
      }
      await expectRoomForGloves(buttons);
      expect(await question.evaluate((element) => element.scrollWidth - element.clientWidth)).toBe(0);
      await question.getByRole('button').last().click();
      await question.waitFor({ state: 'detached' });
    }
  });

  it('answers are 80 px high or more with 16 px between them (a choice for gloves)', async () => {
    const page = await examination();
    await type(page, 'froment positive');
    const question = page.getByRole('alert', { name: 'Question' });
    await question.waitFor();
    await expectRoomForGloves(await question.getByRole('button').all());
  });
});
