import { limitNames, type LimitName, type Procedure } from '../../shared/procedure.ts';

const specification = /\b(?:(?:in|out of|within|to)[ -])?spec(?:s|ifications?|ified)?\b/gi;

/** Which limit a sentence is about; one that names none is about any. */
const about: Readonly<Record<LimitName, RegExp>> = {
  innerTorqueFtLb: /\binner\b|\btorques?\b/i,
  outerTorqueFtLb: /\bouter\b|\btorques?\b/i,
  endPlayIn: /\bend[- ]play\b|\bplay\b/i,
};

/** Common practice names the maker too, as the one who governs: it is not the maker's own word. */
const isMakers = (source: string): boolean =>
  /\b(?:makers?|manufacturers?)\b/i.test(source) && !/\bcommon practice\b/i.test(source);

function sourcesOf(names: readonly LimitName[], procedures: readonly Procedure[]): string[] {
  const limits = procedures.flatMap(({ parts }) =>
    parts.flatMap((part) => names.flatMap((name) => part.limits[name] ?? [])),
  );
  return [...new Set(limits.map(({ source }) => source))];
}

export interface SpecificationFound {
  readonly found: string;
  readonly instead: string;
}

/**
 * A limit called a specification, where the procedure has only a check value for it: one whose source is not
 * the maker of the component.
 */
export function specificationsFound(sentence: string, procedures: readonly Procedure[]): SpecificationFound[] {
  const words = [...sentence.matchAll(specification)].map(([found]) => found);
  if (words.length === 0) return [];
  const named = limitNames.filter((name) => about[name].test(sentence));
  const sources = sourcesOf(named.length > 0 ? named : limitNames, procedures);
  const others = sources.filter((source) => !isMakers(source));
  if (sources.length > 0 && others.length === 0) return [];
  const kept =
    others.length === 0
      ? 'The procedure holds no limit for it.'
      : `The procedure keeps it as a check value whose source is not the component’s maker (“${others[0] ?? ''}”).`;
  return words.map((found) => ({
    found,
    instead: `${kept} Write “check value” and name its source, or enter the maker’s instruction as the source of the limit.`,
  }));
}
