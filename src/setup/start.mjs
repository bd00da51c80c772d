/**
 * `npm start`: installs what is missing, fetches the acoustic model, builds, serves on this computer only, and opens the recorder.
 *
 *   npm start [-- --port 4310] [--no-open]
 */
import { ensureBuild, ensureNode, ensurePackages, ensureRescorerModel, ROOT, say, stop } from './steps.mjs';

const args = process.argv.slice(2);
const portAt = args.indexOf('--port');
const port = portAt < 0 ? 4310 : Number(args[portAt + 1]);
if (!Number.isInteger(port) || port < 1 || port > 65535) stop('--port needs a number from 1 to 65535.', 'Example: npm start -- --port 4310');

ensureNode();
ensurePackages();
const { ensureModel } = await import('./fetch-model.mjs');
await ensureModel({ log: say });
await ensureRescorerModel(say);
ensureBuild();

const { preview } = await import('vite');
const wantsWindow = !args.includes('--no-open') && !process.env.CI && (process.platform !== 'linux' || Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY));
const server = await preview({ root: `${ROOT}/src`, configFile: `${ROOT}/vite.config.ts`, logLevel: 'error', preview: { host: '127.0.0.1', port, strictPort: false, open: wantsWindow } });
const address = server.resolvedUrls?.local[0] ?? `http://127.0.0.1:${port}/`;
say(`\nThe recorder is ready: ${address}\nIt runs on this computer only; nothing you say leaves it. Stop with Ctrl+C.`);
