import { csvCell } from '../../shared/csv-cell.ts';
import type { Finding, LifeList } from '../../shared/finding.ts';

/**
 * A list of lives as CSV, miles and shares as stored. What it is of, what it does not say and what it
 * stands on are repeated in every row, so that no row can be parted from it.
 */
export function lifeListCsv({ data, settings }: Finding, { says, lives }: LifeList): string {
  const header = [
    ...['life_id', 'unit_id', 'position', 'role', 'shop', 'install_date', 'miles', 'miles_ahead', 'chance', 'kind'],
    ...['says', 'records', 'data_fingerprint', 'settings'],
  ];
  const about = [
    says,
    data.invented ? 'INVENTED: made-up records, no real fleet' : 'as opened',
    data.fingerprint,
    JSON.stringify(settings),
  ];
  const rows = lives.map(({ lifeId, unitId, position, role, shop, installDate, miles, aheadMiles, chance, kind }) => [
    ...[lifeId, unitId, position, role, shop, installDate, miles, aheadMiles, chance, kind],
    ...about,
  ]);
  return `${[header, ...rows].map((cells) => cells.map(csvCell).join(',')).join('\r\n')}\r\n`;
}
