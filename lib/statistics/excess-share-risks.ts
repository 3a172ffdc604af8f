import { hazardPlaces, type LifeRatios } from './excess-share-failed.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';

/** What moves with the cumulative hazard at one event time: the hazards to the horizon, and that before entry. */
interface Step {
  readonly place: number;
  readonly asRecorded: number;
  readonly without: number;
  readonly before: number;
}

/** What a life owes to one piece: its hazards there, as recorded, without the exposure, and before entry. */
interface PieceRisk {
  /** Place among pieces × levels of the exposure. */
  readonly effect: number;
  readonly asRecorded: number;
  readonly without: number;
  readonly before: number;
}

/** How one life stands in the standardised failures, as in `failedByHorizon`. */
interface LifeRisk {
  /** Of a late entrant, that of those it stands for too. */
  readonly weight: number;
  /** Chance to have failed by the horizon as recorded, and without the exposure. */
  readonly fails: number;
  readonly spares: number;
  readonly steps: readonly Step[];
  readonly pieces: readonly PieceRisk[];
}

/** Reads lives off one by one, at the cumulative hazard by event time. */
export function lifeRisks(
  lives: ExcessLives,
  fit: ExcessFit,
  { ratio, patternOf, effect }: LifeRatios,
): (life: number, hazard: Float64Array) => LifeRisk {
  const { weight, strata, exposure, removed, pieces } = lives;
  const [levels, parts] = [exposure.levels.length, pieces.length];
  const { ends, late } = hazardPlaces(lives, fit);
  return (life, hazard) => {
    const at = (place: number) => (place < 0 ? 0 : (hazard[place] as number));
    const own = ratio[patternOf[life] as number] as number;
    const level = exposure.codes[life] as number;
    const entered = late ? (late[life] as number) : -1;
    const steps: Step[] = [];
    const owed: PieceRisk[] = [];
    let [asRecorded, without, before, start] = [0, 0, 0, -1];
    for (let piece = 0; piece < parts; piece++) {
      const end = ends[(strata.codes[life] as number) * parts + piece] as number;
      const times = own * (effect[piece * levels + level] as number);
      const spared = removed[level] === 1 ? own : times;
      const passed = at(end) - at(start);
      asRecorded += times * passed;
      without += spared * passed;
      // Hazard is at one's back only as far as entry.
      const until = entered > start ? Math.min(entered, end) : start;
      const unseen = times * (at(until) - at(start));
      before += unseen;
      owed.push({
        ...{ effect: piece * levels + level, asRecorded: times * passed },
        ...{ without: spared * passed, before: unseen },
      });
      steps.push({ place: end, asRecorded: times, without: spared, before: 0 });
      steps.push({ place: start, asRecorded: -times, without: -spared, before: -times });
      steps.push({ place: until, asRecorded: 0, without: 0, before: times });
      start = end;
    }
    return {
      weight: (weight ? (weight[life] as number) : 1) * Math.exp(before),
      fails: -Math.expm1(-asRecorded),
      spares: -Math.expm1(-without),
      steps,
      pieces: owed,
    };
  };
}
