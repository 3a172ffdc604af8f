import type { WheelEndHistory } from '../../shared/life-history.ts';
import type { Component } from '../../shared/vocabulary.ts';
import type { Engine } from '../engine/engine.ts';
import type { LifeFacts } from './life-facts.ts';
import { readLifeFacts } from './read-life-facts.ts';
import { sourceRows, type SourceRow } from './source-rows.ts';
import { unitHistory } from './wheel-end-history.ts';
import { whyBegan } from './why-began.ts';
import { whyEnded, type SayMiles, type WhyEnded } from './why-ended.ts';

/** A life with everything it stands on. */
export interface OpenedLife {
  readonly facts: LifeFacts;
  readonly began: string;
  readonly ended: WhyEnded;
  readonly rows: readonly SourceRow[];
  /** Of the whole vehicle, front to rear. */
  readonly histories: readonly WheelEndHistory[];
}

/** Opens a life of `lives_<component>` down to its records; null where there is none of that id. The lives must have been made. */
export async function openLife(
  engine: Engine,
  component: Component,
  lifeId: string,
  miles: SayMiles,
  signal?: AbortSignal,
): Promise<OpenedLife | null> {
  const facts = await readLifeFacts(engine, component, lifeId, signal);
  if (facts === null) return null;
  return {
    facts,
    ...{ began: whyBegan(facts, miles), ended: whyEnded(facts, miles) },
    rows: await sourceRows(engine, facts, signal),
    histories: await unitHistory(engine, component, facts.unitId, signal),
  };
}
