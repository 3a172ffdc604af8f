import { coxRiskSets, splitTime, type RiskSets, type SplitTime, type SurvivalData } from '../../statistics/index.ts';
import { groundCells, type GroundCells } from '../adjustment/common-ground.ts';
import { dealingOrder } from './dealing-order.ts';
import { gather, placesWhere } from '../gather.ts';

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}
type CovariateLevels = Readonly<Record<string, Levels>>;

/** Lives as the models take them; columns of equal length, one place a life. */
export interface ModelLives {
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  /** A code of `ended`. */
  readonly cause: Uint8Array;
  readonly miles: Float64Array;
  readonly strata: Levels;
  readonly strataOf: readonly string[];
  readonly cluster: Levels;
  readonly covariates: CovariateLevels;
  /** The axle of a vehicle each life sits at, and the shop as a covariate, for the other-side check. */
  readonly axle: Levels;
  readonly shop: Levels;
}

type Column = Pick<SurvivalData, 'entry' | 'exit' | 'event' | 'strata' | 'cluster'>;

/** What many fits of the same lives share, each part made when first asked for. */
export class ComparedLives {
  #adjusted: RiskSets | null = null;
  #crude: RiskSets | null = null;
  #split: { readonly lives: SplitTime; readonly sets: RiskSets; readonly cut: number } | null = null;
  #ground: GroundCells | null = null;
  #dealing: readonly Int32Array[] | null = null;

  /** @param places of these lives among all; null where they are all of them */
  constructor(
    readonly lives: ModelLives,
    readonly places: Int32Array | null,
  ) {}

  get rows(): number {
    return this.lives.exit.length;
  }

  /** A column of all the lives at these. */
  take(codes: Int32Array): Int32Array {
    return this.places === null ? codes : gather(codes, this.places);
  }

  get adjusted(): { readonly data: Column; readonly riskSets: RiskSets } {
    const { entry, exit, event, strata, cluster } = this.lives;
    const data = { entry, exit, event, strata, cluster };
    return { data, riskSets: (this.#adjusted ??= coxRiskSets(data)) };
  }

  /** Without strata. */
  get crude(): { readonly data: Column; readonly riskSets: RiskSets } {
    const { entry, exit, event, cluster } = this.lives;
    const data = { entry, exit, event, cluster };
    return { data, riskSets: (this.#crude ??= coxRiskSets(data)) };
  }

  /** Cut at an age, the covariates along. */
  splitAt(cut: number): { readonly lives: SplitTime; readonly sets: RiskSets } {
    if (this.#split?.cut !== cut) {
      const lives = splitTime({ ...this.adjusted.data, covariates: this.lives.covariates }, [cut]);
      this.#split = { lives, sets: coxRiskSets(lives), cut };
    }
    return this.#split;
  }

  /** Places by stratum, in the order in which shadows are dealt. */
  get dealing(): readonly Int32Array[] {
    return (this.#dealing ??= dealingOrder(this.lives));
  }

  get ground(): GroundCells {
    return (this.#ground ??= groundCells(this.lives));
  }
}

const takeLevels = ({ levels, codes }: Levels, places: Int32Array): Levels => ({
  levels,
  codes: gather(codes, places),
});

/** Some of the lives, with covariates that still differ among them. */
export function someLives(lives: ModelLives, places: Int32Array): ModelLives {
  const covariates = Object.entries(lives.covariates).flatMap(([name, column]) => {
    const taken = takeLevels(column, places);
    const [first] = taken.codes;
    return taken.codes.some((code) => code !== first) ? [[name, taken] as const] : [];
  });
  return {
    entry: gather(lives.entry, places),
    exit: gather(lives.exit, places),
    event: gather(lives.event, places),
    cause: gather(lives.cause, places),
    miles: gather(lives.miles, places),
    strata: takeLevels(lives.strata, places),
    strataOf: lives.strataOf,
    cluster: takeLevels(lives.cluster, places),
    covariates: Object.fromEntries(covariates),
    axle: takeLevels(lives.axle, places),
    shop: takeLevels(lives.shop, places),
  };
}

/** Gives the lives where an exposure can exist; exposures that can exist in the same lives share them. */
export class LivesByScope {
  readonly #known = new Map<string, ComparedLives>();

  constructor(private readonly lives: ModelLives) {}

  where(codes: Int32Array): ComparedLives {
    const key = scopeKey(codes);
    const known = this.#known.get(key);
    if (known) return known;
    const places = placesWhere(codes.length, (place) => (codes[place] as number) >= 0);
    const made =
      places.length === codes.length
        ? new ComparedLives(this.lives, null)
        : new ComparedLives(someLives(this.lives, places), places);
    this.#known.set(key, made);
    return made;
  }
}

/** Alike for columns that are −1 at the same places: their number, and two sums that tell sets apart. */
function scopeKey(codes: Int32Array): string {
  let [count, one, other] = [0, 0, 0];
  for (let place = 0; place < codes.length; place++)
    if ((codes[place] as number) >= 0) {
      count++;
      one = (Math.imul(one, 31) + place) | 0;
      other = (Math.imul(other ^ place, 0x9e3779b1) + 1) | 0;
    }
  return `${count} ${one} ${other}`;
}
