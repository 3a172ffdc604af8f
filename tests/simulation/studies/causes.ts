import { openNodeEngine } from '../../../lib/engine/node.ts';
import type { Engine } from '../../../lib/engine/engine.ts';
import { ask } from '../../../lib/questions/index.ts';
import { shownLimits, type Group } from '../../../shared/finding.ts';
import { viewSchema } from '../../../shared/view.ts';
import { fleet } from '../../questions/fleet.ts';
import { PAIRED_PLAN, pairedLives, pairedTruth, type PairedPlan, type PairedTruth } from '../paired-fleet.ts';
import { holds, type Study } from '../study.ts';

const view = viewSchema.parse({ by: ['dev_seal_cocked', 'dev_dirty_cavity'] });

let opened: Promise<Engine> | null = null;
const engine = (): Promise<Engine> => (opened ??= openNodeEngine());

const truths = new Map<PairedPlan, PairedTruth>();
function truthOf(plan: PairedPlan): PairedTruth {
  const known = truths.get(plan) ?? pairedTruth(plan);
  truths.set(plan, known);
  return known;
}

/** What is shown: where limits of two kinds are given, the wider, which hold the truth more often than 95 %. */
function shown(group: Group | undefined, name: string, truth: number): boolean | null {
  const estimate = group?.estimates[name];
  return estimate == null || estimate.value === null ? null : holds(shownLimits(estimate), truth);
}

const names = [
  'hazardRatio',
  'earlyHazardRatio',
  'laterHazardRatio',
  'restrictedMeanDifference',
  'failedByHorizonHadNoneBeenRenewed',
  'excessShareAtHorizon',
  'excessFailuresPerThousand',
] as const satisfies readonly (keyof PairedTruth)[];

const ranking = (setting: string, plan: PairedPlan): Study => ({
  method: 'causes',
  setting,
  shortRun: 0,
  claims: {
    ...Object.fromEntries(names.map((name) => [name, 'covers at least' as const])),
    'the decoy called beyond chance': 'rejects at most',
  },
  async play(random) {
    const source = await fleet(await engine(), pairedLives(plan, random));
    const { groups } = await ask(source, 'causes', view);
    const of = (label: string) => groups.find((group) => group.label === label);
    const cocked = of('seal-cocked');
    const truth = truthOf(plan);
    const pCorrected = of('dirty-cavity')?.counts['pCorrected'];
    return {
      ...Object.fromEntries(names.map((name) => [name, shown(cocked, name, truth[name])])),
      'the decoy called beyond chance': pCorrected === undefined ? null : pCorrected < 0.05,
    };
  },
});

const SETTING =
  'the whole question over 400 vehicles: shops and duty confound, a tenth written down wrongly, 15 % not at all';

export const causesStudies: Study[] = [
  ranking(`${SETTING}; ratio 3, then 1.5`, PAIRED_PLAN),
  ranking(`${SETTING}; no effect`, { ...PAIRED_PLAN, early: 1, later: 1 }),
];
