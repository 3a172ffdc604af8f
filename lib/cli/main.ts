import { questionIds } from '../../shared/finding.ts';
import { askCommand } from './ask-command.ts';
import { briefCommand } from './brief-command.ts';
import { NotAllHold, NothingUsable, WrongCall, type Streams } from './call.ts';
import { demoCommand } from './demo-command.ts';
import { livesCommand } from './lives-command.ts';
import { readCommand } from './read-command.ts';

const usage = `hubcause read   <files or folder> [--map FILE]… [--set-aside FILE] [--report FILE.html]
hubcause read   <files or folder> --propose-map FILE
hubcause lives  <records> [--map FILE]… [--component C] [--out lives.parquet|.arrow|.csv]
hubcause ask    <question> <records or lives file> [--map FILE]… [--by COLUMN]… [--where COLUMN=VALUE]…
                [--component C] [--mode M] [--adjust COLUMN]… [--horizon MILES] [--level L]
                [--outcome component|any|lining] [--early MILES] [--deviation CODE]
                [--planned-cost C] [--failure-cost C] [--downtime-cost C] [--lining-cost C] [--road-call-cost C]
                [--ahead-miles MILES | --ahead-months MONTHS]
                [--installed-from DAY] [--installed-to DAY] [--attribution installing|finding]
                [--change DAY --changed-shop NAME… | --change-record FILE]
                [--saving CODE]… [--saving-to best-shop|zero] [--saving-level CODE=SHARE]…
                [--units us|metric] [--json | --table]
hubcause brief  <records or lives file> --out FOLDER [--settings FILE] [--map FILE]…
hubcause brief  --check FOLDER [<records>]
hubcause demo   [--messy] [--units N] [--seed S] --out FOLDER

Questions: ${questionIds.join(', ')}.
Records are a folder whose files are named after their table, or such files. Findings say what goes with what; no figure clears a wheel end for service.`;

const commands: Readonly<Record<string, (parts: string[], streams: Streams) => Promise<void> | void>> = {
  read: readCommand,
  lives: livesCommand,
  ask: askCommand,
  brief: briefCommand,
  demo: demoCommand,
};

const isParseError = (error: unknown): error is Error =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');

/** Runs one call. @returns the exit code: 0 answered, 1 a brief's numbers do not all hold, 2 wrong call, 3 nothing usable in the records */
export async function run(parts: readonly string[], streams: Streams): Promise<number> {
  const [name = '', ...rest] = parts;
  if (name === '' || name === 'help' || name === '--help') {
    (name === '' ? streams.err : streams.out)(usage);
    return name === '' ? 2 : 0;
  }
  const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
  try {
    if (!command)
      throw new WrongCall(`no such command; a command is one of ${Object.keys(commands).join(', ')}; ${name}`);
    await command(rest, streams);
    return 0;
  } catch (error) {
    if (error instanceof NotAllHold) {
      streams.err(`hubcause: ${error.message}`);
      return 1;
    }
    if (!(error instanceof WrongCall || error instanceof NothingUsable || isParseError(error))) throw error;
    streams.err(`hubcause: ${error.message}`);
    return error instanceof NothingUsable ? 3 : 2;
  }
}
