import { z } from 'zod';
import { cutColumns } from '../../shared/lives.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { WrongCall } from './call.ts';

export interface ViewOptions {
  readonly by?: readonly string[] | undefined;
  readonly where?: readonly string[] | undefined;
  readonly adjust?: readonly string[] | undefined;
  readonly component?: string | undefined;
  readonly mode?: string | undefined;
  readonly axis?: string | undefined;
  readonly outcome?: string | undefined;
  readonly early?: string | undefined;
  readonly deviation?: string | undefined;
  readonly attribution?: string | undefined;
  readonly horizon?: string | undefined;
  readonly level?: string | undefined;
  readonly 'planned-cost'?: string | undefined;
  readonly 'failure-cost'?: string | undefined;
  readonly 'downtime-cost'?: string | undefined;
  readonly 'lining-cost'?: string | undefined;
  readonly 'road-call-cost'?: string | undefined;
  readonly 'ahead-miles'?: string | undefined;
  readonly 'ahead-months'?: string | undefined;
  readonly 'installed-from'?: string | undefined;
  readonly 'installed-to'?: string | undefined;
  readonly change?: string | undefined;
  readonly 'changed-shop'?: readonly string[] | undefined;
  readonly saving?: readonly string[] | undefined;
  readonly 'saving-to'?: string | undefined;
  readonly 'saving-level'?: readonly string[] | undefined;
}

/** `COLUMN=VALUE` pairs; several values of one column are alternatives. */
function conditions(pairs: readonly string[]): Record<string, string[]> {
  const where: Record<string, string[]> = {};
  for (const pair of pairs) {
    const at = pair.indexOf('=');
    if (at <= 0) throw new WrongCall(`a condition that cannot be read; --where takes COLUMN=VALUE; ${pair}`);
    (where[pair.slice(0, at)] ??= []).push(pair.slice(at + 1));
  }
  return where;
}

const numberOf = (name: string, text: string): number => {
  const value = Number(text);
  if (text.trim() === '' || Number.isNaN(value)) throw new WrongCall(`not a number; --${name} takes a number; ${text}`);
  return value;
};

/** `CODE=SHARE`. */
function levelOf(pair: string): [string, number] {
  const at = pair.indexOf('=');
  if (at <= 0) throw new WrongCall(`a level that cannot be read; --saving-level takes CODE=SHARE; ${pair}`);
  return [pair.slice(0, at), numberOf('saving-level', pair.slice(at + 1))];
}

const numberIn = (options: ViewOptions, name: keyof ViewOptions): number | undefined => {
  const text = options[name];
  return typeof text === 'string' ? numberOf(name, text) : undefined;
};

/** What is asked of renewals and of what is ahead. */
function planned(options: ViewOptions): Partial<Record<keyof View, unknown>> {
  const [miles, months] = [numberIn(options, 'ahead-miles'), numberIn(options, 'ahead-months')];
  if (miles !== undefined && months !== undefined)
    throw new WrongCall('two ways ahead asked for; one of --ahead-miles and --ahead-months; both');
  return {
    plannedCost: numberIn(options, 'planned-cost'),
    failureCost: numberIn(options, 'failure-cost'),
    downtimeCost: numberIn(options, 'downtime-cost'),
    liningCost: numberIn(options, 'lining-cost'),
    roadCallCost: numberIn(options, 'road-call-cost'),
    ahead: miles === undefined ? undefined : 'miles',
    aheadMiles: miles,
    aheadMonths: months,
  };
}

/** The view that the options of a call ask for. */
export function viewOfCall(options: ViewOptions): View {
  const named = [...(options.by ?? []), ...(options.adjust ?? []), ...Object.keys(conditions(options.where ?? []))];
  const unknown = named.find((column) => !cutColumns.includes(column));
  if (unknown !== undefined)
    throw new WrongCall(`no such column of a life; columns are ${cutColumns.join(', ')}; ${unknown}`);
  const parsed = viewSchema.safeParse({
    by: options.by ?? [],
    where: conditions(options.where ?? []),
    adjust: options.adjust ?? [],
    component: options.component,
    attribution: options.attribution,
    mode: options.mode ?? null,
    axis: options.axis,
    [options.axis === 'months' ? 'horizonMonths' : 'horizonMiles']:
      options.horizon === undefined ? undefined : numberOf('horizon', options.horizon),
    outcome: options.outcome,
    [options.axis === 'months' ? 'earlyMonths' : 'earlyMiles']:
      options.early === undefined ? undefined : numberOf('early', options.early),
    deviation: options.deviation ?? null,
    ...planned(options),
    level: options.level === undefined ? undefined : numberOf('level', options.level),
    installedFrom: options['installed-from'] ?? null,
    installedTo: options['installed-to'] ?? null,
    change: options.change ?? null,
    changedShops: options['changed-shop'] ?? [],
    saving: options.saving ?? [],
    savingTo: options['saving-to'],
    savingLevels: Object.fromEntries((options['saving-level'] ?? []).map(levelOf)),
  });
  if (!parsed.success)
    throw new WrongCall(
      z
        .prettifyError(parsed.error)
        .replaceAll('✖ ', '')
        .replaceAll(/\s*\n\s*/g, '; '),
    );
  return parsed.data;
}
