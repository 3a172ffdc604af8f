import { columnMapSchema, fedTables, neededColumns, type ColumnMap, type Feeds } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import type { Ask, AskedSource, Proposal, SourceLook, TriedMap } from '../columns-desk.ts';
import { answerIn, withAnswer } from './answering.ts';
import { withOnly } from './edit-columns.ts';

/** The column map of one source in the making. */
export interface Draft {
  readonly source: AskedSource;
  /** What the answers' changes are told against. */
  readonly proposed: Proposal;
  readonly map: ColumnMap;
  /** The option chosen, by the id of what is asked. */
  readonly answers: Readonly<Record<string, number>>;
  /** Whether its files go unread. */
  readonly left: boolean;
  /** The latest trial that came; of an earlier map while `triedMap` is another. */
  readonly tried: TriedMap | null;
  readonly triedMap: ColumnMap | null;
  readonly trouble: string | null;
  /** Its sheets and first rows, once they were looked at. */
  readonly look: SourceLook | null;
  /** Why its rows cannot stand where they were said to, last. */
  readonly misplaced: string | null;
}

export function firstDraft(source: AskedSource): Draft {
  const { proposal, headers, map } = source;
  const own = map && { ...map, recognised: { ...map.recognised, headers: [...headers] } };
  return {
    ...{ source, proposed: proposal, map: own ?? proposal.map, answers: {}, left: !source.likely },
    ...{ tried: null, triedMap: null, trouble: null, look: null, misplaced: null },
  };
}

/**
 * A draft whose rows stand in another place of their file. Below the same headers nothing else changes;
 * below others all is proposed anew but what somebody called the source.
 */
export function placedOtherwise(draft: Draft, source: AskedSource): Draft {
  const { where } = source.proposal.map;
  const { look } = draft;
  const same = source.headers.join('\n') === draft.source.headers.join('\n');
  if (same) {
    const map = withOnly(draft.map, { where });
    return { ...draft, source: { ...source, map: draft.source.map }, map, misplaced: null };
  }
  const fresh = firstDraft({ ...source, likely: true });
  const recognised = withOnly(fresh.map.recognised, { fileName: draft.map.recognised.fileName });
  return { ...fresh, look, map: { ...fresh.map, source: draft.map.source, recognised } };
}

const aboutPlaces = ({ id }: Ask): boolean => /^(driver$|combination$|place )/.test(id);

/** What is asked of a draft; questions whose column has gone since, or that its columns answer themselves, are not. */
export function asksOf({ source, proposed, map, tried }: Draft): Ask[] {
  const places = tried?.asks ?? proposed.asks.filter(aboutPlaces);
  // A map that was confirmed once has answered the rest.
  if (source.map !== null) return [...places];
  return [
    ...proposed.asks.filter((ask) => ask.options.length > 0 && !aboutPlaces(ask) && isOpen(ask, proposed.map, map)),
    ...places,
  ];
}

/** Whether some option of it still finds what it is about. */
function isOpen({ options }: Ask, proposed: ColumnMap, map: ColumnMap): boolean {
  return options
    .flatMap(({ set }) => set)
    .every(({ path, value }) => {
      const [first, table, at] = path;
      if (first !== 'tables' || typeof at !== 'number') return true;
      const sources = map.tables[table as TableName] ?? [];
      const known = proposed.tables[table as TableName]?.[at];
      if (known) {
        const now = sources.find(({ ours }) => ours === known.ours);
        return now?.from?.[0]?.header === known.from?.[0]?.header;
      }
      const added = value as { ours: string } | undefined;
      return sources.find(({ ours }) => ours === added?.ours)?.from === undefined;
    });
}

/** The option chosen for something asked. */
export const answerOf = (draft: Draft, ask: Ask): number | undefined =>
  draft.answers[ask.id] ?? (draft.source.map === null ? undefined : answerIn(draft.map, draft.proposed.map, ask));

export const answered = (draft: Draft, ask: Ask, option: number): Draft => ({
  ...draft,
  map: withAnswer(draft.map, draft.proposed.map, ask, option, answerOf(draft, ask)),
  answers: { ...draft.answers, [ask.id]: option },
});

/** A draft whose rows feed something else: columns of tables that they feed already stay, the rest is proposed. */
export function fedOtherwise(draft: Draft, feeds: Feeds, proposed: Proposal): Draft {
  const { map } = draft;
  const fed = fedTables(feeds);
  const tables = Object.fromEntries(
    fed.flatMap((table) => {
      const sources = map.tables[table] ?? proposed.map.tables[table];
      return sources ? [[table, sources]] : [];
    }),
  );
  const { dates, numbers, positions, blanks } = proposed.map;
  return {
    ...draft,
    proposed,
    map: {
      ...map,
      feeds,
      tables,
      dates: { ...dates, ...map.dates },
      numbers: draft.answers['decimal'] === undefined ? numbers : map.numbers,
      ...((map.positions ?? positions) ? { positions: map.positions ?? positions } : {}),
      ...((map.blanks ?? blanks) ? { blanks: map.blanks ?? blanks } : {}),
    },
  };
}

/** Columns that tables need and nothing fills yet. */
export const missingColumns = ({ map }: Draft): { table: TableName; ours: string }[] =>
  fedTables(map.feeds).flatMap((table) => {
    const has = new Set((map.tables[table] ?? []).map(({ ours }) => ours));
    return neededColumns(table)
      .filter((ours) => !has.has(ours))
      .map((ours) => ({ table, ours }));
  });

/** A draft is asked about by several parts of the page, and never changes: what was found stays good. */
const known = new WeakMap<Draft, string | null>();

/** Why a draft cannot be confirmed yet, or null. */
export function openOf(draft: Draft): string | null {
  const found = known.get(draft);
  if (found !== undefined) return found;
  const open = whyOpen(draft);
  known.set(draft, open);
  return open;
}

function whyOpen(draft: Draft): string | null {
  if (draft.left) return null;
  const open = asksOf(draft).filter((ask) => answerOf(draft, ask) === undefined).length + missingColumns(draft).length;
  if (open > 0) return `${open} ${open === 1 ? 'question is' : 'questions are'} open`;
  if (fedTables(draft.map.feeds).length === 0) return 'no word says which rows feed a table';
  const parsed = columnMapSchema.safeParse(draft.map);
  return parsed.success ? null : (parsed.error.issues[0]?.message ?? 'is no column map yet');
}
