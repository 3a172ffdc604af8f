/** What is wrong with an argument, said with the argument's name and, where one row is to blame, its index. */
export class StatisticsError extends Error {
  override readonly name = 'StatisticsError';

  constructor(
    readonly argument: string,
    message: string,
    /** Zero-based row, or null when the argument as a whole is at fault. */
    readonly row: number | null = null,
  ) {
    super(row === null ? `${argument}: ${message}` : `${argument}[${row}]: ${message}`);
  }
}
