import type { DemoFleet } from '../generate-demo-fleet.ts';
import { Random } from '../random.ts';
import type { FailureRow, InspectionRow, ServiceRow } from '../rows.ts';
import { SHOPS } from '../story.ts';
import type { Paper } from './mess.ts';
import type { RolesOf } from './place-spellings.ts';
import { makeRowMesses, reopenedOrders, saidAgain } from './row-messes.ts';
import { inspectionMesses, shopMesses } from './shop-messes.ts';
import { makeUnitMesses } from './unit-messes.ts';
import { allPapers, unitRecordsOf, type ListedUnit, type MeterReading } from './unit-records.ts';

export type ShopName = (typeof SHOPS)[number];

/** The fleet's papers as they lie in the office and at each shop, every mess made but that of writing them out. */
export interface ShopPapers {
  readonly units: readonly Paper<ListedUnit>[];
  readonly readings: readonly Paper<MeterReading>[];
  readonly inspections: readonly Paper<InspectionRow>[];
  readonly services: Readonly<Record<ShopName, readonly Paper<ServiceRow>[]>>;
  readonly failures: Readonly<Record<ShopName, readonly Paper<FailureRow>[]>>;
  readonly rolesOf: RolesOf;
}

const byShop = <T>(of: (shop: ShopName, at: number) => T): Record<ShopName, T> =>
  Object.fromEntries(SHOPS.map((shop, at) => [shop, of(shop, at)])) as Record<ShopName, T>;

/** Streams of chance apart from those of the vehicles, which count up from 0. */
const streams = { units: -1, inspections: -2, services: -10, failures: -20 };

/** Makes all messes of a tidy fleet; the same fleet and seed give the same ones. */
export function shopPapers(fleet: DemoFleet, seed: number): ShopPapers {
  const records = unitRecordsOf(fleet);
  makeUnitMesses(records, new Random(seed, streams.units));
  const papers = allPapers(records);
  const rolesOf = rolesIn(papers.units);
  const homes = new Map(fleet.units.map(({ unit_id, home_shop }) => [unit_id, home_shop]));
  const links = new Map<string, string>();
  const services = byShop((shop, at) => {
    const random = new Random(seed, streams.services - at);
    const own = papers.services.filter(({ row }) => row.shop === shop);
    const mixed = makeRowMesses(own, shopMesses[shop].services, rolesOf, random);
    const again = reopenedOrders(mixed, random);
    for (const [first, second] of again.ids) links.set(first, second);
    return saidAgain(again.papers, 'service_id', random);
  });
  const failures = byShop((shop, at) => {
    const random = new Random(seed, streams.failures - at);
    const own = papers.failures.filter(({ tidy }) => tidy !== null && homes.get(tidy.unit_id) === shop);
    const linked = own.map((paper) => linkedToReopened(paper, links));
    const mixed = makeRowMesses(linked, shopMesses[shop].failures, rolesOf, random);
    return saidAgain(mixed, 'failure_id', random, shop !== 'Dunhollow');
  });
  const random = new Random(seed, streams.inspections);
  const inspections = makeRowMesses(papers.inspections, inspectionMesses, rolesOf, random);
  return { ...papers, inspections, services, failures, rolesOf };
}

function rolesIn(units: readonly Paper<ListedUnit>[]): RolesOf {
  const roles = new Map<string, readonly string[]>();
  for (const { row } of units)
    for (const name of [row.unit_id, row.former_ids]) if (name !== null) roles.set(name, row.axle_roles.split(' '));
  return ({ unit_id }) => roles.get(unit_id) ?? [];
}

function linkedToReopened(paper: Paper<FailureRow>, links: ReadonlyMap<string, string>): Paper<FailureRow> {
  const first = paper.row.repair_service_id;
  const second = first === null ? undefined : links.get(first);
  if (first === null || second === undefined || paper.messes.length > 0) return paper;
  const row = { ...paper.row, repair_service_id: second };
  const mess = { code: 'links-to-reopened', column: 'repair_service_id', written: second, meant: first } as const;
  return { ...paper, row, tidy: row, messes: [mess] };
}
