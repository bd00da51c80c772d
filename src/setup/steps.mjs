/**
 * The steps that `npm start` and `npm test` share. Plain JavaScript with nothing but Node,
 * because it runs before any package is installed. Each step is skipped when its result is already there.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const say = (text) => process.stdout.write(`${text}\n`);

/** Ends the program with a message that says what happened and what to do. */
export function stop(what, doThis) {
  process.stderr.write(`\n${what}\n${doThis}\n`);
  process.exit(1);
}

/** Runs a command with its output shown; returns whether it succeeded. */
export function run(command, args, options = {}) {
  const shell = process.platform === 'win32';
  return spawnSync(command, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'], shell, ...options }).status === 0;
}

export function ensureNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) stop(`Node ${process.versions.node} is too old.`, 'Install Node 20.19 or newer (nodejs.org or your system\'s packages), then run this again.');
}

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

/** Installs exactly what package-lock.json names, once per lock file. */
export function ensurePackages() {
  const lock = sha256(readFileSync(join(ROOT, 'package-lock.json')));
  const stamp = join(ROOT, 'node_modules', '.lock-installed');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  say('Installing packages (npm ci) …');
  if (!run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'])) stop('The packages could not be installed.', 'Check the network connection and the npm registry setting, then run this again; it goes on where it stopped.');
  writeFileSync(stamp, lock);
}

/** Every file below a folder, as path, size and time: enough to see that something changed. */
function listing(path) {
  const stat = statSync(path);
  return stat.isDirectory()
    ? readdirSync(path).sort().flatMap((name) => listing(join(path, name)))
    : [`${path}\t${stat.size}\t${stat.mtimeMs}`];
}

/** Builds the page when a source file changed since the last build. */
export function ensureBuild() {
  const sources = ['src', 'grammars', 'models', 'vite.config.ts', 'package-lock.json'].map((name) => join(ROOT, name));
  const state = sha256(sources.flatMap(listing).join('\n'));
  const stamp = join(ROOT, 'dist', '.built-from');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === state) return;
  say('Building the page …');
  if (!run(process.execPath, [join(ROOT, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'warn'])) stop('The page could not be built.', 'The lines above name the file at fault. If you changed nothing, delete node_modules and dist and run this again.');
  writeFileSync(stamp, state);
}

/** The second listener's network; without it the recorder hears, but noticeably worse in noise. */
export async function ensureRescorerModel(log) {
  const { register } = await import('tsx/esm/api');
  const unregister = register();
  const { ensureRescorer } = await import('./rescorer/ensure-rescorer.ts');
  await ensureRescorer({ log });
  await unregister();
}

const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/** Path of a Chromium-family browser, or null. */
export function findBrowser() {
  if (process.env.CHROMIUM && existsSync(process.env.CHROMIUM)) return process.env.CHROMIUM;
  for (const folder of (process.env.PATH ?? '').split(process.platform === 'win32' ? ';' : ':'))
    for (const name of BROWSERS) if (existsSync(join(folder, name))) return join(folder, name);
  const usual = ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium', 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'];
  return usual.find((path) => existsSync(path)) ?? null;
}

/** A browser for the end-to-end tests: the one found, else Debian's, installed if we may, else a message. */
export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  const mayInstall = process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    say('Installing Debian\'s chromium for the end-to-end tests …');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    run('apt-get', ['update', '-qq'], { env });
    if (run('apt-get', ['install', '-y', '-qq', 'chromium'], { env, stdio: ['ignore', 'ignore', 'inherit'] })) return findBrowser();
  }
  return stop('No Chromium or Chrome was found, and the end-to-end tests need one.', 'Install one (Debian, Ubuntu: sudo apt-get install chromium) or set CHROMIUM to its path, then run this again.');
}
