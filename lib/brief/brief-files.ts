import { findingCsv } from '../charts/index.ts';
import { settingsText, type SettingsFile } from '../../shared/settings-file.ts';
import { briefText } from './brief-file.ts';
import { briefHtml, type BriefDocument } from './brief-html.ts';
import { readmeText } from './readme-text.ts';

export interface BriefFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Where what the findings read beside the lives is kept. */
export const evidenceFolder = 'evidence';

const numbered = (at: number, question: string): string => `${at + 1}-${question}`;

/** Everything of a brief but the tables of lives, which only an engine can write. */
export function briefFiles(document: BriefDocument, settings: SettingsFile): BriefFile[] {
  const { brief, grounds } = document;
  return [
    { name: 'brief.html', content: briefHtml(document) },
    { name: 'README.txt', content: readmeText(document) },
    { name: 'brief.json', content: briefText(brief) },
    { name: 'settings.json', content: settingsText(settings) },
    ...(grounds === null ? [] : [{ name: 'records.json', content: `${JSON.stringify(grounds, null, 1)}\n` }]),
    ...brief.entries.map(({ finding }, at) => ({
      name: `numbers/${numbered(at, finding.question)}.csv`,
      // The mark in front tells spreadsheets that the text is UTF-8.
      content: `\uFEFF${findingCsv(finding)}`,
    })),
    ...brief.entries.map(({ finding }, at) => ({
      name: `findings/${numbered(at, finding.question)}.json`,
      content: `${JSON.stringify(finding, null, 1)}\n`,
    })),
  ];
}

/** SHA-256 by file, a line each, as `sha256sum --check` reads it. */
export const sumsText = (sums: readonly { readonly name: string; readonly sum: string }[]): string =>
  sums.map(({ name, sum }) => `${sum}  ${name}\n`).join('');

export const sumsName = 'checksums.txt';

export const sumsIn = (text: string): { name: string; sum: string }[] =>
  text.split('\n').flatMap((line) => {
    const [, sum, name] = /^([0-9a-f]{64}) {2}(.+)$/.exec(line) ?? [];
    return sum === undefined || name === undefined ? [] : [{ name, sum }];
  });
