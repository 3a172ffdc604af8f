import { arrowFile } from '../../../lib/engine/arrow-file.ts';
import { parquetOfResult } from '../../../lib/engine/parquet-file.ts';
import { allLivesStatement, episodesStatement } from '../../../lib/lives/index.ts';
import { evidenceFolder } from '../../../lib/brief/brief-files.ts';
import { evidenceFiles, type Asked } from '../../../lib/questions/brief-evidence.ts';
import { briefGrounds } from '../../../lib/questions/brief-grounds.ts';
import type { BriefGrounds } from '../../../shared/brief-grounds.ts';
import { components, type Component } from '../../../shared/vocabulary.ts';
import type { OpenedSet } from '../opened-set.ts';

/** The part of the desk that a brief asks beside its questions. */
export interface BriefDesk {
  /** What the findings stand on, in counts. */
  briefGrounds(job: number): Promise<BriefGrounds>;
  /** Lives of every component and failure episodes, as Parquet and Arrow files, and what the questions read besides. */
  briefLives(
    job: number,
    asked: readonly Asked[],
  ): Promise<readonly { readonly name: string; readonly content: Uint8Array }[]>;
}

type Work = <Value>(job: number, run: (signal: AbortSignal) => Promise<Value>) => Promise<Value>;

export const deskOfBrief = (opened: () => OpenedSet, work: Work): BriefDesk => ({
  briefGrounds: (job) => work(job, (signal) => briefGrounds(opened().lives, opened().report.name, signal)),
  briefLives: (job, asked) =>
    work(job, async (signal) => {
      const { lives } = opened();
      for (const component of Object.keys(components) as Component[]) await lives.ensure(component, signal);
      const tables = { lives: allLivesStatement(true), episodes: episodesStatement };
      const written = [];
      for (const [name, statement] of Object.entries(tables)) {
        const rows = await lives.engine.query(statement, signal);
        written.push({ name: `${name}.parquet`, content: parquetOfResult(rows) });
        written.push({ name: `${name}.arrow`, content: arrowFile(rows) });
      }
      for (const { name, statement } of await evidenceFiles(lives, asked, signal)) {
        const rows = await lives.engine.query(statement, signal);
        written.push({ name: `${evidenceFolder}/${name}.parquet`, content: parquetOfResult(rows) });
      }
      return written;
    }),
});
