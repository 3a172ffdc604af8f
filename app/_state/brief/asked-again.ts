import type { BriefEntry } from '../../../shared/brief.ts';
import { nextJob } from '../next-job.ts';
import type { OpenRecordSet } from '../record-sets.ts';
import { briefStore } from './brief-store.ts';

/** Asks findings of a brief again, each under its own settings, and puts what comes in their places. */
export async function askedAgain(
  open: OpenRecordSet,
  entries: readonly BriefEntry[],
  told: (title: string) => void,
): Promise<void> {
  for (const { id, finding, units } of entries) {
    told(finding.title);
    const now = await open.desk.ask(nextJob(), finding.question, finding.settings, units);
    briefStore.edit((brief) => ({
      ...brief,
      entries: brief.entries.map((entry) => (entry.id === id ? { ...entry, finding: now } : entry)),
    }));
  }
}
