'use client';

import { useState } from 'react';
import { figureSheet, findingCsv, printTheme, scopeSentence } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { findingArrow } from '../../_state/finding-arrow.ts';
import { figurePng, figureSvg } from '../figure/draw.ts';
import { saveFile } from './save-file.ts';

const sheetSize = { width: 940, height: 520 };

/** What a finding can be taken away as; each file says what it stands on, and if the records are invented. */
export function FindingActs({ finding, units }: { finding: Finding; units: UnitSystem }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const failed = (error: unknown) => setTrouble(error instanceof Error ? error.message : String(error));
  const name = `${finding.question}${finding.data.invented ? '-invented' : ''}`;
  const drawn = (draw: typeof figureSvg, ending: string) => () => {
    const sheet = figureSheet(
      finding,
      { ...sheetSize, theme: printTheme, unitSystem: units },
      scopeSentence(finding.settings, units),
    );
    draw(sheet).then((file) => saveFile(file, `${name}.${ending}`), failed);
  };
  return (
    <div className="acts" role="group" aria-label="Take away">
      {/* The mark in front tells spreadsheets that the text is UTF-8. */}
      <button
        type="button"
        className="word"
        onClick={() => saveFile(`\uFEFF${findingCsv(finding)}`, `${name}.csv`, 'text/csv')}
      >
        Table (CSV)
      </button>
      <button
        type="button"
        className="word"
        onClick={() => {
          findingArrow(finding).then((file) => saveFile(file, `${name}.arrow`), failed);
        }}
      >
        Table (Arrow)
      </button>
      <button type="button" className="word" onClick={drawn(figureSvg, 'svg')}>
        Figure (SVG)
      </button>
      <button type="button" className="word" onClick={drawn(figurePng, 'png')}>
        Figure (PNG)
      </button>
      <button
        type="button"
        className="word"
        onClick={() => saveFile(JSON.stringify(finding, null, 1), `${name}.json`, 'application/json')}
      >
        Finding (JSON)
      </button>
      {trouble && <p role="alert">The file could not be written: {trouble}</p>}
    </div>
  );
}
