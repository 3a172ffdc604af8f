import type { Engine } from '../engine/engine.ts';
import type { ChosenReadings } from './chosen-readings.ts';

/** Judged readings on their way into the engine's tables. */
export class VerdictColumns {
  readonly #verdicts = {
    units: [] as string[],
    numbers: [[], [], [], [], []] as number[][],
    rules: [] as (string | null)[],
  };
  readonly #chosen = { units: [] as string[], day: [] as number[], miles: [] as number[] };
  readonly #gaps = { units: [] as string[], miles: [] as number[] };
  readonly #shifts = { units: [] as string[], miles: [] as number[] };

  add(unitId: string, { verdicts, known, gaps, shift }: ChosenReadings): void {
    for (const { point, rule, used, least, most } of verdicts) {
      if (rule !== null) {
        this.#verdicts.units.push(unitId);
        this.#verdicts.rules.push(rule);
        [point.day, point.miles, used, least, most].forEach((value, at) =>
          this.#verdicts.numbers[at]?.push(value ?? NaN),
        );
      }
      if (used !== null) this.#choose(unitId, point.day, used);
    }
    for (const { day, miles } of known) this.#choose(unitId, day, miles);
    for (const miles of gaps) {
      this.#gaps.units.push(unitId);
      this.#gaps.miles.push(miles);
    }
    if (shift !== 0) {
      this.#shifts.units.push(unitId);
      this.#shifts.miles.push(shift);
    }
  }

  async appendTo(engine: Engine): Promise<void> {
    const [day, miles, used, least, most] = this.#verdicts.numbers.map((column) => Float64Array.from(column)) as [
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    const { units, rules } = this.#verdicts;
    if (units.length > 0)
      await engine.append('work_mile_verdicts', {
        unit_id: units,
        day,
        miles,
        rule: rules,
        used_miles: used,
        least,
        most,
      });
    const chosen = this.#chosen;
    if (chosen.units.length > 0)
      await engine.append('work_chosen_miles', {
        unit_id: chosen.units,
        ...{ day: Float64Array.from(chosen.day), miles: Float64Array.from(chosen.miles) },
      });
    if (this.#gaps.units.length > 0)
      await engine.append('work_meter_gaps', {
        unit_id: this.#gaps.units,
        at_miles: Float64Array.from(this.#gaps.miles),
      });
    if (this.#shifts.units.length > 0)
      await engine.append('work_meter_shifts', {
        unit_id: this.#shifts.units,
        shift_miles: Float64Array.from(this.#shifts.miles),
      });
  }

  #choose(unitId: string, day: number, miles: number): void {
    this.#chosen.units.push(unitId);
    this.#chosen.day.push(day);
    this.#chosen.miles.push(miles);
  }
}
