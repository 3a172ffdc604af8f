import * as words from '../../shared/vocabulary.ts';

const listedOrder: Readonly<Record<string, readonly string[]>> = {
  role: words.roles,
  side: words.sides,
  site: words.sites,
  lubricant: words.lubricants,
  hub_build: words.hubBuilds,
  hub_material: words.hubMaterials,
  install_kind: ['original', 'replacement'],
  mileage_quality: ['measured', 'interpolated', 'extrapolated'],
};
const numbered = new Set(['axle', 'position', 'life_number', 'prior_failures', 'install_year']);

/** Where a value stands among its column's; equal places are settled by size. `unknown` always comes last. */
export function placeOfValue(column: string, value: string): number {
  if (value === 'unknown') return 1e9;
  if (column.startsWith('dev_')) return ['yes', 'no'].indexOf(value);
  if (numbered.has(column)) return Number.parseFloat(value) + (value.endsWith('right') ? 0.5 : 0);
  const order = listedOrder[column];
  if (!order) return 0;
  const at = order.indexOf(value);
  return at < 0 ? order.length : at;
}
