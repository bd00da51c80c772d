/**
 * `npm test`: sets up like `npm start`, finds or installs a browser, checks the types, builds once for the end-to-end tests and runs every test.
 *
 *   npm test [-- ARGUMENTS FOR VITEST]
 */
import { join } from 'node:path';
import { ensureBrowser, ensureBuild, ensureNode, ensurePackages, ensureRescorerModel, ROOT, run, say, stop } from './steps.mjs';

ensureNode();
ensurePackages();
const { ensureModel } = await import('./fetch-model.mjs');
await ensureModel({ log: say });
await ensureRescorerModel(say);
process.env.CHROMIUM = ensureBrowser();
if (!run('npx', ['tsc', '--noEmit'])) stop('The types do not fit together.', 'The lines above name the places.');
ensureBuild();
const passed = run(process.execPath, [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', ...process.argv.slice(2)]);
process.exit(passed ? 0 : 1);
