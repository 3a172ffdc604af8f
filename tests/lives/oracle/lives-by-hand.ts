// The rules of a life (record contract, 5), walked along each wheel end's miles over plain rows.
import type { Component } from '../../../shared/vocabulary.ts';
import type { Row } from '../record-tables-in-engine.ts';
import { judge, judgedCodes, procedurePart, words } from './judged-deviations.ts';
import {
  failsComponent,
  inOrder,
  renewalsOf,
  sameMoment,
  type Happening,
  type Records,
  type Renewal,
  type WheelEnd,
} from './histories.ts';
import { dayOf, numberOf, type Mileage } from './odometer.ts';
import { otherSide, removalAt } from './removal-states.ts';

interface Stretch {
  readonly end: WheelEnd;
  readonly start: Renewal | undefined;
  readonly startMiles: number;
  readonly startKnown: boolean;
  readonly number: number;
  readonly next: Renewal | undefined;
  /** Failures of the component in it, the first of which ends the life. */
  readonly reports: readonly Happening[];
  readonly failure: Happening | undefined;
}

interface Ended {
  readonly state: string;
  readonly miles: number;
  readonly quality: Mileage['quality'] | null;
  readonly endId: string | null;
  readonly mode: string | null;
  readonly inferred: boolean;
}

const isNew = (unit: Row | undefined) => {
  const miles = numberOf(unit?.['in_service_miles']);
  return miles !== null && (unit?.['acquired'] === 'new' || (!unit?.['acquired'] && miles <= 1_000));
};

/** Which stretch between renewals a failure belongs to: by its place, unless its link names an earlier renewal. */
function stretchOf(failure: Happening, renewals: readonly Renewal[]): { index: number; miles: number } {
  const index = renewals.filter((renewal) => inOrder(renewal, failure) < 0).length;
  const link = failure.row['repair_service_id'];
  const linked = link ? renewals.findIndex(({ rows }) => rows.some((row) => row['service_id'] === link)) : -1;
  if (linked < 0) return { index, miles: failure.miles };
  if (linked < index) return { index: linked, miles: Math.min(failure.miles, renewals[linked]!.miles) };
  const between = renewals.slice(index, linked);
  return { index: between.every((renewal) => sameMoment(renewal, failure)) ? linked : index, miles: failure.miles };
}

function stretchesOf(component: Component, end: WheelEnd, records: Records): Stretch[] {
  const renewals = renewalsOf(component, end, records);
  const failures = [...(records.failures.get(end.name) ?? [])]
    .filter(({ row }) => failsComponent(component, row))
    .map((failure) => ({ ...failure, ...stretchOf(failure, renewals) }))
    .sort((a, b) => inOrder(a, b) || (String(a.row['failure_id']) < String(b.row['failure_id']) ? -1 : 1));
  const inService = numberOf(end.unit?.['in_service_miles']);
  return [undefined, ...renewals].map((start, index) => ({
    end,
    start,
    startMiles: start?.miles ?? (isNew(end.unit) ? inService! : end.odometer.observedFrom),
    startKnown: start !== undefined || isNew(end.unit),
    number: index + 1,
    next: renewals[index],
    reports: failures.filter((failure) => failure.index === index),
    failure: failures.find((failure) => failure.index === index),
  }));
}

function endOf(component: Component, stretch: Stretch, records: Records): Ended {
  const { end, next, failure } = stretch;
  const { observedTo, left } = end.odometer;
  if (failure) {
    const { row, miles, quality } = failure;
    return {
      state: 'failed',
      miles,
      quality,
      endId: String(row['failure_id']),
      mode: String(row['mode']),
      inferred: false,
    };
  }
  if (next) {
    const { state, endId } = removalAt(component, next, end, records);
    const inferred = state === 'failed';
    return { state, miles: next.miles, quality: next.quality, endId, mode: inferred ? 'seal-unknown' : null, inferred };
  }
  return {
    state: left ? 'unit-left' : 'running',
    miles: observedTo,
    quality: records.judged.estimated.has(end.unitId) ? 'extrapolated' : null,
    endId: null,
    mode: null,
    inferred: false,
  };
}

/** The life by the calendar; a month is a twelfth of 365.25 days. A failure on the day of installation gets a day. */
function monthsOf(component: Component, stretch: Stretch, ended: Ended, checkedOn: number | null): Row {
  const { end, start, startKnown, failure, next } = stretch;
  const began = start ? start.day : dayOf(end.unit?.['in_service_date']);
  const from = Math.max(began ?? -Infinity, end.odometer.fromDay);
  const found = failure ? Math.min(failure.day, next?.day ?? Infinity) : (next?.day ?? end.odometer.toDay);
  const aDayAtLeast = ended.state === 'failed' && startKnown && began !== null ? Math.max(found, began + 1) : found;
  const to = Math.max(aDayAtLeast, from);
  const months = (days: number) => (days * 12) / 365.25;
  const aged = startKnown && began !== null;
  const age = (day: number) => (aged ? months(day - began) : null);
  const censored = ended.state === 'planned' || ended.state === 'other-failure';
  const onset = component !== 'bearing' && aged;
  return {
    entry_months: age(from),
    exit_months: age(to),
    exposure_months: months(to - from),
    onset_lower_months: !onset
      ? null
      : censored
        ? age(to)
        : checkedOn === null
          ? 0
          : Math.max(age(Math.min(checkedOn, to))!, 0),
    onset_upper_months: onset && ended.state === 'failed' ? age(to) : null,
  };
}

/** Onset in miles since installation: after the last clean check (else installation), up to the finding. */
function onsetOf(component: Component, stretch: Stretch, ended: Ended, records: Records) {
  if (component === 'bearing' || !stretch.startKnown) return { lower: null, upper: null, checkedOn: null };
  const exit = ended.miles - stretch.startMiles;
  const clean = (records.inspections.get(stretch.end.name) ?? [])
    .filter(({ row }) => row['checked'] === 'yes' && row['leak'] === 0)
    .map(({ miles, day }) => ({ age: miles - stretch.startMiles, day }))
    .filter(({ age }) => age > 0 && (ended.state === 'failed' ? age < exit : age <= exit))
    .sort((a, b) => a.age - b.age);
  const last = clean.at(-1)?.age ?? 0;
  const checkedOn = clean.at(-1)?.day ?? null;
  if (ended.state === 'failed') return { lower: last, upper: Math.max(exit, 1), checkedOn };
  return { lower: ended.state === 'planned' || ended.state === 'other-failure' ? exit : last, upper: null, checkedOn };
}

/** What a shop's jobs with the hub off say of a part that each of them required. */
interface Habit {
  readonly shop: string;
  readonly required: readonly string[];
  readonly replaced: readonly string[];
}

function habitsOf({ services, wheelEnds, procedures }: Records): Habit[] {
  return [...services].flatMap(([name, list]) =>
    list.flatMap(({ row, day }): Habit[] => {
      const replaced = words(row['replaced']);
      const hubOff = replaced.some((part) => ['seal', 'bearings', 'spacer', 'hub'].includes(part));
      const part = procedurePart(procedures, day, row['hub_build'], wheelEnds.get(name)!.role);
      return hubOff && typeof row['shop'] === 'string'
        ? [{ shop: row['shop'], required: part?.requiredParts ?? [], replaced }]
        : [];
    }),
  );
}

function deviationsOf({ start, end }: Stretch, records: Records, habits: readonly Habit[]): Row {
  const service = start?.rows[0];
  const part = start && procedurePart(records.procedures, start.day, service!['hub_build'], end.role);
  const shopLists = (name: string) => {
    const such = habits.filter(({ shop, required }) => shop === service!['shop'] && required.includes(name));
    return such.filter(({ replaced }) => replaced.includes(name)).length * 2 > such.length;
  };
  return Object.fromEntries(
    judgedCodes.map((code) => [
      `dev_${code.replaceAll('-', '_')}`,
      service ? judge(code, service, { part, shopLists }) : 'unknown',
    ]),
  );
}

const attributes = ['shop', 'site', 'lubricant', 'hub_build', 'hub_material', 'seal_lot', 'technician_key'] as const;
const qualities = ['measured', 'interpolated', 'extrapolated'] as const;

/** No better than the worse of the two rows between which the life is counted. */
const worse = (a: Mileage['quality'], b: Mileage['quality']) =>
  qualities[Math.max(qualities.indexOf(a), qualities.indexOf(b))] as Mileage['quality'];

/** Of both ends, and no better than interpolated over a change of the meter that nobody wrote down. */
function qualityOf({ end, start, startKnown, startMiles }: Stretch, ended: Ended, from: number, { judged }: Records) {
  const first = start?.quality ?? (judged.estimated.has(end.unitId) ? 'extrapolated' : 'measured');
  const began = startKnown ? startMiles : from;
  const across = (judged.gaps.get(end.unitId) ?? []).some((miles) => miles >= began && miles < ended.miles);
  return worse(worse(first, ended.quality ?? 'measured'), across ? 'interpolated' : 'measured');
}

/** One yes in the episode is a yes, else one no a no. */
function liningOf(stretch: Stretch, ended: Ended): string | null {
  if (ended.state !== 'failed') return null;
  const said = stretch.reports.map(({ row }) => row['lining_contaminated']);
  return said.includes('yes') ? 'yes' : said.includes('no') ? 'no' : 'unknown';
}

interface Walked {
  readonly life: Row;
  /** Odometer at which the life began, or came under observation where its start is not known. */
  readonly began: number;
  readonly stop: number;
}

function isObserved(stretch: Stretch, ended: Ended, from: number, records: Records): boolean {
  if (ended.state === 'failed')
    return ended.miles >= from && (stretch.failure ?? stretch.next!).day >= records.window.from;
  return ended.miles > from || (ended.miles === from && !stretch.next && stretch.startKnown);
}

function lifeOf(component: Component, stretch: Stretch, ended: Ended, records: Records, habits: readonly Habit[]): Row {
  const { end, start, startKnown, startMiles, number } = stretch;
  const from = Math.max(startMiles, end.odometer.observedFrom);
  const stop = stopMiles(stretch, ended);
  const known = <T>(value: T) => (startKnown ? value : null);
  const row = start?.rows[0];
  const onset = onsetOf(component, stretch, ended, records);
  const began = start?.inferred ?? false;
  return {
    life_id: `${end.name} ${component} ${number}`,
    unit_id: end.unitId,
    install_miles: known(startMiles),
    entry_miles: known(from - startMiles),
    exit_miles: known(stop - startMiles),
    exposure_miles: Math.max(stop - from, 0),
    onset_lower_miles: onset.lower,
    onset_upper_miles: onset.upper,
    ...monthsOf(component, stretch, ended, onset.checkedOn),
    state: ended.state,
    mode: ended.mode,
    component,
    axle: end.axle,
    side: end.side,
    role: end.role,
    ...Object.fromEntries(attributes.map((name) => [name, row?.[name] ?? null])),
    duty: end.unit?.['duty'] ?? null,
    install_date: known((start ? row!['date'] : end.unit?.['in_service_date']) ?? null),
    install_kind: start ? 'replacement' : startKnown ? 'original' : 'unknown',
    life_number: number,
    mileage_quality: qualityOf(stretch, ended, from, records),
    start_service_id: row ? String(row['service_id']) : null,
    end_id: ended.endId,
    ...deviationsOf(stretch, records, habits),
    inferred: began && ended.inferred ? 'both' : began ? 'start' : ended.inferred ? 'end' : 'no',
    lining_contaminated: liningOf(stretch, ended),
  };
}

/** A failure at age 0 gets one mile. */
const stopMiles = ({ startKnown, startMiles }: Stretch, { state, miles }: Ended) =>
  state === 'failed' && startKnown ? Math.max(miles, startMiles + 1) : miles;

function livesOfWheelEnd(component: Component, end: WheelEnd, records: Records, habits: readonly Habit[]) {
  const walked: Walked[] = [];
  const waits: Wait[] = [];
  const { observedFrom, observedTo } = end.odometer;
  let failed = 0;
  for (const stretch of stretchesOf(component, end, records)) {
    const ended = endOf(component, stretch, records);
    const from = Math.max(stretch.startMiles, observedFrom);
    if (isObserved(stretch, ended, from, records))
      walked.push({
        life: { ...lifeOf(component, stretch, ended, records, habits), prior_failures: failed },
        began: stretch.startKnown ? stretch.startMiles : from,
        stop: stopMiles(stretch, ended),
      });
    if (ended.state === 'failed') failed += 1;
    const wait = {
      from: Math.max(ended.miles, observedFrom),
      to: Math.min(stretch.next?.miles ?? observedTo, observedTo),
    };
    if (stretch.failure && wait.to > wait.from) waits.push({ name: end.name, ...wait });
  }
  return { walked, waits };
}

interface Wait {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

export interface ByHand {
  readonly lives: readonly Row[];
  /** Miles between a failure and the next renewal, in the window. */
  readonly afterFailure: readonly Wait[];
}

/** Every life of a component, and the miles after failures, in the contract's columns. */
export function livesByHand(component: Component, records: Records): ByHand {
  const habits = habitsOf(records);
  const ends = [...records.wheelEnds.values()];
  const byEnd = new Map(ends.map((end) => [end.name, livesOfWheelEnd(component, end, records, habits)]));
  const lives = ends.flatMap((end) => {
    const mates = byEnd.get(otherSide(end))?.walked ?? [];
    return byEnd.get(end.name)!.walked.map(({ life, began }) => {
      const mate = mates.findLast((other) => other.began <= began);
      return { ...life, mate_life_id: mate && mate.stop > began ? (mate.life['life_id'] ?? null) : null };
    });
  });
  return { lives, afterFailure: [...byEnd.values()].flatMap(({ waits }) => waits) };
}
