/**
 * The invented demo fleet, shipped beside the app. Each address is written out: the bundler emits
 * a file, under whatever base path, only for what it can read here.
 */
export const demoFiles: readonly { readonly name: string; readonly url: URL }[] = [
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
