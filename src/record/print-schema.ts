import { writeFileSync } from 'node:fs';
import { fileJsonSchema } from './schema';

/** Prints the JSON Schema of examination files beside this script. Run after changing schema.ts: npx tsx src/record/print-schema.ts */
writeFileSync(new URL('./examination-file.schema.json', import.meta.url), `${JSON.stringify(fileJsonSchema(), null, 1)}\n`);
