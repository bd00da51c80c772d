import { cpSync, createReadStream, existsSync, statSync } from 'node:fs';
import { join, normalize, sep } from 'node:path';
import type { Plugin } from 'vite';

/**
 * Serves models/files under /models/ while developing and copies it into the built page.
 * A file that is not there answers 404: the speech library takes any other answer for the file itself.
 */
export function serveModels(folder: string): Plugin {
  let outDir = '';
  let building = false;
  return {
    name: 'serve-models',
    configResolved(config) {
      building = config.command === 'build';
      outDir = config.build.outDir.startsWith(sep) ? config.build.outDir : join(config.root, config.build.outDir);
    },
    configureServer(server) {
      server.middlewares.use('/models', (request, response) => {
        const path = normalize(join(folder, decodeURIComponent((request.url ?? '/').split('?')[0] ?? '/')));
        if (!path.startsWith(normalize(folder) + sep) || !existsSync(path) || !statSync(path).isFile()) {
          response.statusCode = 404;
          response.end('Not found');
          return;
        }
        response.setHeader('Content-Type', path.endsWith('.json') ? 'application/json' : 'application/octet-stream');
        createReadStream(path).pipe(response);
      });
    },
    // The test runner closes a bundle too, one that goes nowhere.
    closeBundle() { if (building && existsSync(folder)) cpSync(folder, join(outDir, 'models'), { recursive: true }); },
  };
}
