interface DemoFile {
  readonly name: string;
  readonly url: URL;
}

const tidy: readonly DemoFile[] = [
  { name: 'record-set.json', url: new URL('../../data/demo-fleet/record-set.json', import.meta.url) },
  { name: 'units.csv', url: new URL('../../data/demo-fleet/units.csv', import.meta.url) },
  { name: 'readings.csv', url: new URL('../../data/demo-fleet/readings.csv', import.meta.url) },
  { name: 'services-ambleford.csv', url: new URL('../../data/demo-fleet/services-ambleford.csv', import.meta.url) },
  { name: 'services-brackwell.csv', url: new URL('../../data/demo-fleet/services-brackwell.csv', import.meta.url) },
  { name: 'services-coldmere.csv', url: new URL('../../data/demo-fleet/services-coldmere.csv', import.meta.url) },
  { name: 'services-dunhollow.csv', url: new URL('../../data/demo-fleet/services-dunhollow.csv', import.meta.url) },
  { name: 'services-eastfen.csv', url: new URL('../../data/demo-fleet/services-eastfen.csv', import.meta.url) },
  { name: 'services-outside.csv', url: new URL('../../data/demo-fleet/services-outside.csv', import.meta.url) },
  { name: 'inspections.csv', url: new URL('../../data/demo-fleet/inspections.csv', import.meta.url) },
  { name: 'failures-ambleford.csv', url: new URL('../../data/demo-fleet/failures-ambleford.csv', import.meta.url) },
  { name: 'failures-brackwell.csv', url: new URL('../../data/demo-fleet/failures-brackwell.csv', import.meta.url) },
  { name: 'failures-coldmere.csv', url: new URL('../../data/demo-fleet/failures-coldmere.csv', import.meta.url) },
  { name: 'failures-dunhollow.csv', url: new URL('../../data/demo-fleet/failures-dunhollow.csv', import.meta.url) },
  { name: 'failures-eastfen.csv', url: new URL('../../data/demo-fleet/failures-eastfen.csv', import.meta.url) },
];

/** The column maps come with them, so that nothing is asked. */
const messy: readonly DemoFile[] = [
  { name: 'record-set.json', url: new URL('../../data/demo-exports/record-set.json', import.meta.url) },
  { name: 'maps.json', url: new URL('../../data/demo-exports/maps.json', import.meta.url) },
  { name: 'fleet_list.xlsx', url: new URL('../../data/demo-exports/fleet_list.xlsx', import.meta.url) },
  { name: 'meter_readings.parquet', url: new URL('../../data/demo-exports/meter_readings.parquet', import.meta.url) },
  { name: 'check_sheets.zip', url: new URL('../../data/demo-exports/check_sheets.zip', import.meta.url) },
  { name: 'north_wo_history.csv', url: new URL('../../data/demo-exports/north_wo_history.csv', import.meta.url) },
  { name: 'werkstatt_arbeiten.csv', url: new URL('../../data/demo-exports/werkstatt_arbeiten.csv', import.meta.url) },
  { name: 'werkstatt_ausfaelle.csv', url: new URL('../../data/demo-exports/werkstatt_ausfaelle.csv', import.meta.url) },
  { name: 'trailer_yard.xlsx', url: new URL('../../data/demo-exports/trailer_yard.xlsx', import.meta.url) },
  { name: 'dh_job_cards.txt', url: new URL('../../data/demo-exports/dh_job_cards.txt', import.meta.url) },
  { name: 'dh_defects.txt', url: new URL('../../data/demo-exports/dh_defects.txt', import.meta.url) },
  { name: 'eastfen_jobs.jsonl', url: new URL('../../data/demo-exports/eastfen_jobs.jsonl', import.meta.url) },
  { name: 'eastfen_failures.jsonl', url: new URL('../../data/demo-exports/eastfen_failures.jsonl', import.meta.url) },
  { name: 'vendor_invoices.txt', url: new URL('../../data/demo-exports/vendor_invoices.txt', import.meta.url) },
];

export type DemoName = 'tidy' | 'messy';

/**
 * The invented demo fleet, tidy and as five shops would export it, shipped beside the app. Each address
 * is written out: the bundler emits a file, under whatever base path, only for what it can read here.
 */
export const demoFiles: Readonly<Record<DemoName, readonly DemoFile[]>> = { tidy, messy };
