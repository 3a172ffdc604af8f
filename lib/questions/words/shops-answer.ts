import { shownLimits, type Estimate } from '../../../shared/finding.ts';
import type { OutcomeAsked } from '../causes/outcome.ts';
import { firmnessRule } from '../firmness.ts';
import type { ShopGroup } from '../shops/shop-group.ts';
import type { Compared } from '../shops/shops-evidence.ts';
import { chanceClause } from './chance-words.ts';
import { componentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { inWords, listed, sentenceCase } from './share-words.ts';
import { count, counted, range, ratioText, type Wording } from './wording.ts';

/** What happens to the lives compared: `seals` have `leaked`, by `leak`s. */
interface ShopWords {
  readonly many: string;
  readonly failed: string;
  readonly failure: string;
}

export function shopWords({ kind, component }: OutcomeAsked): ShopWords {
  if (kind === 'any') return { many: 'wheel ends worked on', failed: 'failed', failure: 'failure' };
  if (kind === 'lining')
    return { many: 'wheel ends worked on', failed: 'soaked their linings', failure: 'soaked lining' };
  return componentWords[component];
}

export interface ShopsAnswer {
  readonly groups: readonly ShopGroup[];
  readonly asked: OutcomeAsked;
  readonly compared: Compared;
  /** Lives are put to the shop that found how they ended. */
  readonly byFinder: boolean;
  readonly words: Wording;
}

const whereWords = ({ group }: ShopGroup, byFinder: boolean): string =>
  byFinder ? `where ${group.label} found how it ended` : groupWords(group);

const ratioOf = ({ group }: ShopGroup): Estimate => group.estimates['observedToExpected'] as Estimate;

/** Whether a group lies apart from all beyond chance, once the groups compared are allowed for. */
export const liesApart = ({ pValue }: ShopGroup): boolean => pValue !== null && pValue < firmnessRule.firmPValue;

/** Is a shop really different? Those that are, worst first; else how far apart they may lie. */
export function shopsAnswer(asked: ShopsAnswer): Answer {
  const { groups } = asked;
  if (groups.every(({ group }) => group.lives === 0)) return emphasised('**No lives** match this choice.');
  const compared = groups.filter((one) => one.compared);
  if (compared.length < 2) return emphasised(tooFew(asked));
  const apart = compared.filter(liesApart);
  const finder = asked.byFinder ? finderWords : '';
  if (apart.length === 0) return emphasised(noneApart(asked, compared), finder);
  const said = surestApart(apart);
  return emphasised(
    someApart(asked, said),
    othersWords(compared.length - said.length),
    crudeWords(asked, compared),
    finder,
  );
}

const finderWords = 'Lives stand here under the shop in whose hands they ended, which says nothing of how a shop fits.';

const plural: Readonly<Record<Compared, string>> = { shop: 'shops', site: 'places' };
const one: Readonly<Record<Compared, string>> = { shop: 'shop', site: 'place' };

function tooFew({ groups, asked, compared }: ShopsAnswer): string {
  const { failure } = shopWords(asked);
  const total = (name: 'failures' | 'lives') => groups.reduce((sum, { group }) => sum + group[name], 0);
  const refused = groups.filter(({ group }) => group.notes !== undefined).length;
  const ground = refused > 0 ? ' on work that others do too' : '';
  return `**Too few to compare**: fewer than two ${plural[compared]} with ${firmnessRule.thinFailures} ${failure}s or more${ground}. Seen are ${counted(total('failures'), failure)} in ${counted(total('lives'), 'life', 'lives')}.`;
}

/** Of those that lie apart the surest four, worst first. */
function surestApart(apart: readonly ShopGroup[]): readonly ShopGroup[] {
  const surest = [...apart].sort((a, b) => (a.pValue ?? 1) - (b.pValue ?? 1)).slice(0, 4);
  return surest.sort((a, b) => (ratioOf(b).value ?? 0) - (ratioOf(a).value ?? 0));
}

const othersWords = (rest: number): string =>
  rest > 0 ? `The other ${rest === 1 ? 'one' : inWords(rest)} may be no different.` : '';

function someApart(asked: ShopsAnswer, said: readonly ShopGroup[]): string {
  const { many, failed, failure } = shopWords(asked.asked);
  const parts = said.map((own, index) => {
    const times = `${ratioText(ratioOf(own).value ?? 0)} times`;
    return `${index === 0 ? `**${times} as often**` : times} ${whereWords(own, asked.byFinder)} ${range(shownLimits(ratioOf(own)), ratioText)}`;
  });
  const [first] = said as [ShopGroup];
  const expected = first.group.estimates['expectedFailures']?.value ?? 0;
  const counts = `${counted(first.group.failures, failure)} against ${wholeOrLess(expected)} expected`;
  return `${sentenceCase(`${many} ${failed}`)} ${listed(parts)}, against the average of all ${plural[asked.compared]} on like work. ${first.group.label}: ${counts}${chanceClause(first.pValue)}.`;
}

const wholeOrLess = (value: number): string => (value >= 20 ? count(Math.round(value)) : value.toFixed(1));

function noneApart(asked: ShopsAnswer, compared: readonly ShopGroup[]): string {
  const { failure } = shopWords(asked.asked);
  const limits = compared.map((own) => shownLimits(ratioOf(own)));
  const [low, high] = [limits.map(({ lower }) => lower ?? 0), limits.map(({ upper }) => upper ?? Infinity)];
  const values = compared.map((own) => ratioOf(own).value ?? 1);
  const [least, most] = firmnessRule.noDifference;
  const same = Math.min(...low) >= least && Math.max(...high) <= most;
  const differs = same ? 'differs by anything worth the name' : 'is shown to differ';
  const failures = compared.reduce((sum, { group }) => sum + group.failures, 0);
  return `**No ${one[asked.compared]} ${differs}** from the average of all on like work: ${count(compared.length)} ${plural[asked.compared]} lie between ${ratioText(Math.min(...values))} and ${ratioText(Math.max(...values))} times it, with limits from ${ratioText(Math.min(...low))} to ${ratioText(Math.max(...high))}; ${counted(failures, failure)}.`;
}

/** What the plain rates would have said, where they would have named another before one that lies apart. */
function crudeWords({ words, byFinder }: ShopsAnswer, compared: readonly ShopGroup[]): string {
  const rate = ({ group }: ShopGroup) => group.estimates['crudeFailuresPerMillionMiles']?.value ?? 0;
  const [first] = compared;
  const crudest = [...compared].sort((a, b) => rate(b) - rate(a))[0];
  if (!crudest || !first || crudest === first || words.axis !== 'miles') return '';
  if (!liesApart(first) || (ratioOf(crudest).value ?? 0) >= (ratioOf(first).value ?? 0)) return '';
  const where = (own: ShopGroup) => whereWords(own, byFinder);
  return `The plain rate is highest ${where(crudest)}, ${words.rate(rate(crudest))} ${words.per} against ${words.rate(rate(first))} ${where(first)}; on like work the order is the other way.`;
}

export const titleOf = (compared: Compared): string =>
  compared === 'site' ? 'Are own shops, vendors and the roadside really different?' : 'Is a shop really different?';

/** The group that the answer names first, and its doubts are about. */
export const namedGroup = (groups: readonly ShopGroup[]): ShopGroup | null => {
  const compared = groups.filter((own) => own.compared);
  const apart = compared.filter(liesApart).sort((a, b) => (ratioOf(b).value ?? 0) - (ratioOf(a).value ?? 0));
  return apart[0] ?? compared[0] ?? null;
};
