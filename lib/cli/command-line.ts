import { harmlessText } from './harmless-text.ts';
import { run } from './main.ts';

// A reader that closes early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(`${harmlessText(text)}\n`),
  err: (text) => process.stderr.write(`${harmlessText(text)}\n`),
  ...(process.stderr.isTTY
    ? { progress: (text: string) => process.stderr.write(`\r\u001b[K${harmlessText(text)}`) }
    : {}),
});
