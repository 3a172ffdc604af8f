import type { Doubt } from '../../../../shared/finding.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { percent } from '../../words/share-words.ts';
import { ratioText } from '../../words/wording.ts';
import type { GroupChecks } from '../checks-of-lives.ts';
import type { ShopGroup } from '../shop-group.ts';
import type { ShopsEvidence } from '../shops-evidence.ts';

/** Above these a difference between shops may be one of looking or of writing down, not of work. */
const most = { intensity: 2, told: 0.3 };
/** Fewer miles than this say nothing of how often somebody looks. */
const leastMiles = 100_000;

/** A leak is found where somebody looks: checks of the lives of each, by the miles they ran. */
export function lookedAtAlike(checks: readonly GroupChecks[] | null, compared: readonly ShopGroup[]): Doubt | null {
  const settledBy = 'checks written down at like intervals whoever installed';
  const name = 'Looked at alike';
  if (checks === null) {
    const detail = 'No inspections stand behind these lives: who is looked at more often cannot be told.';
    return doubt(name, 'cannot-tell', detail, settledBy);
  }
  const rates = compared
    .map(({ group, place }) => ({ label: group.label, ...(checks[place] as GroupChecks) }))
    .filter(({ miles }) => miles >= leastMiles)
    .map(({ label, checks: seen, miles }) => ({ label, rate: (seen / miles) * leastMiles }))
    .sort((a, b) => a.rate - b.rate);
  const [least, last] = [rates[0], rates.at(-1)];
  if (!least || !last || rates.length < 2) return null;
  if (last.rate === 0)
    return doubt(name, 'cannot-tell', 'No check is written down of any wheel end compared.', settledBy);
  const fails = last.rate >= most.intensity * least.rate;
  const seldom = least.rate === 0 ? 'never' : `${ratioText(least.rate)} times`;
  const says = `Wheel ends of “${last.label}” are checked ${ratioText(last.rate)} times per 100,000 miles, those of “${least.label}” ${seldom}`;
  const so = fails ? ': where nobody looks, leaks are found later or not at all' : '';
  return doubt(name, failsIf(fails), `${says}${so}.`, settledBy);
}

/** Deviations can account for an excess only where they are written down. */
export function recordedAlike(compared: readonly ShopGroup[]): Doubt | null {
  const told = compared
    .flatMap(({ group }) => {
      const value = group.estimates['deviationsTold']?.value;
      return value == null ? [] : [{ label: group.label, value }];
    })
    .sort((a, b) => a.value - b.value);
  const [least, last] = [told[0], told.at(-1)];
  if (!least || !last || told.length < 2) return null;
  const fails = last.value - least.value > most.told;
  const says = `Of what could be written down of deviations, “${last.label}” tells ${percent(last.value)} and “${least.label}” ${percent(least.value)}`;
  const so = fails
    ? ': a shop that writes less down shows fewer deviations, and less of its excess is accounted for'
    : '';
  return doubt('Recorded alike', failsIf(fails), `${says}${so}.`, 'the installation checklist filled in at every shop');
}

/** Whose failures these are: the shop that fitted, or the one that found. */
export function fittedAndFound(
  { foundBy, groups, event, compared }: ShopsEvidence,
  byFinder: boolean,
  asked: boolean,
): Doubt | null {
  const name = 'Fitted here, found there';
  const settledBy = 'the repair of each failure written down with its shop';
  if (compared !== 'shop') return null;
  if (!foundBy) {
    const so = asked ? ', so lives stand under the shop that fitted' : '';
    return doubt(
      name,
      asked ? 'fails' : 'cannot-tell',
      `No services stand behind these lives: which shop found each failure cannot be told${so}.`,
      settledBy,
    );
  }
  if (byFinder)
    return doubt(
      name,
      'fails',
      'Lives stand under the shop in whose hands they ended: one that looks harder, or that broken vehicles come to, looks worse here. It says nothing of how that shop fits.',
      'the comparison by the shop that fitted',
    );
  let [other, known] = [0, 0];
  groups.codes.forEach((group, at) => {
    const [fitted, found] = [groups.levels[group] as string, foundBy.levels[foundBy.codes[at] as number] as string];
    if (event[at] !== 1 || fitted === 'unknown' || found === 'unknown') return;
    known++;
    if (fitted !== found) other++;
  });
  if (known === 0) return null;
  return doubt(
    name,
    'holds',
    `${percent(other / known)} of failures were found by another shop than fitted the part; each counts for the shop that fitted.`,
    settledBy,
  );
}
