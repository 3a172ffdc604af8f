import type { Limit, LimitName, Procedure, ProcedurePart } from '../../../shared/procedure.ts';

type Procedures = readonly Procedure[];
const replaced = <Value>(values: readonly Value[], at: number, value: Value): Value[] =>
  values.map((other, place) => (place === at ? value : other));

/** What a value is said to come from until its source is named. */
export const ownSource = "this fleet's own value, its source to be named";

export const withVersion = (procedures: Procedures, at: number, change: Partial<Procedure>): Procedure[] =>
  procedures.map((procedure, place) => (place === at ? { ...procedure, ...change } : procedure));

export function withPart(
  procedures: Procedures,
  version: number,
  at: number,
  change: Partial<ProcedurePart>,
): Procedure[] {
  const procedure = procedures[version];
  const part = procedure?.parts[at];
  if (procedure === undefined || part === undefined) return [...procedures];
  return withVersion(procedures, version, { parts: replaced(procedure.parts, at, { ...part, ...change }) });
}

/** One end of a limit changed; a limit without either end is not known and judges nothing. */
export function withEnd(limit: Limit, end: 'minimum' | 'maximum', value: number | null): Limit {
  const { minimum = null, maximum = null, source = ownSource } = limit ?? {};
  const changed = { minimum, maximum, source, [end]: value };
  return changed.minimum === null && changed.maximum === null ? null : changed;
}

export const withLimit = (part: ProcedurePart, name: LimitName, limit: Limit): Pick<ProcedurePart, 'limits'> => ({
  limits: { ...part.limits, [name]: limit },
});

/** A word of a list ticked or not, the list keeping the order of its vocabulary. */
export const ticked = <Word extends string>(words: readonly Word[], list: readonly Word[], word: Word): Word[] =>
  words.filter((other) => (other === word ? !list.includes(word) : list.includes(other)));

/** The part without a role, and after it a part of the same asking for that role alone. */
export function setApart(procedure: Procedure, at: number, role: ProcedurePart['roles'][number]): ProcedurePart[] {
  return procedure.parts.flatMap((part, place) =>
    place === at
      ? [
          { ...part, roles: part.roles.filter((other) => other !== role) },
          { ...part, roles: [role] },
        ]
      : [part],
  );
}

const nextNumber = (procedures: Procedures): string => {
  const numbers = procedures.map(({ version }) => Number.parseInt(version, 10)).filter((number) => number > 0);
  return String(Math.max(0, ...numbers) + 1);
};

/** A copy of a version, to be edited, valid from a later day; the versions stay in the order they begin. */
export function withCopy(
  procedures: Procedures,
  at: number,
  validFrom: string,
): { procedures: Procedure[]; at: number } {
  const from = procedures[at];
  if (from === undefined) return { procedures: [...procedures], at };
  const copy = { ...structuredClone(from), version: nextNumber(procedures), validFrom };
  const ordered = [...procedures, copy].sort((a, b) => (a.validFrom < b.validFrom ? -1 : 1));
  return { procedures: ordered, at: ordered.indexOf(copy) };
}

/** Versions whose contents were edited under the name of one that is applied take a name of their own. */
export function withOwnNames(applied: Procedures, edited: Procedures): Procedure[] {
  const label = ({ name, version }: Procedure) => `${name} ${version}`;
  return edited.map((procedure) => {
    const same = applied.find((other) => label(other) === label(procedure));
    const untouched = same === undefined || JSON.stringify(same) === JSON.stringify(procedure);
    return untouched ? procedure : { ...procedure, version: `${procedure.version}, edited` };
  });
}
