import { writeFileSync } from 'node:fs';
import { run } from './main.ts';

// A reader that closes early (`| head`) is no fault.
process.stdout.on('error', () => process.exit(0));

// Not process.exit: a pipe may still be draining.
process.exitCode = run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (line) => process.stderr.write(line),
  writeFile: (path, text) => writeFileSync(path, text),
});
