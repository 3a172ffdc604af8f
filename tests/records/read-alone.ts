import { createReadStream, statSync } from 'node:fs';
import { basename } from 'node:path';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords, setAsideRows } from '../../lib/records/index.ts';

/** Reads one file in a process of its own, and says what came of it and the most memory it took, in bytes. */
const [path = ''] = process.argv.slice(2);
const engine = await openNodeEngine({ threads: 1 });
const before = process.memoryUsage.rss();
const report = await readRecords(engine, [
  {
    name: basename(path),
    size: statSync(path).size,
    stream: () => createReadStream(path),
    part: (start, end) => createReadStream(path, { start, end: end - 1 }),
  },
]);
const aside = (await setAsideRows(engine, 0, 100)).map(({ row, reason }) => ({ row, reason }));
const grown = process.resourceUsage().maxRSS * 1024 - before;
process.stdout.write(JSON.stringify({ account: report.files[0], aside, grown }));
await engine.close();
