import { run } from './run';

/** `npm run -s headless`: npm changes to the project's folder, so file names start from where it was called. */
const { code, out, err } = await run(process.argv.slice(2), process.env.INIT_CWD ?? process.cwd());
process.stderr.write(err);
process.exitCode = code;
process.stdout.write(out);
