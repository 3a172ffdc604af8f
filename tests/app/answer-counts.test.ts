// The counts that an answer's words lead on from are those of its own groups, or nothing is linked.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { answerCounts } from '../../app/_parts/finding/answer-counts.ts';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { livesFromRecords, proceduresOf, type LivesSource } from '../../lib/lives/index.ts';
import { ask, listLives } from '../../lib/questions/index.ts';
import { readRecords } from '../../lib/records/index.ts';
import { livesBehind } from '../../lib/view/index.ts';
import { questionIds, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';

let engine: Engine;
let source: LivesSource;
beforeAll(async () => {
  engine = await openNodeEngine();
  const files = demoFiles(generateDemoFleet({ units: 120, seed: 3 })).filter(({ name }) =>
    /csv$|^record-set/.test(name),
  );
  const report = await readRecords(
    engine,
    files.map(({ name, text }) => ({ name, size: text.length, stream: () => new Blob([text]).stream() })),
  );
  source = await livesFromRecords(engine, report, proceduresOf(report));
}, 120_000);
afterAll(() => engine.close());

const views = [
  {},
  { by: ['role'] },
  { by: ['lubricant'] },
  { by: ['hub_build'] },
  { by: ['dev_nut_backed_off'] },
  { by: ['shop'] },
  { where: { role: ['tag'] } },
];
/** Questions whose words follow what they are cut by; the others are asked with nothing cut and within one shop. */
const cutQuestions: ReadonlySet<string> = new Set(['seal-life', 'mean-miles', 'contamination']);
const within: Partial<View>[] = [{}, { where: { shop: ['Coldmere'] } }];
const cases = questionIds.flatMap((question) =>
  (cutQuestions.has(question) ? views : within).map((view) => [question, JSON.stringify(view), view] as const),
);

describe('in every answer', () => {
  let seen = 0;
  test.each(cases)('%s %s: a linked count opens to as many lives or failures', async (question, _name, view) => {
    const finding = await ask(source, question, viewSchema.parse(view));
    for (const text of [finding.answer, finding.firmnessReason])
      for (const { start, end, group, counted } of answerCounts(text, finding)) {
        const behind = livesBehind(finding, group, counted);
        if (behind === null) continue;
        const { counted: found } = await listLives(source, behind.view, behind.pick);
        expect([text, text.slice(start, end)]).toEqual([text, (found.episodes ?? found.lives).toLocaleString('en-US')]);
        seen++;
      }
  });
  test('there are such counts', () => expect(seen).toBeGreaterThan(20));
});

const invented = (groups: { failures: number; lives: number }[], question = 'seal-life'): Finding =>
  ({
    question,
    data: { lives: 1000, failures: 70 },
    groups: groups.map((group, place) => ({ ...group, label: `g${place}`, by: {}, counts: {} })),
  }) as unknown as Finding;
const told = (text: string, finding: Finding) =>
  answerCounts(text, finding).map(({ start, end, group, counted }) => [
    text.slice(start, end),
    group?.label ?? null,
    counted,
  ]);

test('what could be several groups, or is no count, is left alone', () => {
  const finding = invented([
    { failures: 41, lives: 186 },
    { failures: 1_212, lives: 1_904 },
    { failures: 41, lives: 20 },
  ]);
  expect(told('By 41,000 miles, 41 and 1,212 leaks.', finding)).toEqual([['1,212', 'g1', 'failures']]);
  expect(told('2.41 failures per million; 41.5 leaks; no leaks; 186 miles', finding)).toEqual([]);
  expect(told('70 leaks in 1,000 lives.', finding)).toEqual([
    ['70', null, 'failures'],
    ['1,000', null, 'lives'],
  ]);
});
