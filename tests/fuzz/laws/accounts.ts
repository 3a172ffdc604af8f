import type { CaseRead } from './read-case.ts';

/** Words of a program about itself, which say nothing to whoever has the file. */
const ofPrograms =
  /undefined|\[object|\bNaN\b|is not a function|is not iterable|Cannot (read|convert|mix|destructure)|typed array|array (buffer|length)|call stack|BigInt|DataView|Unexpected token|Invalid (time value|array)|Expected .* JSON/i;

function* refusals({ report }: CaseRead) {
  for (const { name, refused, read } of report.files) {
    if (refused === null) continue;
    if (read !== 0) yield `${name} is refused and has ${read} rows`;
    const cause = refused.replace(/^is damaged, cut short or not to be had: /, '');
    if (cause.trim() === '') yield `${name} is refused without a reason`;
    if (ofPrograms.test(cause.replace(/the headers found are .*|received undefined/s, '')))
      yield `${name} is refused in a program's words: ${refused.slice(0, 300)}`;
    if (refused.length > 5_000) yield `${name} is refused in ${refused.length} letters`;
  }
  for (const message of report.messages) if (message.length > 5_000) yield `a message of ${message.length} letters`;
}

/** Every row is kept or set aside, and is where the account says. */
function* counts({ report, kept, aside }: CaseRead) {
  for (const name of new Set(report.files.map((file) => file.name))) {
    const files = report.files.filter((file) => file.name === name);
    for (const { read, kept, setAside } of files)
      if (read !== kept + setAside || !(kept >= 0 && setAside >= 0))
        yield `${name} has ${read} rows read, ${kept} kept, ${setAside} set aside`;
    const sum = (of: (file: (typeof files)[number]) => number) => files.reduce((all, file) => all + of(file), 0);
    const [stored, out] = [kept.filter(({ file }) => file === name), aside.filter(({ file }) => file === name)];
    if (stored.length !== sum(({ kept }) => kept))
      yield `${name} says it kept ${sum(({ kept }) => kept)} rows; there are ${stored.length}`;
    if (out.length !== sum(({ setAside }) => setAside))
      yield `${name} says it set ${sum(({ setAside }) => setAside)} rows aside; there are ${out.length}`;
  }
}

function* messages({ aside, report }: CaseRead) {
  const names = new Set(report.files.map(({ name }) => name));
  for (const { file, row, column, reason, accepted, original, value } of aside) {
    const at = `${file}, row ${row}`;
    if (!names.has(file)) yield `a row set aside names a file that is none: ${at}`;
    if (!(row >= 1)) yield `a row set aside has no number: ${at}`;
    if (reason === '' || accepted === '')
      yield `${at} is set aside without a reason, or without what would be accepted`;
    if (ofPrograms.test(reason.replaceAll(/"[^"]*"/g, ''))) yield `${at} is set aside in a program's words: ${reason}`;
    if (value !== '' && column === '') yield `${at} has a value of no column`;
    if (column !== '' && value.trim() !== '' && original === '') yield `${at} is set aside without its text`;
  }
}

function* sound({ report, fuzz }: CaseRead) {
  for (const [name, rows] of fuzz.sound) {
    const file = report.files.find((one) => one.name === name);
    if (file?.read !== rows || file.refused !== null)
      yield `the sound file ${name} has ${file?.read} of ${rows} rows: ${file?.refused}`;
  }
}

function* present({ own, report, fuzz }: CaseRead) {
  if (own.length > 0 || fuzz.spoilt.name.endsWith('.zip')) return;
  if (!report.messages.some((message) => message.includes(fuzz.spoilt.name)))
    yield 'nothing is said of the spoilt file';
}

/** The laws that hold whatever a file is. */
export function* accountLaws(read: CaseRead): Generator<string> {
  for (const law of [refusals, counts, messages, sound, present]) yield* law(read);
}
