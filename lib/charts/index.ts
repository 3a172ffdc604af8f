export { figureOf, figureSpec } from './figure-of.ts';
export type { AxisTick, Figure, FigureLabel, FigureOptions } from './figure.ts';
export { figureDescription } from './figure-description.ts';
export { findingCsv, csvCell } from './finding-csv.ts';
export { findingTable, type FindingTable, type TableCell, type TableColumn, type TableRow } from './finding-table.ts';
export { numbersAtRisk, type AtRiskRow } from './life-curve-data.ts';
export { columnSays, groupSays, valueSays } from './plain-words.ts';
export { distanceSays } from './shown-number.ts';
export { darkTheme, lightTheme, pageTheme, printTheme, type FigureTheme } from './themes.ts';
