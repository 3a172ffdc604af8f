import { describe, expect, test } from 'vitest';
import { figureOf, lifeListCsv, lightTheme } from '../../lib/charts/index.ts';
import type { FigureOptions } from '../../lib/charts/figure.ts';
import type { Finding } from '../../shared/finding.ts';
import { estimate, handFinding } from './invented-findings.ts';
import { renderSvg } from './render.ts';

const options: FigureOptions = { width: 900, height: 400, theme: lightTheme, unitSystem: 'us' };

const curve = (group: string, procedure: number) => [
  {
    ...{ name: 'cost', group },
    columns: {
      miles: [50_000, 100_000, 150_000, 200_000],
      cost: [3000, 2000, 1900, 1950],
      lower: [2800, 1900, 1800, 1800],
      upper: [3200, 2100, 2000, 2100],
    },
  },
  { name: 'run to failure', group, columns: { cost: [2200, 2000, 2400] } },
  { name: 'renewal', group, columns: { miles: [150_000, 120_000, null], flat: [130_000, 180_000] } },
  { name: 'procedure', group, columns: { miles: [procedure] } },
];

const plans = (): Finding => ({
  ...handFinding('renewal', { by: ['role'] }, [
    { by: { role: 'trailer' }, estimates: { renewalMiles: estimate(150_000, 120_000, null, 'miles') } },
    { by: { role: 'drive' }, estimates: { renewalMiles: estimate(null, null, null, 'miles') } },
  ]),
  series: curve('trailer', 180_000),
});

describe('the cost of planned renewal', () => {
  test('a line for each group planned, named beside it; the others are said to be left out', async () => {
    const figure = figureOf(plans(), options);
    expect(figure.labels.map(({ says }) => says)).toEqual(['trailer']);
    expect(figure.leftOut).toEqual(['drive']);
    const svg = await renderSvg(figure.spec);
    expect(svg).toContain('planned renewal at, mi since installation');
    expect(svg).not.toContain('NaN');
  });
  test('the procedure’s miles stand where the axis goes so far, and nowhere else', async () => {
    expect(await renderSvg(figureOf(plans(), options).spec)).toContain('>procedure<');
    const beyond = { ...plans(), series: curve('trailer', 500_000) };
    expect(await renderSvg(figureOf(beyond, options).spec)).not.toContain('>procedure<');
  });
  test('kilometres change the axis', async () => {
    const svg = await renderSvg(figureOf(plans(), { ...options, unitSystem: 'metric' }).spec);
    expect(svg).toContain('planned renewal at, km since installation');
    expect(svg).toContain('300,000');
  });
});

test('a list as CSV repeats what it is of in every row, and guards what a spreadsheet would run', () => {
  const finding = handFinding('ahead', {}, [{ by: {}, estimates: {} }]);
  const csv = lifeListCsv(finding, {
    ...{ name: 'inspection', says: 'No list clears a wheel end that is not on it.' },
    lives: [
      {
        ...{ lifeId: '=1 2 left seal 1', unitId: '=1', position: '2 left', role: 'drive', shop: 'A' },
        ...{ installDate: null, miles: 40_000, aheadMiles: 1000, chance: 0.125, kind: null },
      },
    ],
  });
  const [header, row] = csv.split('\r\n');
  expect(header).toMatch(/^life_id,unit_id,position,role,shop,install_date,miles,miles_ahead,chance,kind,says/);
  expect(row).toMatch(/^'=1 2 left seal 1,'=1,2 left,drive,A,,40000,1000,0.125,,No list clears .*INVENTED/);
});
