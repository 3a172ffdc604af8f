import { displayUnit, type UnitSystem } from '../../shared/units.ts';
import type { HistoryEvent, LivedStretch, WheelEndHistory } from '../../shared/life-history.ts';
import type { LifeState } from '../../shared/vocabulary.ts';
import { lifeSays, markSays } from './life-strip-words.ts';
import { textWidth } from './text-width.ts';

/** Told apart by shape: a filled lozenge failed; all others are censored. */
export type EndShape = 'failed' | 'renewed' | 'other-failed' | 'not-told' | 'left' | 'running';

const endShapes: Readonly<Record<LifeState, EndShape>> = {
  failed: 'failed',
  planned: 'renewed',
  'other-failure': 'other-failed',
  'removed-unknown': 'not-told',
  'unit-left': 'left',
  running: 'running',
};

export interface StripLife {
  readonly lifeId: string;
  readonly x1: number;
  readonly x2: number;
  /** It is known when the part was fitted: the line begins with a bar. */
  readonly fitted: boolean;
  readonly end: EndShape;
  /** How it ended, where there is room for it. */
  readonly label: { readonly text: string; readonly x: number; readonly anchor: 'start' | 'middle' | 'end' } | null;
  readonly says: string;
}

export type MarkKind = 'dry' | 'damp' | 'leak' | 'service' | 'other-failure' | 'report';

export interface StripMark {
  readonly kind: MarkKind;
  readonly x: number;
  readonly says: string;
}

/** One wheel end drawn along the miles of its vehicle: pixels from the left edge. */
export interface LifeStrip {
  readonly lives: readonly StripLife[];
  readonly waits: readonly { readonly x1: number; readonly x2: number }[];
  readonly marks: readonly StripMark[];
}

/** Odometer miles from edge to edge, shared by the wheel ends of a vehicle. */
export interface StripSpan {
  readonly from: number;
  readonly to: number;
}

export const stripMargin = 12;

export function stripSpan(histories: readonly WheelEndHistory[]): StripSpan {
  const from = Math.min(...histories.map(({ watchedFrom }) => watchedFrom));
  const to = Math.max(...histories.map(({ watchedTo }) => watchedTo));
  return Number.isFinite(from) && to > from ? { from, to } : { from: 0, to: 1 };
}

const place = ({ from, to }: StripSpan, width: number) => {
  const room = Math.max(1, width - 2 * stripMargin);
  return (miles: number) => stripMargin + room * Math.min(1, Math.max(0, (miles - from) / (to - from)));
};

/** A check, a service that renewed nothing, or a failure that ended no life of this component; null for what the lives show. */
function markKind({ table, counts, leak, why }: HistoryEvent, endsHere: boolean): MarkKind | null {
  if (table === 'inspections') return leak === null ? null : leak === 0 ? 'dry' : leak === 1 ? 'damp' : 'leak';
  if (table === 'services') return counts ? null : 'service';
  if (!counts || why === 'fastener') return 'other-failure';
  return endsHere ? null : 'report';
}

const labelSize = 12;

/** Labels from left to right; one that would touch the one before it is left to its shape. */
function labelled(lives: readonly LivedStretch[], at: (miles: number) => number, width: number): StripLife['label'][] {
  let free = 0;
  return lives.map(({ state, mode, toMiles }) => {
    const text = lifeSays(state, mode);
    const wide = textWidth(text, labelSize);
    const x = at(toMiles);
    const left = Math.min(Math.max(0, x - wide / 2), width - wide);
    if (left < free || wide > width) return null;
    free = left + wide + 10;
    return { text, x: left, anchor: 'start' as const };
  });
}

export interface StripOptions {
  readonly width: number;
  readonly span: StripSpan;
  readonly unitSystem: UnitSystem;
}

export function lifeStrip(history: WheelEndHistory, { width, span, unitSystem }: StripOptions): LifeStrip {
  const at = place(span, width);
  const labels = labelled(history.lives, at, width);
  const ends = new Set(history.lives.filter(({ state }) => state === 'failed').map(({ toMiles }) => toMiles));
  return {
    lives: history.lives.map((life, index) => ({
      ...{ lifeId: life.lifeId, x1: at(life.fromMiles), x2: at(life.toMiles), end: endShapes[life.state] },
      fitted: life.installMiles !== null && life.installMiles >= span.from && life.installMiles === life.fromMiles,
      label: labels[index] ?? null,
      says: markSays.life(life, index + 1, unitSystem),
    })),
    waits: history.waits.map(({ fromMiles, toMiles }) => ({ x1: at(fromMiles), x2: at(toMiles) })),
    marks: history.events.flatMap((event) => {
      const kind = event.miles < span.from || event.miles > span.to ? null : markKind(event, ends.has(event.miles));
      return kind === null ? [] : [{ kind, x: at(event.miles), says: markSays.event(event, unitSystem) }];
    }),
  };
}

export interface StripTick {
  readonly x: number;
  readonly text: string;
}

/** Round odometer readings under the strips, in the reader's unit. */
export function stripTicks({ width, span, unitSystem }: StripOptions): StripTick[] {
  const { factor, symbol } = displayUnit('miles', unitSystem);
  const [from, to] = [span.from * factor, span.to * factor];
  const rough = (to - from) / Math.max(2, Math.floor(width / 95));
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= rough) ?? rough;
  const at = place(span, width);
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.max(0, Math.floor(to / step + 1e-9) - first + 1);
  return Array.from({ length: count }, (_, index) => {
    const shown = (first + index) * step;
    const text = `${shown.toLocaleString('en-US')}${index === count - 1 ? ` ${symbol}` : ''}`;
    return { x: at(shown / factor), text };
  });
}
