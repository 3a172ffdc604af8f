import type { z } from 'zod';
import { proceduresSchema, type Procedure } from './procedure.ts';

/** What is wrong with one field: where it stands, and the rule with what was found. */
export interface FieldProblem {
  /** As zod has it: `[0, 'parts', 2, 'limits', 'endPlayIn', 'minimum']`. */
  readonly path: readonly (string | number)[];
  /** The path in words: `version 1, part 3, end play, minimum`. */
  readonly where: string;
  readonly says: string;
}

const fieldWords: Readonly<Record<string, string>> = {
  parts: 'part',
  validFrom: 'valid from',
  hubBuild: 'hub build',
  innerTorqueFtLb: 'inner nut torque',
  outerTorqueFtLb: 'outer nut torque',
  endPlayIn: 'end play',
  requiredParts: 'required part',
  steps: 'step',
  roles: 'axle role',
  renewedWhenHubComesOff: 'part renewed when the hub comes off',
  serviceIntervalMiles: 'service interval',
};

/** Numbers count from 1, as a reader does; a list's name takes the number behind it. */
function pathWords(path: readonly (string | number)[]): string {
  const words = path.flatMap((step, at) => {
    if (typeof step === 'number') return at === 0 ? [`version ${step + 1}`] : [];
    if (step === 'limits') return [];
    const next = path[at + 1];
    return [`${fieldWords[step] ?? step}${typeof next === 'number' ? ` ${next + 1}` : ''}`];
  });
  return words.length === 0 ? 'the file as a whole' : words.join(', ');
}

const shown = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
};

const at = (value: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (inside, step) =>
      inside !== null && typeof inside === 'object' ? (inside as Record<PropertyKey, unknown>)[step] : undefined,
    value,
  );

/** The rule that a value broke, in one grammar: what was asked for; what stands there. */
function ruleOf(issue: z.core.$ZodIssue, value: unknown): string {
  const found = at(value, issue.path);
  switch (issue.code) {
    case 'invalid_type':
      return `has to be ${issue.expected === 'array' ? 'a list' : issue.expected === 'object' ? 'an object' : `a ${issue.expected}`}; found ${shown(found)}`;
    case 'invalid_value':
      return `has to be one of ${issue.values.map(String).join(', ')}; found ${shown(found)}`;
    case 'invalid_format':
      return `has to be a day written 2024-12-31; found ${shown(found)}`;
    case 'too_small':
      return issue.origin === 'number'
        ? `has to be ${issue.inclusive === true ? 'at least' : 'more than'} ${Number(issue.minimum)}; found ${shown(found)}`
        : `must not be empty; found ${shown(found)}`;
    default:
      return issue.message;
  }
}

export function problemsOf(error: z.ZodError, value: unknown): FieldProblem[] {
  return error.issues.map((issue) => {
    const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
    return { path, where: pathWords(path), says: ruleOf(issue, value) };
  });
}

/** Versions as they can be, or every field that is wrong. */
export function checkedProcedures(value: unknown): readonly Procedure[] | readonly FieldProblem[] {
  const parsed = proceduresSchema.min(1).safeParse(value);
  return parsed.success ? parsed.data : problemsOf(parsed.error, value);
}

export const areProblems = (
  checked: readonly Procedure[] | readonly FieldProblem[],
): checked is readonly FieldProblem[] => checked.length > 0 && 'where' in (checked[0] as object);

/** Reads a file of versions: a list of them, one alone, or a record set's own file with its `procedures`. */
export function proceduresInFile(text: string): readonly Procedure[] | readonly FieldProblem[] {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return [{ path: [], where: 'the file as a whole', says: `has to be JSON; ${why}` }];
  }
  if (Array.isArray(value)) return checkedProcedures(value);
  const held = value !== null && typeof value === 'object' ? (value as Record<string, unknown>) : {};
  return checkedProcedures('procedures' in held ? held['procedures'] : [value]);
}

/** Versions as a file that can be read again, here or as part of `record-set.json`. */
export const proceduresFile = (procedures: readonly Procedure[]): string =>
  `${JSON.stringify({ procedures }, null, 2)}\n`;
