import { coxRiskSets, splitTime, type RiskSets, type SplitTime, type SurvivalData } from '../../statistics/index.ts';
import { groundCells, type GroundCells } from '../adjustment/common-ground.ts';
import { dealingOrder } from './dealing-order.ts';
import { gather, placesWhere } from '../gather.ts';
import { HeldParts } from '../held-parts.ts';

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
  readonly #lives: () => ModelLives;
  readonly #adjusted: () => RiskSets;
  readonly #crude: () => RiskSets;
  readonly #ground: () => GroundCells;
  readonly #dealing: () => readonly Int32Array[];
  #split: { readonly cut: number; readonly at: () => { readonly lives: SplitTime; readonly sets: RiskSets } } | null =
    null;

  /** @param places of these lives among `all`; null where they are all of them */
  constructor(
    private readonly all: ModelLives,
    readonly places: Int32Array | null,
    readonly held = new HeldParts(),
  ) {
    this.#lives = places === null ? () => all : held.lazily(() => someLives(all, places));
    this.#adjusted = held.lazily(() => coxRiskSets(this.#stratified()));
    this.#crude = held.lazily(() => coxRiskSets(this.#unstratified()));
    this.#ground = held.lazily(() => groundCells(this.lives));
    this.#dealing = held.lazily(() => dealingOrder(this.lives));
  }

  get lives(): ModelLives {
    return this.#lives();
  }

  get rows(): number {
    return (this.places ?? this.all.exit).length;
  }

  /** A column of all the lives at these. */
  take(codes: Int32Array): Int32Array {
    return this.places === null ? codes : gather(codes, this.places);
  }

  get adjusted(): { readonly data: Column; readonly riskSets: RiskSets } {
    return { data: this.#stratified(), riskSets: this.#adjusted() };
  }

  /** Without strata. */
  get crude(): { readonly data: Column; readonly riskSets: RiskSets } {
    return { data: this.#unstratified(), riskSets: this.#crude() };
  }

  /** Cut at an age, the covariates along. */
  splitAt(cut: number): { readonly lives: SplitTime; readonly sets: RiskSets } {
    if (this.#split?.cut !== cut) this.#split = { cut, at: this.held.lazily(() => this.#cutAt(cut)) };
    return this.#split.at();
  }

  /** Places by stratum, in the order in which shadows are dealt. */
  get dealing(): readonly Int32Array[] {
    return this.#dealing();
  }

  get ground(): GroundCells {
    return this.#ground();
  }

  #unstratified(): Column {
    const { entry, exit, event, cluster } = this.lives;
    return { entry, exit, event, cluster };
  }

  #stratified(): Column {
    return { ...this.#unstratified(), strata: this.lives.strata };
  }

  #cutAt(cut: number): { readonly lives: SplitTime; readonly sets: RiskSets } {
    const lives = splitTime({ ...this.#stratified(), covariates: this.lives.covariates }, [cut]);
    return { lives, sets: coxRiskSets(lives) };
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
  readonly #held = new HeldParts();

  constructor(private readonly lives: ModelLives) {}

  where(codes: Int32Array): ComparedLives {
    const key = scopeKey(codes);
    const known = this.#known.get(key);
    if (known) return known;
    const places = placesWhere(codes.length, (place) => (codes[place] as number) >= 0);
    const made = new ComparedLives(this.lives, places.length === codes.length ? null : places, this.#held);
    this.#known.set(key, made);
    return made;
  }
}

/** Places of exposures, those that share their lives after each other: what their fits share is then made once. */
export function byScope(exposures: readonly { readonly codes: Int32Array }[], scopes: LivesByScope): number[] {
  const places = new Map<ComparedLives, number[]>();
  for (const [at, { codes }] of exposures.entries()) {
    const lives = scopes.where(codes);
    places.set(lives, [...(places.get(lives) ?? []), at]);
  }
  return [...places.values()].flat();
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
