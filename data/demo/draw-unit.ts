import { DAYS_PER_YEAR, isoDateOf } from './calendar.ts';
import type { HubBuild, Lubricant } from './planted-deviations.ts';
import { FRAILTY_VARIANCE } from './planted-effects.ts';
import { Random } from './random.ts';
import type { UnitRow } from './rows.ts';
import {
  CLASSES,
  POWER_SHARE,
  SHOPS,
  TRAILER_SHARE,
  type UnitClass,
  observedFromDay,
  observedToDay,
  recordsFromDay,
} from './story.ts';
import { UnitMileage } from './unit-mileage.ts';

export interface AxlePlan {
  readonly number: number;
  readonly role: string;
  readonly build: HubBuild;
  readonly lubricant: Lubricant;
  readonly nutSystem: 'double' | 'single';
  readonly material: 'iron' | 'aluminium';
}

export interface DemoUnit {
  readonly random: Random;
  readonly unitClass: UnitClass;
  readonly row: UnitRow;
  readonly serial: string;
  readonly homeShop: number;
  readonly duty: string;
  readonly frailty: number;
  readonly mileage: UnitMileage;
  readonly axles: readonly AxlePlan[];
  readonly fromDay: number;
  /** Last day in the fleet or in the window, whichever comes first. */
  readonly toDay: number;
  readonly left: boolean;
  readonly knownNew: boolean;
}

const GOLDEN = 0.6180339887498949;
const CLASS_NAMES = Object.keys(CLASSES) as UnitClass[];

/** Unit number `index`, drawn from its own stream; the order of classes is a fixed even spread. */
export function drawUnit(seed: number, index: number): DemoUnit {
  const random = new Random(seed, index);
  const unitClass = classOf(index);
  const isTrailer = unitClass === 'trailer';
  const homeShop = random.weighted(isTrailer ? TRAILER_SHARE : POWER_SHARE);
  const duty = drawDuty(random, unitClass, homeShop);
  const stay = drawStay(random, unitClass);
  const mileage = new UnitMileage(random, stay.fromDay, stay.toDay + 40, stay.startMiles, stay.milesPerYear);
  const roles = drawRoles(random, unitClass);
  const serial = String(index + 1).padStart(4, '0');
  const unitId = (isTrailer ? 'T' : unitClass === 'straight' ? 'S' : '') + serial;
  const row: UnitRow = {
    unit_id: unitId,
    unit_kind: isTrailer ? 'trailer' : unitClass === 'straight' ? 'straight' : 'tractor',
    axle_roles: roles.join(' '),
    acquired: stay.acquired,
    in_service_date: isoDateOf(stay.fromDay),
    in_service_miles: mileage.read(stay.fromDay),
    out_date: stay.left ? isoDateOf(stay.toDay) : null,
    out_miles: stay.left ? mileage.read(stay.toDay) : null,
    out_reason: stay.left ? (['sold', 'wrecked', 'transferred'][random.weighted([0.86, 0.07, 0.07])] as string) : null,
    duty,
    home_shop: SHOPS[homeShop] as string,
  };
  return {
    random,
    unitClass,
    row,
    serial,
    homeShop,
    duty,
    frailty: random.frailty(FRAILTY_VARIANCE.unit),
    mileage,
    axles: drawAxles(random, roles, homeShop),
    fromDay: stay.fromDay,
    toDay: stay.toDay,
    left: stay.left,
    knownNew: stay.startMiles <= 1_000,
  };
}

function classOf(index: number): UnitClass {
  let place = ((index + 0.5) * GOLDEN) % 1;
  for (const name of CLASS_NAMES) {
    place -= CLASSES[name].share;
    if (place < 0) return name;
  }
  return 'straight';
}

function drawDuty(random: Random, unitClass: UnitClass, homeShop: number): string {
  if (unitClass === 'linehaul') return 'linehaul';
  if (random.chance(homeShop === 2 ? 0.38 : 0.07)) return 'quarry';
  if (unitClass === 'straight') return random.chance(0.75) ? 'city' : 'regional';
  return unitClass === 'trailer' && random.chance(0.6) ? 'linehaul' : 'regional';
}

interface Stay {
  readonly fromDay: number;
  readonly toDay: number;
  readonly left: boolean;
  readonly startMiles: number;
  readonly milesPerYear: number;
  readonly acquired: string | null;
}

/** When the unit is in the fleet: most before the window opens, some new or used within it. */
function drawStay(random: Random, unitClass: UnitClass): Stay {
  const { milesPerYear: median, milesLogDeviation, soldPerYear } = CLASSES[unitClass];
  const milesPerYear = median * Math.exp(milesLogDeviation * random.normal());
  const joinsLater = random.chance(0.3);
  const used = random.chance(0.15);
  let fromDay = joinsLater
    ? observedFromDay + random.below(observedToDay - observedFromDay - 200)
    : observedFromDay - 1 - random.below(Math.round((300_000 / milesPerYear) * DAYS_PER_YEAR));
  let startMiles = used ? random.between(0.8, 3.5) * milesPerYear : random.between(2, 400);
  let acquired: string | null = used ? 'used' : random.chance(0.05) ? null : 'new';
  if (fromDay < recordsFromDay) {
    startMiles += ((recordsFromDay - fromDay) / DAYS_PER_YEAR) * milesPerYear;
    fromDay = recordsFromDay;
    if (startMiles > 1_000) acquired = used ? 'used' : null;
  }
  const leaves = Math.max(fromDay, observedFromDay) + 120 + random.exponential(DAYS_PER_YEAR / soldPerYear);
  const left = leaves < observedToDay;
  return { fromDay, toDay: left ? Math.floor(leaves) : observedToDay, left, startMiles, milesPerYear, acquired };
}

function drawRoles(random: Random, unitClass: UnitClass): string[] {
  if (unitClass === 'trailer') return Array.from({ length: random.chance(0.08) ? 3 : 2 }, () => 'trailer');
  if (unitClass === 'straight')
    return [
      ['steer', 'drive'],
      ['steer', 'drive', 'drive'],
      ['steer', 'pusher', 'drive', 'drive'],
    ][random.weighted([0.75, 0.2, 0.05])] as string[];
  return unitClass === 'regional' && random.chance(0.15) ? ['steer', 'drive', 'tag'] : ['steer', 'drive', 'drive'];
}

/** Hubs are bought with the vehicle: one build and lubricant for its trailer axles, one per role otherwise. */
function drawAxles(random: Random, roles: readonly string[], homeShop: number): AxlePlan[] {
  const byRole = new Map<string, Omit<AxlePlan, 'number' | 'role'>>();
  return roles.map((role, place) => {
    let hub = byRole.get(role);
    if (!hub) byRole.set(role, (hub = drawHub(random, role, homeShop)));
    return { number: place + 1, role, ...hub };
  });
}

const BUILDS: readonly HubBuild[] = ['adjusted', 'spacer', 'unitized'];
const LUBRICANTS: readonly Lubricant[] = ['oil', 'semi-fluid', 'packed'];

function drawHub(random: Random, role: string, homeShop: number): Omit<AxlePlan, 'number' | 'role'> {
  const material = random.chance(0.35) ? 'aluminium' : 'iron';
  if (role !== 'trailer') {
    const build = BUILDS[random.weighted(role === 'steer' ? [0.7, 0.15, 0.15] : [0.55, 0.36, 0.09])] as HubBuild;
    const single = build === 'adjusted' && role === 'steer' && random.chance(0.3);
    const lubricant = build === 'unitized' ? 'packed' : 'oil';
    return { build, lubricant, nutSystem: single ? 'single' : 'double', material };
  }
  const southern = homeShop === 2 || homeShop === 3;
  const lubricant = LUBRICANTS[random.weighted(southern ? [0.42, 0.5, 0.08] : [0.6, 0.3, 0.1])] as Lubricant;
  const shares = lubricant === 'semi-fluid' ? [0.3, 0.62, 0.08] : [0.55, 0.37, 0.08];
  const build = BUILDS[random.weighted(shares)] as HubBuild;
  return { build, lubricant: build === 'unitized' ? 'packed' : lubricant, nutSystem: 'double', material };
}
