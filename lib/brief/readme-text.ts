import { methodsOf } from '../charts/index.ts';
import { findingCautions, wheelEndCautions } from '../../shared/cautions.ts';
import { sourcesOf } from '../../shared/methods/index.ts';
import { toolVersion } from '../../shared/version.ts';
import { briefTitle, type BriefDocument } from './brief-html.ts';

const rule = (head: string): string => `\n${head}\n${'-'.repeat(head.length)}\n`;

/** What stands beside a brief: what each file is, the methods with their sources, what it was made from, cautions. */
export function readmeText({ brief, grounds }: BriefDocument): string {
  const invented = grounds?.invented === true || brief.entries.some(({ finding }) => finding.data.invented);
  const methods = [
    ...new Set(
      brief.entries.flatMap(({ finding }) => methodsOf(finding).map(({ method, limits }) => `${method}; ${limits}`)),
    ),
  ];
  return [
    `${briefTitle(brief)}\nRevision ${brief.revision}. Made with Hubcause ${toolVersion}.`,
    invented ? 'INVENTED RECORDS: no number here is about a real fleet.' : '',
    rule('Files'),
    'brief.html       the brief; opens without a network, prints to A4 and Letter',
    'brief.json       the same for the tool: findings, words, photos, order',
    'settings.json    procedure, choices, column maps, and what was asked: makes it again',
    'records.json     what the records hold, in counts',
    'numbers/         every number of every finding (CSV, in miles, shares from 0 to 1)',
    'findings/        every finding (JSON)',
    'lives.*          the lives of every component (Parquet and Arrow)',
    'episodes.*       failures, those that met no life among them',
    'evidence/        what the findings read beside the lives: looks, measurements, who found what,',
    '                 and where each life stands among them (Parquet)',
    'checksums.txt    SHA-256 of every file: sha256sum --check checksums.txt',
    '',
    'hubcause brief --check FOLDER [RECORDS] says for every number whether it still holds.',
    rule('Records'),
    grounds === null ? 'None were open.' : `${grounds.name}\nFingerprint ${grounds.fingerprint}`,
    rule('Methods'),
    ...methods.map((method) => `- ${method}`),
    rule('Sources'),
    ...sourcesOf(methods).map((source) => `- ${source}`),
    rule('What no finding says'),
    ...findingCautions.map(({ long }) => `- ${long}`),
    rule('Cautions at the wheel end'),
    ...wheelEndCautions.map(({ long }) => `- ${long}`),
    '',
  ].join('\n');
}
