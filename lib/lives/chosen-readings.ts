import type { MileageRule } from '../../shared/choices.ts';
import { keptReadings, type Kept } from './kept-readings.ts';
import { byDay, medianPace, type MeterPoint, type Rules } from './meter-point.ts';
import { setAsideReading } from './set-aside-reading.ts';

/** A reset or replacement that a reading tells of: the meter shows `after` from then on. */
export interface MeterEvent {
  readonly day: number;
  readonly before: number | null;
  readonly after: number;
}

/** What became of a point. Miles used are those of a meter that was never reset; null = its day is to be interpolated. */
export interface Verdict {
  readonly point: MeterPoint;
  readonly rule: MileageRule | null;
  readonly used: number | null;
  /** Of a point set aside: what would have been accepted, by the readings on either side; null = no bound. */
  readonly least: number | null;
  readonly most: number | null;
}

export interface ChosenReadings {
  /** One a point. */
  readonly verdicts: readonly Verdict[];
  /** Miles known besides, of no point: what the old meter last said. */
  readonly known: readonly { readonly day: number; readonly miles: number }[];
  /** Miles at which a meter changed and how far the unit had run by then is estimated. */
  readonly gaps: readonly number[];
  /** What the last meter's miles fall short of all miles run. */
  readonly shift: number;
}

/** The points of one meter, and the reset that ended it. */
interface Meter {
  readonly points: readonly MeterPoint[];
  readonly event: MeterEvent | null;
}

/** On the day of a reset a point is of the old meter where it lies nearer to what that last said. */
const ofOldMeter = ({ day, miles }: MeterPoint, event: MeterEvent): boolean =>
  day < event.day ||
  (day === event.day && event.before !== null && Math.abs(miles - event.before) < Math.abs(miles - event.after));

function metersOf(points: readonly MeterPoint[], events: readonly MeterEvent[]): Meter[] {
  let rest = points;
  const ended = events.map((event): Meter => {
    const old = rest.filter((point) => ofOldMeter(point, event));
    rest = rest.filter((point) => !ofOldMeter(point, event));
    return { points: old, event };
  });
  return [...ended, { points: rest, event: null }];
}

/**
 * Judges the readings of one unit (record contract, section 2): the fewest are set aside such that
 * those kept neither run backward nor faster than 1,500 miles a day, where a lasting change is a new
 * meter; what follows a new meter is shifted so that its miles go on from the old one's.
 * @param points distinct by day and miles, in any order
 * @param events in the order of their days
 */
export function chosenReadings(
  points: readonly MeterPoint[],
  events: readonly MeterEvent[],
  rules: Rules,
): ChosenReadings {
  const sorted = [...points].sort(byDay);
  const run = new Running(rules, medianPace(sorted));
  for (const { points: own, event } of metersOf(sorted, rules.reset ? events : [])) {
    const last = event?.before == null ? null : { day: event.day, miles: event.before, trust: 2 };
    run.judge(own, last);
    if (event) run.change(event, last);
  }
  return run;
}

/** The readings judged so far, in miles run. */
class Running implements ChosenReadings {
  readonly verdicts: Verdict[] = [];
  readonly known: { day: number; miles: number }[] = [];
  readonly gaps: number[] = [];
  shift = 0;
  #changed: MileageRule = 'reset';
  /** The last point kept of the meter at hand, as the meter said. */
  #last: MeterPoint | null = null;

  constructor(
    private readonly rules: Rules,
    private readonly pace: number | null,
  ) {}

  /** Judges one meter's points; `told` is what its end was told to be, a point without a row of its own. */
  judge(own: readonly MeterPoint[], told: MeterPoint | null): void {
    this.#last = null;
    const points = told ? [...own, told].sort(byDay) : own;
    const kept = keptReadings(points, this.rules, this.pace);
    let next = 0;
    points.forEach((point, at) => {
      const coming = kept[next];
      if (coming?.at !== at) {
        if (point !== told) this.#setAside(point, coming, points);
        return;
      }
      next++;
      this.#keep(point, coming);
      if (point !== told) this.#say(point, this.shift === 0 ? null : this.#changed, point.miles);
    });
  }

  /** Goes on with the meter that an event put in the place of the old one. */
  change({ day, after }: MeterEvent, told: MeterPoint | null): void {
    const last = this.#last;
    const believed = told !== null && last === told;
    const ran = believed || !last ? (told?.miles ?? after) : last.miles + (this.pace ?? 0) * (day - last.day);
    const miles = ran + this.shift;
    if (believed) this.known.push({ day, miles });
    else if (last) this.gaps.push(last.miles + this.shift);
    this.shift = miles - after;
    this.#changed = 'reset';
  }

  #keep(point: MeterPoint, { newMeter }: Kept): void {
    if (newMeter && this.#last) {
      const usual = (this.pace ?? 0) * (point.day - this.#last.day);
      this.gaps.push(this.#last.miles + this.shift);
      // A meter that began at zero on the way tells the least that was run since.
      this.shift += this.#last.miles - point.miles + (newMeter === 'from-zero' ? Math.max(usual, point.miles) : usual);
      this.#changed = 'unwritten-reset';
    }
    this.#last = point;
  }

  #setAside(point: MeterPoint, coming: Kept | undefined, points: readonly MeterPoint[]): void {
    const after = coming && !coming.newMeter ? (points[coming.at] as MeterPoint) : null;
    const { rule, meant, least, most } = setAsideReading(point, this.#last, after, this.pace, this.rules);
    this.#say(point, rule, meant, least, most);
    // What was meant is then a reading like any other for the next one set aside.
    if (meant !== null) this.#last = { ...point, miles: meant };
  }

  #say(
    point: MeterPoint,
    rule: MileageRule | null,
    miles: number | null,
    least: number | null = null,
    most: number | null = null,
  ): void {
    const run = (some: number | null) => (some === null ? null : some + this.shift);
    this.verdicts.push({ point, rule, used: run(miles), least: run(least), most: run(most) });
  }
}
