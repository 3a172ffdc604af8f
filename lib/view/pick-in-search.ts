import { lifeStates } from '../../shared/vocabulary.ts';
import { foundWords, listColumns, livesPickSchema, wholePick, type LivesPick } from '../../shared/lives-pick.ts';
import { notice } from './notice.ts';

interface Parameter {
  readonly read: (texts: readonly string[]) => Partial<Record<keyof LivesPick, unknown>>;
  readonly write: (pick: LivesPick) => readonly string[];
  readonly rule: string;
}

const one = (value: string | null): string[] => (value === null || value === '' ? [] : [value]);

const ageIn = (text = ''): number => (text.trim() === '' ? Number.NaN : Number(text));
const anAge = 'an age in miles of 0 or more';

/** What a link of the lives page says beside the view. A minus before the order's column turns it round. */
const parameters: Readonly<Record<string, Parameter>> = {
  ended: {
    read: (ended) => ({ ended }),
    write: ({ ended }) => ended,
    rule: `one of ${lifeStates.join(', ')}`,
  },
  found: {
    read: ([found]) => ({ found }),
    write: ({ found }) => one(found),
    rule: `one of ${foundWords.join(', ')}`,
  },
  past: {
    read: ([text]) => ({ past: ageIn(text) }),
    write: ({ past }) => one(past === null ? null : String(past)),
    rule: anAge,
  },
  at: {
    read: ([text]) => ({ at: ageIn(text) }),
    write: ({ at }) => one(at === null ? null : String(at)),
    rule: anAge,
  },
  vehicle: {
    read: ([vehicle]) => ({ vehicle }),
    write: ({ vehicle }) => one(vehicle),
    rule: "part of a vehicle's number",
  },
  order: {
    read: ([text]) => ({ order: text?.replace(/^-/, ''), down: text?.startsWith('-') }),
    write: ({ order, down }) => one(order === null ? null : `${down ? '-' : ''}${order}`),
    rule: `one of ${listColumns.join(', ')}, with a minus for the other way round`,
  },
  life: { read: ([life]) => ({ life }), write: ({ life }) => one(life), rule: "a life's id" },
};

export const pickNames: ReadonlySet<string> = new Set(Object.keys(parameters));

/** Reads what a link says of the lives to list; what cannot be read falls back to all of them, with a notice. */
export function searchToPick(search: string): { readonly pick: LivesPick; readonly notices: readonly string[] } {
  const query = new URLSearchParams(search);
  const notices: string[] = [];
  let pick = wholePick;
  for (const [name, { read, rule }] of Object.entries(parameters)) {
    const texts = query.getAll(name);
    if (texts.length === 0) continue;
    const parsed = livesPickSchema.safeParse({ ...pick, ...read(texts) });
    if (parsed.success) pick = parsed.data;
    else notices.push(notice(name, rule, texts));
  }
  return { pick, notices };
}

/** The pick's part of a link, to follow a view's: `&ended=failed`, `?ended=failed` where the view needs none. */
export function searchWithPick(viewSearch: string, pick: LivesPick): string {
  const search = new URLSearchParams(viewSearch);
  for (const [name, { write }] of Object.entries(parameters))
    for (const value of write(pick)) search.append(name, value);
  const text = search.toString();
  return text === '' ? '' : `?${text}`;
}
