/** The colours and typefaces a figure is drawn with. Series are told apart by colour and dash together. */
export interface FigureTheme {
  readonly paper: string;
  readonly ink: string;
  readonly ink2: string;
  readonly hair: string;
  readonly accent: string;
  readonly series: readonly string[];
  readonly sans: string;
}

const sans = "'Source Sans 3 Variable', 'Source Sans 3', 'Segoe UI', system-ui, sans-serif";

/**
 * Series colours: the Okabe–Ito set (Okabe & Ito 2008, Color Universal Design), in an order chosen
 * for contrast; orange and purple are taken darker on paper so that each line keeps 3:1 against it.
 */
export const lightTheme: FigureTheme = {
  paper: '#fcfbf8',
  ink: '#17202a',
  ink2: '#55606b',
  hair: '#d8d4ca',
  accent: '#8a3b12',
  series: ['#0072b2', '#d55e00', '#00855f', '#b0578c', '#17202a', '#9a6a00', '#3a86b8', '#6b6b6b'],
  sans,
};

export const darkTheme: FigureTheme = {
  paper: '#14181c',
  ink: '#e9e5db',
  ink2: '#a3abb3',
  hair: '#363d44',
  accent: '#f0a070',
  series: ['#56b4e9', '#f0894a', '#2fc79a', '#e09cc4', '#e9e5db', '#e6b23c', '#8fcdf2', '#a8a8a8'],
  sans,
};

/** Paper is white and ink black; what stood out by accent stands out by weight or dash. */
export const printTheme: FigureTheme = {
  ...lightTheme,
  paper: '#ffffff',
  ink: '#000000',
  ink2: '#3d3d3d',
  hair: '#c8c8c8',
  accent: '#000000',
};

/** On the page colours are the style sheet's variables, so that dark, light and print need no redrawing. */
export const pageTheme: FigureTheme = {
  paper: 'var(--paper)',
  ink: 'var(--ink)',
  ink2: 'var(--ink-2)',
  hair: 'var(--hair)',
  accent: 'var(--accent)',
  series: lightTheme.series.map((_, index) => `var(--s${index + 1})`),
  sans,
};

/** Dash patterns in the order of the series colours; `[1, 0]` is a whole line. */
export const seriesDashes: readonly (readonly number[])[] = [
  [1, 0],
  [7, 3],
  [2, 3],
  [9, 3, 2, 3],
  [12, 4],
  [4, 2],
  [9, 3, 2, 3, 2, 3],
  [1, 4],
];

export const mostSeries = seriesDashes.length;
