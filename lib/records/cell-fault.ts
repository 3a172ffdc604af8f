/** The errors that a spreadsheet shows in place of a value, ECMA-376 part 1, 18.17.3, and those added since. */
const errors: Readonly<Record<string, string>> = {
  '#NULL!': 'ranges that do not meet',
  '#DIV/0!': 'a division by zero',
  '#VALUE!': 'a value of the wrong kind',
  '#REF!': 'a cell that is no longer there',
  '#NAME?': 'a name that is not known',
  '#NUM!': 'a number that cannot be',
  '#N/A': 'a value that is not to be had',
  '#GETTING_DATA': 'a value that had not come yet',
};

/** Why a cell with a spreadsheet's error has no value. */
export const errorFault = (error: string): string =>
  `an error of the spreadsheet in the place of a value: ${errors[error] ?? 'its formula came to nothing'}`;

export const noResult =
  'a formula without its result; open the workbook in the spreadsheet program, let it calculate, and save it';
